"""A property class is none.

## Why it matters

The class says how much a bolt bears. With one that does not exist nobody can check the torque, and nobody can order the bolt.

## Fails

```yaml fails vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8 × 1.25
    class: 8.9  # <- `8.9` is no property class
    torque: 20 N·m
# and the others
```

## Passes

```yaml passes vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8 × 1.25
    class: 8.8
    torque: 20 N·m
# and the others
```

## Source

ISO 898-1 (bolts), ISO 898-2 (nuts, from memory), ISO 3506-1 (stainless), SAE J429 (inch grades), as restated by suppliers.
"""

from collections.abc import Iterator

from ...limits.joint import class_of
from ...model import actions
from ...model.procedure import Procedure, Step
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault

KIND = "validity"
SEVERITY = "error"
STEPS = (actions.Tighten,)

_HELP = "write it as it is stamped on the head: `8.8`, `10.9`, `A2-70`, `grade 8`; on a nut `8` or `10`"


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Fasteners of the profile."""
    for fastener in vehicle.fasteners.values():
        text = fastener.property_class
        if text is not None and not fastener.broken and class_of(text) is None:
            yield Fault((*fastener.at, "class"), f"`{text}` is no property class", None, _HELP)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """A fastener that the step describes."""
    tighten: actions.Tighten = step.action  # type: ignore[assignment]
    text = tighten.property_class
    if text is not None and class_of(text) is None:
        yield Fault((*step.at, "class"), f"`{text}` is no property class", None, _HELP)
