"""What is off, out, open, loose or fitted for the time being, followed for the vehicle as a whole.

A thing is in one of two states, and no step's effect on one depends on another, so joining all paths loses nothing.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction
from typing import Any, Literal, NamedTuple

from ..diagnostics.place import Path as At
from ..graph import effects as events
from ..graph.effects import Effect
from ..model import actions
from ..model.actions import Pair
from ..model.common import MODE_OFF, MODES, Conditions
from ..model.contact import Contact, read_contact
from ..model.procedure import Step
from .rig import Rig, temporary_thing, union
from .transfer import QUIET

ThingKind = Literal[
    "secure", "reconnect", "first", "only when", "stuck", "when", "side", "charged", "left", "left charged", "low"
]

ALL_MODES = (1 << len(MODES)) - 1
_QUIET_MODES = union(1 << MODES.index(mode) for mode in MODES if mode in QUIET)


class Whole(NamedTuple):
    """For each thing whether it may be in its place (`on`) and whether it may be out of it (`off`); bits by the index.

    A point is out of its place when it is open, a lock when it is set. Neither: nobody has touched it yet and how it
    was found is for whoever performs the procedure to answer.
    """

    on: int
    off: int
    modes: int


UNTOUCHED = Whole(-1, 0, ALL_MODES)


class ThingDemand(NamedTuple):
    """What a step asks of a thing: surely out of its place (of several one: `any off`), surely in it, or a mode."""

    kind: ThingKind
    at: At
    name: str
    thing: str
    bit: int
    wants: Literal["off", "any off", "on", "mode"]
    state: str = ""


class Index(dict[str, int]):
    """The bits of the things of a vehicle by name, its points and their locks first; a new name gets the next bit."""

    def __init__(self, rig: Rig) -> None:
        super().__init__()
        self.rig = rig
        for point in rig.vehicle.isolation_points:
            self[point_thing(point)], self[lock_thing(point)] = 1 << len(self), 2 << len(self)
        self.points = (1 << len(self)) - 1

    def __missing__(self, name: str) -> int:
        bit = self[name] = 1 << len(self)
        return bit

    def closed(self, points: int) -> int:
        """The bits of some points of the rig and of their locks."""
        names = (name for name in self.rig.vehicle.isolation_points if self.rig.point(name) & points)
        return union(self[point_thing(name)] | self[lock_thing(name)] for name in names)


def point_thing(name: str) -> str:
    """The name of a point among the things."""
    return f"point {name}"


def lock_thing(name: str) -> str:
    """The name of the lock of a point among the things."""
    return f"lock {name}"


def current_thing(cable: str) -> str:
    """The name of "no current was read in this cable" among the things."""
    return f"current {cable}"


def charge_thing(connector: str) -> str:
    """The name of "nothing is charged on the device side of this plug" among the things."""
    return f"charge {connector}"


def join_whole(a: Whole, b: Whole) -> Whole:
    """What may be on either path."""
    return Whole(a.on | b.on, a.off | b.off, a.modes | b.modes)


def entry_of(open_: int, secured: int, index: Index) -> Whole:
    """The things when a procedure is begun that expects some points open; how the rest was found is not its affair."""
    rig = index.rig
    names = rig.vehicle.isolation_points
    off = union(index[point_thing(name)] for name in names if rig.point(name) & open_)
    off |= union(index[lock_thing(name)] for name in names if rig.point(name) & secured)
    modes = _QUIET_MODES if open_ & rig.mode_off else ALL_MODES
    return Whole(index.points & ~off, off, modes)


def whole_after(state: Whole, effects: Iterable[Effect], index: Index) -> Whole:
    """The things after the effects, in their order."""
    for effect in effects:
        if isinstance(effect, events.ModeSet):
            state = _mode_set(state, effect, index)
        elif isinstance(effect, events.Energised):
            state = _energised(state, effect, index)
        elif isinstance(effect, events.TestVoltageApplied | events.Discharged):
            state = _tested(state, effect, index)
        elif isinstance(effect, events.Secured):
            state = _out(state, index[point_thing(effect.point)] | _lock(effect.point, index))
        elif isinstance(effect, events.Closed):
            state = _in(state, index[point_thing(effect.point)] | index[lock_thing(effect.point)])
        elif effect.__class__ in _GOES_OFF and _counts(effect):
            state = _out(state, index[_GOES_OFF[effect.__class__](effect)])
        elif effect.__class__ in _GOES_ON:
            state = _in(state, index[_GOES_ON[effect.__class__](effect)])
    return state


def _out(state: Whole, bits: int) -> Whole:
    return Whole(state.on & ~bits, state.off | bits, state.modes)


def _in(state: Whole, bits: int) -> Whole:
    return Whole(state.on | bits, state.off & ~bits, state.modes)


def _lock(point: str, index: Index) -> int:
    """The lock of a point; none where it has nothing to be secured with."""
    known = index.rig.vehicle.isolation_points.get(point)
    return index[lock_thing(point)] if known is not None and known.secure_with is not None else 0


def _counts(effect: Effect) -> bool:
    """A current counts as read only where none was asked for."""
    return not isinstance(effect, events.CurrentRead) or Fraction(0) in effect.limit.interval


def _mode_set(state: Whole, effect: events.ModeSet, index: Index) -> Whole:
    """A current that was read as none may flow again once the vehicle is awake; charging needs its lead plugged in."""
    modes = 1 << MODES.index(effect.mode) if effect.mode in MODES else ALL_MODES
    if effect.mode not in QUIET:
        state = _in(state, union(bit for name, bit in index.items() if name.startswith("current ")))
    if effect.mode == "charging":
        circuits = index.rig.circuits
        state = _in(state, index.closed(union(index.rig.known(name).only_charging for name in circuits)))
    return state._replace(modes=modes)


def _energised(state: Whole, effect: events.Energised, index: Index) -> Whole:
    """Whatever feeds the circuit is closed. A vehicle that slept may now be in any mode."""
    rig = index.rig
    if effect.circuit not in rig.circuits:
        return state
    points = rig.known(effect.circuit).points & (rig.soft_points if effect.by_command else -1)
    modes = ALL_MODES if state.modes & _QUIET_MODES else state.modes
    return _in(state, index.closed(points))._replace(modes=modes)


def _tested(state: Whole, effect: events.TestVoltageApplied | events.Discharged, index: Index) -> Whole:
    """The device side of a plug that is out is a piece of its own: a test charges it, a reading clears it."""
    sides = list(device_sides(effect.pairs))
    bits = union(index[charge_thing(contact.connector)] for contact in sides)
    if isinstance(effect, events.Discharged):
        return _in(state, bits)
    if effect.discharged or (effect.voltage is not None and effect.voltage.si <= 60):
        return state
    surely = union(index[charge_thing(one.connector)] for one in sides if not state.on & index[one.connector])
    out = surely | union(index[charge_thing(one.connector)] for one in sides if state.off & index[one.connector])
    return Whole(state.on & ~surely, state.off | out, state.modes)


def device_sides(pairs: Iterable[Pair]) -> Iterator[Contact]:
    """The contacts of some pairs that are on the device side of a plug."""
    return (contact for pair in pairs for contact in pair if contact.side == "device")


def holds_of(demand: ThingDemand, state: Whole) -> bool:
    """Whether what is asked of a thing holds on every path."""
    if demand.wants == "mode":
        return not state.modes & ~demand.bit
    if demand.wants == "any off":
        return bool(demand.bit & ~state.on)
    return not (state.on if demand.wants == "off" else state.off) & demand.bit


def made_to_hold_of(demand: ThingDemand, state: Whole) -> Whole:
    """The things as if what is asked held on every path."""
    if demand.wants == "mode":
        return state._replace(modes=state.modes & demand.bit or demand.bit)
    return _in(state, demand.bit) if demand.wants == "on" else _out(state, demand.bit)


def thing_demands(step: Step, rig: Rig, index: Index, stuck: bool) -> Iterator[ThingDemand]:
    """What a step asks of points, locks, plugs and covers."""
    action = step.action
    if isinstance(action, actions.Secure):
        for at, name in _named(step, action.points):
            yield ThingDemand("secure", at, name, name, index[point_thing(name)], "off")
    elif isinstance(action, actions.Reconnect):
        for at, name in _named(step, action.points):
            yield ThingDemand("reconnect", at, name, name, index[lock_thing(name)], "on")
    elif isinstance(action, actions.Disconnect):
        for number, (at, name) in enumerate(_named(step, action.points)):
            opened = {index[point_thing(earlier)] for earlier in action.points[:number]}
            asked = _of_point(at, name, rig, index, stuck)
            yield from (demand for demand in asked if demand.wants != "off" or demand.bit not in opened)
    elif isinstance(action, actions.Measure):
        yield from _of_sides(step, action.pairs, rig, index)
    elif isinstance(action, actions.ProveDead):
        yield from _of_proof(step, action, rig, index)
    if isinstance(action, actions.Loosen | actions.Tighten):
        yield from _of_low_terminals(step, action, rig)
    yield from _of_charges(step, rig, index)
    if step.when is not None:
        yield from _of_conditions("when", (*step.at, "when"), "", step.when, index)


def _named(step: Step, names: tuple[str, ...]) -> Iterator[tuple[At, str]]:
    return (((*step.at, step.action.key, number), name) for number, name in enumerate(names))


def _of_low_terminals(step: Step, action: actions.Loosen | actions.Tighten, rig: Rig) -> Iterator[ThingDemand]:
    """Fused 12 and 24 V terminals keep their battery, but carry no load while a spanner is on them."""
    for at, name in _named(step, action.fasteners):
        fastener = rig.vehicle.fasteners.get(name)
        if fastener is not None and fastener.point is None:
            circuits = {circuit for contact in fastener.terminal for circuit in rig.circuits_at(contact)}
            if any(rig.known(circuit).category == "low" for circuit in circuits):
                yield ThingDemand("low", at, name, "off", _QUIET_MODES, "mode")


def _of_charges(step: Step, rig: Rig, index: Index) -> Iterator[ThingDemand]:
    """A device side that a test has charged is not touched, and not joined to anything."""
    action = step.action
    touched: list[tuple[At, str, str]] = []
    if isinstance(action, actions.Plug):
        touched += [(at, name, name) for at, name in _named(step, action.connectors)]
    if isinstance(action, actions.Remove):
        for at, name in _named(step, action.parts):
            part = rig.vehicle.parts.get(name)
            touched += [(at, name, connector) for connector in (part.connectors if part is not None else ())]
    if isinstance(action, actions.Measure) and action.quantity not in ("insulation resistance", "voltage"):
        touched += [((*step.at, "between"), str(one), one.connector) for one in device_sides(action.pairs)]
    for number, name in enumerate(step.on):
        contact = read_contact(name)
        if contact is not None and contact.side == "device":
            touched.append(((*step.at, "on", number), name, contact.connector))
    for at, name, connector in touched:
        yield ThingDemand("charged", at, name, connector, index[charge_thing(connector)], "on")


def _of_point(at: At, name: str, rig: Rig, index: Index, stuck: bool) -> Iterator[ThingDemand]:
    point = rig.vehicle.isolation_points.get(name)
    if point is None:
        return
    for first in point.first:
        yield _open_point("first", at, name, first, index)
    if point.only_when is not None:
        yield from _of_conditions("only when", at, name, point.only_when, index)
    if stuck:
        circuits = [own for own in rig.dangerous if rig.known(own).points & rig.point(name)]
        cables = [cable for cable, one in rig.vehicle.cables.items() if one.circuit in circuits]
        if circuits:
            bits = union(index[current_thing(cable)] for cable in cables)
            yield ThingDemand("stuck", at, name, ", ".join(cables), bits, "any off")


def _open_point(kind: ThingKind, at: At, name: str, point: str, index: Index) -> ThingDemand:
    if point == MODE_OFF:
        return ThingDemand(kind, at, name, "off", _QUIET_MODES, "mode")
    return ThingDemand(kind, at, name, point, index[point_thing(point)], "off", "open")


def _of_conditions(kind: ThingKind, at: At, name: str, asked: Conditions, index: Index) -> Iterator[ThingDemand]:
    if asked.mode is not None:
        yield ThingDemand(kind, at, name, asked.mode, 1 << MODES.index(asked.mode), "mode")
    for state, wants in _STATES:
        for other in getattr(asked, state):
            if state == "open":
                yield _open_point(kind, at, name, other, index)
            else:
                thing = point_thing(other) if state == "closed" else other
                yield ThingDemand(kind, at, name, other, index[thing], wants, state)


#: The conditions about things, each with whether they are out of their place in it.
_STATES: tuple[tuple[str, Literal["off", "on"]], ...] = (
    ("unplugged", "off"),
    ("plugged", "on"),
    ("open", "off"),
    ("closed", "on"),
    ("removed", "off"),
    ("fitted", "on"),
)


def _of_sides(step: Step, pairs: Iterable[Pair], rig: Rig, index: Index) -> Iterator[ThingDemand]:
    """A side can only be probed where the plug is out, or where the cover over it is off."""
    for number, pair in enumerate(pairs):
        for contact in pair:
            if contact.side is not None and contact.connector in rig.vehicle.connectors:
                ways = (contact.connector, *rig.covers_at(contact))
                at = (*step.at, "between", number)
                bits = union(index[way] for way in ways)
                yield ThingDemand("side", at, str(contact), " or ".join(ways), bits, "any off")


def _of_proof(step: Step, action: actions.ProveDead, rig: Rig, index: Index) -> Iterator[ThingDemand]:
    """The covers over the test points have to be off."""
    circuit = rig.vehicle.circuits.get(action.circuit)
    asked = {frozenset(pair) for pair in action.pairs}
    covers = (
        [point.access for point in circuit.dead_at if not asked or frozenset(point.pair) in asked] if circuit else []
    )
    for cover in dict.fromkeys(filter(None, covers)):
        yield ThingDemand("side", (*step.at, action.key), action.circuit, cover, index[cover], "any off")


_GOES_OFF: Mapping[type, Callable[[Any], str]] = {
    events.Opened: lambda effect: point_thing(effect.point),
    events.Unplugged: lambda effect: effect.connector,
    events.TakenOff: lambda effect: effect.part,
    events.Loosened: lambda effect: effect.fastener,
    events.TemporaryFitted: lambda effect: temporary_thing(effect.name),
    events.CurrentRead: lambda effect: current_thing(effect.cable),
}
_GOES_ON: Mapping[type, Callable[[Any], str]] = {
    events.Released: lambda effect: lock_thing(effect.point),
    events.Plugged: lambda effect: effect.connector,
    events.PutBack: lambda effect: effect.part,
    events.Tightened: lambda effect: effect.fastener,
    events.TemporaryRemoved: lambda effect: temporary_thing(effect.name),
}
