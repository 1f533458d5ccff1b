"""What is off, out, open, loose or fitted for the time being, followed for the vehicle as a whole.

A thing is in one of two states, and no step's effect on one depends on another, so joining all paths loses nothing.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction
from typing import Any, Literal, NamedTuple

from ..diagnostics.place import Path as At
from ..graph import effects as events
from ..graph.effects import Effect
from ..model.actions import Pair
from ..model.common import MODES, QUIET
from ..model.contact import Contact
from .bonds import OF_BONDS, after_bond
from .carried import carried_by, unseen_thing
from .other_energies import leaves_mode
from .rig import temporary_thing, union
from .whole import (
    ALL_MODES,
    QUIET_MODES,
    Index,
    Whole,
    charge_thing,
    current_thing,
    lock_thing,
    point_thing,
    residual_thing,
)

ThingKind = Literal[
    "secure",
    "reconnect",
    "first",
    "only when",
    "stuck",
    "when",
    "side",
    "charged",
    "left",
    "left charged",
    "low",
    "capped",
    "residual",
    "bond",
    "bond left",
    "carried",
]

#: Volts that no longer falsify a resistance. From memory; it lies on the safe side of every published limit of touch.
NEARLY_NOTHING = Fraction(1, 2)


class ThingDemand(NamedTuple):
    """What a step asks of a thing: surely out of its place (of several one: `any off`), surely in it, or a mode."""

    kind: ThingKind
    at: At
    name: str
    thing: str
    bit: int
    wants: Literal["off", "any off", "on", "mode"]
    state: str = ""


def whole_after(state: Whole, effects: Iterable[Effect], index: Index) -> Whole:
    """The things after the effects, in their order."""
    for effect in effects:
        change = _CHANGES.get(effect.__class__)
        if change is not None:
            state = change(state, effect, index)
        if effect.__class__ in OF_BONDS:
            state = after_bond(state, effect, index)
    return state


def _out(state: Whole, bits: int) -> Whole:
    return Whole(state.on & ~bits, state.off | bits, state.modes)


def _in(state: Whole, bits: int) -> Whole:
    return Whole(state.on | bits, state.off & ~bits, state.modes)


def _lock(point: str, index: Index) -> int:
    """The lock of a point; none where it has nothing to be secured with."""
    known = index.rig.vehicle.isolation_points.get(point)
    return index[lock_thing(point)] if known is not None and known.secure_with is not None else 0


def _current_read(state: Whole, effect: events.CurrentRead, index: Index) -> Whole:
    """A current counts as read only where none was asked for."""
    return _out(state, index[current_thing(effect.cable)]) if Fraction(0) in effect.limit.interval else state


def _fed(state: Whole, effect: Effect, index: Index) -> Whole:
    """What may bring voltage back to any circuit: no reading near zero stands any more."""
    return _in(state, index.named("residual "))


def _secured(state: Whole, effect: events.Secured, index: Index) -> Whole:
    state = _in(state, index.get(unseen_thing(effect.point), 0))
    return _out(state, index[point_thing(effect.point)] | _lock(effect.point, index))


def _taken_off(state: Whole, effect: events.TakenOff, index: Index) -> Whole:
    """What sits on a part goes with it: how the point of the next one is found, nobody knows."""
    points = (point for point in carried_by(effect.part, index.rig) if state.off & index[point_thing(point)])
    unseen = union(index[unseen_thing(point)] for point in points)
    return _out(state, index[effect.part] | unseen)


def _own_fasteners(point: str, index: Index) -> int:
    return union(index[name] for name, one in index.rig.vehicle.fasteners.items() if one.point == point)


def _opened(state: Whole, effect: events.Opened, index: Index) -> Whole:
    """A clamp that is off has nothing to tighten; that it is off is followed by itself."""
    seen = _own_fasteners(effect.point, index) | index.get(unseen_thing(effect.point), 0)
    return _out(_in(state, seen), index[point_thing(effect.point)])


def _closed(state: Whole, effect: events.Closed, index: Index) -> Whole:
    """A clamp that is pressed on is held by nothing yet: its own fasteners are loose until they are tightened."""
    state = _out(state, _own_fasteners(effect.point, index))
    return _in(_fed(state, effect, index), index[point_thing(effect.point)] | index[lock_thing(effect.point)])


def _mode_set(state: Whole, effect: events.ModeSet, index: Index) -> Whole:
    """A current that was read as none may flow again once the vehicle is awake; charging needs its lead plugged in."""
    modes = 1 << MODES.index(effect.mode) if effect.mode in MODES else ALL_MODES
    if effect.mode not in QUIET:
        state = _in(_fed(state, effect, index), index.named("current "))
    if effect.mode == "charging":
        circuits = index.rig.circuits
        state = _in(state, index.closed(union(index.rig.known(name).only_charging for name in circuits)))
    return state._replace(modes=modes)


def _energised(state: Whole, effect: events.Energised, index: Index) -> Whole:
    """Whatever feeds the circuit is closed. A vehicle that slept may now be in any mode."""
    rig, state = index.rig, _fed(state, effect, index)
    if effect.circuit not in rig.circuits:
        return state
    points = rig.known(effect.circuit).points & (rig.soft_points if effect.by_command else -1)
    wakes = effect.by_command or not leaves_mode(rig.vehicle.circuits[effect.circuit])
    modes = ALL_MODES if wakes and state.modes & QUIET_MODES else state.modes
    return _in(state, index.closed(points))._replace(modes=modes)


def _tested(state: Whole, effect: events.TestVoltageApplied, index: Index) -> Whole:
    """The device side of a plug that is out is a piece of its own: a test charges it."""
    state = _fed(state, effect, index)
    if effect.discharged or (effect.voltage is not None and effect.voltage.si <= 60):
        return state
    sides = list(device_sides(effect.pairs))
    surely = union(index[charge_thing(one.connector)] for one in sides if not state.on & index[one.connector])
    out = surely | union(index[charge_thing(one.connector)] for one in sides if state.off & index[one.connector])
    return Whole(state.on & ~surely, state.off | out, state.modes)


def _read(state: Whole, effect: events.ProvedDead | events.VoltageRead | events.Discharged, index: Index) -> Whole:
    """A rest that was let out is read at its pins; a reading near zero lets a resistance be measured."""
    if isinstance(effect, events.Discharged):
        state = _in(state, union(index[charge_thing(contact.connector)] for contact in device_sides(effect.pairs)))
    if effect.limit is None or effect.limit.high is None or effect.limit.high.si > NEARLY_NOTHING:
        return state
    circuits: Iterable[str] = ()
    if isinstance(effect, events.ProvedDead | events.Discharged):
        circuits = [effect.circuit]
    else:
        circuits = [own for pair in effect.pairs for contact in pair for own in index.rig.circuits_at(contact)]
    return _out(state, union(index[residual_thing(circuit)] for circuit in circuits))


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


Change = Callable[[Whole, Any, Index], Whole]


def _goes_off(thing: Callable[[Any], str]) -> Change:
    return lambda state, effect, index: _out(state, index[thing(effect)])


def _goes_on(thing: Callable[[Any], str]) -> Change:
    return lambda state, effect, index: _in(state, index[thing(effect)])


_CHANGES: Mapping[type, Change] = {
    events.ModeSet: _mode_set,
    events.ProvedDead: _read,
    events.VoltageRead: _read,
    events.Discharged: _read,
    events.Energised: _energised,
    events.TestVoltageApplied: _tested,
    events.Turned: _fed,
    events.Interrupted: _fed,
    events.Secured: _secured,
    events.Closed: _closed,
    events.CurrentRead: _current_read,
    events.Opened: _opened,
    events.Unplugged: _goes_off(lambda effect: effect.connector),
    events.TakenOff: _taken_off,
    events.Loosened: _goes_off(lambda effect: effect.fastener),
    events.TemporaryFitted: _goes_off(lambda effect: temporary_thing(effect.name)),
    events.Released: _goes_on(lambda effect: lock_thing(effect.point)),
    events.Plugged: _goes_on(lambda effect: effect.connector),
    events.PutBack: _goes_on(lambda effect: effect.part),
    events.Tightened: _goes_on(lambda effect: effect.fastener),
    events.TemporaryRemoved: _goes_on(lambda effect: temporary_thing(effect.name)),
}
