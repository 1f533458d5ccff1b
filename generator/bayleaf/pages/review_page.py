"""The review of a vehicle: its dangerous circuits, and all procedures that open or touch one side by side.

For the person who reads a manual as a whole: two procedures that isolate the same circuit in different ways are either
different for a reason, or one of them is wrong.
"""

from collections import Counter
from collections.abc import Hashable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from markupsafe import Markup

from ..manual import Manual
from ..model import actions
from ..model.procedure import Procedure
from ..model.vehicle import Vehicle
from ..safety.rig import category_of
from ..safety.wait import required_wait
from . import briefing_facts as derived
from . import energy_words
from .body import Body, Crumb, Heading, SearchRecord
from .briefing_facts import Facts
from .briefing_link import briefing_link
from .briefing_proof import ends
from .drawings.discharge_curve import time_words
from .energy_page import Drawn, drawing_of
from .layout import Cell
from .naming import Naming
from .procedure_head import performed_by
from .show import plain
from .step_view import Performed
from .templating import joined, link, render
from .unfolded import unfolded

RESPECTS = (
    "Circuits", "Isolates by", "Points opened", "Points secured", "Wait", "Proof", "People", "Gloves",
    "Leaves isolated",
)  # fmt: skip
DIFFERS = Markup('<br><strong class="bl-differs">≠ differs</strong>')


class Item(NamedTuple):
    """What one procedure does in one respect, perhaps with one circuit.

    It is compared by `key` with what others do under the same topic; with None there is nothing to compare.
    """

    topic: str
    key: Hashable
    said: Cell


@dataclass(frozen=True, slots=True)
class Compared:
    """One procedure with its items in each respect, in the order of `RESPECTS`."""

    procedure: Procedure
    respects: tuple[tuple[Item, ...], ...]


def review_body(vehicle: Vehicle, folder: str, manual: Manual, performed: Performed, drawn: Drawn) -> Body:
    """The body of the page `review.html` beside the vehicle's page."""
    rows = tuple(compared(folder, manual, performed))
    unproved = [one for one in manual.procedures.values() if one.folder == folder and performed.states.of(one) is None]
    dangerous = [one for one in energy_words.by_danger(vehicle) if category_of(one) != "low"]
    html = render(
        "review", vehicle=vehicle, heads=tuple(map(_head, rows)), table=tuple(_marked(rows)),
        panels=tuple((one.id, one.name, drawing_of(vehicle, one, drawn)) for one in dangerous),
        unproved=tuple(link(f"../{one.id}.html", one.title) for one in unproved),
    )  # fmt: skip
    page = f"{folder}/review.html"
    return Body(
        html=html,
        toc=(Heading(2, "procedures", "Procedures side by side"), Heading(2, "circuits", "Dangerous circuits")),
        search=(SearchRecord(page, f"Vehicle review, {vehicle.name}", "vehicle review", ("vehicle review",)),),
        crumbs=(
            Crumb("Vehicles", "vehicles.html"),
            Crumb(vehicle.name, f"{folder}/vehicle.html"),
            Crumb("Vehicle review", None),
        ),
    )


def compared(folder: str, manual: Manual, performed: Performed) -> Iterator[Compared]:
    """The procedures of a vehicle that open or touch a dangerous circuit, with what is compared."""
    naming = performed.naming(folder)
    for procedure in manual.procedures.values():
        book = performed.states.of(procedure) if procedure.folder == folder else None
        if book is None:
            continue
        steps = unfolded(procedure, book.surveyor.procedures, book)
        facts = derived.facts_of(procedure.id, steps, book)
        dangerous = {one.id for one in facts.circuits if not one.sealed_in}
        touched = {name for one in steps if one.states is not None for name in one.states.touched & dangerous}
        if touched:
            yield Compared(procedure, tuple(_respects(procedure, facts, touched, manual, performed, naming)))


def _respects(
    procedure: Procedure, facts: Facts, touched: set[str], manual: Manual, performed: Performed, naming: Naming
) -> Iterator[tuple[Item, ...]]:
    yield tuple(Item(one.id, None, one.name) for one in facts.circuits if one.id in touched)
    yield _isolations(procedure, manual)
    yield _points(facts, actions.Disconnect, naming)
    yield _points(facts, actions.Secure, naming)
    yield tuple(_waiting(facts))
    yield tuple(_proof(facts, naming))
    least = max((one.people or 0 for one in (procedure, *performed_by(procedure, manual))), default=0)
    level = derived.level_of(facts)
    yield (Item("", (least, level), f"at least {least}, {level}" if least else f"number not said, {level}"),)
    gloves = derived.glove_class(facts)
    yield (Item("", gloves, gloves.removeprefix("insulating gloves ")),) if gloves else ()
    yield tuple(Item("", None, text) for text in ends(procedure, performed))


def _isolations(procedure: Procedure, manual: Manual) -> tuple[Item, ...]:
    if procedure.kind == "isolation":
        return (Item("", None, "itself"),)
    found = {one.id: one for one in performed_by(procedure, manual) if one.kind == "isolation"}
    links = joined([link(f"../{one.id}.html", one.title) for one in found.values()], "<br>")
    return (Item("", tuple(found), links),) if found else ()


def _points(facts: Facts, kind: type[actions.Disconnect | actions.Secure], naming: Naming) -> tuple[Item, ...]:
    found = dict.fromkeys(point for one in facts.steps if isinstance(one.action, kind) for point in one.action.points)
    if not found:
        return ()
    return (Item("", frozenset(found), joined([naming.plain(name) for name in found], "<br>")),)


def _waiting(facts: Facts) -> Iterator[Item]:
    for circuit in facts.circuits:
        steps = derived.waits_for(circuit, facts.steps)
        written = dict.fromkeys(
            plain(one.action.time) for one in steps if isinstance(one.action, actions.Wait) and one.action.time
        )
        if written:
            wait = required_wait(circuit).seconds
            asked = "discharge" if wait is None else time_words(float(wait)) if wait else "no time"
            yield Item(
                circuit.id, frozenset(written), f"{circuit.name}: asked {asked}, written {' and '.join(written)}"
            )


def _proof(facts: Facts, naming: Naming) -> Iterator[Item]:
    for circuit in facts.circuits:
        ways = dict.fromkeys(
            (len(action.pairs or circuit.dead_at), plain(action.limit), naming.tool(action.using))
            for one in derived.proofs_of(circuit, facts.steps)
            if isinstance(action := one.action, actions.ProveDead)
        )
        if ways:
            said = "; ".join(", ".join(filter(None, (f"{pairs} pairs", *others))) for pairs, *others in ways)
            yield Item(circuit.id, frozenset(ways), f"{circuit.name}: {said}")


def _head(row: Compared) -> tuple[str, Markup]:
    """A procedure at the head of its column: in words, and with its links."""
    procedure = row.procedure
    briefing = briefing_link(procedure, "Safety briefing")
    return procedure.title, Markup("{}<br>{}").format(link(f"../{procedure.id}.html", procedure.title), briefing)


def _marked(rows: tuple[Compared, ...]) -> Iterator[tuple[str, tuple[Cell, ...]]]:
    """For each respect the cells of all procedures; what differs from most of the others says so."""
    for column, respect in enumerate(RESPECTS):
        keys: dict[str, list[Hashable]] = {}
        for row in rows:
            for item in row.respects[column]:
                keys.setdefault(item.topic, []).append(item.key)
        usual = {topic: usual_of(found) for topic, found in keys.items()}
        yield respect, tuple(_cell(row.respects[column], usual) for row in rows)


def _cell(items: tuple[Item, ...], usual: Mapping[str, frozenset[Hashable]]) -> Cell:
    said: list[Cell] = [
        Markup("{}{}").format(item.said, DIFFERS) if differs(item.key, usual[item.topic]) else item.said
        for item in items
    ]
    return joined(said, "<br>")


def usual_of(keys: list[Hashable]) -> frozenset[Hashable]:
    """What most procedures do, of those that do it at all; nothing where no way is more common than the others."""
    counts = Counter(key for key in keys if key is not None).most_common()
    if len(counts) < 2:
        return frozenset(key for key, _ in counts)
    return frozenset({counts[0][0]}) if counts[0][1] > counts[1][1] else frozenset()


def differs(key: Hashable, usual: frozenset[Hashable]) -> bool:
    """Whether a procedure does something otherwise than most."""
    return key is not None and key not in usual
