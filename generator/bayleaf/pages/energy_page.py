"""The page of a vehicle's energy map: a drawing for each circuit, and beside it the same facts in words."""

from collections.abc import Iterator
from typing import NamedTuple

from markupsafe import Markup

from ..manual import Manual
from ..model.common import MODE_OFF
from ..model.vehicle import Circuit, IsolationPoint, Source, Vehicle
from . import energy_words as words
from .body import Body, Crumb, Heading, SearchRecord
from .drawings.energy_map import energy_map
from .drawings.shapes import symbol
from .faults import fault_notes
from .layout import Cell, Entry, Row, Table
from .naming import Naming
from .show import capital
from .step_rows import condition_words
from .templating import joined, link, render

_LEGEND = (
    ("gap", "Isolation point, drawn open. Thick line: live with the source. Thin line: off while the point is open."),
    ("never", "Nothing takes it off."),
    ("turned", "Live while something turns."),
    ("unknown", "Not stated in the profile: counts as live."),
    ("live", "Stays live or under pressure, or voltage class B."),
    ("stop", "Cannot be taken off or secured, or does not count."),
    ("bar", "The circuit."),
    ("plug", "Parted at a connector."),
    ("sealed", "Sealed part, never opened."),
    ("cover", "Cover over the circuit, not part of it."),
)  # fmt: skip


class Panel(NamedTuple):
    """One circuit on the page."""

    anchor: str
    title: str
    drawing: Markup
    rows: tuple[tuple[str, Cell], ...]


class PanelGroup(NamedTuple):
    """Circuits of one class."""

    heading: str
    anchor: str
    panels: tuple[Panel, ...]


Drawn = dict[str, Markup]


def drawing_of(vehicle: Vehicle, circuit: Circuit, drawn: Drawn) -> Markup:
    """The drawing of a circuit. `drawn` keeps those of the vehicle, which stand on two of its pages."""
    if circuit.id not in drawn:
        drawn[circuit.id] = energy_map(vehicle, circuit, circuit.id)
    return drawn[circuit.id]


def energy_body(vehicle: Vehicle, folder: str, manual: Manual, drawn: Drawn | None = None) -> Body:
    """The body of the page `energy.html` beside the vehicle's page."""
    naming = Naming(vehicle, manual.workshop)
    groups = tuple(_groups(vehicle, naming, {} if drawn is None else drawn))
    points = _points(vehicle, naming)
    html = render(
        "energy", vehicle=vehicle, faults=fault_notes(manual, vehicle.file), circuits=vehicle.circuits,
        glance=tuple(_glance(vehicle, circuit) for circuit in words.by_danger(vehicle)),
        legend=tuple((symbol(kind), text) for kind, text in _LEGEND), groups=groups, points=points,
    )  # fmt: skip
    toc = []
    if vehicle.circuits:
        toc = [Heading(2, "at-a-glance", "At a glance"), Heading(2, "how-to-read-it", "How to read it")]
    for group in groups:
        toc.append(Heading(2, group.anchor, group.heading))
        toc += [Heading(3, panel.anchor, panel.title) for panel in group.panels]
    if points.rows:
        toc.append(Heading(2, "where-it-is-opened", "Where it is opened"))
    page = f"{folder}/energy.html"
    named = " ".join(circuit.name for circuit in vehicle.circuits.values())
    return Body(
        html=html,
        toc=tuple(toc),
        search=(SearchRecord(page, f"Energy map, {vehicle.name}", "energy map", ("energy map",), named),),
        crumbs=(
            Crumb("Vehicles", "vehicles.html"),
            Crumb(vehicle.name, f"{folder}/vehicle.html"),
            Crumb("Energy map", None),
        ),
    )  # fmt: skip


def _groups(vehicle: Vehicle, naming: Naming, drawn: Drawn) -> Iterator[PanelGroup]:
    for key, heading in words.GROUPS:
        circuits = [one for one in vehicle.circuits.values() if words.group_of(one) == key]
        if circuits:
            yield PanelGroup(heading, f"group--{key}", tuple(_panel(vehicle, one, naming, drawn) for one in circuits))


def _panel(vehicle: Vehicle, circuit: Circuit, naming: Naming, drawn: Drawn) -> Panel:
    rows = tuple((label, value) for label, value in _rows(vehicle, circuit, naming) if value)
    return Panel(circuit.id, circuit.name, drawing_of(vehicle, circuit, drawn), rows)


def _glance(vehicle: Vehicle, circuit: Circuit) -> Entry:
    """A line for one circuit: voltage, where it is opened, how long is waited."""
    fed = words.fed_by(circuit)
    names = dict.fromkeys(one for source in fed for way in source.taken_off_by for one in way)
    said = [words.energy_words(circuit)]
    if circuit.is_class_b:
        said.append(words.class_words(circuit))
    if names:
        said.append(f"opened at: {', '.join(words.point_words(vehicle, name) for name in names)}")
    stays = [words.source_words(source).lower() for source in fed if words.is_fixed(source)]
    stays += [f"{name} (not stated)" for name in words.unstated_sources(circuit)]
    if stays:
        said.append(f"cannot be taken off: {', '.join(stays)}")
    if circuit.rotation:
        said.append(f"live when turned with the {circuit.rotation.turns_with}")
    said += [text for text in words.stored_words(circuit) if not text.startswith(("Stores", "Stored"))]
    return Entry(f"#{circuit.id}", circuit.name, "; ".join(said))


def _rows(vehicle: Vehicle, circuit: Circuit, naming: Naming) -> Iterator[tuple[str, Cell]]:
    """The facts of the drawing, and the few that have no room in it."""
    yield "Energy", words.energy_words(circuit)
    yield "Class", words.class_words(circuit)
    for source in words.fed_by(circuit):
        yield f"From: {words.source_words(source)}", _source(source, naming)
    if circuit.rotation:
        said = "; ".join(words.turning_words(circuit.rotation))
        yield f"From: turning with the {circuit.rotation.turns_with}", f"no isolation point; {said}"
    unstated = words.unstated_sources(circuit)
    yield "Not stated", f"{', '.join(unstated)}: counts as there, and as not to be taken off" if unstated else ""
    absent = words.absent_sources(circuit)
    yield "Does not exist", ", ".join(absent)
    yield from _left(vehicle, circuit, naming)
    yield "Stored", "; ".join(words.stored_words(circuit)).removeprefix("Stored: ")
    if circuit.energy == "electrical":
        pairs = [
            naming.pair(point.pair) + (Markup(" (behind {})").format(naming.link(point.access)) if point.access else "")
            for point in circuit.dead_at
        ]
        yield "Proved dead between", joined(list(pairs), "; ") if pairs else "no point is stated"
    yield "Safe to open when", words.safe_words(circuit)
    if circuit.monitor:
        yield "Insulation monitor", _source(circuit.monitor, naming)
    elif circuit.is_class_b:
        yield "Insulation monitor", "none" if "monitor" in circuit.says else "not stated: counts as connected"
    yield "Must be locked out", "yes" if circuit.lock else ""
    yield "Sealed in", naming.link(circuit.sealed_in) if circuit.sealed_in else ""
    yield "Parts on it", joined([naming.link(part.id) for part in words.parts_on(vehicle, circuit)])
    yield "Connectors on it", joined([naming.link(one.id) for one in words.connectors_on(vehicle, circuit)])
    bare = [part.id for part in vehicle.parts.values() if circuit.id in part.exposes]
    yield "Bare when it is off", joined([naming.link(name) for name in bare])
    yield "Where", circuit.location or ""
    yield "All of it", link(f"vehicle.html#{circuit.id}", "in the vehicle profile")


def _source(source: Source, naming: Naming) -> Cell:
    if source.kind == "none":
        return "none"
    if words.is_fixed(source):
        return "cannot be taken off"
    return Markup("taken off by {}").format(joined([_together(way, naming) for way in source.taken_off_by], ", or by "))


def _together(way: tuple[str, ...], naming: Naming) -> Markup:
    return naming.links(way) + (" together" if len(way) > 1 else "")


def _left(vehicle: Vehicle, circuit: Circuit, naming: Naming) -> Iterator[tuple[str, Cell]]:
    """What stays live, or under pressure, at each isolation point of the circuit."""
    found: dict[str, list[Cell]] = {}
    names = dict.fromkeys(one for source in words.fed_by(circuit) for way in source.taken_off_by for one in way)
    for name in names:
        point = vehicle.isolation_points.get(name)
        if point and point.leaves_live:
            places = "; ".join(words.live_words(place, point) for place in point.leaves_live)
            left = Markup("at {}: <strong>{}</strong>").format(naming.link(name), places)
            found.setdefault(words.stays(point), []).append(left)
    for how, places_left in found.items():
        yield capital(how), joined(places_left, "; ")


def _points(vehicle: Vehicle, naming: Naming) -> Table:
    """The isolation points with what each takes off, and what comes before it."""
    head = ("Isolation point", "Takes off", "Before it", "Only while", "Secured by", "Where")
    rows = []
    for name, point in vehicle.isolation_points.items():
        if name != MODE_OFF:
            rows.append(Row((
                naming.link(name), _takes_off(vehicle, point),
                naming.links(point.first), condition_words(point.only_when, naming) if point.only_when else "",
                point.secure_with or "cannot be secured", point.location or "",
            )))  # fmt: skip
    return Table(head, tuple(rows))


def _takes_off(vehicle: Vehicle, point: IsolationPoint) -> Markup:
    """The circuits that a point takes a source off, alone, or only together with others."""
    found: list[Markup | str] = []
    for circuit in vehicle.circuits.values():
        for source in words.fed_by(circuit):
            own = [way for way in source.taken_off_by if point.id in way]
            if own:
                alone = any(len(way) == 1 for way in own)
                said = f"{words.source_words(source).lower()}{'' if alone else ', only together with others'}"
                found.append(Markup("{} ({})").format(link(f"#{circuit.id}", circuit.name), said))
    return joined(found, "; ") if found else Markup("nothing")


def energy_entry() -> Entry:
    """The link from the vehicle's page."""
    return Entry(
        "energy.html", "Energy map", capital("where energy comes from, where it is taken off, what stays live")
    )


def review_entry() -> Entry:
    """The link to the review of the vehicle."""
    return Entry("review.html", "Vehicle review", "All procedures that touch a dangerous circuit, side by side")
