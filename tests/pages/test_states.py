"""The states beside the steps: the same as the trace of the walk gives, shown where they are asked for."""

import re
from pathlib import Path

import pytest
from bayleaf.graph.build import build_graph
from bayleaf.manual import Manual
from bayleaf.model.facts import facts_of
from bayleaf.pages.all import all_pages
from bayleaf.pages.state_words import MEANINGS, state_html
from bayleaf.pages.states import StateBook, States, Table, Visit
from bayleaf.pages.unfolded import unfolded
from bayleaf.safety.survey import Surveyor
from bayleaf.safety.told import WORDS, StepPath, states_told
from demo_kit import demo_bodies
from hypothesis import given, settings
from hypothesis import strategies as st
from kit import ISOLATION, PLACES, PROCEDURE, check
from markupsafe import Markup
from oracle.make import make

ROOT = Path(__file__).resolve().parents[2]

Flat = dict[StepPath, tuple[dict[str, str], dict[str, dict[str, str]]]]


@pytest.fixture(scope="module")
def pages() -> dict[str, str]:
    """The pages of the demo's procedures."""
    return {url: body.html for url, body in demo_bodies().items() if url.count("/") == 1}


def flat(book: StateBook, visit: Visit, prefix: StepPath = ()) -> Flat:
    """Every step of a table and of what it performs, by its way."""
    table: Table = book.table(visit)
    found: Flat = {}
    for number, states in table.steps.items():
        path = (*prefix, number)
        found[path] = dict(states.before), {exit: words for exit, words in states.after.items() if words}
        if states.inner:
            found |= flat(book, states.inner, path)
    return found


def told(name: str, surveyor: Surveyor) -> Flat:
    """The same as the trace gives it."""
    return {
        path: (dict(one.before), {exit: words for exit, words in one.after.items() if words})
        for path, one in states_told(name, surveyor).items()
    }


def test_the_states_of_the_demo_are_those_of_the_trace(demo: Manual) -> None:
    """Before every step and behind every exit, performed procedures included."""
    states = States(demo)
    for name, procedure in demo.procedures.items():
        book = states.of(procedure)
        assert book is not None
        assert told(name, book.surveyor) == flat(book, book.visit(name))


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 5_000))
def test_the_states_of_any_manual_are_those_of_the_trace(index: int) -> None:
    """On random procedures, sound and unsound, with loops, two callers and several ways to isolate."""
    case = make(7, index)
    facts = {name: facts_of(one) for name, one in case.procedures.items()}
    surveyor = Surveyor(case.vehicle, case.procedures, lambda one: build_graph(one, facts))
    book = StateBook(surveyor, case.vehicle)
    for root in case.roots:
        assert told(root, surveyor) == flat(book, book.visit(root))


def words_at(html: str, anchor: str, label: str) -> str:
    """What stands in the list of states with this label at a step."""
    step = html[html.index(f'id="{anchor}"') :]
    step = step[: step.index("</section>")]
    found = re.search(rf'aria-label="{label}">(.*?)</ul>', step)
    return " ".join(Markup(found[1].replace("<", " <")).striptags().split()) if found else ""


def test_what_is_shown_beside_a_step_is_what_holds_there(demo: Manual, pages: dict[str, str]) -> None:
    """Every circuit that a step acts on has its word there, on the page of the job and unfolded in others."""
    states, seen = States(demo), 0
    for name, procedure in demo.procedures.items():
        book = states.of(procedure)
        assert book is not None
        trace = states_told(name, book.surveyor)
        paths = {".".join(path): one for path, one in trace.items()}
        for one in unfolded(procedure, book.surveyor.procedures, book):
            assert one.states is not None
            shown = words_at(pages[f"{name}.html"], one.anchor, "State before this step")
            for circuit in one.states.touched:
                known = demo.vehicles[procedure.folder].circuits[circuit]
                assert known.name in shown, (name, one.number)
                if known.energy == "electrical":
                    word = paths[one.number].before[circuit]
                    assert re.search(rf"{re.escape(known.name)}[^:]*: {word}\b", shown), (name, one.number, shown)
                    seen += 1
    assert seen > 200


def test_a_change_stands_behind_the_exit_that_decides(pages: dict[str, str]) -> None:
    """Dead and not dead are told apart where the reader branches."""
    html = pages["larkway-m12/find-insulation-fault.html"]
    step = html[html.index('id="step-isolate-prove"') :].partition("</section>")[0]
    dead, not_dead = step.index("<span>Dead</span>"), step.index("<span>Not dead</span>")

    said = [" ".join(Markup(part).striptags().split()) for part in (step[dead:not_dead], step[not_dead:])]

    assert "Traction DC bus: waited → proved dead" in said[0]
    assert "Traction DC bus: waited → not dead" in said[1]


def test_every_state_has_a_symbol_of_its_own_form() -> None:
    """No two are alike in form, and each stands beside its word."""
    shown = {word: state_html(word, word) for word in WORDS}
    forms = {re.sub(r"^.*<svg[^>]*>(.+)</svg>.*$", r"\1", html) for html in shown.values()}

    assert len(WORDS) == len(forms) == len(MEANINGS)
    assert list(WORDS) == [html.striptags() for html in shown.values()]


def test_nothing_is_called_proved_while_something_is_wrong(tmp_path: Path) -> None:
    """The walk goes on behind an error as if it were mended; so neither page shows a state, and both say why."""
    short = ISOLATION.replace("wait: 5 min", "wait: 1 min")
    job = PROCEDURE + "  - perform: test-van/isolate\n"
    manual = check(tmp_path, {"procedures/test-van/isolate.yml": short, PLACES["procedure"]: job})
    made = {page.url: page.make().html for page in all_pages(manual)}

    assert manual.has_errors
    for url in ("test-van/isolate.html", "test-van/job.html"):
        assert "bl-states" not in made[url] and "they are not proved" in made[url]
    assert "Leaves, not proved" in made["test-van/isolate.html"]
    assert "No briefing can be derived" in made["test-van/isolate.briefing.html"]


def test_a_performed_procedure_shows_the_states_of_its_caller(tmp_path: Path) -> None:
    """The same steps begun live, and begun again with the plug out: each page has its own."""
    left = "stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]\nsteps:\n"
    job = PROCEDURE.replace("steps:\n", left) + "  - perform: test-van/isolate\n  - perform: test-van/isolate\n"
    manual = check(tmp_path, {PLACES["procedure"]: job})
    html = next(page for page in all_pages(manual) if page.url == "test-van/job.html").make().html

    first, second = (words_at(html, f"step-{step}-4", "State before this step") for step in (2, 3))

    assert first == "Traction DC bus: switched off"
    assert second == "Traction DC bus: proved dead"


@pytest.mark.parametrize(("job", "word"), [("contactor-stuck", "live"), ("find-insulation-fault", "switched off")])
def test_with_a_stuck_contactor_switching_off_leaves_the_bus_live(demo: Manual, job: str, word: str) -> None:
    """The display is dark and the bus is on the battery: nobody may read there that it is switched off."""
    procedure = demo.procedures[f"larkway-m12/{job}"]
    book = States(demo).of(procedure)
    assert book is not None

    begun = next(step.number for step in procedure.steps if step.id == "isolate")

    assert word == book.table(book.visit(procedure.id)).steps[begun].before["traction"]
