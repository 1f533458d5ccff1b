"""What a step asks of points, locks, plugs, covers, caps and charges: of things, not of the state of a circuit."""

from collections.abc import Iterable, Iterator
from typing import Literal

from ..diagnostics.place import Path as At
from ..model import actions
from ..model.actions import Pair
from ..model.common import MODE_OFF, MODES, Conditions
from ..model.contact import Contact, read_contact
from ..model.procedure import Step
from .bonds import bonded_in
from .carried import carried_by, unseen_thing
from .rig import Rig, places_of, temporary_thing, union
from .things import ThingDemand, ThingKind, device_sides
from .whole import QUIET_MODES, Index, charge_thing, current_thing, lock_thing, point_thing, residual_thing  # fmt: skip

#: Quantities that a rest of voltage falsifies.
SPOILT_BY_VOLTAGE = frozenset({"resistance", "continuity", "diode", "capacitance"})


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
        yield from _of_residuals(step, action, rig, index)
        yield from _of_bond(step, rig, index)
    elif isinstance(action, actions.ProveDead):
        yield from _of_proof(step, action, rig, index)
    elif isinstance(action, actions.Loosen | actions.Tighten):
        yield from _of_low_terminals(step, action, rig)
    elif isinstance(action, actions.Refit) and action.new:
        for at, name in _named(step, action.parts):
            for point in carried_by(name, rig):
                yield ThingDemand("carried", at, name, point, index[unseen_thing(point)], "on")
    elif isinstance(action, actions.Remove):
        yield from _of_caps(step, action, rig, index)
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
                yield ThingDemand("low", at, name, "off", QUIET_MODES, "mode")


def _of_caps(step: Step, action: actions.Remove, rig: Rig, index: Index) -> Iterator[ThingDemand]:
    """A sealed source keeps its voltage: its contacts are capped before it is lifted out."""
    for at, name in _named(step, action.parts):
        part = rig.vehicle.parts.get(name)
        if part is None or not part.sealed:
            continue
        for connector in part.connectors:
            if any(rig.known(circuit).is_dangerous for circuit in rig.circuits_at(Contact(connector))):
                caps = [fitted.name for fitted in rig.temporaries if connector in places_of(fitted)]
                bits = union(index[temporary_thing(cap)] for cap in caps)
                yield ThingDemand("capped", at, name, connector, bits, "any off")


def _of_residuals(step: Step, action: actions.Measure, rig: Rig, index: Index) -> Iterator[ThingDemand]:
    """What is left of 48 V spoils a resistance, and the meter, long before it hurts anybody."""
    if action.quantity not in SPOILT_BY_VOLTAGE:
        return
    circuits = {circuit: contact for pair in action.pairs for contact in pair for circuit in rig.circuits_at(contact)}
    for circuit, contact in circuits.items():
        if rig.known(circuit).category == "power":
            bit = index[residual_thing(circuit)]
            yield ThingDemand("residual", (*step.at, "between"), str(contact), circuit, bit, "off")


def _of_bond(step: Step, rig: Rig, index: Index) -> Iterator[ThingDemand]:
    """A bond is measured with the part in its place and all its screws tight."""
    places = bonded_in(step)
    for number, name in enumerate(places):
        at = (*step.at, "at", number) if len(places) > 1 else (*step.at, "at")
        if name in rig.vehicle.parts:
            screws = (own for own, one in rig.vehicle.fasteners.items() if one.part == name)
            yield from (ThingDemand("bond", at, name, thing, index[thing], "on") for thing in (name, *screws))


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
        return ThingDemand(kind, at, name, "off", QUIET_MODES, "mode")
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
