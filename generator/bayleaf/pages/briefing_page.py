"""The safety briefing of a procedure: what can hurt, how it is taken off, who may do it. One or two sheets of paper."""

from collections.abc import Container, Iterator
from dataclasses import dataclass

from markupsafe import Markup

from ..manual import Manual
from ..model.procedure import Procedure
from ..model.vehicle import Vehicle
from ..safety.proof_holds import holds_in
from ..safety.rig import category_of
from . import briefing_facts as derived
from . import briefing_words as said
from . import energy_words
from .body import Body, Crumb, Heading, SearchRecord
from .briefing_facts import Facts
from .briefing_isolation import isolating, step_words
from .briefing_link import briefing_url
from .briefing_proof import ends, energies, proofs, waits
from .layout import Cell
from .naming import Naming
from .procedure_head import people_words
from .step_view import Performed
from .templating import joined, render
from .unfolded import Unfolded, step_link, step_links, unfolded


@dataclass(frozen=True, slots=True)
class Block:
    """A part of the briefing: sentences, a list, rows, a drawing."""

    heading: str
    anchor: str
    items: tuple[Cell, ...] = ()
    rows: tuple[tuple[Cell, Cell], ...] = ()
    numbered: tuple[tuple[Cell, Cell], ...] = ()
    drawings: tuple[Markup, ...] = ()
    strong: bool = False


@dataclass(frozen=True)
class Briefing:
    """What the parts of a briefing are made from."""

    procedure: Procedure
    manual: Manual
    performed: Performed
    naming: Naming
    facts: Facts

    @property
    def page(self) -> str:
        """The page of the procedure, from the briefing."""
        return self.procedure.id.rpartition("/")[2] + ".html"

    def links(self, steps: tuple[Unfolded, ...]) -> Markup:
        """Links to steps."""
        return step_links(steps, self.page, self.facts.places)


def briefing_body(procedure: Procedure, manual: Manual, performed: Performed) -> Body:
    """The body of the page `<procedure>.briefing.html`."""
    vehicle = manual.vehicles[procedure.folder]
    book = performed.states.of(procedure)
    blocks: tuple[Block, ...] = ()
    if book is not None:
        steps = unfolded(procedure, book.surveyor.procedures, book)
        facts = derived.facts_of(procedure.id, steps, book)
        briefing = Briefing(procedure, manual, performed, performed.naming(procedure.folder), facts)
        blocks = tuple(one for one in _blocks(briefing) if one.items or one.rows or one.numbered)
    newest = procedure.revisions[0] if procedure.revisions else None
    revision = f"revision {newest.number}" + (f" of {newest.date}" if newest.date else "") if newest else ""
    title = f"Safety briefing: {procedure.title}"
    html = render(
        "briefing", title=title, lead=" · ".join(filter(None, (vehicle.name, revision))), vehicle=vehicle,
        page=procedure.id.rpartition("/")[2] + ".html", blocks=blocks,
        live=tuple(_leaves_live(vehicle, vehicle.isolation_points)),
        approves=said.APPROVES_NOTHING,
        fill_in=said.FILL_IN,
    )  # fmt: skip
    url = briefing_url(procedure)
    return Body(
        html=html,
        toc=tuple(Heading(2, block.anchor, block.heading) for block in blocks),
        search=(SearchRecord(url, f"{title}, {vehicle.name}", "safety briefing"),),
        crumbs=(
            Crumb("Vehicles", "vehicles.html"),
            Crumb(vehicle.name, f"{procedure.folder}/vehicle.html"),
            Crumb(procedure.title, f"{procedure.id}.html"),
            Crumb("Safety briefing", None),
        ),
    )


def _blocks(briefing: Briefing) -> Iterator[Block]:
    facts = briefing.facts
    power = any(category_of(one) == "power" for one in facts.circuits)
    yield Block("Who may do it", "who", rows=tuple(_who(briefing)))
    yield Block("Before you begin", "before", tuple(said.before_you_begin(facts.is_class_b, power)))
    live = (
        *_leaves_live(facts.vehicle, derived.opened_points(facts)),
        *(f"{name}: {why}" for name, why in derived.still_live(facts)),
    )
    if facts.is_class_b:
        live = (*live, said.LIVE_TO_CHASSIS)
    yield Block("Stays live or under pressure although all is isolated", "stays-live", live, strong=True)
    yield Block(
        "Energies and what takes them off", "energies", rows=tuple(energies(facts, briefing.naming, briefing.links))
    )
    yield Block("Isolation as it is done", "isolation", numbered=tuple(_isolation(briefing)))
    wait_rows, curves = waits(facts, briefing.links)
    yield Block("Wait", "wait", rows=wait_rows, drawings=curves)
    yield Block("Prove dead", "proof", rows=tuple(proofs(facts, briefing.naming, briefing.links, briefing.manual)))
    yield Block("Protection", "protection", rows=tuple(_protection(briefing)))
    yield Block("Breaks", "breaks", tuple(_breaks(briefing)))
    emergencies = [said.SHOCK, said.FIRE, said.ELECTROLYTE] if facts.is_class_b or power else []
    if any(one.energy == "pressure" for one in facts.circuits):
        emergencies.append(said.BURST)
    yield Block("If something happens", "emergency", rows=tuple(emergencies))
    yield Block("Back into service", "return", (*said.RETURN, *_left(briefing)))


def _left(briefing: Briefing) -> Iterator[Cell]:
    """In what state ends leave the circuits, and what that means for whoever comes next."""
    states = list(ends(briefing.procedure, briefing.performed))
    yield from states
    if states:
        yield Markup("<strong>{}</strong>").format(said.ONLY_PROVED)


def _who(briefing: Briefing) -> Iterator[tuple[Cell, Cell]]:
    facts = briefing.facts
    level = derived.level_of(facts)
    yield "At least", f"{dict(derived.LEVELS)[level]}. Derived from the steps; local rules decide."
    people = list(people_words(briefing.procedure, briefing.manual))
    if people:
        yield "The procedure asks", joined(list(people), "; ")
    alone = derived.never_alone(facts)
    if alone:
        yield (
            "Never alone",
            Markup("when parting, uncovering, proving, reading what may be live, making live: step {}").format(
                briefing.links(alone)
            ),
        )


def _leaves_live(vehicle: Vehicle, opened: Container[str]) -> Iterator[str]:
    """What stays live at the points that are opened; behind the others all of it does, which is told by circuit."""
    for point in vehicle.isolation_points.values():
        for place in point.leaves_live if point.id in opened else ():
            yield f"{energy_words.live_words(place, point)} (at: {point.name})"


def _isolation(briefing: Briefing) -> Iterator[tuple[Cell, Cell]]:
    titles = {name: facts.title for name, facts in briefing.manual.facts.items()}
    for same in isolating(briefing.facts):
        text = step_words(same[0], briefing.facts, briefing.naming, titles)
        if len(same) > 1:
            text = Markup("{} (again: {})").format(text, briefing.links(same[1:]))
        yield step_link(same[0], briefing.page), text


def _protection(briefing: Briefing) -> Iterator[tuple[Cell, Cell]]:
    for text, steps in derived.protections(briefing.facts):
        yield Markup("Step {}").format(briefing.links(steps)), text
    known = briefing.manual.workshop.protection
    worn: dict[str, list[Unfolded]] = {}
    for one in briefing.facts.steps:
        for name in one.step.wear:
            worn.setdefault(name, []).append(one)
    names = [known[name].name if name in known else name for name in worn]
    if names:
        yield "Named on the steps", ", ".join(names)


def _breaks(briefing: Briefing) -> Iterator[Cell]:
    if any(category_of(one) != "other" for one in briefing.facts.circuits):
        yield said.BREAKS
        minutes = float(holds_in(briefing.manual.workshop)) / 60
        yield f"In this workshop a proof holds for {minutes:g} min at most."
    else:
        yield "After a break, read again before anything is opened."
