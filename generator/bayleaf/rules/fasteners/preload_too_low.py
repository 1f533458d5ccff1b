"""A torque hardly clamps the joint.

## Why it matters

A bolt that is tightened to a fraction of what it bears comes loose by vibration, and a joint that carries current gets hot.
Mostly a unit or a digit is wrong.

## Fails

```yaml fails vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8 × 1.25
    class: 8.8
    friction: 0.10 to 0.14
    torque: 5 N·m  # <- 5 N·m gives `heater-bracket` 18 % of the usual preload where the friction is 0.14
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
    torque: 20 N·m
# and the others
```

## Source

VDI 2230 (2001 and later): preload at the highest friction against the one of 90 % of yield. A quarter is common practice. A
cover on a soft seal, or a plastic part, may well need no more: then waive the warning with that reason.
"""

from collections.abc import Iterable, Iterator

from ...calculations.tightening import FRICTION, class_preload, preloads_of_torque
from ...model import actions
from ...model.procedure import Procedure, Step
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ._joints import Placed, described_at, joints_of, newton_metres, torque_key

KIND = "practice"
SEVERITY = "warning"
STEPS = (actions.Tighten,)

#: The share of the usual preload below which it is told. Common practice.
_LEAST = 0.25


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Fasteners of the profile whose torque is not the beginning of an angle."""
    yield from _faults(joints_of(vehicle))


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """A fastener that the step describes."""
    yield from _faults(described_at(step))


def _faults(placed: Iterable[Placed]) -> Iterator[Fault]:
    for at, joint, name in placed:
        if joint.torque is None or joint.turned_on or not joint.is_computable:
            continue
        size, strength = joint.thread or "", joint.strength_class or ""
        low, high = (joint.friction.low, joint.friction.high) if joint.friction is not None else FRICTION["B"]
        least, _ = preloads_of_torque(size, joint.torque[0], low, high)
        share = least / class_preload(size, strength, high, 0.9)
        if share < _LEAST:
            text = f"{newton_metres(joint.torque[0])} gives `{name}` {share:.0%} of the usual preload".replace(
                "%", " %"
            )
            yield Fault(
                torque_key(at),
                f"{text} where the friction is {high:g}",
                f"{least:.3g} kN; the usual preload is 90 % of yield (VDI 2230)",
                "write the right torque, size or class; where the part bears no more, waive this with the reason",
            )
