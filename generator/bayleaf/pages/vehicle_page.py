"""The page of a vehicle: what its profile says, and the procedures there are for it."""

from collections.abc import Iterator

from ..manual import Manual
from ..model.procedure import Procedure
from ..model.vehicle import Vehicle
from .body import Body, Crumb, Heading, SearchRecord
from .briefing_link import briefing_url, has_briefing
from .energy_page import energy_entry, review_entry
from .faults import fault_notes
from .layout import Entry, Group
from .naming import Naming
from .photos import photo_figure
from .show import both, capital
from .states import States
from .templating import render
from .vehicle_cards import circuit_card, connector_card, part_card, photo_of, point_card
from .vehicle_tables import bus_table, cable_table, code_table, fastener_table, variant_table

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
    yield Group("Circuits", "circuits", cards=tuple(circuit_card(item, naming) for item in vehicle.circuits.values()))
    yield Group(
        "Isolation points",
        "isolation-points",
        cards=tuple(
            point_card(item, naming, photo_of(item, folder, album)) for item in vehicle.isolation_points.values()
        ),
    )
    yield Group(
        "Connectors",
        "connectors",
        cards=tuple(
            connector_card(item, naming, photo_of(item, folder, album)) for item in vehicle.connectors.values()
        ),
    )
    parts = tuple(part_card(item, naming, photo_of(item, folder, album)) for item in vehicle.parts.values())
    yield Group("Parts", "parts", cards=parts)
    yield Group("Fasteners", "fasteners", table=fastener_table(vehicle, naming))
    yield Group("Cables", "cables", table=cable_table(vehicle, naming))
    yield Group("Data buses", "buses", table=bus_table(vehicle, naming))
    yield Group("Trouble codes", "codes", table=code_table(vehicle))
    yield Group("Variants", "variants", table=variant_table(vehicle))


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
