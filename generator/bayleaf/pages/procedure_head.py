"""The head of a procedure's page: what somebody must know before the first step.

First what decides whether to begin at all: codes, people, time, protection. Below the safety messages the rest.
"""

from collections.abc import Iterator

from markupsafe import Markup

from ..graph.graph import End
from ..manual import Manual
from ..model import actions
from ..model.procedure import Procedure
from ..model.vehicle import Vehicle
from .layout import Cell
from .naming import Naming
from .show import capital, lead_words, minutes, plain
from .step_parts import Told, role_name
from .templating import joined, link

_WORN = "Protection"


def lead(procedure: Procedure, vehicle: Vehicle | None) -> Markup:
    """The line below the title: kind, vehicle, years, revision."""
    parts: list[Cell] = [capital(procedure.kind), vehicle.name if vehicle else procedure.folder]
    built = procedure.built or (vehicle.built if vehicle else None)
    if built is not None:
        parts.append(f"built {built.first} to {built.last or 'today'}")
    newest = procedure.revisions[0] if procedure.revisions else None
    if newest is not None:
        of_day = f" of {newest.date}" if newest.date else ""
        parts.append(Markup('<span class="bl-whole">revision {}{}</span>').format(newest.number, of_day))
    return joined(parts, " · ")


def first_facts(procedure: Procedure, manual: Manual, naming: Naming) -> Iterator[tuple[str, Cell]]:
    """What decides whether to begin: codes, variants, people, time, protection."""
    if procedure.trouble_codes:
        codes = naming.vehicle.codes if naming.vehicle else {}
        parts = [
            Markup("{}{}").format(link(f"../codes.html#{code}", code), f" {codes[code].means}" if code in codes else "")
            for code in procedure.trouble_codes
        ]
        yield "Trouble codes", joined(list(parts), "<br>")
    if procedure.variants:
        yield "Only for", _variants(procedure, naming)
    people = list(people_words(procedure, manual))
    if people:
        yield "People", joined(list(people), "<br>")
    yield "Time", _time(procedure, manual)
    yield from ((label, names) for label, names in _tools(procedure, manual, naming) if label == _WORN)


def more_facts(procedure: Procedure, manual: Manual, naming: Naming, told: Told | None) -> Iterator[tuple[str, Cell]]:
    """What is laid out, and what is read once it is clear that this is the right page."""
    yield from ((label, names) for label, names in _tools(procedure, manual, naming) if label != _WORN)
    if procedure.symptoms:
        yield "Symptoms", joined(list(procedure.symptoms), "<br>")
    if procedure.system and naming.vehicle:
        yield "System", naming.vehicle.systems.get(procedure.system, procedure.system)
    for role, task in procedure.roles.items():
        yield role_name(role), task
    for label, cells in (
        ("Consumables", _consumables(procedure, manual)),
        ("Parts to have ready", _parts(procedure, manual, naming)),
    ):
        if cells:
            yield label, joined(cells, "<br>")
    if procedure.expects:
        label = "Expects, not proved" if told is None else "Only begun with"
        yield label, "; ".join(f"{naming.plain(name)}: {state}" for name, state in procedure.expects)
    plain_end = None if told is None else told.table.ends.get(End(None))
    if told is not None and plain_end is not None:
        yield "Ends with", states_list(told.show.words(plain_end))
    elif procedure.leaves:
        label = "Leaves, not proved" if told is None else "Leaves"
        yield label, "; ".join(f"{naming.plain(name)}: {state}" for name, state in procedure.leaves)


def _consumables(procedure: Procedure, manual: Manual) -> list[Cell]:
    """Those of the job and of what it performs, each once; of what is performed with its title."""
    found: dict[str, Cell] = {}
    for one in (procedure, *performed_by(procedure, manual)):
        for text in one.consumables:
            found.setdefault(text, text if one is procedure else f"{text} ({one.title})")
    return list(found.values())


def _parts(procedure: Procedure, manual: Manual, naming: Naming) -> list[Cell]:
    """The same of parts."""
    found: dict[str, Cell] = {}
    for one in (procedure, *performed_by(procedure, manual)):
        for item in one.parts:
            words = part_words(item.part, item.count, item.when, naming)
            found.setdefault(item.part, words if one is procedure else Markup("{} ({})").format(words, one.title))
    return list(found.values())


def _tools(procedure: Procedure, manual: Manual, naming: Naming) -> Iterator[tuple[str, Cell]]:
    shop = manual.workshop
    used = list(dict.fromkeys((*procedure.tools, *used_instruments(procedure, manual))))
    measuring = [name for name in used if name in shop.instruments or name in shop.proving_units]
    wearing = [name for name in used if name in shop.protection]
    others = [name for name in used if name not in measuring and name not in wearing and not _is_contact(name)]
    for label, names in ((_WORN, wearing), ("Measuring", measuring), ("Tools", others)):
        if names:
            yield label, joined([_tool_link(name, naming, manual) for name in names], ", ")


def _is_contact(name: str) -> bool:
    return "/" in name and " " not in name


def _tool_link(name: str, naming: Naming, manual: Manual) -> Cell:
    shop = manual.workshop
    known = any(name in group for group in (shop.instruments, shop.proving_units, shop.tools, shop.protection))
    return link(f"../tools.html#{name}", naming.tool(name)) if known else naming.tool(name)


def _variants(procedure: Procedure, naming: Naming) -> str:
    known = naming.vehicle.variants if naming.vehicle else {}
    return ", ".join(known[name].name if name in known else name for name in procedure.variants)


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


def part_words(name: str, count: int, when: str | None, naming: Naming) -> Cell:
    """A part with its newest number, price, lead time and what it replaces."""
    found = naming.find(name)
    text = Markup("{}{}").format(f"{count} × " if count > 1 else "", naming.link(name))
    numbers = getattr(found.element, "numbers", ()) if found else ()
    if numbers:
        newest = numbers[0]
        notes = [newest.number, newest.price, lead_words(newest.lead_time)]
        text += Markup(' <span class="bl-part-number">{}</span>').format(", ".join(filter(None, notes)))
        if newest.replaces:
            text += Markup(", replaces {}").format(", ".join(newest.replaces))
    if when:
        text += Markup(" ({})").format(when)
    return text


def states_list(items: Markup) -> Markup:
    """States as the checker has proved them on every path."""
    return Markup('<ul class="bl-states">{}</ul>').format(items) if items else Markup("")
