"""A torque strips the thread that the bolt is screwed into.

## Why it matters

Aluminium holds a thread much worse than the bolt is strong. A bolt that goes in a few turns only pulls the thread out of the
housing, and the housing is the dear part.

## Fails

```yaml fails vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8 × 1.25
    class: 8.8
    into: aluminium
    engagement: 4 mm
    friction: 0.10 to 0.14
    torque: 20 N·m  # <- 20 N·m pulls `heater-bracket` with up to 17.7 kN; 4 mm of thread in aluminium bear 6.08 kN
# and the others
```

## Passes

```yaml passes vehicle
fasteners:
  heater-bracket:
    part: cabin-heater
    size: M8 × 1.25
    class: 8.8
    into: aluminium
    engagement: 16 mm
    friction: 0.10 to 0.14
    torque: 20 N·m
# and the others
```

## Source

FED-STD-H28/2B (shear areas at the limits of size), as open code gives it; preload at the lowest friction by VDI 2230.
Aluminium counts as 180 MPa and steel as 360 MPa, the lowest that suppliers' tables of engagement are for.
"""

import re
from collections.abc import Iterator

from ...calculations.engagement import stripping_load
from ...calculations.tightening import FRICTION, highest_utilisation, preloads_of_torque
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ._joints import joints_of, newton_metres, torque_key

KIND = "validity"
SEVERITY = "error"

#: Tensile strength in MPa by a word of what is tapped: the lowest of the materials that the suppliers' table of
#: engagement names (restated).
_STATED = re.compile(r"(\d+(?:[.,]\d+)?)\s*mpa")
_STRENGTH = {"aluminium": 180.0, "aluminum": 180.0, "steel": 360.0, "grey iron": 220.0, "cast iron": 220.0}


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Fasteners of the profile that say into what and how far they are screwed."""
    for at, joint, name in joints_of(vehicle):
        strength = _strength((joint.into or "").lower())
        deep = joint.engagement or 0.0
        if joint.torque is None or deep <= 0 or strength is None or not joint.is_computable:
            continue
        low, high = (joint.friction.low, joint.friction.high) if joint.friction is not None else (FRICTION["B"][1],) * 2
        _, most = preloads_of_torque(joint.thread or "", joint.torque[1], low, high)
        bears = stripping_load(joint.thread or "", deep, strength)
        beyond = highest_utilisation(joint.thread or "", joint.strength_class or "", joint.torque[1], low) > 1
        if most > bears and not (beyond and not joint.yields):  # one mistake, one error: the bolt is told already
            yield Fault(
                torque_key(at),
                f"{newton_metres(joint.torque[1])} pulls `{name}` with up to {most:.3g} kN; "
                f"{deep:g} mm of thread in {joint.into} bear {bears:.3g} kN",
                f"where the friction is {low:g}, with {strength:g} MPa for what is tapped",
                "write the right torque or engagement; what bears more is said under `into`: `aluminium, 250 MPa`, `thread insert`",
            )


def _strength(into: str) -> float | None:
    """The tensile strength of what is tapped, in MPa: as written, else the least of its kind; None with an insert."""
    if "insert" in into:
        return None
    stated = _STATED.search(into)
    if stated is not None:
        return float(stated[1].replace(",", "."))
    return next((mpa for word, mpa in _STRENGTH.items() if word in into), None)
