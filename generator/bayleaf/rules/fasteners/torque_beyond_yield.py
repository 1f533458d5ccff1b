"""A torque stretches the bolt beyond yield.

## Why it matters

A bolt that is stretched too far holds less from then on, and may break weeks later. Where the friction is low, a torque
pulls hardest: that is the bolt that has to bear it.

## Fails

```yaml fails vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8 × 1.25
    class: 8.8
    friction: 0.10 to 0.14
    torque: 30 N·m  # <- 30 N·m takes `heater-bracket` to 125 % of yield where the friction is 0.1
# and the others
```

## Passes

```yaml passes vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8 × 1.25
    class: 8.8
    friction: 0.10 to 0.14
    torque: 21 N·m
# and the others
```

## Source

VDI 2230 (2001 and later): equivalent stress of tension and torsion against the yield strength of ISO 898-1. Where the profile
states no friction, 0.16 is taken, the highest of friction class B, so that only what is too much in any case is an error.
"""

from collections.abc import Iterable, Iterator

from ...calculations.tightening import FRICTION, class_torque, highest_utilisation
from ...limits.joint import Joint
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
    """Fasteners of the profile that are not tightened into yield on purpose."""
    yield from _faults(joints_of(vehicle))


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """A fastener that the step describes."""
    yield from _faults(described_at(step))


def _faults(placed: Iterable[Placed]) -> Iterator[Fault]:
    for at, joint, name in placed:
        if joint.torque is None or joint.yields or not joint.is_computable:
            continue
        low = _lowest(joint)
        share = highest_utilisation(joint.thread or "", joint.strength_class or "", joint.torque[1], low)
        if share > 1:
            usual = class_torque(joint.thread or "", joint.strength_class or "", low, 0.9)
            yield Fault(
                torque_key(at),
                f"{newton_metres(joint.torque[1])} takes `{name}` to {share:.{1 if share < 1.1 else 0}%} of yield where the friction is {low:g}".replace(
                    "%", " %"
                ),
                f"{joint.size}, class {joint.strength_class}: 90 % of yield is {newton_metres(usual)} there (VDI 2230)",
                "write the right torque, size, class or friction; where the maker tightens it into yield, `yields: yes`",
            )


def _lowest(joint: Joint) -> float:
    return joint.friction.low if joint.friction is not None else FRICTION["B"][1]
