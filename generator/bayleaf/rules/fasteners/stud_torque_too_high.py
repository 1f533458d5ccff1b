"""A stud of brass or copper is tightened like steel.

## Why it matters

A stud that carries the current is of a soft metal. The torque of a steel bolt of the same size shears it off, or stretches it so
that the joint loosens and burns.

## Fails

```yaml fails vehicle
fasteners:
  inverter-terminals:
    terminal: [X1/1, X1/2]
    size: M6
    material: brass
    torque: 8 N·m  # <- 8 N·m is too much for `inverter-terminals`: a brass M6 stud bears 3 N·m
# and the others
```

## Passes

```yaml passes vehicle
fasteners:
  inverter-terminals:
    terminal: [X1/1, X1/2]
    size: M6
    material: brass
    torque: 3 N·m
# and the others
```

## Source

Table of a maker of terminal boards for studs of brass and copper that carry the current (it agrees with DIN 46200, from
memory). The maker's figure may lie above it, for a better alloy: then write `material` as the maker does.
"""

from collections.abc import Iterator

from ...calculations.electrical_joints import STUD, TORQUES
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ._joints import joints_of, newton_metres, torque_key

KIND = "validity"
SEVERITY = "error"


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Fasteners whose material is brass, copper or bronze."""
    for at, joint, name in joints_of(vehicle):
        most = TORQUES[STUD].get(joint.thread or "") if joint.conducts else None
        if most is not None and joint.torque is not None and joint.torque[1] > most:
            material = vehicle.fasteners[name].material
            text = f"{newton_metres(joint.torque[1])} is too much for `{name}`: a {material} {joint.thread} stud bears {most:g} N·m"
            because = "a soft stud has a table of its own, whatever class is stamped on its nut"
            yield Fault(
                torque_key(at), text, because, f"write `torque: {most:g} N·m`, or the material as the maker names it"
            )
