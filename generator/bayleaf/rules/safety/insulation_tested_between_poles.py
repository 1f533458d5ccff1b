"""The insulation of a circuit of class B is tested from pole to pole.

## Why it matters

Between the poles lie the loads of the circuit: their filters, their bleed resistors, a winding. The tester reads those and
not the insulation, puts its voltage on electronics that were never made for it, and charges the capacitors. Insulation is
what lies between each pole and the chassis.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - unplug: X7
  - measure: Insulation of the heater
    quantity: insulation resistance
    between: [X7/1 device, X7/2 device] # <- the insulation of `traction` is tested between `X7/1 device` and `X7/2 device`, pole to pole
    using: insulation-tester
    test_voltage: 500 V
    discharged: at most 5 V
    limits: at least 1 MΩ
    source: workshop practice
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Passes

```yaml passes procedure
steps:
  - perform: test-van/isolate
  - unplug: X7
  - measure: Insulation of the heater
    quantity: insulation resistance
    between: [[X7/1 device, chassis], [X7/2 device, chassis]]
    using: insulation-tester
    test_voltage: 500 V
    discharged: at most 5 V
    limits: at least 1 MΩ
    source: workshop practice
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Source

UN R100, Annex 5A; ISO 6469-3, 8.2.2 (text of 2011): all live parts together against the chassis.
"""

from collections.abc import Iterator

from ...model import actions
from ...model.pins import circuits_at
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault

KIND = "validity"
SEVERITY = "error"
STEPS = (actions.Measure,)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each pair of which both contacts belong to the same circuit of class B."""
    measured: actions.Measure = step.action  # type: ignore[assignment]
    if case.vehicle is None or measured.quantity != "insulation resistance":
        return
    for index, (one, other) in enumerate(measured.pairs):
        shared = [name for name in circuits_at((one,), case.vehicle) if name in circuits_at((other,), case.vehicle)]
        found = [case.vehicle.circuits[name] for name in shared if name in case.vehicle.circuits]
        circuit = next((circuit for circuit in found if circuit.is_class_b), None)
        if circuit is not None:
            at = (*step.at, "between", index) if len(measured.pairs) > 1 else (*step.at, "between")
            yield Fault(
                at,
                f"the insulation of `{circuit.id}` is tested between `{one}` and `{other}`, pole to pole",
                "between the poles the tester reads the loads, and its voltage can destroy them",
                f"test each pole against the chassis: `between: [[{one}, chassis], [{other}, chassis]]`",
            )
