"""An isolation point is secured that has nothing to be secured with.

## Why it matters

A step that says "secure" and cannot be done is skipped, and whoever reads on believes in a lock that does not exist. Where the
profile names no lock, another point has to be secured, or the profile tells how.

## Fails

```yaml fails procedure
steps:
  - set: {mode: off}
  - disconnect: aux-negative
  - secure: aux-negative # <- `aux-negative` is secured, but the profile names nothing to secure it with
stays_off: aux-negative
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - secure: charge-lead
stays_off: charge-lead
```

## Source

EN 50110-1, 6.2 (secure against reconnection; clause number from memory).
"""

from collections.abc import Iterator

from ...model import actions
from ...model.procedure import Procedure, Step
from ...model.vehicle import Vehicle
from ..case import Case
from ..energy.isolation_cannot_be_secured import check_vehicle as points_told
from ..fault import Fault, Spot

KIND = "danger"
SEVERITY = "error"
STEPS = (actions.Secure,)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each such point; of one that has to be secured, it is the profile in which something is missing."""
    secured: actions.Secure = step.action  # type: ignore[assignment]
    for index, name in enumerate(secured.points):
        point = case.vehicle.isolation_points.get(name) if case.vehicle is not None else None
        if case.vehicle is None or point is None or point.secure_with is not None or point.broken:
            continue
        if name not in _told_of(case.vehicle, case):
            yield Fault(
                (*step.at, "secure", index),
                f"`{name}` is secured, but the profile names nothing to secure it with",
                "a lock that does not exist keeps nobody from closing it",
                "add `secure_with:` to the point in the profile, or leave it out here",
                see=(Spot(case.vehicle.file, point.at, "this point", key=True),),
            )


def _told_of(vehicle: Vehicle, case: Case) -> set[object]:
    """The points of which the profile itself is told that they cannot be secured."""
    return {fault.at[-1] for fault in points_told(vehicle, case)}
