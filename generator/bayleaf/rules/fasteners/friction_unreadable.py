"""A coefficient of friction cannot be read.

## Why it matters

The same torque pulls a greased bolt half as hard again as a dry one. Without the friction nobody can tell whether a torque
is too much.

## Fails

```yaml fails vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8 × 1.25
    class: 8.8
    friction: slightly oiled  # <- `slightly oiled` is no coefficient of friction
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
    friction: 0.10 to 0.16
    torque: 20 N·m
# and the others
```

## Source

VDI 2230: friction classes A to D, as restated by suppliers.
"""

from collections.abc import Iterator

from ...limits.joint import friction_of
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault

KIND = "form"
SEVERITY = "error"


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Fasteners of the profile."""
    for fastener in vehicle.fasteners.values():
        text = fastener.friction
        if text is not None and not fastener.broken and friction_of(text) is None:
            help_ = "write the lowest and highest that can occur, such as `0.10 to 0.16`, or a friction class, A to D"
            yield Fault((*fastener.at, "friction"), f"`{text}` is no coefficient of friction", None, help_)
