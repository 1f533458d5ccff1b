"""An isolation made from the profile, for a vehicle that has no procedure for it; and the way back from it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from ..model.common import MODE_OFF
from ..model.vehicle import Source
from ..safety.rig import is_real_break
from . import owned
from .proof import dressed, proof_steps, tightened, wait_for
from .surroundings import Around
from .yaml_text import Data


@dataclass(frozen=True, slots=True)
class OwnIsolation:
    """Its steps, the points in their order, those that are secured; `off` are the covers and screws that came off."""

    steps: tuple[Data, ...]
    points: tuple[str, ...]
    secured: tuple[str, ...]
    off: tuple[str, ...]
    closing: tuple[Data, ...]
    conclusions: Data = field(default_factory=dict)


#: A vehicle goes back into service without them.
_LEFT_OFF = ("charge lead", "external supply")

_DAMAGED = {
    "finding": "The vehicle may be damaged; isolating it by the book may not work.",
    "end": "stop",
    "say": "Leave the vehicle and keep everybody away. Call the person responsible for high voltage; "
    "on smoke or heat the fire brigade.",
}  # fmt: skip
_NOT_DEAD = {
    "finding": "A circuit is not dead although its sources are off and locked, or it cannot be told.",
    "end": "stop",
    "say": "Take your hands away. Leave covers, locks and tag as they are, close the bay and call the person "
    "responsible for high voltage.",
}  # fmt: skip


def isolation_steps(isolated: Sequence[str], around: Around) -> OwnIsolation:
    """Switched off, each point opened in its order, secured, waited for, and each circuit proved dead."""
    dangerous = [name for name in isolated if around.rig.known(name).is_dangerous]
    points = points_for(isolated, around)
    secured = [name for name in points if around.vehicle.isolation_points[name].secure_with is not None]
    steps: list[Data] = [
        {"id": "zone", "do": "Park, chock the wheels, close the bay off and put the signs up. Agree who works and who "
         "watches.", "on": "nothing", "expect": "Nobody else is inside. The floor is dry."},
        {"id": "condition", "ask": "Are there signs of a crash, of water, smoke, heat or smell?",
         "answers": [{"answer": "none of these", "then": "next"},
                     {"answer": "one or more of these", "then": "damaged"}]},
        {"id": "off", "set": {"mode": "off"}, "do": "Switch off and keep the key on you."},
    ]  # fmt: skip
    steps += [_opened(name, around) for name in points]
    if secured:
        steps.append({"id": "lock", "secure": secured, "expect": "Each lock has your tag; you hold the keys."})
    steps += wait_for(isolated, around)
    closing: list[Data] = []
    off: dict[str, None] = {}
    for name in dangerous:
        opening, back = proof_steps(name, off, around)
        opening[-1]["outcomes"] = {"dead": "next", "not_dead": "not-dead", "not_decided": "not-dead"}
        steps += opening
        closing[:0] = back
    steps.append({"id": "tag", "do": "Write the time, the readings and your name on the tag.", "on": "nothing"})
    ends: Data = {"damaged": dict(_DAMAGED), **({"not-dead": dict(_NOT_DEAD)} if dangerous else {})}
    return OwnIsolation(tuple(steps), tuple(points), tuple(secured), tuple(off), tuple(closing), ends)


def return_steps(isolation: OwnIsolation, around: Around) -> tuple[Data, ...]:
    """Covers on, locks off, the points closed in the reverse order."""
    steps: list[Data] = list(isolation.closing)
    if isolation.secured:
        steps.append({"id": "locks-off", "release": list(isolation.secured), "expect": "All locks are in your hands."})
    return (*steps, *close_points(isolation.points, around, released=True))


def not_closed(points: Iterable[str], around: Around) -> tuple[str, ...]:
    """Points that stay off when the vehicle goes back into service: charge leads and supplies from outside."""
    return tuple(name for name in points if around.vehicle.isolation_points[name].kind in _LEFT_OFF)


def close_points(points: Sequence[str], around: Around, released: bool = False) -> list[Data]:
    """Points closed in the reverse of the order in which they are opened, with what holds them tightened."""
    ordered = in_order(points, around)
    steps: list[Data] = []
    locked = [name for name in ordered if around.vehicle.isolation_points[name].secure_with is not None]
    if locked and not released:
        steps.append({"release": locked})
    for name in reversed([name for name in ordered if name not in not_closed(ordered, around)]):
        step: Data = {"reconnect": name}
        steps.append({**step, **dressed(step, around)})
        held = [one.id for one in around.vehicle.fasteners.values() if one.point == name]
        steps += [tightened(fastener, around) for fastener in held]
    return steps


def points_for(isolated: Iterable[str], around: Around) -> list[str]:
    """The points that take all sources off these circuits, with those that come before them, in their order."""
    wanted: dict[str, None] = {}
    for circuit in isolated:
        strict = around.rig.known(circuit).is_dangerous
        for source in around.vehicle.circuits[circuit].sources:
            wanted.update(dict.fromkeys(_way(source, strict, wanted, around)))
    return in_order(wanted, around)


def _way(source: Source, strict: bool, wanted: Iterable[str], around: Around) -> tuple[str, ...]:
    """The set of points that takes a source off with the fewest more; a real break where the circuit is dangerous."""
    points = around.vehicle.isolation_points
    known = [way for way in source.taken_off_by if all(name in points or name == MODE_OFF for name in way)]
    sound = [way for way in known if not strict or any(is_real_break(points.get(name)) for name in way)]
    secured = [way for way in sound if all(name in points and points[name].secure_with for name in way)]
    more = sorted(secured or sound or known, key=lambda way: len(set(way) - set(wanted)))
    return tuple(name for name in (more[0] if more else ()) if name != MODE_OFF)


def in_order(names: Iterable[str], around: Around) -> list[str]:
    """Points with all that have to be open before them, each behind those."""
    points = around.vehicle.isolation_points
    ordered: dict[str, None] = {}

    def come(name: str, above: tuple[str, ...]) -> None:
        point = points.get(name)
        if point is None or name in ordered or name in above:
            return
        opened = point.only_when.open if point.only_when is not None else ()
        for before in (*opened, *point.first):
            come(before, (*above, name))
        ordered[name] = None

    for name in names:
        come(name, ())
    return list(ordered)


def _opened(name: str, around: Around) -> Data:
    step: Data = {"disconnect": name}
    worn = dressed(step, around)
    held = any(one.point == name for one in around.vehicle.fasteners.values())
    tool = owned.insulated_tools(around.workshop) if held else None
    return {**step, **worn, **({"tools": tool} if tool is not None else {})}
