"""The index pages at the root of the site: every way in that is not the search."""

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from markupsafe import Markup

from ..manual import Manual
from ..model import actions
from ..model.procedure import Procedure, Step
from ..model.workshop import Instrument, Protection
from ..quantities.quantity import Quantity
from .actions import headline
from .body import Body, Heading, SearchRecord
from .layout import Cell, Entry, Row, Section, Table
from .naming import Naming
from .procedure_head import used_instruments
from .show import both, capital, plain
from .templating import link, render
from .vehicle_page import entry, procedures_of
from .vehicle_tables import fastener_table

#: So many procedures are listed beside a tool; more are folded up.
FEW = 3


def index_body(
    title: str, lead: str, sections: list[Section], empty: str, search: tuple[SearchRecord, ...] = ()
) -> Body:
    """A page made of sections; `empty` stands there where nothing is listed."""
    html = render("index", title=title, lead=lead, sections=sections, empty=empty)
    toc = tuple(Heading(section.level, section.anchor, section.heading) for section in sections)
    return Body(html, toc, search)


def vehicles_body(manual: Manual) -> Body:
    """Every vehicle with its procedures."""
    sections = [
        Section(
            vehicle.name, folder,
            (Entry(f"{folder}/vehicle.html", "Vehicle profile", "circuits, isolation points, connectors, parts"),
             *(entry(one, "") for one in procedures_of(folder, manual))),
        )
        for folder, vehicle in manual.vehicles.items()
    ]  # fmt: skip
    return index_body(
        "Vehicles",
        "Every vehicle of this manual with its procedures.",
        sections,
        "No vehicle has a profile yet.",
    )


def codes_body(manual: Manual) -> Body:
    """Every trouble code, what it means on each vehicle, and the procedures that deal with it."""
    found: dict[str, tuple[list[str], list[Entry]]] = {}
    for vehicle in manual.vehicles.values():
        for code in vehicle.codes.values():
            found.setdefault(code.code, ([], []))[0].append(f"{vehicle.name}: {code.means}")
    for procedure in manual.procedures.values():
        for code_text in procedure.trouble_codes:
            found.setdefault(code_text, ([], []))[1].append(_with_vehicle(procedure, manual))
    sections, search = [], []
    for code_text in sorted(found):
        means, links = found[code_text]
        sections.append(Section(code_text, code_text, tuple(links), notes=tuple(means)))
        search.append(
            SearchRecord(
                f"codes.html#{code_text}",
                f"Trouble code {code_text}",
                "trouble code",
                (code_text,),
                " ".join(means),
            )
        )
    lead = "What a code means here is in the words of whoever wrote the profile."
    return index_body("Trouble codes", lead, sections, "No procedure names a trouble code yet.", tuple(search))


def systems_body(manual: Manual) -> Body:
    """Procedures by the system that they belong to."""
    found: dict[str, list[Entry]] = {}
    for procedure in manual.procedures.values():
        vehicle = manual.vehicles.get(procedure.folder)
        name = vehicle.systems.get(procedure.system or "") if vehicle else None
        found.setdefault(name or "Other", []).append(_with_vehicle(procedure, manual))
    sections = [
        Section(name, _anchor(name), tuple(found[name]))
        for name in sorted(found, key=lambda one: (one == "Other", one))
    ]
    return index_body("Systems", "Procedures by the system of the vehicle.", sections, "There is no procedure yet.")


def _with_vehicle(procedure: Procedure, manual: Manual) -> Entry:
    vehicle = manual.vehicles.get(procedure.folder)
    note = ", ".join(filter(None, (vehicle.name if vehicle else procedure.folder, procedure.kind)))
    return Entry(f"{procedure.id}.html", procedure.title, note)


def _anchor(text: str) -> str:
    return "".join(letter if letter.isalnum() else "-" for letter in text.lower()).strip("-")


def parts_body(manual: Manual) -> Body:
    """Every part with its numbers."""
    sections = []
    for folder, vehicle in manual.vehicles.items():
        rows = []
        for part in vehicle.parts.values():
            newest = part.numbers[0] if part.numbers else None
            rows.append(Row((
                link(f"{folder}/vehicle.html#{part.id}", part.name),
                newest.number if newest else "", ", ".join(newest.replaces) if newest else "",
                (newest.price or "") if newest else "", (newest.lead_time or "") if newest else "",
                str(newest.seen or "") if newest else "",
            )))  # fmt: skip
        if rows:
            head = ("Part", "Number", "Replaces", "Price", "Takes", "Asked")
            sections.append(Section(vehicle.name, folder, table=Table(head, tuple(rows))))
    return index_body("Parts", "Prices and times as they were when asked.", sections, "No vehicle lists parts yet.")


def torques_body(manual: Manual) -> Body:
    """Every tightening torque: of the profiles, and of steps that describe a fastener themselves."""
    sections = []
    for folder, vehicle in manual.vehicles.items():
        naming = Naming(vehicle, manual.workshop, f"{folder}/vehicle.html")
        table = fastener_table(vehicle, naming)
        rows = [*(row._replace(anchor=None) for row in table.rows)] if table else []
        for procedure, step in _steps(manual, folder):
            if isinstance(step.action, actions.Tighten) and step.action.described:
                tighten = step.action
                where = link(f"{procedure.id}.html#{step.anchor}", f"{procedure.title}, step {step.number}")
                rows.append(Row((", ".join(tighten.fasteners), where, tighten.size or "", both(tighten.torque), "")))
        if rows:
            sections.append(
                Section(
                    vehicle.name,
                    folder,
                    table=Table(("Fastener", "Holds", "Thread", "Torque", "Note"), tuple(rows)),
                )
            )
    return index_body(
        "Torques",
        "Every tightening torque, in N·m and lbf·ft. The converted range is never wider than the stated one.",
        sections,
        "No torque is stated yet.",
    )


def _steps(manual: Manual, folder: str) -> Iterator[tuple[Procedure, Step]]:
    for procedure in procedures_of(folder, manual):
        for step in procedure.steps:
            yield procedure, step


def _rule_source(step: Step) -> str:
    """Where the rule is printed that computes a limit."""
    done = step.cited.computed if step.cited is not None else None
    return done.source if done is not None else ""


def limits_body(manual: Manual) -> Body:
    """Every limit that a reading is held against, by vehicle and procedure."""
    sections = []
    for folder, vehicle in manual.vehicles.items():
        naming = Naming(vehicle, manual.workshop, f"{folder}/vehicle.html")
        tables = [(one, _limits(one, naming)) for one in procedures_of(folder, manual)]
        below = [
            Section(
                one.title,
                one.id.replace("/", "--"),
                table=Table(("Step", "What", "Between", "Good", "Source"), rows),
                level=3,
            )
            for one, rows in tables
            if rows
        ]
        if below:
            sections += [Section(vehicle.name, folder), *below]
    return index_body("Limits", "Every value that a reading is held against.", sections, "No limit is stated yet.")


def _limits(procedure: Procedure, naming: Naming) -> tuple[Row, ...]:
    """The limits of a procedure, each once, with the steps at which it is read."""
    found: dict[tuple[Cell, ...], list[Markup]] = {}
    for step in procedure.steps:
        limit = getattr(step.action, "limit", None)
        if limit is None and step.cited is None:
            continue
        what = headline(step, naming, lambda name: name).removeprefix("Measure: ").removeprefix("Read: ")
        pairs = Markup("<br>").join(naming.pairs(getattr(step.action, "pairs", ())))
        figure = both(limit) or (f"by the rule “{step.cited.rule}”" if step.cited else "")
        good = Markup('<strong class="bl-figure">{}</strong>').format(figure)
        cells = (capital(what), pairs, good, step.source or _rule_source(step))
        found.setdefault(cells, []).append(link(f"{procedure.id}.html#{step.anchor}", step.number))
    return tuple(Row((Markup(", ").join(steps), *cells)) for cells, steps in found.items())


def tools_body(manual: Manual) -> Body:
    """What the workshop owns, and which procedures use it."""
    used: dict[str, list[Markup]] = {}
    for procedure in manual.procedures.values():
        names = dict.fromkeys((*procedure.tools, *used_instruments(procedure, manual)))
        for name in names:
            used.setdefault(name, []).append(link(f"{procedure.id}.html", procedure.title))
    shop = manual.workshop
    instruments = [
        Thing(item.id, item.name, _instrument(item), _dated("calibrated", item.calibrated, item.interval))
        for item in shop.instruments.values()
    ]
    units = [
        Thing(unit.id, unit.name, plain(unit.voltage), _dated("checked", unit.checked, unit.interval))
        for unit in shop.proving_units.values()
    ]
    protection = [
        Thing(item.id, item.name, _protection(item), _dated("tested", item.tested, item.interval))
        for item in shop.protection.values()
    ]
    tools = [
        Thing(
            tool.id,
            tool.name,
            tool.insulated_to and f"insulated to {plain(tool.insulated_to)}" or "",
            tool.location or "",
        )
        for tool in shop.tools.values()
    ]
    sections = [
        _things("Measuring instruments", "instruments", instruments, used),
        _things("Proving units", "proving-units", units, used),
        _things("Protection", "protection", protection, used),
        _things("Tools", "tools", tools, used),
    ]
    listed = [section for section in sections if section.table is not None]
    search = tuple(
        SearchRecord(f"tools.html#{thing.id}", thing.name, kind, (thing.id, thing.name))
        for kind, things in (("instrument", [*instruments, *units]), ("tool", [*protection, *tools]))
        for thing in things
    )
    return index_body(
        "Tools",
        "What this workshop owns. Dates are printed as they stand in its file.",
        listed,
        "There is no workshop file yet.",
        search,
    )


class Thing(NamedTuple):
    """Something that the workshop owns: what it is, and its dates or place."""

    id: str
    name: str
    about: str
    note: str


def _used_in(links: list[Markup]) -> Markup:
    """The procedures, folded up where they are many: the next tool shall be near."""
    listed = Markup("<br>").join(links)
    if len(links) <= FEW:
        return listed
    return Markup('<details class="bl-map-words"><summary>{} procedures</summary>{}</details>').format(
        len(links), listed
    )


def _things(heading: str, anchor: str, things: list[Thing], used: dict[str, list[Markup]]) -> Section:
    head = ("Name", "What it is", "Dates and place", "Used in")
    rows = tuple(
        Row((thing.name, thing.about, thing.note, _used_in(used.get(thing.id, []))), thing.id) for thing in things
    )
    return Section(heading, anchor, table=Table(head, rows) if rows else None)


def _dated(word: str, day: date | None, interval: Quantity | None) -> str:
    return f"{word} {day}{f', every {plain(interval)}' if interval else ''}" if day else ""


def _protection(item: Protection) -> str:
    return ", ".join(filter(None, (item.kind, item.glove_class and f"class {item.glove_class}", plain(item.voltage))))


def _instrument(item: Instrument) -> str:
    parts = [
        item.kind,
        item.category,
        item.highest_dc and f"at most {plain(item.highest_dc)} DC",
        plain(item.range),
    ]
    return ", ".join(part for part in parts if part)
