"""The page of a vehicle: what its profile says, and the procedures there are for it."""

from collections.abc import Iterator

from markupsafe import Markup

from ..manual import Manual
from ..model.procedure import Procedure
from ..model.vehicle import Circuit, Connector, Fastener, IsolationPoint, Part, Source, Stored, Vehicle
from ..pictures.album import Album
from .body import Body, Crumb, Heading, SearchRecord
from .briefing_link import briefing_url, has_briefing
from .energy_page import energy_entry, review_entry
from .faults import fault_notes
from .layout import Card, Cell, Entry, Group, Row, Table
from .naming import Naming, lower
from .photos import photo_figure
from .show import both, capital, lead_words, plain, screws
from .states import States
from .step_rows import condition_words
from .templating import link, render

#: The order in which kinds of procedure are listed: what comes first in a job comes first.
KIND_ORDER = (
    "isolation",
    "making safe",
    "return to service",
    "diagnosis",
    "repair",
    "replacement",
    "maintenance",
    "inspection",
)


def vehicle_body(vehicle: Vehicle, folder: str, manual: Manual, states: States | None = None) -> Body:
    """The body of a vehicle's page, with a record for the search for each element that has a name."""
    naming = Naming(vehicle, manual.workshop, here="")
    groups = tuple(
        group
        for group in _groups(vehicle, folder, manual, naming, states or States(manual))
        if group.links or group.table or group.cards
    )
    lead = "Vehicle profile"
    if vehicle.built:
        lead += f" · built {vehicle.built.first} to {vehicle.built.last or 'today'}"
    html = render(
        "vehicle",
        vehicle=vehicle,
        lead=lead,
        groups=groups,
        faults=fault_notes(manual, vehicle.file),
        photo=photo_figure(vehicle.photo, folder, vehicle.name, manual.album),
    )
    toc = [Heading(2, group.anchor, group.heading) for group in groups]
    return Body(
        html=html,
        toc=tuple(toc),
        search=tuple(_search(vehicle, folder)),
        crumbs=(Crumb("Vehicles", "vehicles.html"), Crumb(vehicle.name, None)),
    )


def procedures_of(folder: str, manual: Manual) -> list[Procedure]:
    """The procedures of a vehicle, isolation first."""
    order = {kind: index for index, kind in enumerate(KIND_ORDER)}
    own = [procedure for procedure in manual.procedures.values() if procedure.folder == folder]
    return sorted(own, key=lambda one: (order.get(one.kind, len(order)), one.title))


def entry(procedure: Procedure, base: str) -> Entry:
    """A link to a procedure from a page that reaches the root of the site by `base`."""
    note = ", ".join((capital(procedure.kind), *procedure.trouble_codes))
    return Entry(f"{base}{procedure.id}.html", procedure.title, note)


def _groups(vehicle: Vehicle, folder: str, manual: Manual, naming: Naming, states: States) -> Iterator[Group]:
    album = manual.album
    yield Group("Procedures", "procedures", tuple(entry(one, "../") for one in procedures_of(folder, manual)))
    energy = (energy_entry(), review_entry()) if vehicle.circuits else ()
    yield Group("Energy map and review", "energy-map", energy)
    yield Group("Safety briefings", "briefings", tuple(_briefings(folder, manual, states)))
    yield Group("To read", "to-read", tuple(_free_pages(folder, manual)))
    yield Group("Circuits", "circuits", cards=tuple(_circuit(item, naming) for item in vehicle.circuits.values()))
    yield Group(
        "Isolation points",
        "isolation-points",
        cards=tuple(_point(item, naming, _photo(item, folder, album)) for item in vehicle.isolation_points.values()),
    )
    yield Group(
        "Connectors",
        "connectors",
        cards=tuple(_connector(item, naming, _photo(item, folder, album)) for item in vehicle.connectors.values()),
    )
    parts = tuple(_part(item, naming, _photo(item, folder, album)) for item in vehicle.parts.values())
    yield Group("Parts", "parts", cards=parts)
    yield Group("Fasteners", "fasteners", table=fastener_table(vehicle, naming))
    yield Group("Cables", "cables", table=_cables(vehicle, naming))
    yield Group("Data buses", "buses", table=_buses(vehicle, naming))
    yield Group("Trouble codes", "codes", table=_codes(vehicle))
    yield Group("Variants", "variants", table=_variants(vehicle))


def _briefings(folder: str, manual: Manual, states: States) -> Iterator[Entry]:
    for one in procedures_of(folder, manual):
        if has_briefing(one, manual, states):
            yield Entry(f"../{briefing_url(one)}", one.title, "sources, isolation, wait, proof, protection")


def _free_pages(folder: str, manual: Manual) -> Iterator[Entry]:
    """The free pages that lie in the folder of the vehicle, under the addresses that MkDocs gives them."""
    top = f"procedures/{folder}/"
    for file, page in manual.pages.items():
        if file.startswith(top):
            yield Entry(page.url.removeprefix(f"{folder}/"), page.title)


def _table(head: tuple[str, ...], rows: list[Row]) -> Table | None:
    return Table(head, tuple(rows)) if rows else None


def _circuit(circuit: Circuit, naming: Naming) -> Card:
    rows: list[tuple[str, Cell]] = [("Energy", capital(circuit.energy))]
    if circuit.voltage:
        voltage = circuit.voltage
        words = [voltage.kind.upper()]
        if voltage.nominal:
            words.append(f"{plain(voltage.nominal)} nominal")
        words.append(f"{plain(voltage.max)} at most" if voltage.max else "highest voltage not known")
        rows.append(("Voltage", ", ".join(words) + (" (voltage class B)" if circuit.is_class_b else "")))
    rows += [(f"Source: {source.called or source.name}", _source(source, naming)) for source in circuit.sources]
    if circuit.rotation:
        turning = circuit.rotation
        rows.append(
            (
                "When turned",
                f"with the {turning.turns_with}: {plain(turning.constant)}"
                + (f", at most {plain(turning.at_most)}" if turning.at_most else ""),
            )
        )
    if circuit.monitor:
        rows.append(("Insulation monitor", _source(circuit.monitor, naming)))
    if circuit.stored:
        rows += _stored(circuit.stored)
    for point in circuit.dead_at:
        access = Markup(" (behind {})").format(naming.link(point.access)) if point.access else ""
        rows.append(("Proved dead between", Markup("{}{}").format(naming.pair(point.pair), access)))
    rows += [(f"Safe: {key.replace('_', ' ')}", both(limit)) for key, limit in circuit.safe]
    if circuit.sealed_in:
        rows.append(("Sealed in", naming.link(circuit.sealed_in)))
    if circuit.location:
        rows.append(("Where", circuit.location))
    return Card(circuit.id, circuit.name, tuple(rows))


def _stored(stored: Stored) -> Iterator[tuple[str, Cell]]:
    """What the circuit keeps; what the author asked for and did not get is said too."""
    for label, key in (
        ("Capacitance", "capacitance"),
        ("Bleed resistance", "bleed"),
        ("To chassis", "to_chassis"),
        ("Waiting time stated", "stated_wait"),
    ):
        if value := getattr(stored, key):
            yield label, plain(value)
        elif key in stored.not_known:
            yield label, "not published by the maker"
        elif key in stored.none:
            yield label, "none: nothing discharges it by itself" if key == "bleed" else "none"


def _source(source: Source, naming: Naming) -> Cell:
    if source.kind == "none":
        return "none"
    if source.kind == "never":
        return "nothing takes it off"
    ways = [naming.links(way) for way in source.taken_off_by]
    return Markup("taken off by {}").format(Markup("; or by ").join(ways))


def _photo(item: IsolationPoint | Connector | Part, folder: str, album: Album) -> Markup:
    return photo_figure(item.photo, folder, item.name, album)


def _point(point: IsolationPoint, naming: Naming, photo: Markup) -> Card:
    rows: list[tuple[str, Cell]] = [("Kind", capital(point.kind))]
    if point.location:
        rows.append(("Where", point.location))
    if point.breaks:
        rows.append(("Breaks", point.breaks))
    live = [f"{place.place}{', ' + plain(place.voltage) if place.voltage else ''}" for place in point.leaves_live]
    rows.append(("Stays live at it", Markup("<strong>{}</strong>").format("; ".join(live)) if live else "nothing"))
    if point.first:
        rows.append(("First", naming.links(point.first)))
    if point.only_when:
        rows.append(("Only while", condition_words(point.only_when, naming)))
    rows.append(("Secured by", point.secure_with or "cannot be secured"))
    return Card(point.id, point.name, tuple(rows), photo=photo)


def _connector(connector: Connector, naming: Naming, photo: Markup) -> Card:
    rows: list[tuple[str, Cell]] = []
    if connector.location:
        rows.append(("Where", connector.location))
    if connector.halves:
        rows.append(("Halves", f"device: {connector.halves[0]}; cable: {connector.halves[1]}"))
    pins = []
    for pin in connector.pins.values():
        circuit = naming.link(pin.device_circuit) if pin.device_circuit else "none"
        if pin.device_circuit != pin.cable_circuit:
            circuit = Markup("device: {}; cable: {}").format(
                circuit, naming.link(pin.cable_circuit) if pin.cable_circuit else "none"
            )
        bus = naming.vehicle.buses.get(pin.bus) if naming.vehicle and pin.bus else None
        wire = ", ".join(filter(None, (pin.colour, plain(pin.area))))
        pins.append(Row((pin.number, pin.signal, circuit if bus is None else bus.name, wire)))
    return Card(
        connector.id, f"{connector.id} {connector.name}", tuple(rows), connector_face(connector),
        _table(("Pin", "Signal", "Circuit or bus", "Wire"), pins), photo, connector.id,
    )  # fmt: skip


def connector_face(connector: Connector) -> Markup:
    """The pins as they lie, seen from the mating side."""
    if not connector.face:
        return Markup("")
    rows = Markup("").join(
        Markup('<span class="bl-face-row">{}</span>').format(
            Markup("").join(Markup('<span class="bl-face-pin">{}</span>').format(pin) for pin in row)
        )
        for row in connector.face
    )
    seen = lower(connector.seen_from or "the mating side of the cable half")
    return Markup(
        '<figure class="bl-face" tabindex="0" aria-label="Pins seen from {}">{}'
        "<figcaption>Seen from {}</figcaption></figure>"
    ).format(seen, rows, seen)


def _part(part: Part, naming: Naming, photo: Markup) -> Card:
    rows: list[tuple[str, Cell]] = []
    if part.location:
        rows.append(("Where", part.location))
    if part.circuits:
        rows.append(("Circuits", naming.links(part.circuits)))
    if part.exposes:
        rows.append(("Bare when it is off", naming.links(part.exposes)))
    if part.sealed:
        rows.append(("Sealed", "never opened in the bay"))
    if part.connectors:
        rows.append(("Connectors", naming.links(part.connectors)))
    if part.mass:
        rows.append(("Mass", both(part.mass)))
    if part.highest_test_voltage:
        rows.append(("Highest test voltage", plain(part.highest_test_voltage)))
    for number in part.numbers:
        notes = [
            number.price,
            lead_words(number.lead_time),
            number.seen and f"asked {number.seen}",
        ]
        text = f"{number.number}" + (f" (replaces {', '.join(number.replaces)})" if number.replaces else "")
        rows.append(("Number", ", ".join((text, *(note for note in notes if note)))))
    return Card(part.id, part.name, tuple(rows), photo=photo)


def torque_source(fastener: Fastener) -> str:
    """How a rule computes the torque, with its source."""
    done = fastener.torque_by.computed if fastener.torque_by is not None else None
    return f"{done.words} ({done.source})" if done is not None else ""


def fastener_table(vehicle: Vehicle, naming: Naming) -> Table | None:
    """All fasteners of a vehicle with their torques."""
    rows = []
    for item in vehicle.fasteners.values():
        holds = (
            naming.link(item.part)
            if item.part
            else naming.link(item.point)
            if item.point
            else Markup(", ").join(naming.contact(contact) for contact in item.terminal)
        )
        torque = both(item.torque) + (f", then turn {plain(item.then_turn)}" if item.then_turn else "")
        notes = [
            item.order,
            item.one_use and "use new ones",
            item.yields and "tightened into yield",
            item.into and f"into {item.into}",
            torque_source(item),
        ]
        rows.append(Row((
            naming.plain(item.id), holds, screws(item),
            Markup('<strong class="bl-figure">{}</strong>').format(torque), "; ".join(note for note in notes if note),
        ), item.id))  # fmt: skip
    return _table(("Fastener", "Holds", "Thread", "Torque", "Note"), rows)


def _cables(vehicle: Vehicle, naming: Naming) -> Table | None:
    rows = [
        Row((
            cable.name, naming.link(cable.circuit) if cable.circuit else "none",
            naming.pair(cable.between) if cable.between else "",
            both(cable.area), both(cable.length), cable.location or "",
        ), cable.id)
        for cable in vehicle.cables.values()
    ]  # fmt: skip
    return _table(("Cable", "Circuit", "Between", "Cross-section", "Length", "Where"), rows)


def _buses(vehicle: Vehicle, naming: Naming) -> Table | None:
    rows = [
        Row((bus.name, bus.kind, plain(bus.rate), naming.links(bus.terminated_in)), bus.id)
        for bus in vehicle.buses.values()
    ]
    return _table(("Bus", "Kind", "Bit rate", "Terminated in"), rows)


def _codes(vehicle: Vehicle) -> Table | None:
    rows = [
        Row((link(f"../codes.html#{code.code}", code.code), code.means, code.fault or ""), code.code)
        for code in vehicle.codes.values()
    ]
    return _table(("Code", "Meaning", "Announces"), rows)


def _variants(vehicle: Vehicle) -> Table | None:
    rows = []
    for variant in vehicle.variants.values():
        years = f"{variant.built.first} to {variant.built.last or 'today'}" if variant.built else ""
        rows.append(Row((variant.name, years, variant.told_by or ""), variant.id))
    return _table(("Variant", "Built", "Told by"), rows)


def _search(vehicle: Vehicle, folder: str) -> Iterator[SearchRecord]:
    page = f"{folder}/vehicle.html"
    yield SearchRecord(page, vehicle.name, "vehicle", (vehicle.id, vehicle.name), vehicle.about or "")
    for kind, section in (("circuit", vehicle.circuits), ("isolation point", vehicle.isolation_points)):
        for name, item in section.items():
            yield SearchRecord(
                f"{page}#{name}", f"{item.name}, {vehicle.name}", kind, (name, item.name), item.location or ""
            )
    for name, connector in vehicle.connectors.items():
        pins = tuple(f"{name}/{number}" for number in connector.pins)
        signals = " ".join(pin.signal for pin in connector.pins.values())
        title = f"{name} {connector.name}, {vehicle.name}"
        yield SearchRecord(f"{page}#{name}", title, "connector", (name, connector.name, *pins), signals)
    for name, part in vehicle.parts.items():
        numbers = tuple(text for number in part.numbers for text in (number.number, *number.replaces))
        yield SearchRecord(
            f"{page}#{name}",
            f"{part.name}, {vehicle.name}",
            "part",
            (name, part.name, *numbers),
            part.location or "",
        )
    for kind, items in (
        ("fastener", vehicle.fasteners),
        ("cable", vehicle.cables),
        ("data bus", vehicle.buses),
    ):
        for name, element in items.items():
            words = both(getattr(element, "torque", None)) + f" {getattr(element, 'size', None) or ''}"
            yield SearchRecord(f"{page}#{name}", f"{element.name or name}, {vehicle.name}", kind, (name,), words)
