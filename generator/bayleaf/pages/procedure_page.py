"""The page of a procedure."""

from collections.abc import Iterator
from typing import NamedTuple

from markupsafe import Markup

from ..graph.graph import End, Stop
from ..manual import Manual
from ..model.procedure import Conclusion, Procedure, Step
from .body import Body, Crumb, Heading, SearchRecord
from .briefing_link import briefing_link, has_briefing
from .faults import FaultNote
from .flow_view import flow_drawing
from .layout import Cell
from .naming import Naming
from .procedure_head import first_facts, lead, more_facts, part_words, states_list
from .show import both
from .state_words import legend
from .step_parts import StepView, Told
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
    faults: tuple[FaultNote, ...] = ()


def procedure_body(procedure: Procedure, manual: Manual, performed: Performed) -> Body:
    """The body of a procedure's page, with its record for the search."""
    vehicle = manual.vehicles.get(procedure.folder)
    naming = performed.naming(procedure.folder)
    told = performed.told(procedure)
    faults = performed.faults(procedure)
    views = Steps(procedure, naming, performed, told).views()
    vehicle_name = vehicle.name if vehicle else procedure.folder
    conclusions = tuple(
        _conclusion(end, naming, manual, told)._replace(faults=faults.at.get(f"conclusion-{end.id}", ()))
        for end in procedure.conclusions.values()
    )
    html = render(
        "procedure",
        title=procedure.title,
        lead=lead(procedure, vehicle),
        about=procedure.about,
        faults=faults.head,
        briefing=_briefing(procedure, manual, performed),
        facts=tuple(first_facts(procedure, manual, naming)),
        messages=procedure.messages,
        more=tuple(more_facts(procedure, manual, naming, told)),
        steps=views,
        flow=flow_drawing(procedure, manual, views),
        legend=() if told is None else legend(),
        conclusions=conclusions,
        revisions=procedure.revisions,
        working=working_data(procedure, manual, performed, told),
    )
    return Body(
        html=html,
        toc=tuple(_headings(views, conclusions)),
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


def _headings(views: tuple[StepView, ...], conclusions: tuple[ConclusionView, ...]) -> Iterator[Heading]:
    yield Heading(2, "steps", "Steps")
    for view in views:
        yield Heading(3, view.anchor, f"{view.number} {view.title}")
    if conclusions:
        yield Heading(2, "conclusions", "What can come out")
        for item in conclusions:
            yield Heading(3, f"conclusion-{item.id}", item.finding)
    yield Heading(2, "revisions", "Revisions")


def _conclusion(end: Conclusion, naming: Naming, manual: Manual, told: Told | None) -> ConclusionView:
    rows: list[tuple[str, Cell]] = []
    if end.repair:
        repairs: list[str | Markup] = []
        for name in end.repair:
            known = manual.facts.get(name)
            repairs.append(link(f"../{name}.html", known.title) if known is not None else name)
        rows.append(("Repair", joined(repairs, "<br>")))
    if end.parts:
        rows.append(("Part", joined([part_words(name, 1, None, naming) for name in end.parts], "<br>")))
    reached = None if told is None else told.table.ends.get(Stop(end.id) if end.stops else End(end.id))
    if told is not None and reached is not None:
        rows.append(("Left in the state", states_list(told.show.words(reached))))
    elif end.leaves:
        label = "Leaves, not proved" if told is None else "Leaves"
        rows.append((label, "; ".join(f"{naming.plain(name)}: {state}" for name, state in end.leaves)))
    rows += _staying(end.stays_off, naming)
    return ConclusionView(end.id, end.finding, end.stops, end.say, tuple(rows))


def _staying(names: tuple[str, ...], naming: Naming) -> Iterator[tuple[str, Cell]]:
    """What is left as it is: off, or fitted where it is no element of the profile."""
    off = tuple(name for name in names if naming.find(name) is not None)
    fitted = tuple(name for name in names if name not in off)
    yield from ((label, naming.links(some)) for label, some in (("Stays off", off), ("Stays fitted", fitted)) if some)


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
