"""A tightening torque is nothing, or below it.

## Why it matters

A bolt that is tightened with nothing holds nothing. Mostly a digit is missing.

## Fails

```yaml fails vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8
    torque: 0 N·m  # <- a torque of 0 N·m tightens nothing
# and the others
```

## Passes

```yaml passes vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8
    torque: 20 N·m
# and the others
```

## Source

Common practice.
"""

from collections.abc import Iterable, Iterator

from ...model import actions
from ...model.procedure import Procedure, Step
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ._joints import Placed, described_at, joints_of, newton_metres, torque_key

KIND = "validity"
SEVERITY = "error"
STEPS = (actions.Tighten,)


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Fasteners of the profile."""
    yield from _faults(joints_of(vehicle))


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """A fastener that the step describes."""
    yield from _faults(described_at(step))


def _faults(placed: Iterable[Placed]) -> Iterator[Fault]:
    for at, joint, _ in placed:
        if joint.torque is not None and joint.torque[1] <= 0:
            text = f"a torque of {newton_metres(joint.torque[1])} tightens nothing"
            yield Fault(torque_key(at), text, None, "write the torque of the maker")
