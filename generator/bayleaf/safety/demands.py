"""What a step asks of the circuits before it is done. What a step touches decides, never its words."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, Literal, NamedTuple

from ..diagnostics.place import Path
from ..model import actions
from ..model.common import QUIET
from ..model.contact import Contact, read_contact
from ..model.procedure import Step
from .halves import beyond
from .holds import Level
from .rig import Known, Rig, housing_thing, union

DemandKind = Literal[
    "touch", "cover", "prove", "discharge", "probe", "housing", "beside", "made live", "not dead", "expects", "leaves"
]


class Demand(NamedTuple):
    """A need of a step on one circuit; `at` is where the step names what it touches, `name` that name.

    `adapters` are the things of which one makes it safe: a temporary through which a voltage is read without hands, a
    housing that was read. `spared` are the things that need not be in their place when the circuit is made live by this
    step, `points` those that it closes, `feeds` the circuits that it makes live itself. `opened`: it is only asked
    while one of these things may be out of its place. `beyond` are the halves of plugs on which it does not touch it.
    """

    kind: DemandKind
    circuit: str
    level: Level
    at: Path
    name: str
    adapters: int = 0
    spared: int = 0
    points: int = 0
    feeds: int = 0
    opened: int = 0
    beyond: int = 0


#: Actions of somebody who works at the vehicle; looking, waiting, switching and reading the scan tool are none.
WORKS = frozenset({
    actions.Do, actions.Disconnect, actions.Reconnect, actions.Secure, actions.Release, actions.Unplug, actions.Plug,
    actions.Remove, actions.Refit, actions.Loosen, actions.Tighten, actions.Drain, actions.Fill, actions.OpenValve,
    actions.CloseValve, actions.FitTemporary, actions.RemoveTemporary, actions.Measure,
})  # fmt: skip
#: Proving is no work beside an open circuit; but nobody goes near one that was found not dead.
PROVES = frozenset({actions.ProveDead, actions.Discharge})

#: Quantities that are read by touching bare metal with the circuit off.
DEAD_READINGS = frozenset({
    "resistance", "continuity", "diode", "capacitance", "insulation resistance", "bonding resistance",
})  # fmt: skip


def works(step: Step) -> bool:
    """Whether somebody works at the vehicle in this step: whatever they touch, but for a proof."""
    kind = step.action.__class__
    if kind in WORKS and kind is not actions.Do:
        return True
    return kind not in PROVES and any(name != "nothing" for name in step.on)


def demands_of(step: Step, rig: Rig) -> tuple[Demand, ...]:
    """All that a step asks of what it touches, the gravest of a circuit first; of two alike the first one written."""
    found: dict[tuple[str, str, str, int, int], Demand] = {}
    for demand in (*_of_action(step, rig), *_of_on(step, rig)):
        found.setdefault((demand.circuit, demand.kind, demand.level, demand.opened, demand.beyond), demand)
    if len(found) < 2:
        return tuple(found.values())
    return tuple(sorted(found.values(), key=lambda one: (one.level != "dead", one.kind != "touch")))


def _of_action(step: Step, rig: Rig) -> Iterator[Demand]:
    ask = _ASKS.get(step.action.__class__)
    if ask is not None:
        yield from ask(step, step.action, rig)


def _of_on(step: Step, rig: Rig) -> Iterator[Demand]:
    """A circuit, a pin, a side or a terminal means bare conductor; a cover or a plug only where it may be off."""
    vehicle = rig.vehicle
    for index, name in enumerate(step.on):
        if name == "nothing":
            continue
        at = (*step.at, "on", index)
        if name in rig.circuits:
            yield from _touch([name], rig, at, name)
        elif name in vehicle.fasteners:
            for terminal in vehicle.fasteners[name].terminal:
                yield from _touch_at(terminal, rig, at, name)
        elif name in vehicle.parts:
            yield from _touch(vehicle.parts[name].exposes, rig, at, name, opened=rig.thing(name))
        elif name in vehicle.connectors:
            yield from _touch(rig.circuits_at(Contact(name)), rig, at, name, opened=rig.thing(name))
        elif (contact := read_contact(name)) is not None:
            yield from _touch_at(contact, rig, at, name)


def _touch(
    circuits: Iterable[str], rig: Rig, at: Path, name: str, opened: int = 0, beyond: int = 0
) -> Iterator[Demand]:
    for circuit in circuits:
        if circuit in rig.circuits and rig.known(circuit).category != "low":
            yield Demand("touch", circuit, "dead", at, name, opened=opened, beyond=beyond)


def _touch_at(contact: Contact, rig: Rig, at: Path, name: str) -> Iterator[Demand]:
    for circuit in rig.circuits_at(contact):
        yield from _touch([circuit], rig, at, name, beyond=_beyond(contact, rig.known(circuit)))


def _beyond(contact: Contact, known: Known) -> int:
    return union(beyond(contact, known.halves))


def _plugs(step: Step, action: actions.Unplug | actions.Plug, rig: Rig) -> Iterator[Demand]:
    for index, name in enumerate(action.connectors):
        yield from _touch(rig.circuits_at(Contact(name)), rig, (*step.at, action.key, index), name)


def _parts(step: Step, action: actions.Remove | actions.Refit, rig: Rig) -> Iterator[Demand]:
    for index, name in enumerate(action.parts):
        part = rig.vehicle.parts.get(name)
        if part is None:
            continue
        at = (*step.at, action.key, index)
        inside = {own for own in part.circuits if part.sealed and _sealed_in(own, rig) == name}
        yield from _touch((own for own in part.circuits if own not in inside), rig, at, name)
        yield from _laid_bare(part.exposes, rig, at, name)


def _sealed_in(circuit: str, rig: Rig) -> str | None:
    found = rig.vehicle.circuits.get(circuit)
    return None if found is None else found.sealed_in


def _laid_bare(circuits: Iterable[str], rig: Rig, at: Path, name: str) -> Iterator[Demand]:
    """A cover comes off, or goes back: the circuit below is not yet proved, but cannot come back."""
    for circuit in circuits:
        if circuit in rig.circuits:
            known = rig.known(circuit)
            if known.is_dangerous:
                yield Demand("cover", circuit, "access", at, name)
            elif known.category == "other":
                yield Demand("touch", circuit, "dead", at, name)


def _fasteners(step: Step, action: actions.Loosen | actions.Tighten, rig: Rig) -> Iterator[Demand]:
    for index, name in enumerate(action.fasteners):
        fastener = rig.vehicle.fasteners.get(name)
        if fastener is None:
            continue
        at = (*step.at, action.key, index)
        for contact in fastener.terminal:
            yield from _touch_at(contact, rig, at, name)
        part = rig.vehicle.parts.get(fastener.part or "")
        if part is not None and isinstance(action, actions.Loosen):
            yield from _laid_bare(part.exposes, rig, at, name)


def _fluid(step: Step, action: actions.Drain | actions.Fill, rig: Rig) -> Iterator[Demand]:
    """Gas is let out before its gauge can be read as safe, and filled with all closed: only its source must be off.

    So it is with what is pumped up to a pressure.
    """
    for demand in _touch([action.circuit], rig, (*step.at, action.key), action.circuit):
        yield demand._replace(level="isolated") if _is_shut(action, rig) else demand


def _is_shut(action: actions.Drain | actions.Fill, rig: Rig) -> bool:
    """Whether it goes in and out through a coupling, with all closed."""
    is_pressed = isinstance(action, actions.Fill) and action.is_pressed
    is_gas = rig.vehicle.circuits[action.circuit].is_gas
    return (is_pressed or is_gas) and rig.known(action.circuit).category == "other"


def _valve(step: Step, action: actions.OpenValve, rig: Rig) -> Iterator[Demand]:
    for index, name in enumerate(action.what):
        part = rig.vehicle.parts.get(name)
        circuits = (name,) if part is None else (*part.circuits, *part.exposes)
        others = (own for own in circuits if own in rig.circuits and rig.known(own).category == "other")
        yield from _touch(others, rig, (*step.at, action.key, index), name)


def _temporary(step: Step, action: actions.FitTemporary | actions.RemoveTemporary, rig: Rig) -> Iterator[Demand]:
    at = (*step.at, action.key)
    if isinstance(action, actions.FitTemporary):
        places = [action]
    else:  # one name may have been fitted at several places
        places = [one for one in rig.temporaries if one.name == action.name]
    for fitted in places:
        for contact in contacts_of_temporary(fitted):
            yield from _touch_at(contact, rig, at, action.name)


def contacts_of_temporary(fitted: actions.FitTemporary) -> Iterator[Contact]:
    """The contacts at which something is fitted; a whole plug counts with all its pins."""
    yield from fitted.joins or ()
    for name in fitted.where:
        yield read_contact(name) or Contact(name)


def _prove(step: Step, action: actions.ProveDead, rig: Rig) -> Iterator[Demand]:
    if action.circuit in rig.circuits and rig.known(action.circuit).category != "other":
        yield Demand("prove", action.circuit, "access", (*step.at, action.key), action.circuit)


def _discharge(step: Step, action: actions.Discharge, rig: Rig) -> Iterator[Demand]:
    if action.circuit in rig.circuits and rig.known(action.circuit).is_dangerous:
        level: Level = "isolated" if rig.known(action.circuit).category == "power" else "locked"
        yield Demand("discharge", action.circuit, level, (*step.at, action.key), action.circuit)


def _measure(step: Step, action: actions.Measure, rig: Rig) -> Iterator[Demand]:
    at = (*step.at, "between")
    if action.quantity == "current":
        return  # in series it is refused, whatever the state
    for pair in action.pairs:
        for contact in pair:
            for circuit in rig.circuits_at(contact):
                known = rig.known(circuit)
                if known.circuit.energy == "pyrotechnic":
                    continue  # refused, whatever the state
                if action.quantity in DEAD_READINGS or known.category == "other":
                    yield from _touch([circuit], rig, at, str(contact), beyond=_beyond(contact, known))
                elif known.category == "class B":
                    adapters = rig.adapters_at(contact.connector, (*step.tools, *action.where))
                    demand = Demand("probe", circuit, "dead", at, str(contact), adapters)
                    yield demand._replace(beyond=_beyond(contact, known))
    if action.quantity == "bonding resistance":
        yield from _housings(step, action, rig)


def _housings(step: Step, action: actions.Measure, rig: Rig) -> Iterator[Demand]:
    """A housing whose bond is in doubt may carry what is inside."""
    for index, name in enumerate(action.where):
        part = rig.vehicle.parts.get(name)
        at = (*step.at, "at", index) if len(action.where) > 1 else (*step.at, "at")
        for circuit in part.circuits if part is not None else ():
            if (
                circuit in rig.circuits
                and rig.known(circuit).category == "class B"
                and _sealed_in(circuit, rig) != name
            ):
                yield Demand("housing", circuit, "dead", at, name, rig.thing(housing_thing(name)))


def _made_live(step: Step, action: Any, rig: Rig) -> Iterator[Demand]:
    """Whatever may bring energy back: nothing of the circuit may be open then."""
    at = (*step.at, action.key)
    closed = action.points if isinstance(action, actions.Reconnect) else ()
    points = union(map(rig.point, closed))
    energised: Iterable[str] = ()
    if isinstance(action, actions.SetMode):
        circuits: Iterable[str] = () if action.mode in QUIET else rig.circuits
    elif isinstance(action, actions.Reconnect):
        circuits = [name for name in rig.circuits if rig.known(name).mates or points & rig.known(name).points]
    else:
        energised = action.energises if isinstance(action, actions.Command) else action.circuits
        circuits = [name for name in rig.circuits if rig.known(name).mates or name in energised]
    own = (name for name, one in rig.vehicle.fasteners.items() if one.point in closed)
    spared = union(map(rig.thing, own))
    feeds = union(1 << rig.circuits[name] for name in energised if name in rig.circuits)
    for circuit in circuits:
        if circuit in rig.circuits and rig.known(circuit).is_dangerous:
            name = action.mode if isinstance(action, actions.SetMode) else ", ".join(closed) or circuit
            yield Demand("made live", circuit, "live", at, name, spared=spared, points=points, feeds=feeds)


class Beside(NamedTuple):
    """Work at something else, which asks that what lies bare is dead.

    `own` are the covers that the step itself takes off or puts on; of the circuits in `apart` it asks what it needs by
    itself.
    """

    own: int
    apart: frozenset[str]

    def of(self, known: Known, on: int, at: Path) -> Demand | None:
        """What is asked of a circuit while these things are surely in place; nothing where no cover may be off."""
        opened = known.covers & ~self.own
        if not opened & ~on or known.category != "class B" or known.id in self.apart:
            return None
        return Demand("beside", known.id, "dead", at, known.id, opened=opened)


def beside(step: Step, rig: Rig) -> Beside | None:
    """What a step asks of circuits that it has nothing to do with; nothing where nobody works at the vehicle."""
    action = step.action
    if not works(step):
        return None
    apart: set[str] = set()
    if isinstance(action, actions.Reconnect):
        closed = union(map(rig.point, action.points))
        apart.update(name for name in rig.dangerous if closed & rig.known(name).points)
    elif isinstance(action, actions.Measure):
        apart.update(circuit for pair in action.pairs for contact in pair for circuit in rig.circuits_at(contact))
    return Beside(_own_covers(step, rig), frozenset(apart))


def _own_covers(step: Step, rig: Rig) -> int:
    """The covers that the step itself takes off or puts on, with their fasteners."""
    action = step.action
    if isinstance(action, actions.Remove | actions.Refit):
        return union(map(rig.thing, action.parts))
    if isinstance(action, actions.Loosen | actions.Tighten):
        parts = (rig.vehicle.fasteners[name].part for name in action.fasteners if name in rig.vehicle.fasteners)
        return union(rig.thing(part) for part in parts if part is not None)
    return 0


_ASKS: Mapping[type, Callable[[Step, Any, Rig], Iterator[Demand]]] = {
    actions.Unplug: _plugs,
    actions.Plug: _plugs,
    actions.Remove: _parts,
    actions.Refit: _parts,
    actions.Loosen: _fasteners,
    actions.Tighten: _fasteners,
    actions.Drain: _fluid,
    actions.Fill: _fluid,
    actions.OpenValve: _valve,
    actions.FitTemporary: _temporary,
    actions.RemoveTemporary: _temporary,
    actions.ProveDead: _prove,
    actions.Discharge: _discharge,
    actions.Measure: _measure,
    actions.SetMode: _made_live,
    actions.Reconnect: _made_live,
    actions.Command: _made_live,
    actions.Energise: _made_live,
}
