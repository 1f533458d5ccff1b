"""A current of class B or 48 V power is measured in series.

## Why it matters

For a reading in series the circuit is opened and the meter put in its place: the whole current flows through the meter and the
leads in somebody's hands. Its fuse is made for 10 A and does not part the arc of a battery. A clamp round the insulated cable
opens nothing.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - unplug: X7
  - measure: Current of the heater
    quantity: current
    between: [X7/1 device, X7/1 cable] # <- the current of `traction` is measured in series, at `X7/1 device`
    limits: at most 12 A
    source: workshop practice
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Passes

```yaml passes procedure
steps:
  - measure: Current to the ground strap
    quantity: current
    around: ground-strap
    limits: at most 12 A
    source: workshop practice
```

## Source

IEC 61010-2-033 (multimeters have a fused current input of limited breaking capacity; from memory); common practice.
"""

from collections.abc import Iterator

from ...model import actions
from ...model.pins import circuits_at, contacts_of
from ...model.procedure import Procedure, Step
from ...safety.rig import category_of
from ..case import Case
from ..fault import Fault
from ._tell import voltage_words

KIND = "danger"
SEVERITY = "error"
STEPS = (actions.Measure,)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The first contact of such a circuit at which a current is measured; a clamp has none."""
    measured: actions.Measure = step.action  # type: ignore[assignment]
    if measured.quantity != "current" or measured.around is not None or case.vehicle is None:
        return
    for contact in contacts_of(measured):
        for name in circuits_at((contact,), case.vehicle):
            circuit = case.vehicle.circuits.get(name)
            if circuit is not None and not circuit.broken and category_of(circuit) in ("class B", "power"):
                yield Fault(
                    (*step.at, "between" if measured.pairs else "at"),
                    f"the current of `{name}` is measured in series, at `{contact}`",
                    f"all of it flows through the meter and its leads, and `{name}` ({voltage_words(circuit)}) is opened",
                    "put a clamp round the insulated cable: `around:` with the name of a cable, instead of `between`",
                )
                return
