"""A fastener is screwed in by nothing, or less.

## Why it matters

What is screwed in by nothing holds nothing. Mostly a digit is missing, or the length that sticks out was written. Whether the
thread strips cannot be computed from it either, so nobody would be told.

## Fails

```yaml fails vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8
    into: aluminium
    engagement: 0 mm  # <- an engagement of 0 mm holds nothing
    torque: 20 N·m
# and the others
```

## Passes

```yaml passes vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8
    into: aluminium
    engagement: 16 mm
    torque: 20 N·m
# and the others
```

## Source

Common practice.
"""

from collections.abc import Iterator

from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault

KIND = "validity"
SEVERITY = "error"


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Each fastener that says how far it is screwed in."""
    for fastener in vehicle.fasteners.values():
        deep = fastener.engagement
        if deep is not None and deep.si <= 0:
            help_ = "write the length of thread that is screwed in, or leave `engagement` out"
            yield Fault((*fastener.at, "engagement"), f"an engagement of {deep} holds nothing", None, help_)
