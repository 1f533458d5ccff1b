"""Which exits a step has, and where each leads when nothing is written. Source: the format, version 1."""

import pytest
from bayleaf.graph.build import must_be_written, ways_out
from bayleaf.graph.exits import default_target, exits_of
from bayleaf.loading.load import load
from bayleaf.model.procedure import Step
from kit import PLACES, PROCEDURE, completed

MEASURE = "measure: Supply\nquantity: voltage\nbetween: [X210/3, X210/1]"
ASK = "ask: Dry?\nanswers:\n  - {answer: yes, then: next}\n  - {answer: no}"
PROVE_DEAD = "prove_dead: traction\nusing: voltage-tester\nlimits: at most 5 V"
PROVE_SAFE = "prove_safe: heater\nusing: thermometer"


def step(text: str) -> Step:
    """The one step of a procedure that has this text."""
    lines = text.replace("\n", "\n    ")
    file = completed(f"steps:\n  - {lines}\n", PROCEDURE)
    return load(PLACES["procedure"], file.encode(), "procedure").model.steps[0]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("do: Look.", ("next",)),
        ("set: {mode: off}", ("next",)),
        ("wait: 5 min", ("next",)),
        ("pause: break", ("next",)),
        (MEASURE, ("next",)),
        (MEASURE + "\nlimits: at least 11 V", ("within", "below", "not_decided")),
        (MEASURE + "\nlimits: at most 15 V", ("within", "above", "not_decided")),
        (MEASURE + "\nlimits: 11 V to 15 V", ("within", "below", "above", "not_decided")),
        (MEASURE + "\nlimits: 12 V ± 5 %", ("within", "below", "above", "not_decided")),
        (MEASURE + "\nlimits: {at_least: 11 V}", ("within", "below", "not_decided")),
        (MEASURE + "\nlimits: {rule: voltage drop}", ("within", "below", "above", "not_decided")),
        (MEASURE + "\nlimits: {rule: voltage drop, at_most: 0.5 V}", ("within", "above", "not_decided")),
        (MEASURE + "\nlimits: 12 V", ("within", "below", "above", "not_decided")),
        ("read: Charge\nquantity: ratio", ("next",)),
        ("read: Charge\nquantity: ratio\nlimits: at least 20 %", ("within", "below", "not_decided")),
        ("compute: Drop\nformula: difference\nof: [a, b]\nquantity: voltage\nlimits: at most 1 V",
         ("within", "above", "not_decided")),
        ("discharge: traction\nlimits: at most 5 V", ("within", "above", "not_decided")),
        (PROVE_DEAD, ("dead", "not_dead", "not_decided")),
        (PROVE_SAFE, ("within", "below", "above", "not_decided")),
        (PROVE_SAFE + "\nlimits: at most 50 °C", ("within", "above", "not_decided")),
        (ASK, ("yes", "no")),
        ("perform: test-van/isolate", ("end", "failed", "given-up")),
    ],
)  # fmt: skip
def test_exits_of_a_step(text: str, expected: tuple[str, ...]) -> None:
    """The limit decides which sides a reading can lie on; what cannot be read may have both."""
    assert expected == exits_of(step(text), comes_back=("end", "failed", "given-up"))


@pytest.mark.parametrize(
    ("text", "exit", "expected"),
    [
        (MEASURE, "next", "next"),
        (MEASURE + "\nlimits: at least 11 V", "within", "next"),
        (MEASURE + "\nlimits: at least 11 V", "below", "stop"),
        (MEASURE + "\nlimits: at least 11 V", "not_decided", "stop"),
        (MEASURE + "\nlimits: at least 11 V\nthen: far", "within", "far"),
        (MEASURE + "\nlimits: at least 11 V\nthen: far", "below", "stop"),
        (PROVE_DEAD, "dead", "next"),
        (PROVE_DEAD, "not_dead", "stop"),
        (PROVE_DEAD, "not_decided", "stop"),
        ("perform: test-van/isolate", "end", "next"),
        ("perform: test-van/isolate\nthen: far", "end", "far"),
        ("perform: test-van/isolate", "failed", "stop"),
        ("do: Look.\nthen: end", "next", "end"),
    ],
)
def test_default_of_an_exit(text: str, exit: str, expected: str) -> None:
    """What is good goes on, everything else stops."""
    assert expected == default_target(step(text), exit)


def test_written_exits_come_before_defaults_and_carry_their_place() -> None:
    """An exit that the step does not have is kept, so that what it leads to counts as reached."""
    made = step(MEASURE + "\nlimits: at least 11 V\nthen: far\noutcomes: {below: near, above: near}")

    at = ("steps", 0)
    expected = [
        ("within", "far", (*at, "then")),
        ("below", "near", (*at, "outcomes", "below")),
        ("not_decided", "stop", None),
        ("above", "near", (*at, "outcomes", "above")),
    ]
    assert expected == list(ways_out(made))


def test_repeat_adds_an_exit_for_one_visit_more() -> None:
    """Used up, a loop stops unless something else is written."""
    silent = step("do: Look.\nrepeat: at most 2")
    written = step("do: Look.\nrepeat: at most 2\nexhausted: far")

    assert [("next", "next", None), ("exhausted", "stop", None)] == list(ways_out(silent))
    assert ("exhausted", "far", ("steps", 0, "exhausted")) == list(ways_out(written))[1]


@pytest.mark.parametrize(
    ("text", "exit", "expected"),
    [
        (ASK, "no", True),
        (ASK + "\nrepeat: at most 2", "exhausted", False),
        ("perform: test-van/isolate", "end", False),
        ("perform: test-van/isolate", "failed", True),
        (MEASURE + "\nlimits: at least 11 V", "below", False),
    ],
)
def test_what_has_to_be_written(text: str, exit: str, expected: bool) -> None:
    """Each answer, and each conclusion that a performed procedure comes back by."""
    assert expected == must_be_written(step(text), exit)
