"""The tables of a vehicle's page: fasteners, cables, buses, trouble codes, variants; None where a profile has none."""

from markupsafe import Markup

from ..model.vehicle import Fastener, Vehicle
from .layout import Row, Table
from .naming import Naming
from .show import both, plain, screws
from .templating import link


def table(head: tuple[str, ...], rows: list[Row]) -> Table | None:
    """Rows below their head; None without rows."""
    return Table(head, tuple(rows)) if rows else None


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
    return table(("Fastener", "Holds", "Thread", "Torque", "Note"), rows)


def cable_table(vehicle: Vehicle, naming: Naming) -> Table | None:
    rows = [
        Row((
            cable.name, naming.link(cable.circuit) if cable.circuit else "none",
            naming.pair(cable.between) if cable.between else "",
            both(cable.area), both(cable.length), cable.location or "",
        ), cable.id)
        for cable in vehicle.cables.values()
    ]  # fmt: skip
    return table(("Cable", "Circuit", "Between", "Cross-section", "Length", "Where"), rows)


def bus_table(vehicle: Vehicle, naming: Naming) -> Table | None:
    rows = [
        Row((bus.name, bus.kind, plain(bus.rate), naming.links(bus.terminated_in)), bus.id)
        for bus in vehicle.buses.values()
    ]
    return table(("Bus", "Kind", "Bit rate", "Terminated in"), rows)


def code_table(vehicle: Vehicle) -> Table | None:
    rows = [
        Row((link(f"../codes.html#{code.code}", code.code), code.means, code.fault or ""), code.code)
        for code in vehicle.codes.values()
    ]
    return table(("Code", "Meaning", "Announces"), rows)


def variant_table(vehicle: Vehicle) -> Table | None:
    rows = []
    for variant in vehicle.variants.values():
        years = f"{variant.built.first} to {variant.built.last or 'today'}" if variant.built else ""
        rows.append(Row((variant.name, years, variant.told_by or ""), variant.id))
    return table(("Variant", "Built", "Told by"), rows)
