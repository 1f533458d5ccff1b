"""Which names of the vehicle profile a file uses, what is meant by each, and where it stands."""

from collections.abc import Iterable
from functools import singledispatch
from typing import Any

from ...diagnostics.place import Path
from ...model import actions
from ...model.actions import Pair
from ...model.common import Conditions
from ...model.contact import Contact, read_contact
from ...model.procedure import Procedure, Step
from ...model.record import Record
from ...model.vehicle import Circuit, Connector, Source, Vehicle

#: What a file names in one place: names (or contacts), what is meant by them (a word of `_meant.MEANT`), and the
#: path. The path of a single name is that of its place; of several, each stands at its index there.
Use = tuple[tuple[str, ...] | tuple[Contact, ...], str, Path]

#: Actions that name something: (field of the action, key of the file, what is meant).
_NAMES: dict[type[Any], tuple[tuple[str, str, str], ...]] = {
    actions.Disconnect: (("points", "disconnect", "point opened by hand"),),
    actions.Reconnect: (("points", "reconnect", "point opened by hand"),),
    actions.Secure: (("points", "secure", "point opened by hand"),),
    actions.Release: (("points", "release", "point opened by hand"),),
    actions.Unplug: (("connectors", "unplug", "connector"),),
    actions.Plug: (("connectors", "plug", "connector"),),
    actions.Remove: (("parts", "remove", "part"),),
    actions.Refit: (("parts", "refit", "part"),),
    actions.Loosen: (("fasteners", "loosen", "what is loosened"),),
    actions.Drain: (("circuit", "drain", "circuit"),),
    actions.Fill: (("circuit", "fill", "circuit"),),
    actions.OpenValve: (("what", "open", "valve"),),
    actions.CloseValve: (("what", "close", "valve"),),
    actions.FitTemporary: (("where", "at", "what is touched"),),
    actions.Wait: (("what_for", "for", "what a wait is for"),),
    actions.ProveDead: (("circuit", "prove_dead", "circuit"),),
    actions.ProveSafe: (("circuit", "prove_safe", "circuit"),),
    actions.Measure: (("around", "around", "cable"), ("where", "at", "what is touched")),
    actions.Read: (("origin", "from", "unit that is asked"),),
    actions.Command: (("to", "to", "unit that is asked"), ("energises", "energises", "circuit")),
    actions.Energise: (("circuits", "energise", "circuit"),),
    actions.Discharge: (("circuit", "discharge", "circuit"),),
}

_CONDITIONS = (
    ("unplugged", "connector"), ("plugged", "connector"), ("open", "isolation point"),
    ("closed", "isolation point"), ("removed", "part"), ("fitted", "part"),
)  # fmt: skip

_MEASURES = frozenset({actions.ProveDead, actions.Measure, actions.Discharge})
_ON_NOTHING = ("nothing",)


def uses_of_step(step: Step) -> list[Use]:
    """The names that a step uses; paths begin at the step. Written for speed: every step of a manual is asked."""
    action = step.action
    kind = action.__class__
    uses: list[Use] = []
    for field, key, meant in _NAMES.get(kind, ()):
        _add(uses, getattr(action, field), meant, (key,))
    if kind in _MEASURES:
        _add_pairs(uses, action.pairs, ("between",))  # type: ignore[union-attr]
        if kind is actions.ProveDead:
            _add_proving_pins(uses, action)  # type: ignore[arg-type]
    elif kind is actions.Tighten and not action.described:  # type: ignore[union-attr]
        _add(uses, action.fasteners, "fastener", ("tighten",))  # type: ignore[union-attr]
    elif kind is actions.FitTemporary and action.joins is not None:  # type: ignore[union-attr]
        uses.append((action.joins, "contact", ("joins",)))  # type: ignore[union-attr]
    if step.on and step.on != _ON_NOTHING:
        uses.append((step.on, "what is touched", ("on",)))
    if step.when is not None:
        _add_conditions(uses, step.when, ("when",))
    if step.only_for:
        uses.append((step.only_for, "variant", ("only_for",)))
    return uses


def _add(uses: list[Use], names: tuple[str, ...] | str | None, meant: str, at: Path) -> None:
    if names:
        uses.append(((names,) if names.__class__ is str else names, meant, at))  # type: ignore[arg-type]


def _add_pairs(uses: list[Use], pairs: tuple[Pair, ...], at: Path) -> None:
    """One pair stands without a list around it, as a rule."""
    if len(pairs) == 1:
        uses.append((pairs[0], "contact", at))
    else:
        uses += [(pair, "contact", (*at, index)) for index, pair in enumerate(pairs)]


def _add_conditions(uses: list[Use], conditions: Conditions, at: Path) -> None:
    for field, meant in _CONDITIONS:
        names = getattr(conditions, field)
        if names:
            uses.append((names, meant, (*at, field)))


def _add_proving_pins(uses: list[Use], action: actions.ProveDead) -> None:
    """The pins on which the tester is proved; proving units belong to the workshop, not to the vehicle."""
    places = {action.proved_after: "after", action.proved_before: "before"}
    for text, key in places.items():
        contact = read_contact(text) if text is not None else None
        if contact is not None and contact.pin is not None:
            uses.append(((contact,), "contact", ("tester_proved", key)))


@singledispatch
def uses_of(model: Any) -> Iterable[Use]:
    """The names that a file uses outside of steps. Elements that could not be read are passed over."""
    return ()


@uses_of.register
def _(procedure: Procedure) -> Iterable[Use]:
    uses: list[Use] = []
    _add(uses, procedure.system, "system", ("system",))
    _add(uses, procedure.variants, "variant", ("applies", "variants"))
    _add(uses, procedure.stays_off, "what stays off", ("stays_off",))
    for key in ("expects", "leaves"):
        uses += [((circuit,), "circuit", (key, circuit)) for circuit, _ in getattr(procedure, key)]
    for needed in procedure.parts:
        _add(uses, needed.part, "part to order", (*needed.at, "part"))
    for end in procedure.conclusions.values():
        if not end.broken:
            _add(uses, end.parts, "part to order", (*end.at, "part"))
            _add(uses, end.stays_off, "what stays off", (*end.at, "stays_off"))
            uses += [((circuit,), "circuit", (*end.at, "leaves", circuit)) for circuit, _ in end.leaves]
    return uses


@uses_of.register
def _(record: Record) -> Iterable[Use]:
    uses: list[Use] = []
    _add(uses, record.variant, "variant", ("variant",))
    for fitted in record.fitted:
        _add(uses, fitted.part, "part to order", (*fitted.at, "part"))
    return uses


@uses_of.register
def _(vehicle: Vehicle) -> Iterable[Use]:
    uses: list[Use] = []
    for circuit in vehicle.circuits.values():
        if not circuit.broken:
            _add_circuit(uses, circuit)
    for point in vehicle.isolation_points.values():
        if not point.broken:
            _add(uses, point.first, "isolation point", (*point.at, "first"))
            if point.only_when is not None:
                _add_conditions(uses, point.only_when, (*point.at, "only_when"))
    for connector in vehicle.connectors.values():
        if not connector.broken:
            _add_connector(uses, connector)
    for part in vehicle.parts.values():
        if not part.broken:
            _add(uses, part.circuits, "circuit", (*part.at, "circuits"))
            _add(uses, part.exposes, "circuit", (*part.at, "exposes"))
            _add(uses, part.connectors, "connector", (*part.at, "connectors"))
    _add_small_elements(uses, vehicle)
    return uses


def _add_circuit(uses: list[Use], circuit: Circuit) -> None:
    for source in (*circuit.sources, circuit.monitor):
        if source is not None:
            _add_source(uses, source)
    for test_point in circuit.dead_at:
        uses.append((test_point.pair, "contact", (*test_point.at, "pair")))
        _add(uses, test_point.access, "part", (*test_point.at, "access"))
    _add(uses, circuit.sealed_in, "part", (*circuit.at, "sealed_in"))
    _add(uses, circuit.joined_with, "circuit", (*circuit.at, "joined_with"))


def _add_source(uses: list[Use], source: Source) -> None:
    for way, points in enumerate(source.taken_off_by):
        _add(uses, points, "isolation point", (*source.at, "taken_off_by", way))


def _add_connector(uses: list[Use], connector: Connector) -> None:
    for pin in connector.pins.values():
        _add(uses, pin.bus, "bus", (*pin.at, "bus"))
        if pin.device_circuit == pin.cable_circuit:
            _add(uses, pin.device_circuit, "circuit", (*pin.at, "circuit"))
        else:
            _add(uses, pin.device_circuit, "circuit", (*pin.at, "circuit", "device"))
            _add(uses, pin.cable_circuit, "circuit", (*pin.at, "circuit", "cable"))
    for row, numbers in enumerate(connector.face):
        contacts = tuple(Contact(connector.id, pin) for pin in numbers)
        uses.append((contacts, "contact", (*connector.at, "face", "rows", row)))


def _add_small_elements(uses: list[Use], vehicle: Vehicle) -> None:
    for cable in vehicle.cables.values():
        if not cable.broken:
            _add(uses, cable.circuit, "circuit", (*cable.at, "circuit"))
            if cable.between is not None:
                uses.append((cable.between, "contact", (*cable.at, "between")))
    for bus in vehicle.buses.values():
        if not bus.broken:
            _add(uses, bus.terminated_in, "part", (*bus.at, "terminated_in"))
    for fastener in vehicle.fasteners.values():
        if not fastener.broken:
            _add(uses, fastener.part, "part", (*fastener.at, "part"))
            _add(uses, fastener.point, "isolation point", (*fastener.at, "point"))
            uses.append((fastener.terminal, "contact", (*fastener.at, "terminal")))
