"""Which names of the vehicle profile a file uses, what is meant by each, and where it stands."""

from collections.abc import Iterable, Iterator
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

#: A name or contact, what is meant by it (a word of `_meant.MEANT`), and its path.
Use = tuple[str | Contact, str, Path]

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
    actions.Tighten: (("fasteners", "tighten", "fastener"),),
    actions.Drain: (("circuit", "drain", "circuit"),),
    actions.Fill: (("circuit", "fill", "circuit"),),
    actions.OpenValve: (("what", "open", "valve"),),
    actions.CloseValve: (("what", "close", "valve"),),
    actions.FitTemporary: (("where", "at", "what is touched"),),
    actions.Wait: (("what_for", "for", "what a wait is for"),),
    actions.ProveDead: (("circuit", "prove_dead", "circuit"),),
    actions.ProveSafe: (("circuit", "prove_safe", "circuit"),),
    actions.Measure: (("around", "around", "cable"), ("where", "at", "what is touched")),
    actions.Command: (("energises", "energises", "circuit"),),
    actions.Energise: (("circuits", "energise", "circuit"),),
    actions.Discharge: (("circuit", "discharge", "circuit"),),
}

_CONDITIONS = (
    ("unplugged", "connector"), ("plugged", "connector"), ("open", "isolation point"),
    ("closed", "isolation point"), ("removed", "part"), ("fitted", "part"),
)  # fmt: skip

_ON_NOTHING = ("nothing",)


def uses_of_step(step: Step) -> list[Use]:
    """The names that a step uses. Written for speed: it is asked for every step of a manual."""
    action, at = step.action, step.at
    uses: list[Use] = []
    if not getattr(action, "described", False):
        for field, key, meant in _NAMES.get(action.__class__, ()):
            _add(uses, getattr(action, field), meant, (*at, key))
    pairs = getattr(action, "pairs", ())
    if pairs:
        _add_pairs(uses, pairs, (*at, "between"))
    if action.__class__ is actions.ProveDead:
        uses += _proving_contacts(action, at)
    elif action.__class__ is actions.FitTemporary and action.joins is not None:
        _add_pair(uses, action.joins, (*at, "joins"))
    if step.on and step.on != _ON_NOTHING:
        _add(uses, step.on, "what is touched", (*at, "on"))
    if step.when is not None:
        _add_conditions(uses, step.when)
    if step.only_for:
        _add(uses, step.only_for, "variant", (*at, "only_for"))
    return uses


def _add(uses: list[Use], names: tuple[str, ...] | str | None, meant: str, at: Path) -> None:
    """One name, or several; a list of one is marked as a whole, since it may be no list in the file."""
    if not names:
        return
    if names.__class__ is str:
        uses.append((names, meant, at))  # type: ignore[arg-type]
    elif len(names) == 1:
        uses.append((names[0], meant, at))
    else:
        uses += [(name, meant, (*at, index)) for index, name in enumerate(names)]


def _add_pairs(uses: list[Use], pairs: tuple[Pair, ...], at: Path) -> None:
    """One pair stands without a list around it, as a rule."""
    if len(pairs) == 1:
        _add_pair(uses, pairs[0], at)
    else:
        for index, pair in enumerate(pairs):
            _add_pair(uses, pair, (*at, index))


def _add_pair(uses: list[Use], pair: Pair, at: Path) -> None:
    uses += [(pair[0], "contact", (*at, 0)), (pair[1], "contact", (*at, 1))]


def _add_conditions(uses: list[Use], conditions: Conditions) -> None:
    for field, meant in _CONDITIONS:
        _add(uses, getattr(conditions, field), meant, (*conditions.at, field))


def _proving_contacts(action: actions.ProveDead, at: Path) -> Iterator[Use]:
    """The pins on which the tester is proved; proving units belong to the workshop, not to the vehicle."""
    places = {action.proved_after: "after", action.proved_before: "before"}
    for text, key in places.items():
        contact = read_contact(text) if text is not None else None
        if contact is not None and contact.pin is not None:
            yield contact, "contact", (*at, "tester_proved", key)


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
        uses += [(circuit, "circuit", (key, circuit)) for circuit, _ in getattr(procedure, key)]
    uses += [(needed.part, "part to order", (*needed.at, "part")) for needed in procedure.parts if needed.part]
    for end in procedure.conclusions.values():
        if not end.broken:
            _add(uses, end.parts, "part to order", (*end.at, "part"))
            _add(uses, end.stays_off, "what stays off", (*end.at, "stays_off"))
            uses += [(circuit, "circuit", (*end.at, "leaves", circuit)) for circuit, _ in end.leaves]
    return uses


@uses_of.register
def _(record: Record) -> Iterable[Use]:
    uses: list[Use] = []
    _add(uses, record.variant, "variant", ("variant",))
    uses += [(fitted.part, "part to order", (*fitted.at, "part")) for fitted in record.fitted if fitted.part]
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
                _add_conditions(uses, point.only_when)
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
        _add_pair(uses, test_point.pair, (*test_point.at, "pair"))
        _add(uses, test_point.access, "part", (*test_point.at, "access"))
    _add(uses, circuit.sealed_in, "part", (*circuit.at, "sealed_in"))


def _add_source(uses: list[Use], source: Source) -> None:
    for way, points in enumerate(source.taken_off_by):
        at = (*source.at, "taken_off_by", way)
        uses += [(point, "isolation point", (*at, index)) for index, point in enumerate(points)]


def _add_connector(uses: list[Use], connector: Connector) -> None:
    for pin in connector.pins.values():
        _add(uses, pin.bus, "bus", (*pin.at, "bus"))
        if pin.device_circuit == pin.cable_circuit:
            _add(uses, pin.device_circuit, "circuit", (*pin.at, "circuit"))
        else:
            _add(uses, pin.device_circuit, "circuit", (*pin.at, "circuit", "device"))
            _add(uses, pin.cable_circuit, "circuit", (*pin.at, "circuit", "cable"))
    for row, numbers in enumerate(connector.face):
        at = (*connector.at, "face", "rows", row)
        uses += [(Contact(connector.id, pin), "contact", (*at, i)) for i, pin in enumerate(numbers)]


def _add_small_elements(uses: list[Use], vehicle: Vehicle) -> None:
    for cable in vehicle.cables.values():
        if not cable.broken:
            _add(uses, cable.circuit, "circuit", (*cable.at, "circuit"))
            if cable.between is not None:
                _add_pair(uses, cable.between, (*cable.at, "between"))
    for bus in vehicle.buses.values():
        if not bus.broken:
            _add(uses, bus.terminated_in, "part", (*bus.at, "terminated_in"))
    for fastener in vehicle.fasteners.values():
        if not fastener.broken:
            _add(uses, fastener.part, "part", (*fastener.at, "part"))
            _add(uses, fastener.point, "isolation point", (*fastener.at, "point"))
            at = (*fastener.at, "terminal")
            single = len(fastener.terminal) == 1
            uses += [
                (contact, "contact", at if single else (*at, index)) for index, contact in enumerate(fastener.terminal)
            ]
