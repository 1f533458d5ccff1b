"""The insulation is tested with less than the highest voltage of the circuit.

## Why it matters

A damp plug or a thin spot in a winding holds at 250 V and breaks down at 400 V. A test below the voltage that the circuit works
at calls such a piece sound.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - unplug: X7
  - measure: Insulation of the heater
    quantity: insulation resistance
    between: [X7/1 device, chassis]
    using: insulation-tester
    test_voltage: 250 V # <- the test voltage of 250 V is below the highest voltage of `traction`, 410 V DC
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
    between: [X7/1 device, chassis]
    using: insulation-tester
    test_voltage: 500 V
    discharged: at most 5 V
    limits: at least 1 MΩ
    source: workshop practice
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Source

ISO 6469-3, 8.2.2 (text of 2011, as AS ISO 6469.3:2014): at least the maximum working voltage. UN R100, Annex 5A, is content
with half of it; a workshop that tests to UN R100 alone meets this rule with the next range of its tester.
"""

from collections.abc import Iterator

from ...model import actions
from ...model.pins import circuits_at, contacts_of
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault

KIND = "validity"
SEVERITY = "error"
STEPS = (actions.Measure,)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The circuit of class B with the highest voltage at the pins."""
    measured: actions.Measure = step.action  # type: ignore[assignment]
    if measured.quantity != "insulation resistance" or measured.test_voltage is None or case.vehicle is None:
        return
    names = dict.fromkeys(circuits_at(contacts_of(measured), case.vehicle))
    circuits = [case.vehicle.circuits[name] for name in names if name in case.vehicle.circuits]
    known = [(one.voltage.max.si, one) for one in circuits if one.is_class_b and one.voltage and one.voltage.max]
    highest, circuit = max(known, key=lambda found: found[0], default=(0, None))
    if circuit is None or circuit.broken or measured.test_voltage.si >= highest:
        return
    voltage = circuit.voltage
    assert voltage is not None and voltage.max is not None
    half = "meets" if measured.test_voltage.si * 2 >= highest else "does not meet either"
    yield Fault(
        (*step.at, "test_voltage"),
        f"the test voltage of {measured.test_voltage} is below the highest voltage of `{circuit.id}`, "
        f"{voltage.max} {voltage.kind.upper()}",
        f"ISO 6469-3 asks for at least that; UN R100 asks for half, which this {half}",
        f"write the next range of the tester above {voltage.max}, if the parts at the pins stand it",
    )
