"""What the worth of a step rests on: a reading that is taken at the wrong time hurts nobody, yet tells nothing.

A step that is done too early is found by the walk through its circuit. Here stands what else a step takes for granted,
in words of points, plugs and modes, so that the walk over the things can answer it.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction
from functools import lru_cache, partial
from itertools import product
from typing import Any, Literal, NamedTuple

from ..diagnostics.place import Path as At
from ..model import actions
from ..model.common import MODE_OFF, MODES, QUIET, STATES
from ..model.contact import Contact, read_contact
from ..model.procedure import Procedure, Step
from ..model.vehicle import Circuit, Source
from ..quantities.limit import Limit
from .rig import Rig, union
from .whole import ALL_MODES, Index, Whole, point_thing

PremiseKind = Literal[
    "monitor off", "test stood", "rating known", "power apart", "pin not fed", "voltage possible", "source live",
    "voltage said", "balance", "performed",
]  # fmt: skip

QUIET_MODES = union(1 << MODES.index(mode) for mode in MODES if mode in QUIET)
CHARGING = 1 << MODES.index("charging")

#: Read with the current of the meter alone: any other current falsifies them.
READ_WITHOUT_SUPPLY = frozenset({"resistance", "continuity", "diode", "capacitance"})
#: From memory: 100 V is the highest test voltage that units of a 48 V supply are commonly made for (ISO 21780 and
#: the makers' own sheets were not at hand).
HIGHEST_AT_POWER = 100
#: From memory: a part above this weight moves the balance of a van on a two-post lift.
HEAVY = 50

#: Sources that feed a circuit only at times: nothing can be proved on them.
_AT_TIMES = frozenset({"charging", "external", "converter"})


class Away(NamedTuple):
    """One way to take a source off: these points open, and the vehicle off where `quiet` is set."""

    points: int
    quiet: bool


class Premise(NamedTuple):
    """Something that a step takes for granted of `thing`; `circuit` is the one concerned.

    It holds where one of the things in `off` is surely out of its place, or one of those in `on` surely in it, or the
    vehicle surely in one of `modes`. With `fed` it holds unless each of these sources is surely off on every path.
    """

    kind: PremiseKind
    at: At
    name: str
    thing: str
    circuit: str
    off: int = 0
    on: int = 0
    modes: int = 0
    fed: tuple[tuple[Away, ...], ...] = ()

    @property
    def bits(self) -> int:
        """All things that it is about."""
        return self.off | self.on | union(way.points for ways in self.fed for way in ways)


def is_given(premise: Premise, state: Whole) -> bool:
    """Whether a premise holds on every path; with `fed`, whether it may hold on any."""
    if premise.fed:
        off = all(any(_is_away(way, state) for way in ways) for ways in premise.fed)
        return not off or bool(state.modes & CHARGING)
    return (
        bool(premise.off & ~state.on)
        or bool(premise.on & ~state.off)
        or bool(premise.modes and not state.modes & ~premise.modes)
    )


def _is_away(way: Away, state: Whole) -> bool:
    is_quiet = not state.modes & ~QUIET_MODES
    return way.points & state.off & ~state.on == way.points and (is_quiet or not way.quiet)


def premises_of(step: Step, rig: Rig, index: Index, made_live: frozenset[str]) -> Iterator[Premise]:
    """The premises of a step; `made_live` are the circuits that are fed by other sources than those of the profile."""
    of = _PREMISES.get(step.action.__class__)
    if of is not None and not step.broken:
        yield from of(step, step.action, rig, index, made_live)


def without_caller(procedure: Procedure, others: Iterable[Procedure]) -> Premise | None:
    """The first state that a procedure expects, where none brings the vehicle there.

    That is one that performs it, or one with an end that names it as its repair and leaves what it expects.
    """
    asked = {circuit: word for circuit, word in procedure.expects if word != "live"}
    if not asked:
        return None
    for other in others:
        if other.id != procedure.id:
            if any(
                isinstance(step.action, actions.Perform) and step.action.procedure == procedure.id
                for step in other.steps
            ):
                return None
            for end in other.conclusions.values():
                left = {**dict(other.leaves), **dict(end.leaves)}
                known = (
                    STATES.index(left.get(circuit, "live")) >= STATES.index(word) for circuit, word in asked.items()
                )
                if procedure.id in end.repair and all(known):
                    return None
    circuit, word = next(iter(asked.items()))
    return Premise("performed", ("expects",), word, circuit, circuit)


def _of_measurement(
    step: Step, measured: actions.Measure, rig: Rig, index: Index, made_live: frozenset[str]
) -> Iterator[Premise]:
    at = (*step.at, "between")
    if measured.quantity in READ_WITHOUT_SUPPLY:
        yield from _not_fed(measured, at, rig, index)
    elif measured.quantity == "insulation resistance" or measured.test_voltage is not None:
        yield from _of_test(measured, at, rig, index)
    elif measured.quantity == "voltage" and expects_voltage(measured.limit):
        yield from _possible(measured, at, rig, index, made_live)


def expects_voltage(limit: Limit | None) -> bool:
    """Whether only a reading above zero is right."""
    if limit is None:
        return False
    return any(value is not None and value.si > 0 for value in (limit.low, limit.nominal))


def probed(pairs: Iterable[actions.Pair], rig: Rig) -> dict[str, Contact]:
    """The circuits at the pins of some pairs, each with the first contact that belongs to it."""
    found: dict[str, Contact] = {}
    for pair in pairs:
        for contact in pair:
            for circuit in rig.circuits_at(contact):
                found.setdefault(circuit, contact)
    return found


def _own_piece(contact: Contact, index: Index) -> int:
    """The plug behind which a contact is a piece of its own when it is out."""
    return index[contact.connector] if contact.side == "device" else 0


def _not_fed(measured: actions.Measure, at: At, rig: Rig, index: Index) -> Iterator[Premise]:
    for circuit, contact in probed(measured.pairs, rig).items():
        if rig.known(circuit).category == "low":
            make = partial(Premise, "pin not fed", at, str(contact), circuit, circuit)
            for source in _feeding(rig.vehicle.circuits[circuit]):
                for off, _ in _one_of_each(source, index):
                    yield make(off=off | _own_piece(contact, index), modes=QUIET_MODES)


def _of_test(measured: actions.Measure, at: At, rig: Rig, index: Index) -> Iterator[Premise]:
    voltage = measured.test_voltage
    if voltage is None:
        yield Premise("voltage said", (*at[:-1], "measure"), measured.what, "", "")
    for circuit, contact in probed(measured.pairs, rig).items():
        known, name, own = rig.known(circuit), str(contact), _own_piece(contact, index)
        monitor = known.circuit.monitor
        if known.category == "class B" and monitor is not None and monitor.kind != "none":
            for off, modes in _one_of_each(monitor, index):
                yield Premise("monitor off", at, name, circuit, circuit, off=off | own, modes=modes)
        if voltage is not None and voltage.si > HIGHEST_AT_POWER and known.category == "power":
            plug = index[contact.connector]
            yield Premise("power apart", at, name, contact.connector, circuit, off=plug)
        if voltage is not None:
            yield from _stood(circuit, contact, voltage.si, at, rig, index)


def _stood(circuit: str, contact: Contact, volts: Fraction, at: At, rig: Rig, index: Index) -> Iterator[Premise]:
    """Every part that is joined to the pins stands the test. A sealed battery is apart once its circuit is isolated."""
    is_low, ratings = rig.known(circuit).category == "low", _ratings(rig)
    for part in rig.vehicle.parts.values():
        is_tested = contact.side == "device" and contact.connector in part.connectors
        if not is_tested and (circuit not in part.circuits or part.sealed):
            continue
        highest = ratings[part.id]
        if (highest is None and not is_low) or (highest is not None and highest >= volts):
            continue
        make = partial(Premise, "rating known" if highest is None else "test stood", at, str(contact), part.id, circuit)
        if is_tested:
            yield make()
            continue
        plugs = [plug for plug in part.connectors if circuit in rig.circuits_at(Contact(plug))]
        apart = index[part.id] | _own_piece(contact, index)
        yield from (make(off=index[plug] | apart) for plug in plugs)
        if not plugs:
            yield make(off=apart)


@lru_cache(maxsize=8)
def _ratings(rig: Rig) -> Mapping[str, Fraction | None]:
    """What each part stands, in volts."""
    parts = rig.vehicle.parts.values()
    return {part.id: part.highest_test_voltage.si if part.highest_test_voltage else None for part in parts}


def _possible(
    measured: actions.Measure, at: At, rig: Rig, index: Index, made_live: frozenset[str]
) -> Iterator[Premise]:
    """Something feeds the pins. Where any other source could be meant, nothing is said."""
    sealed = {plug for part in rig.vehicle.parts.values() if part.sealed for plug in part.connectors}
    contacts = [contact for pair in measured.pairs for contact in pair if not contact.is_chassis]
    if any(one.side == "device" or one.connector in sealed or not rig.circuits_at(one) for one in contacts):
        return
    circuits = probed(measured.pairs, rig)
    fed: list[tuple[Away, ...]] = []
    for name in circuits:
        circuit = rig.vehicle.circuits[name]
        if circuit.energy != "electrical" or circuit.rotation is not None or name in made_live or not circuit.sources:
            return
        fed += (tuple(_aways(source, name, rig, index)) for source in _feeding(circuit))
    if fed:
        name, contact = next(iter(circuits.items()))
        yield Premise("voltage possible", at, str(contact), name, name, fed=tuple(fed))


def _aways(source: Source, circuit: str, rig: Rig, index: Index) -> Iterator[Away]:
    """The ways that surely take a source off: of a dangerous circuit those with a real break."""
    for way in source.taken_off_by:
        if not rig.known(circuit).is_dangerous or union(map(rig.point, way)) & ~rig.soft_points:
            points = union(index[point_thing(name)] for name in way if name != MODE_OFF)
            yield Away(points, MODE_OFF in way)


def _of_proof(
    step: Step, proof: actions.ProveDead, rig: Rig, index: Index, made_live: frozenset[str]
) -> Iterator[Premise]:
    """The tester is proved on a pin that is live at that time on every path."""
    for key, name in (("before", proof.proved_before), ("after", proof.proved_after)):
        contact = read_contact(name) if name is not None else None
        if name is None or contact is None or contact.connector not in rig.vehicle.connectors:
            continue
        at = (*step.at, "tester_proved", key)
        circuits = rig.circuits_at(contact)
        if not circuits:
            yield Premise("source live", at, name, "", "")
        for circuit in circuits:
            for on, modes in _always_on(rig.vehicle.circuits[circuit], index):
                yield Premise("source live", at, name, circuit, circuit, on=on, modes=modes)


def _always_on(circuit: Circuit, index: Index) -> Iterator[tuple[int, int]]:
    """Of each choice of one way for every lasting source: some point of it is closed, or the vehicle is on."""
    lasting = [source for source in _feeding(circuit) if source.at[-1] not in _AT_TIMES]
    if any(source.kind == "never" for source in lasting):
        return
    for choice in product(*(source.taken_off_by for source in lasting)):
        names = [name for way in choice for name in way]
        on = union(index[point_thing(name)] for name in names if name != MODE_OFF)
        yield on, ALL_MODES & ~QUIET_MODES if MODE_OFF in names else 0


def _of_removal(
    step: Step, removed: actions.Remove, rig: Rig, index: Index, made_live: frozenset[str]
) -> Iterator[Premise]:
    """A heavy part comes out while the vehicle stands on the ground."""
    points = rig.vehicle.isolation_points
    for number, name in enumerate(removed.parts):
        part = rig.vehicle.parts.get(name)
        if part is None or part.mass is None or part.mass.si < HEAVY:
            continue
        for circuit in rig.vehicle.circuits.values():
            if circuit.energy == "gravity":
                names = (point for source in circuit.sources for way in source.taken_off_by for point in way)
                for stand in dict.fromkeys(names):
                    if stand in points and points[stand].kind == "stand":
                        at = (*step.at, "remove", number)
                        yield Premise("balance", at, name, stand, circuit.id, on=index[point_thing(stand)])


def _feeding(circuit: Circuit) -> Iterator[Source]:
    return (source for source in circuit.sources if source.kind != "none")


def _one_of_each(source: Source, index: Index) -> Iterator[tuple[int, int]]:
    """One point of each way: the source is off where of every such choice one is open."""
    if source.kind != "points":
        yield 0, 0
        return
    for choice in product(*source.taken_off_by):
        off = union(index[point_thing(name)] for name in choice if name != MODE_OFF)
        yield off, QUIET_MODES if MODE_OFF in choice else 0


_PREMISES: Mapping[type, Callable[[Step, Any, Rig, Index, frozenset[str]], Iterator[Premise]]] = {
    actions.Measure: _of_measurement,
    actions.ProveDead: _of_proof,
    actions.Remove: _of_removal,
}
