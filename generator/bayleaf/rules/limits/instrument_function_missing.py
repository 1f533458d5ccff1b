"""The instrument has no function for what is measured.

## Why it matters

A value that the instrument in hand cannot show is not measured: somebody takes another function, and reads a figure that
means something else.

## Fails

```yaml fails procedure
steps:
  - measure: Line of the body CAN to ground
    quantity: resistance
    between: [X210/5, chassis]
    using: voltage-tester  # <- `voltage-tester` has no function `resistance`
    limits: at least 2 kΩ
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - measure: Line of the body CAN to ground
    quantity: resistance
    between: [X210/5, chassis]
    using: multimeter
    limits: at least 2 kΩ
    source: workshop practice
```

## Source

Common practice. At voltage class B and 48 V power, `voltage-function-missing` says it for voltages and currents.
"""

from collections.abc import Iterator

from ...model import actions
from ...model.pins import circuits_at, contacts_of
from ...model.procedure import Procedure, Step
from ...safety.rig import category_of
from ..case import Case
from ..fault import Fault
from ._deciding import Deciding, deciding, suggestion

KIND = "validity"
SEVERITY = "error"
STEPS = (actions.Measure,)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Functions of instruments whose functions are known."""
    found = deciding(step, case)
    if found is None or found.function in found.instrument.functions or _is_said_elsewhere(found, case):
        return
    because = f"it has {', '.join(found.instrument.functions)}"
    if found.measured.quantity == "bonding resistance":
        because += "; a bond is measured with at least 0.2 A (UN R100), which no ohm range sends"
    text = f"`{found.instrument.id}` has no function `{found.function}`"
    yield Fault((*step.at, "using"), text, because, suggestion(found, case), see=(found.spot,))


def _is_said_elsewhere(found: Deciding, case: Case) -> bool:
    """Voltages and currents where an instrument must stand the voltage of the circuit."""
    if found.measured.quantity not in ("voltage", "voltage drop", "current") or case.vehicle is None:
        return False
    names = circuits_at(contacts_of(found.measured), case.vehicle)
    circuits = (case.vehicle.circuits[name] for name in names if name in case.vehicle.circuits)
    return any(category_of(circuit) in ("class B", "power") for circuit in circuits)
