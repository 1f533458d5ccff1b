"""Isolation points that go with a part: a new battery brings its own switch or service plug, and nobody has locked it.

The profile does not say where a point sits. It is taken to sit on a sealed part where it takes the battery off one of
the part's dangerous circuits, and is a switch or parts the battery in its middle; a pole or a clamp stays on the
vehicle. What was not open when the part came off is not relied on, and not asked for.
"""

from collections.abc import Iterator

from .rig import Rig


def unseen_thing(point: str) -> str:
    """The name of "seen open since its part came off" among the things: out of its place means that it was not."""
    return f"unseen {point}"


def carried_by(part: str, rig: Rig) -> Iterator[str]:
    """The isolation points that go with a part."""
    known = rig.vehicle.parts.get(part)
    for name in known.circuits if known is not None and known.sealed else ():
        if name in rig.circuits and rig.known(name).is_dangerous:
            batteries = (source for source in rig.vehicle.circuits[name].sources if source.name == "battery")
            points = {point for source in batteries for way in source.taken_off_by for point in way}
            for point in sorted(points & rig.vehicle.isolation_points.keys()):
                sort = rig.vehicle.isolation_points[point]
                if sort.kind == "switch" or sort.breaks == "middle of the battery":
                    yield point
