"""The rules about what follows what, where one procedure performs another."""

import pytest
from flow_kit import CALLEE, findings, told
from kit import PROCEDURE


def test_each_conclusion_that_comes_back_must_be_taken_up(tmp_path) -> None:
    """One fault names all of them; a conclusion that stops never comes back and needs nothing."""
    found = findings(tmp_path, "steps:\n  - perform: test-van/callee\n  - do: Look.\n    on: nothing\n")

    message = "`test-van/callee` can come back by `water`, and this step does not say what follows"
    assert [(2, "exit-missing", message)] == told(found)
    assert "add to `outcomes`: `water: …`" == found[0].help
    assert [("procedures/test-van/callee.yml", 14)] == [(see.place.file, see.place.line) for see in found[0].see]


def test_all_conclusions_written_is_right(tmp_path) -> None:
    """The exit `end` goes on by itself."""
    assert [] == told(findings(tmp_path, "steps:\n  - perform: test-van/callee\n    outcomes: {water: stop}\n"))


@pytest.mark.parametrize(
    ("exit", "message", "help_"),
    [
        ("gone", "`test-van/callee` never comes back by `gone`, which stops", "take it out"),
        ("watr", "`test-van/callee` has no conclusion `watr`", "did you mean `water`?"),
        ("dead", "`test-van/callee` has no conclusion `dead`", "it comes back by: `end`, `water`"),
    ],
)
def test_exits_that_a_callee_does_not_have(tmp_path, exit: str, message: str, help_: str) -> None:
    """The callee's conclusions are the exits, those that stop excepted."""
    steps = f"steps:\n  - perform: test-van/callee\n    outcomes:\n      water: stop\n      {exit}: stop\n"

    found = findings(tmp_path, steps)

    assert [(5, "exit-not-possible", message)] == told(found)
    assert help_ == found[0].help


def test_nothing_is_said_about_a_callee_that_cannot_be_read(tmp_path) -> None:
    """Its own fault is told in its own file, and only there."""
    broken = CALLEE.replace("test-van/callee", "test-van/a").replace("ask:", "aks:")
    found = findings(tmp_path, "steps:\n  - perform: test-van/a\n    outcomes: {nothing: stop}\n", broken)

    assert [("procedures/test-van/a.yml", "step-without-action")] == [(f.place.file, f.rule) for f in found]


def _performing(name: str, *others: str) -> str:
    steps = "".join(f"  - perform: test-van/{other}\n" for other in others)
    return PROCEDURE.replace("test-van/job", f"test-van/{name}").split("steps:")[0] + "steps:\n" + steps


def test_a_circle_over_several_files_is_told_once(tmp_path) -> None:
    """At the first procedure by name; the message holds the whole circle, `see` every other step of it."""
    a, b = _performing("a", "b"), _performing("b", "isolate", "job")
    job = "steps:\n  - perform: test-van/isolate\n  - perform: test-van/a\n"
    found = [f for f in findings(tmp_path, job, a, b) if f.rule == "procedures-perform-each-other"]

    message = "`test-van/a` performs `test-van/b`, which performs `test-van/job`, which performs `test-van/a`"
    assert [("procedures/test-van/a.yml", 8, message)] == [(f.place.file, f.place.line, f.message) for f in found]
    expected = [("procedures/test-van/b.yml", 9), ("procedures/test-van/job.yml", 3)]
    assert expected == [(see.place.file, see.place.line) for see in found[0].see]


def test_two_circles_are_two_errors(tmp_path) -> None:
    """A procedure that performs itself is a circle of its own; what leads into a circle is in none."""
    a, b, c = _performing("a", "b"), _performing("b", "a"), _performing("c", "c")
    job = "steps:\n  - perform: test-van/a\n  - perform: test-van/c\n"
    found = [f for f in findings(tmp_path, job, a, b, c) if f.rule == "procedures-perform-each-other"]

    assert ["`test-van/a` performs `test-van/b`, which performs `test-van/a`", "`test-van/c` performs itself"] == [
        finding.message for finding in found
    ]
