"""The rows of a briefing that need figures: sources, waiting and discharge, proving dead, and how it ends."""

from collections.abc import Callable, Iterator
from math import inf

from markupsafe import Markup

from ..calculations.discharge import stored_energy
from ..graph.build import ways_out
from ..graph.exits import GOES_ON
from ..graph.graph import End
from ..manual import Manual
from ..model import actions
from ..model.procedure import Procedure
from ..model.vehicle import Circuit, Source
from ..quantities.limit import Limit
from ..safety.other_energies import UNREADABLE
from ..safety.wait import Wait, required_wait, time_to
from . import energy_words as words
from .briefing_facts import Facts, insulation_tests, proofs_of, taken_off_at, waits_for
from .briefing_words import NOT_DEAD
from .drawings.discharge_curve import discharge_curve, time_words
from .drawings.shapes import svg
from .layout import Cell
from .naming import Naming
from .show import plain
from .step_view import Performed
from .templating import joined, link
from .unfolded import Unfolded

Links = Callable[[tuple[Unfolded, ...]], Markup]
#: What is still to be expected is told for the limit of class B and for that of the reading.
READING = 5.0


def energies(facts: Facts, naming: Naming, links: Links) -> Iterator[tuple[Cell, Cell]]:
    """Every dangerous circuit with its sources, and where each is taken off."""
    for circuit in facts.circuits:
        parts: list[Cell] = [words.energy_words(circuit)]
        parts += [_source(source, facts, naming, links) for source in words.fed_by(circuit)]
        parts += [
            Markup("{}: <strong>not stated, counts as live</strong>").format(name)
            for name in words.unstated_sources(circuit)
        ]
        if circuit.rotation:
            turned = "; ".join(words.turning_words(circuit.rotation))
            parts.append(f"Turning with the {circuit.rotation.turns_with}: {turned}")
        safe = "" if circuit.energy in UNREADABLE else words.safe_words(circuit)
        if safe:
            parts.append(f"Safe when: {safe}")
        yield link(f"energy.html#{circuit.id}", circuit.name), joined(list(parts), "<br>")
    tests = insulation_tests(facts)
    if tests:
        volts = max((one.action.test_voltage for one in tests), key=lambda volts: volts.si)  # type: ignore[union-attr]
        text = "charges what it tests: nobody touches meanwhile, and what is left is discharged and read"
        yield "Insulation tester", Markup("up to {}, step {}: {}").format(plain(volts), links(tests), text)


def _source(source: Source, facts: Facts, naming: Naming, links: Links) -> Markup:
    name = words.source_words(source)
    if words.is_fixed(source):
        return Markup("{}: <strong>nothing takes it off</strong>").format(name)
    off = taken_off_at(source, facts)
    if off is None:
        return Markup("{}: <strong>not taken off here</strong>").format(name)
    points = [Markup("{}, step {}").format(naming.plain(point), links(steps)) for point, steps in off]
    return Markup("{}: {}").format(name, joined(list(points), " and "))


def waits(facts: Facts, links: Links) -> tuple[tuple[tuple[Cell, Cell], ...], tuple[Markup, ...]]:
    """For each circuit that stays charged and is isolated here how long is waited, from what reckoned, a curve."""
    rows: list[tuple[Cell, Cell]] = []
    curves = []
    for circuit in facts.circuits:
        steps = waits_for(circuit, facts.steps)
        if circuit.stored is None or circuit.sealed_in or not (steps or _is_isolated(circuit, facts)):
            continue
        figures, curve = _reckoned(circuit, facts)
        rows.append((circuit.name, joined([_asked(circuit, steps, links), *figures], "<br>")))
        if curve:
            curves.append(curve)
    return tuple(rows), tuple(curves)


def _is_isolated(circuit: Circuit, facts: Facts) -> bool:
    """Whether every source that something takes off is taken off here, or the circuit is read as dead or discharged."""
    read = (actions.ProveDead, actions.ProveSafe, actions.Discharge)
    if any(isinstance(one.action, read) and one.action.circuit == circuit.id for one in facts.steps):
        return True
    sources = [one for one in words.fed_by(circuit) if not words.is_fixed(one)]
    return bool(sources) and all(taken_off_at(one, facts) is not None for one in sources)


def _reckoned(circuit: Circuit, facts: Facts) -> tuple[tuple[Cell, ...], Markup]:
    """The figures of a circuit and its curve: the same for every procedure of the vehicle."""
    key = "discharge", circuit.id
    if key not in facts.shared:
        wait = required_wait(circuit)
        figures = _figures(circuit, wait)
        drawing = discharge_curve(wait, tuple(_marks(circuit, wait)), tuple({wait.end, READING}))
        curve = Markup("")
        if drawing is not None:
            text = f"Falling voltage of {circuit.name}: {figures}"
            picture = svg(drawing, f"curve:{circuit.id}", f"Discharge of {circuit.name}", text)
            curve = Markup("<p>{}, if nothing else discharges it</p>{}").format(circuit.name, picture)
        facts.shared[key] = tuple(_left(circuit, wait, figures)), curve
    found: tuple[tuple[Cell, ...], Markup] = facts.shared[key]
    return found


def _asked(circuit: Circuit, steps: tuple[Unfolded, ...], links: Links) -> Markup:
    """How long is asked for, stated, and waited here."""
    stored, seconds = circuit.stored, required_wait(circuit).seconds
    asked = "no waiting settles it: discharge and read" if seconds is None else time_words(float(seconds))
    stated = plain(stored.stated_wait) if stored is not None and stored.stated_wait else "none"
    done = [plain(one.action.time) for one in steps if isinstance(one.action, actions.Wait) and one.action.time]
    written = Markup("")
    if steps:
        times = ", ".join(dict.fromkeys(done))
        text = Markup("; waited here: {}, step {}, from the moment the last source is off")
        written = text.format(times, links(steps))
    return Markup("<strong>Asked: {}</strong>; the maker states: {}{}").format(asked, stated, written)


def _left(circuit: Circuit, wait: Wait, figures: str) -> Iterator[Cell]:
    """What is left when the time is over."""
    if figures:
        yield figures
    if wait.capacitance is not None and wait.start is not None and wait.start > wait.end > 0:
        joules = stored_energy(wait.end, wait.capacitance)
        yield f"{wait.end:g}\u00a0V on {_farads(wait.capacitance)} is still {joules:.2g}\u00a0J: a wait is no proof."
    if circuit.stored is not None and "bleed" in circuit.stored.none:
        yield Markup("<strong>Nothing bleeds it: it stays charged.</strong>")


def _figures(circuit: Circuit, wait: Wait) -> str:
    """ "1.1 mF ± 20 %, 47 kΩ ± 5 %, 410 V, worst case: 125 s to 60 V, 287 s to 5 V"."""
    stored = circuit.stored
    if stored is None or circuit.energy != "electrical":
        return ""
    given = [
        _figure(stored.capacitance, stored.not_known, "capacitance"),
        _figure(stored.bleed, stored.not_known, "bleed"),
    ]
    if circuit.voltage and circuit.voltage.max:
        given.append(plain(circuit.voltage.max))
    times = [(volts, time_to(circuit, volts)) for volts in dict.fromkeys((wait.end, READING))]
    falls = [f"{time_words(seconds)} to {volts:g}\u00a0V" for volts, seconds in times if seconds is not None]
    if not falls:
        return ", ".join(filter(None, given))
    tolerance = {"capacitance": "+20\u00a0% on the capacitance", "bleed": "+5\u00a0% on the resistance"}
    assumed = [tolerance[one] for one in wait.assumed if one in tolerance]
    return (
        f"{', '.join(filter(None, given))}, worst case{' with ' + ' and '.join(assumed) if assumed else ''}: "
        f"{', '.join(falls)}"
    )


def _figure(limit: Limit | None, not_known: frozenset[str], key: str) -> str:
    name = "capacitance" if key == "capacitance" else "bleed resistance"
    return plain(limit) if limit is not None else f"{name} not published" if key in not_known else ""


def _marks(circuit: Circuit, wait: Wait) -> Iterator[tuple[float, str]]:
    for volts in dict.fromkeys((wait.end, READING)):
        seconds = time_to(circuit, volts)
        if seconds:
            yield seconds, f"{volts:g}\u00a0V at worst"
    if wait.stated:
        yield float(wait.stated), "stated by the maker"


def _farads(value: float) -> str:
    for factor, unit in ((1e-3, "mF"), (1e-6, "µF"), (1e-9, "nF")):
        if value >= factor and value != inf:
            return f"{value / factor:.3g}\u00a0{unit}"
    return f"{value:g}\u00a0F"


def proofs(facts: Facts, naming: Naming, links: Links, manual: Manual) -> Iterator[tuple[Cell, Cell]]:
    """For each circuit where it is read, to what limit, with what; and what is done when it is not dead."""
    stops: dict[tuple[str, str, str, Cell], list[Unfolded]] = {}
    for circuit in facts.circuits:
        steps = proofs_of(circuit, facts.steps)
        if steps:
            parts = [_test_points(circuit, naming)] if circuit.energy == "electrical" else []
            alike: dict[str, list[Unfolded]] = {}
            for one in steps:
                alike.setdefault(_with(one, naming, manual), []).append(one)
            parts += [Markup("{}, step {}").format(text, links(tuple(found))) for text, found in alike.items()]
            yield circuit.name, joined(list(parts), "<br>")
            is_electrical = circuit.energy == "electrical"
            label, name = ("If not dead", "") if is_electrical else ("If not safe", circuit.name)
            for one in steps:
                for exits, stop in _when_not(one):
                    stops.setdefault((label, name, exits, stop), []).append(one)
    for one in facts.steps:
        if isinstance(one.action, actions.Discharge):
            for exits, stop in _when_not(one):
                stops.setdefault(("If more is left", "", exits, stop), []).append(one)
    for (label, name, exits, stop), steps_there in stops.items():
        ahead = f"{name}, {exits.lower()}: " if name and exits else f"{name or exits}: " if name or exits else ""
        yield label, Markup("{}<strong>{}</strong> (step {})").format(ahead, stop, links(tuple(steps_there)))
    unread = [
        one.name
        for one in facts.circuits
        if not one.sealed_in and one.energy not in UNREADABLE and not proofs_of(one, facts.steps)
    ]
    if unread:
        yield "Not proved here", ", ".join(unread)


def _test_points(circuit: Circuit, naming: Naming) -> Markup:
    """The pairs, those behind the same cover together: "X1/1 cable – chassis"."""
    behind: dict[str | None, list[Markup]] = {}
    for point in circuit.dead_at:
        ends = (one if one.is_chassis else link(f"vehicle.html#{one.connector}", str(one)) for one in point.pair)
        behind.setdefault(point.access, []).append(Markup(" – ").join(map(Markup, map(str, ends))))
    parts = [
        joined(list(pairs), "; ") + (Markup(" (behind {})").format(naming.plain(cover)) if cover else "")
        for cover, pairs in behind.items()
    ]
    return joined(list(parts), "<br>") if parts else Markup("<strong>no test point is stated</strong>")


def _with(one: Unfolded, naming: Naming, manual: Manual) -> str:
    action = one.action
    assert isinstance(action, actions.ProveDead | actions.ProveSafe)
    limit = plain(action.limit)
    if not limit and isinstance(action, actions.ProveDead) and manual.workshop.policy.dead_below:
        limit = f"at most {plain(manual.workshop.policy.dead_below)}"
    parts = [limit, naming.tool(action.using)]
    if isinstance(action, actions.ProveDead) and action.proved_before:
        parts.append(f"proved before and after on {naming.tool(action.proved_before)}")
    return ", ".join(filter(None, parts))


def _when_not(one: Unfolded) -> Iterator[tuple[str, Cell]]:
    """What is done behind each exit of a proof that failed; the exits are named where not all of them lead alike."""
    ways: dict[Cell, list[str]] = {}
    for exit, _, _ in ways_out(one.step):
        if exit not in GOES_ON and exit != "exhausted":
            ways.setdefault(_way_on(one, exit), []).append(exit.replace("_", " "))
    for way, exits in ways.items():
        yield (" or ".join(exits).capitalize() if len(ways) > 1 else ""), way


def _way_on(one: Unfolded, exit: str) -> Cell:
    """Where an exit leads, in its words."""
    end = one.conclusion(exit)
    if end is not None:
        stop = "Stop. " if end.stops else ""
        return f"{stop}{end.finding} {end.say or NOT_DEAD}"
    target = one.target(exit)
    if target is None or target == "stop":
        return NOT_DEAD
    there = next((step for step in one.owner.steps if step.id == target), None)
    return f"Go to step {one.number.removesuffix(one.step.number)}{there.number}." if there else NOT_DEAD


def ends(procedure: Procedure, performed: Performed) -> Iterator[Cell]:
    """How many ends leave something isolated, and in what state."""
    told = performed.told(procedure)
    if told is None:
        return
    electrical = {name for name, one in told.show.vehicle.circuits.items() if one.energy == "electrical"}
    together: dict[Markup, list[str]] = {}
    for target, states in told.table.ends.items():
        if isinstance(target, End):
            off = {
                name: word
                for name, word in states.items()
                if name in electrical and word not in ("live", "switched off")
            }
            text = told.show.words(off)
            if text:
                end = procedure.conclusions.get(target.conclusion or "")
                together.setdefault(text, []).append(f"The end “{end.finding}”" if end else "Done to the end, it")
    for text, names in together.items():
        which = f"{len(names)} ends leave" if len(names) > 2 else f"{' / '.join(names)} leaves"
        yield Markup('{} this isolated: <ul class="bl-states">{}</ul>').format(which, text)
