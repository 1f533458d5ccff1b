"""A few whole outputs, kept as they are. `make golden` writes them anew, and the review is their diff.

What must be in each is written by hand beside it and asserted by itself, so that a wrong output cannot be recorded
without being noticed.
"""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from bayleaf.commands import run
from bayleaf.diagnostics.report_github import report_github
from bayleaf.diagnostics.report_json import report_json
from bayleaf.diagnostics.report_sarif import report_sarif
from bayleaf.diagnostics.report_text import report_text
from bayleaf.manual import Manual
from bayleaf.pages.all import all_pages
from kit import PLACES, PROCEDURE, check

HERE = Path(__file__).resolve().parent

#: Three mistakes: a unit of another quantity, an outcome to nowhere, a plug that the vehicle does not have.
BROKEN = PROCEDURE + (
    "    time: 5 Nm\n  - measure: Supply\n    quantity: voltage\n    between: [X21/3, X210/1]\n    using: multimeter\n"
    "    limits: 11.5 V to 14.8 V\n    source: workshop practice\n    outcomes: {below: fuse}\n"
)


def body(manual: Manual, url: str) -> str:
    return next(page for page in all_pages(manual) if page.url == url).make().html + "\n"


OUTPUTS: dict[str, tuple[Callable[[Manual, Manual], str], tuple[str, ...]]] = {
    "procedure.html": (
        lambda right, _: body(right, "test-van/isolate.html"),
        ("Pull out the traction service plug", "at most 5\xa0V", "both contacts of its socket, 205\xa0V", "Wait 5\xa0min",
         "X1/1 (HV+), cable side", "The traction system cannot be made dead.", "approves nothing",
         "State before this step", "</svg>waited", "proved dead", "Safety briefing"),
    ),
    "vehicle.html": (
        lambda right, _: body(right, "test-van/vehicle.html"),
        ("voltage class B", "1.1\xa0mF ±\xa020\xa0%", "20\xa0N·m (14.8\xa0lbf·ft)", "cannot be secured", "taken off by"),
    ),
    "report.txt": (
        lambda _, broken: report_text(broken.findings, broken.text, len(broken.files)),
        ("`5 Nm` is a torque, but a time is expected", "the vehicle profile has no connector `X21`", "did you mean",
         "the procedure has no step or conclusion `fuse`", "3 errors in 1 file"),
    ),
    "report.json": (lambda _, broken: report_json(broken.findings), ('"class": "form"', '"error": 3', '"line": 10')),
    "report.github": (lambda _, broken: report_github(broken.findings), ("::error file=procedures/test-van/job.yml,line=10",)),
    "report.sarif": (
        lambda _, broken: report_sarif(broken.findings, "0"), ('"version": "2.1.0"', '"columnKind": "unicodeCodePoints"'),
    ),
}  # fmt: skip


@pytest.fixture(scope="module")
def right(tmp_path_factory: pytest.TempPathFactory) -> Manual:
    """The small manual, right."""
    return check(tmp_path_factory.mktemp("right"), {})


@pytest.fixture(scope="module")
def broken(tmp_path_factory: pytest.TempPathFactory) -> Manual:
    """The small manual with three mistakes."""
    return check(tmp_path_factory.mktemp("broken"), {PLACES["procedure"]: BROKEN})


@pytest.mark.parametrize("name", OUTPUTS)
def test_output(name: str, right: Manual, broken: Manual) -> None:
    """The whole output is as it was, and holds what it must hold."""
    make, must_hold = OUTPUTS[name]
    found = make(right, broken)

    same_as_kept(name, found)
    assert [text for text in must_hold if text not in found] == []


def test_page_of_a_rule_on_the_console(capsys: pytest.CaptureFixture[str]) -> None:
    """`bayleaf explain` prints the whole page of a rule."""
    code = run(["explain", "unit-of-another-quantity"])
    found = capsys.readouterr().out

    same_as_kept("explain.txt", found)
    assert code == 0
    assert "Why it matters" in found and "Passes" in found


def same_as_kept(name: str, found: str) -> None:
    """Holds an output against the kept one, or keeps it where that is asked for."""
    path = HERE / name
    if os.environ.get("BAYLEAF_GOLDEN") == "write":
        path.write_text(found, encoding="utf-8", newline="\n")
    assert path.read_text(encoding="utf-8") == found
