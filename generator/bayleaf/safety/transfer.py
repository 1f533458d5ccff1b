"""What an effect does to one circuit: from what was known before it to what is known after it."""

from collections.abc import Callable, Iterable, Mapping
from math import inf
from typing import Any, NamedTuple

from ..graph import effects as events
from ..graph.effects import Effect
from ..model.actions import Pair
from ..model.common import QUIET
from ..model.contact import Contact
from ..model.vehicle import Circuit
from ..quantities.limit import Limit
from ..quantities.quantity import Quantity
from .groups import group_of, merged
from .halves import key_of, shown, untouched
from .holds import enough, is_isolated, is_locked
from .housings import housing_read, housings_unread, may_feed
from .other_energies import leaves_mode
from .rig import ASSUMED, Known, Rig, temporary_thing, union
from .state import State
from .wait import SAFE_READING


class Scene(NamedTuple):
    """The circuit that is followed, and the vehicle round it."""

    known: Known
    rig: Rig


Change = Callable[[State, Any, Scene], State]


def after(state: State, effects: Iterable[Effect], scene: Scene) -> State:
    """The state of a circuit after the effects, in their order."""
    for effect in effects:
        change = _CHANGES.get(effect.__class__)
        if change is not None:
            state = change(state, effect, scene)
            if state.off & scene.known.housings and may_feed(effect):
                state = housings_unread(state, scene.known)
    return state


def settle(state: State, scene: Scene) -> State:
    """What follows by itself: not isolated, and no time counts; not locked, and no proof stands."""
    if state.waited and not is_isolated(state, *scene):
        state = state._replace(waited=0)
    if state.proved and not is_locked(state, *scene):
        state = state._replace(proved=0)
    return state


def _unproved(state: State) -> State:
    return state._replace(proved=0) if state.proved else state


def _opened(state: State, effect: events.Opened, scene: Scene) -> State:
    return state._replace(open=state.open | scene.rig.point(effect.point))


def _secured(state: State, effect: events.Secured, scene: Scene) -> State:
    """A point that is locked while it is closed is reported by itself; here it is taken as opened before."""
    bit = scene.rig.point(effect.point)
    point = scene.rig.vehicle.isolation_points.get(effect.point)
    can_be = point is not None and point.secure_with is not None
    return state._replace(open=state.open | bit, secured=state.secured | bit if can_be else state.secured)


def _released(state: State, effect: events.Released, scene: Scene) -> State:
    bit = scene.rig.point(effect.point)
    state = state._replace(secured=state.secured & ~bit)
    return settle(_unproved(state) if bit & scene.rig.points_of(scene.known, state.joined) else state, scene)


def _closed(state: State, effect: events.Closed, scene: Scene) -> State:
    rig = scene.rig
    bit = rig.point(effect.point)
    if bit & scene.rig.points_of(scene.known, state.joined):
        gone = ~(bit | ASSUMED)
        return settle(state._replace(open=state.open & gone, secured=state.secured & gone), scene)
    state = state._replace(open=state.open & ~bit, secured=state.secured & ~bit)
    feeds = any(bit & points for name, points in rig.electrical_points.items() if name != scene.known.id)
    return _unproved(state) if feeds and may_feed_back(scene.known.circuit) else state


def may_feed_back(circuit: Circuit) -> bool:
    """Whether a converter can feed the circuit from another one; what is not said counts as yes."""
    if circuit.energy != "electrical":
        return False
    converters = [source for source in circuit.sources if source.name == "converter"]
    return not converters or converters[0].kind != "none"


def _mode_set(state: State, effect: events.ModeSet, scene: Scene) -> State:
    if effect.mode in QUIET:
        return state._replace(open=state.open | scene.rig.mode_off)
    gone = ~(scene.rig.mode_off | ASSUMED)
    if effect.mode == "charging":
        group = (scene.known, *scene.rig.joined_to(scene.known, state.joined))
        gone &= ~union(one.only_charging for one in group)
    return settle(state._replace(open=state.open & gone, secured=state.secured & gone, proved=0), scene)


def _waited(state: State, effect: events.Waited, scene: Scene) -> State:
    asked = enough(state, *scene)
    if effect.seconds is None or asked == inf or not is_isolated(state, *scene):
        return state  # endless: no waiting settles it
    return state._replace(waited=min(asked, state.waited + float(effect.seconds)))


def _proved_dead(state: State, effect: events.ProvedDead, scene: Scene) -> State:
    if effect.circuit != scene.known.id:
        return state
    return settle(state._replace(proved=state.proved | _shown(effect.pairs, state, scene.known), found=False), scene)


def _filled(state: State, effect: events.Filled, scene: Scene) -> State:
    """Gas that is filled in is under pressure again, and so is what is pumped up, although its source stays off.

    Of what was read before, only a temperature counts on where something is pumped up.
    """
    known = scene.known
    if effect.circuit != known.id:
        return state
    if known.circuit.is_gas:
        return _unproved(state)
    return state._replace(proved=state.proved & ~_read(known, "temperature", False)) if effect.is_pressed else state


def _found_not_dead(state: State, effect: events.FoundNotDead, scene: Scene) -> State:
    return state._replace(found=True, proved=0) if effect.circuit == scene.known.id else state


def _proved_safe(state: State, effect: events.ProvedSafe, scene: Scene) -> State:
    if effect.circuit != scene.known.id:
        return state
    read = 0
    for name, limit in scene.known.circuit.safe:
        if effect.limit is None or is_as_strict(effect.limit, limit):
            read |= scene.known.pairs.get(name, 0)
    return settle(state._replace(proved=state.proved | read), scene)


def _proof_lost(state: State, effect: events.ProofLost, scene: Scene) -> State:
    """What was read before counts no more: a gauge that creeps up after a wait tells more than one that stood at 0."""
    if effect.circuit != scene.known.id:
        return state
    if effect.limit is None or scene.known.category != "other":
        return _unproved(state)
    return state._replace(proved=state.proved & ~_read(scene.known, effect.limit.quantity))


def _read(known: Known, quantity: str, is_it: bool = True) -> int:
    """The bits of the readings of a circuit that are of a quantity, or of any other one."""
    safe = known.circuit.safe
    return union(known.pairs.get(name, 0) for name, limit in safe if (limit.quantity == quantity) is is_it)


def is_as_strict(limit: Limit, floor: Limit) -> bool:
    """Whether everything that one limit lets through, the other one does too."""
    return limit.quantity == floor.quantity and floor.interval.covers(limit.interval)


def _voltage_read(state: State, effect: events.VoltageRead, scene: Scene) -> State:
    """48 V power may be read with a plain instrument; a class B circuit is proved by the step made for it only."""
    known = scene.known
    high = effect.limit.high
    if known.category not in ("power", "low") or high is None or high.si > SAFE_READING:
        return state
    read = _shown(effect.pairs, state, known) if effect.pairs else 0
    return settle(state._replace(proved=state.proved | read), scene) if read else state


def _housing_read(state: State, effect: events.HousingRead, scene: Scene) -> State:
    return housing_read(state, effect, scene.known, scene.rig)


def _tested(state: State, effect: events.TestVoltageApplied, scene: Scene) -> State:
    if effect.voltage is not None and effect.voltage.si <= 60:
        return state
    tested = [contact for pair in effect.pairs for contact in pair if _is_on(contact, state, scene)]
    if not tested:
        return state
    proved = state.proved & union(untouched(scene.known.halves, tested, state.off))
    return state._replace(proved=proved, charged=state.charged or not effect.discharged)


def _is_on(contact: Contact, state: State, scene: Scene) -> bool:
    """Whether a contact is joined to the circuit: the device side of a plug that is out is a piece of its own."""
    group = group_of(state.joined, scene.known.number)
    if not any(group >> scene.rig.circuits[name] & 1 for name in scene.rig.circuits_at(contact)):
        return False
    return not (contact.side == "device" and state.off & scene.rig.thing(contact.connector))


def _discharged(state: State, effect: events.Discharged, scene: Scene) -> State:
    if effect.circuit != scene.known.id:
        return state
    read = {frozenset(map(str, pair)) for pair in effect.pairs}
    poles = {contact for pair in scene.known.pairs if isinstance(pair, frozenset) for contact in pair} - {"chassis"}
    if not read or poles <= {contact for pair in read for contact in pair}:
        state = state._replace(charged=False)
    if (not read or any(pair <= poles for pair in read)) and is_isolated(state, *scene):
        state = state._replace(waited=enough(state, *scene))
    return state


def _energised(state: State, effect: events.Energised, scene: Scene) -> State:
    """Points are shared: what makes another circuit live closes those points for this one too."""
    rig = scene.rig
    if effect.circuit not in rig.circuits:
        return state
    stays = rig.mode_off if leaves_mode(rig.vehicle.circuits[effect.circuit]) and not effect.by_command else 0
    if group_of(state.joined, scene.known.number) >> rig.circuits[effect.circuit] & 1:
        kept = ~(rig.soft_points | ASSUMED) if effect.by_command else stays
        return settle(state._replace(open=state.open & kept, secured=state.secured & kept, proved=0), scene)
    points = rig.known(effect.circuit).points
    kept = ~((points & rig.soft_points if effect.by_command else points) | rig.mode_off) | stays
    return settle(state._replace(open=state.open & kept, secured=state.secured & kept), scene)


def _turned(state: State, effect: events.Turned, scene: Scene) -> State:
    group = (scene.known, *scene.rig.joined_to(scene.known, state.joined))
    return _unproved(state) if any(_makes_voltage(one, effect.speed) for one in group) else state


def _makes_voltage(known: Known, speed: Quantity | None) -> bool:
    """Whether a circuit may have a dangerous voltage when its machine is turned; what is not said counts as yes."""
    turning = known.circuit.rotation
    if turning is None:
        return known.category == "class B" and "rotation" not in known.circuit.says
    speed = speed or turning.at_most
    if speed is None or turning.constant is None or known.circuit.voltage is None:
        return True
    return speed.si * turning.constant.si > (60 if known.circuit.voltage.kind == "dc" else 30)


def _interrupted(state: State, effect: events.Interrupted, scene: Scene) -> State:
    return _unproved(state)


def _plugged(state: State, effect: events.Plugged, scene: Scene) -> State:
    state = _goes_on(state, effect, scene)
    connector = scene.rig.vehicle.connectors.get(effect.connector)
    pairs = () if connector is None else ((pin.device_circuit, pin.cable_circuit) for pin in connector.pins.values())
    return _joined(state, pairs, scene)


def _temporary_fitted(state: State, effect: events.TemporaryFitted, scene: Scene) -> State:
    return _joined(_goes_off(state, effect, scene), scene.rig.joins(effect.joins), scene)


def _joined(state: State, pairs: Iterable[tuple[str | None, str | None]], scene: Scene) -> State:
    """Two circuits become one: what was known of either is known of neither any more."""
    circuits = scene.rig.circuits
    groups = [
        1 << circuits[here] | 1 << circuits[there]
        for here, there in pairs
        if here is not None and there is not None and here != there and here in circuits and there in circuits
    ]
    if not groups:
        return state
    joined = merged((*state.joined, *groups))
    state = state._replace(joined=joined)
    own = group_of(joined, scene.known.number)
    return state._replace(waited=0, proved=0, charged=True) if any(own & group for group in groups) else state


def _goes_off(state: State, effect: Any, scene: Scene) -> State:
    bit = scene.rig.thing(THING_OF[effect.__class__](effect)) & scene.known.things
    return state._replace(on=state.on & ~bit, off=state.off | bit)


def _goes_on(state: State, effect: Any, scene: Scene) -> State:
    bit = scene.rig.thing(THING_OF[effect.__class__](effect)) & scene.known.things
    return state._replace(on=state.on | bit, off=state.off & ~bit)


def _shown(pairs: tuple[Pair, ...], state: State, known: Known) -> int:
    """The bits of what a reading at some pairs shows, at all of the profile where none is named."""
    read = set(map(key_of, pairs)) or known.pairs.keys()
    own = (bit for pair, bit in known.pairs.items() if pair in read)
    return union(own) | union(shown(known.halves, read, state.on))


def thing_off(effect: Effect) -> str | None:
    """The thing that an effect takes out of its place; none where it takes none."""
    goes_off = _CHANGES.get(effect.__class__) in (_goes_off, _temporary_fitted)
    return THING_OF[effect.__class__](effect) if goes_off else None


#: Which thing an effect takes off or puts on.
THING_OF: Mapping[type, Callable[[Any], str]] = {
    events.Unplugged: lambda effect: effect.connector,
    events.Plugged: lambda effect: effect.connector,
    events.TakenOff: lambda effect: effect.part,
    events.PutBack: lambda effect: effect.part,
    events.Loosened: lambda effect: effect.fastener,
    events.Tightened: lambda effect: effect.fastener,
    events.TemporaryFitted: lambda effect: temporary_thing(effect.name),
    events.TemporaryRemoved: lambda effect: temporary_thing(effect.name),
}
_CHANGES: Mapping[type, Change] = {
    events.Opened: _opened,
    events.Closed: _closed,
    events.Secured: _secured,
    events.Released: _released,
    events.ModeSet: _mode_set,
    events.Waited: _waited,
    events.Filled: _filled,
    events.ProvedDead: _proved_dead,
    events.FoundNotDead: _found_not_dead,
    events.ProvedSafe: _proved_safe,
    events.ProofLost: _proof_lost,
    events.VoltageRead: _voltage_read,
    events.HousingRead: _housing_read,
    events.TestVoltageApplied: _tested,
    events.Discharged: _discharged,
    events.Energised: _energised,
    events.Turned: _turned,
    events.Interrupted: _interrupted,
    events.Plugged: _plugged,
    events.Unplugged: _goes_off,
    events.TakenOff: _goes_off,
    events.PutBack: _goes_on,
    events.Loosened: _goes_off,
    events.Tightened: _goes_on,
    events.TemporaryFitted: _temporary_fitted,
    events.TemporaryRemoved: _goes_on,
}
#: The effects that change anything of a circuit.
CHANGING = frozenset(_CHANGES)
