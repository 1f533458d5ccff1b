"""A thread is no standard size.

## Why it matters

Whoever fetches a new bolt by this size gets none, or the wrong one. And no torque can be checked for it.

## Fails

```yaml fails vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8 × 1.75  # <- `M8 × 1.75` is no standard thread
    torque: 20 N·m
# and the others
```

## Passes

```yaml passes vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8 × 1.25
    torque: 20 N·m
# and the others
```

## Source

ISO 261 and ISO 262 (metric series), ASME B1.1 (UNC and UNF), as restated in open tables. Sizes beyond these
tables (below M3, above M24), screws for sheet metal and for plastic are not looked at.
"""

from collections.abc import Iterable, Iterator

from ...calculations.threads import nearest_thread
from ...limits.joint import is_no_thread
from ...model import actions
from ...model.procedure import Procedure, Step
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ._joints import Placed, described_at, joints_of

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
        if joint.size is not None and is_no_thread(joint.size):
            meant = nearest_thread(joint.size)
            help_ = f"did you mean `{meant}`?" if meant else "write diameter and pitch, such as `M8 × 1.25`"
            yield Fault((*at, "size"), f"`{joint.size}` is no standard thread", None, help_)
