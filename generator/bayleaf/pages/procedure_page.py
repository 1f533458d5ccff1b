"""The page of a procedure."""

from collections.abc import Iterator
from typing import NamedTuple

from markupsafe import Markup

from ..graph.graph import End, Stop
from ..manual import Manual
from ..model import actions
from ..model.procedure import Conclusion, Procedure, Step
from .body import Body, Crumb, Heading, SearchRecord
from .briefing_link import briefing_link, has_briefing
from .flow_view import flow_drawing
from .layout import Cell, fault_notes
from .naming import Naming
from .show import both, capital, minutes, plain
from .state_words import STATE_SYMBOLS, legend
from .step_parts import StepView, Told, role_name
from .step_view import Performed, Steps
from .templating import joined, link, render
from .working_data import working_data


class ConclusionView(NamedTuple):
    """A conclusion as the page shows it."""

    id: str
    finding: str
    stops: bool
    say: str | None
    rows: tuple[tuple[str, Cell], ...]


def procedure_body(procedure: Procedure, manual: Manual, performed: Performed) -> Body:
    """The body of a procedure's page, with its record for the search."""
    vehicle = manual.vehicles.get(procedure.folder)
    naming = performed.naming(procedure.folder)
    told = performed.told(procedure)
    views = Steps(procedure, naming, performed, told).views()
    vehicle_name = vehicle.name if vehicle else procedure.folder
    newest = procedure.revisions[0] if procedure.revisions else None
    lead = [capital(procedure.kind), vehicle_name]
    if newest is not None:
        lead.append(f"revision {newest.number}" + (f" of {newest.date}" if newest.date else ""))
    needs = tuple(_needs(procedure, manual, naming))
    conclusions = tuple(_conclusion(end, naming, manual, told) for end in procedure.conclusions.values())
    html = render(
        "procedure",
        title=procedure.title,
        lead=" · ".join(lead),
        about=procedure.about,
        faults=fault_notes(manual, procedure.file),
        briefing=_briefing(procedure, manual, performed),
        facts=tuple(_facts(procedure, manual, naming, told)),
        messages=procedure.messages,
        needs=needs,
        steps=views,
        flow=flow_drawing(procedure, manual, views),
        legend=() if told is None else legend(),
        symbols=STATE_SYMBOLS,
        conclusions=conclusions,
        revisions=procedure.revisions,
        working=working_data(procedure, manual, performed, told),
    )
    return Body(
        html=html,
        toc=tuple(_headings(views, bool(needs), conclusions)),
        search=(search_record(procedure, manual, views),),
        crumbs=(
            Crumb("Vehicles", "vehicles.html"),
            Crumb(vehicle_name, f"{procedure.folder}/vehicle.html"),
            Crumb(procedure.title, None),
        ),
    )


def _briefing(procedure: Procedure, manual: Manual, performed: Performed) -> Markup:
    if not has_briefing(procedure, manual, performed.states):
        return Markup("")
    return briefing_link(procedure, "Safety briefing: sources, isolation, wait, proof, protection on one or two sheets")


def _headings(
    views: tuple[StepView, ...], has_needs: bool, conclusions: tuple[ConclusionView, ...]
) -> Iterator[Heading]:
    if has_needs:
        yield Heading(2, "needs", "What you need")
    yield Heading(2, "steps", "Steps")
    for view in views:
        yield Heading(3, view.anchor, f"{view.number} {view.title}")
    if conclusions:
        yield Heading(2, "conclusions", "What can come out")
        for item in conclusions:
            yield Heading(3, f"conclusion-{item.id}", item.finding)
    yield Heading(2, "revisions", "Revisions")


def _facts(procedure: Procedure, manual: Manual, naming: Naming, told: Told | None) -> Iterator[tuple[str, Cell]]:
    if procedure.trouble_codes:
        codes = naming.vehicle.codes if naming.vehicle else {}
        parts = [
            Markup("{}{}").format(link(f"../codes.html#{code}", code), f" {codes[code].means}" if code in codes else "")
            for code in procedure.trouble_codes
        ]
        yield "Trouble codes", joined(list(parts), "<br>")
    if procedure.symptoms:
        yield "Symptoms", joined(list(procedure.symptoms), "<br>")
    if procedure.built or procedure.variants:
        yield "Applies to", _applies(procedure, naming)
    if procedure.system and naming.vehicle:
        yield "System", naming.vehicle.systems.get(procedure.system, procedure.system)
    people = list(people_words(procedure, manual))
    if people:
        yield "People", joined(list(people), "<br>")
    for role, task in procedure.roles.items():
        yield role_name(role), task
    yield "Time", _time(procedure, manual)
    if procedure.expects:
        label = "Expects, not proved" if told is None else "Only begun with"
        yield label, "; ".join(f"{naming.plain(name)}: {state}" for name, state in procedure.expects)
    plain_end = None if told is None else told.table.ends.get(End(None))
    if told is not None and plain_end is not None:
        yield "Ends with", _states_list(told.show.words(plain_end))
    elif procedure.leaves:
        label = "Leaves, not proved" if told is None else "Leaves"
        yield label, "; ".join(f"{naming.plain(name)}: {state}" for name, state in procedure.leaves)


def _states_list(items: Markup) -> Markup:
    """States as the checker has proved them on every path."""
    return Markup('<ul class="bl-states">{}</ul>').format(items) if items else Markup("")


def people_words(procedure: Procedure, manual: Manual) -> Iterator[str]:
    """Who is needed, for the job and for what it performs, each demand once."""
    told: set[str] = set()
    for one in (procedure, *performed_by(procedure, manual)):
        parts = [f"at least {one.people}"] if one.people else []
        if one.qualification:
            parts.append(one.qualification)
        text = ": ".join(parts)
        if text and text not in told:
            told.add(text)
            yield text if one is procedure else f"{text} ({one.title})"


def performed_by(procedure: Procedure, manual: Manual, depth: int = 0) -> Iterator[Procedure]:
    """The procedures that are performed in a job, those performed in them included."""
    for step in procedure.steps:
        if isinstance(step.action, actions.Perform) and depth < 4 and step.action.procedure in manual.procedures:
            callee = manual.procedures[step.action.procedure]
            yield callee
            yield from performed_by(callee, manual, depth + 1)


def _applies(procedure: Procedure, naming: Naming) -> str:
    variants = naming.vehicle.variants if naming.vehicle else {}
    parts = [variants[name].name if name in variants else name for name in procedure.variants]
    if procedure.built:
        parts.append(f"built {procedure.built.first} to {procedure.built.last or 'today'}")
    return ", ".join(parts)


def _time(procedure: Procedure, manual: Manual) -> str:
    if procedure.time is not None:
        return plain(procedure.time)
    seconds, whole = _seconds(procedure, manual, 0)
    if not seconds:
        return "not stated"
    return (
        f"about {minutes(seconds)}" if whole else f"more than {minutes(seconds)}: not every step says how long it takes"
    )


def _seconds(procedure: Procedure, manual: Manual, depth: int) -> tuple[float, bool]:
    """The times of all steps together, those of performed procedures included, and whether every step has one."""
    total, whole = 0.0, True
    for step in procedure.steps:
        if step.time is not None:
            total += float(step.time.si)
        elif isinstance(step.action, actions.Wait) and step.action.time is not None:
            total += float(step.action.time.si)
        elif isinstance(step.action, actions.Perform) and depth < 4:
            callee = manual.procedures.get(step.action.procedure)
            if callee is not None:
                inner, known = (float(callee.time.si), True) if callee.time else _seconds(callee, manual, depth + 1)
                total, whole = total + inner, whole and known
        else:
            whole = False
    return total, whole


def used_instruments(procedure: Procedure, manual: Manual, depth: int = 0) -> Iterator[str]:
    """The names of instruments, proving units and protection that the steps name, with those performed."""
    for step in procedure.steps:
        action = step.action
        yield from filter(None, (
            getattr(action, "using", None),
            getattr(action, "proved_before", None), getattr(action, "proved_after", None),
        ))  # fmt: skip
        yield from step.tools
        yield from step.wear
        if isinstance(action, actions.Perform) and depth < 4 and action.procedure in manual.procedures:
            callee = manual.procedures[action.procedure]
            yield from callee.tools
            yield from used_instruments(callee, manual, depth + 1)


def _needs(procedure: Procedure, manual: Manual, naming: Naming) -> Iterator[tuple[str, list[Cell]]]:
    shop = manual.workshop
    used = list(dict.fromkeys((*procedure.tools, *used_instruments(procedure, manual))))
    measuring = [name for name in used if name in shop.instruments or name in shop.proving_units]
    wearing = [name for name in used if name in shop.protection]
    others = [name for name in used if name not in measuring and name not in wearing and not _is_contact(name)]
    for label, names in (("Measuring", measuring), ("Protection", wearing), ("Tools", others)):
        if names:
            yield label, [_tool_link(name, naming, manual) for name in names]
    if procedure.consumables:
        yield "Consumables", list(procedure.consumables)
    if procedure.parts:
        yield (
            "Parts to have ready",
            [_part(item.part, item.count, item.when, naming) for item in procedure.parts],
        )


def _is_contact(name: str) -> bool:
    return "/" in name and " " not in name


def _tool_link(name: str, naming: Naming, manual: Manual) -> Cell:
    shop = manual.workshop
    known = any(name in group for group in (shop.instruments, shop.proving_units, shop.tools, shop.protection))
    return link(f"../tools.html#{name}", naming.tool(name)) if known else naming.tool(name)


def _part(name: str, count: int, when: str | None, naming: Naming) -> Cell:
    found = naming.find(name)
    text = Markup("{}{}").format(f"{count} × " if count > 1 else "", naming.link(name))
    numbers = getattr(found.element, "numbers", ()) if found else ()
    if numbers:
        newest = numbers[0]
        notes = [newest.number, newest.price, newest.lead_time and f"takes {newest.lead_time}"]
        text += Markup(' <span class="bl-part-number">{}</span>').format(", ".join(filter(None, notes)))
        if newest.replaces:
            text += Markup(" replaces {}").format(", ".join(newest.replaces))
    if when:
        text += Markup(" ({})").format(when)
    return text


def _conclusion(end: Conclusion, naming: Naming, manual: Manual, told: Told | None) -> ConclusionView:
    rows: list[tuple[str, Cell]] = []
    if end.repair:
        repairs: list[str | Markup] = []
        for name in end.repair:
            known = manual.facts.get(name)
            repairs.append(link(f"../{name}.html", known.title) if known is not None else name)
        rows.append(("Repair", joined(repairs, "<br>")))
    if end.parts:
        rows.append(("Part", joined([_part(name, 1, None, naming) for name in end.parts], "<br>")))
    reached = None if told is None else told.table.ends.get(Stop(end.id) if end.stops else End(end.id))
    if told is not None and reached is not None:
        rows.append(("Left in the state", _states_list(told.show.words(reached))))
    elif end.leaves:
        label = "Leaves, not proved" if told is None else "Leaves"
        rows.append((label, "; ".join(f"{naming.plain(name)}: {state}" for name, state in end.leaves)))
    if end.stays_off:
        rows.append(("Stays off", naming.links(end.stays_off)))
    return ConclusionView(end.id, end.finding, end.stops, end.say, tuple(rows))


def search_record(procedure: Procedure, manual: Manual, views: tuple[StepView, ...]) -> SearchRecord:
    """What the search finds a procedure by: its codes and names exactly, all its own words otherwise."""
    words = [procedure.about or "", *procedure.symptoms]
    for step, view in zip(procedure.steps, views, strict=True):
        words += [view.title, view.detail or "", view.limit, step.expect or ""]
        words += _touched(step)
    words += [part for end in procedure.conclusions.values() for part in (end.finding, end.say or "")]
    vehicle = manual.vehicles.get(procedure.folder)
    name = f"{procedure.title}, {vehicle.name}" if vehicle else procedure.title
    exact = (procedure.id, procedure.title, *procedure.trouble_codes)
    return SearchRecord(f"{procedure.id}.html", name, "procedure", exact, " ".join(filter(None, words)))


def _touched(step: Step) -> list[str]:
    names = list(step.on)
    for first, second in getattr(step.action, "pairs", ()):
        names += [str(first), str(second)]
    for figure in ("torque", "test_voltage", "amount"):
        value = getattr(step.action, figure, None)
        if value is not None:
            names.append(both(value))
    return names
