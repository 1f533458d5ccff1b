"""What a vehicle profile says of one circuit, isolation point, connector or part, as a card of the vehicle's page."""

from collections.abc import Iterator

from markupsafe import Markup

from ..model.vehicle import Circuit, Connector, IsolationPoint, Part, Source, Stored
from ..pictures.album import Album
from .energy_words import live_words, stays
from .layout import Card, Cell, Row
from .naming import Naming, lower
from .photos import photo_figure
from .show import both, capital, lead_words, plain
from .step_rows import condition_words
from .vehicle_tables import table


def circuit_card(circuit: Circuit, naming: Naming) -> Card:
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


def photo_of(item: IsolationPoint | Connector | Part, folder: str, album: Album) -> Markup:
    return photo_figure(item.photo, folder, item.name, album)


def point_card(point: IsolationPoint, naming: Naming, photo: Markup) -> Card:
    rows: list[tuple[str, Cell]] = [("Kind", capital(point.kind))]
    if point.location:
        rows.append(("Where", point.location))
    if point.breaks:
        rows.append(("Breaks", point.breaks))
    live = [live_words(place, point) for place in point.leaves_live]
    rows.append(
        (f"{capital(stays(point))} at it", Markup("<strong>{}</strong>").format("; ".join(live)) if live else "nothing")
    )
    if point.first:
        rows.append(("First", naming.links(point.first)))
    if point.only_when:
        rows.append(("Only while", condition_words(point.only_when, naming)))
    rows.append(("Secured by", point.secure_with or "cannot be secured"))
    return Card(point.id, point.name, tuple(rows), photo=photo)


def connector_card(connector: Connector, naming: Naming, photo: Markup) -> Card:
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
        table(("Pin", "Signal", "Circuit or bus", "Wire"), pins), photo, connector.id,
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


def part_card(part: Part, naming: Naming, photo: Markup) -> Card:
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
