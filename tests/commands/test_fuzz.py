"""Whatever a person writes or leaves behind, the commands answer: no traceback, no exit code 70.

The mutations are those of slips: a line gone, doubled, moved or indented, a word gone, a sign in its place, bytes of
another encoding. How many of them still give pages is counted, so that the test does not pass on rubbish alone.
"""

import random
import shutil
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest
from bayleaf.commands import run
from bayleaf.manual import load_manual
from bayleaf.pages.all import all_pages
from kit import ISOLATION, MKDOCS, PLACES, RECORD, TODAY, VEHICLE, WORKSHOP, link, write_manual
from thinned import IS_CAMPAIGN, some

DAY = ("--today", TODAY.isoformat())
JOB = """\
format: 1
id: test-van/job
title: The heater stays cold
kind: diagnosis
trouble_codes: [P1C42]
tools: [multimeter]
parts:
  - {part: cabin-heater, count: 1}
people: {at_least: 2, who: One person qualified for work on dead high-voltage systems}
warning: {hazard: Hot parts, consequence: They can burn., avoid: Wait.}
revisions:
  - {number: 2, date: 2026-09-30, why: Limit added}
  - {number: 1, date: 2026-01-30, why: First version}
steps:
  - id: look
    ask: Is the plug dry?
    on: X210
    answers:
      - {answer: dry, then: isolate}
      - {answer: wet, then: damaged}
  - id: isolate
    perform: test-van/isolate
  - unplug: [X7, X210]
    expect: Contacts bright.
    time: 2 min
  - for_each: [X7]
    steps:
      - id: leak
        measure: Insulation at each
        quantity: insulation resistance
        between: [each/1 device, chassis]
        using: insulation-tester
        test_voltage: 500 V
        discharged: at most 5 V
        limits: {rule: insulation resistance, at_least: 1 MΩ}
        source: workshop practice
        outcomes: {within: next, below: damaged, not_decided: damaged}
  - plug: [X7, X210]
  - tighten: heater-bracket
    tools: torque-wrench-small
  - refit: inverter-cover
  - release: [charge-lead, service-plug]
  - reconnect: [service-plug, aux-negative, charge-lead]
conclusions:
  damaged:
    finding: The heater leaks.
    part: cabin-heater
    end: stop
"""
TEXTS = {
    PLACES["procedure"]: JOB,
    PLACES["vehicle"]: VEHICLE,
    PLACES["workshop"]: WORKSHOP,
    PLACES["record"]: RECORD,
    "procedures/test-van/isolate.yml": ISOLATION,
}

Mutation = Callable[[list[str], random.Random], list[str]]


def _at(lines: list[str], chance: random.Random) -> int:
    return chance.randrange(len(lines))


def gone(lines: list[str], chance: random.Random) -> list[str]:
    """A line is missing."""
    at = _at(lines, chance)
    return lines[:at] + lines[at + 1 :]


def doubled(lines: list[str], chance: random.Random) -> list[str]:
    """A line stands twice."""
    at = _at(lines, chance)
    return lines[: at + 1] + lines[at:]


def moved(lines: list[str], chance: random.Random) -> list[str]:
    """A line stands elsewhere."""
    rest = list(lines)
    line = rest.pop(_at(lines, chance))
    rest.insert(_at(lines, chance), line)
    return rest


def indented(lines: list[str], chance: random.Random) -> list[str]:
    """A line is shifted to the right, or to the left edge."""
    at = _at(lines, chance)
    line = chance.choice(("  " + lines[at], " " + lines[at], lines[at].lstrip(), "\t" + lines[at]))
    return [*lines[:at], line, *lines[at + 1 :]]


def word_gone(lines: list[str], chance: random.Random) -> list[str]:
    """A word, or what stands behind a colon, is missing."""
    at = _at(lines, chance)
    words = lines[at].split(" ")
    words.pop(chance.randrange(len(words)))
    return [*lines[:at], " ".join(words), *lines[at + 1 :]]


def another_sign(lines: list[str], chance: random.Random) -> list[str]:
    """A sign stands where another one belongs."""
    at = _at(lines, chance)
    line = lines[at] or " "
    where = chance.randrange(len(line))
    sign = chance.choice(":-#{}[]\"'&*!|>%@`,?0\x00\u00a0\u201c\ue000Ω\U0001f525")
    return [*lines[:at], line[:where] + sign + line[where + 1 :], *lines[at + 1 :]]


def value_of_another_kind(lines: list[str], chance: random.Random) -> list[str]:
    """A value is a list, a map, a number or nothing where a text belongs."""
    at = _at(lines, chance)
    key, colon, _ = lines[at].partition(":")
    value = chance.choice(
        ("", " []", " {}", " [[]]", " {a: {b: c}}", " 7", " ~", " [a, {b: c}]", " 2026-02-31", " 1e999 V")
    )
    return [*lines[:at], key + colon + value, *lines[at + 1 :]]


def cut_off(lines: list[str], chance: random.Random) -> list[str]:
    """The file ends too early."""
    return lines[: _at(lines, chance)]


MUTATIONS: tuple[Mutation, ...] = (
    gone, doubled, moved, indented, word_gone, another_sign, value_of_another_kind, cut_off,
)  # fmt: skip
#: So many mutated manuals of each kind are checked, and all their pages made.
EACH = 100 if IS_CAMPAIGN else 6


def mutated(seed: str, mutation: Mutation, times: int = 1) -> dict[str, str]:
    """The files of the manual, one of them mutated."""
    chance = random.Random(seed)
    name = chance.choice(sorted(TEXTS))
    lines = TEXTS[name].splitlines()
    for _ in range(times):
        lines = mutation(lines, chance) or [""]
    return {**TEXTS, name: "\n".join(lines) + "\n"}


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A manual that uses much of the format, with the current folder in it."""
    folder = write_manual(tmp_path / "manual", TEXTS)
    monkeypatch.chdir(folder)
    return folder


@pytest.mark.parametrize("mutation", MUTATIONS, ids=lambda mutation: mutation.__name__)
def test_check_answers_for_every_mutated_manual(
    manual: Path, mutation: Mutation, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit code 0 or 1, a report, nothing on standard error."""
    codes: Counter[int] = Counter()
    for number in range(EACH):
        write_manual(manual, mutated(f"check {number}", mutation))
        codes[run(["check", *DAY])] += 1
        printed = capsys.readouterr()
        assert "" == printed.err, number
        assert "Traceback" not in printed.out
    assert set(codes) <= {0, 1}


@pytest.mark.parametrize("mutation", some(MUTATIONS, 2), ids=lambda mutation: mutation.__name__)
def test_pages_are_made_of_every_mutated_manual(manual: Path, mutation: Mutation) -> None:
    """`render --with-errors` and the preview show what is there; a page that fails would be the program's fault."""
    whole = 0
    for number in range(EACH):
        write_manual(manual, mutated(f"pages {number}", mutation))
        made = [page for page in all_pages(load_manual(manual, TODAY)) if not page.url.startswith(("rules", "format"))]
        for page in made:
            assert page.make().html, (number, page.url)
        whole += "test-van/job.html" in {page.url for page in made}
    assert whole >= EACH // 2


def test_render_with_errors_answers_for_heavily_mutated_manuals(
    manual: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Not only one slip but ten: the site is made, the exit code is 1, and the pages say that there are errors."""
    rendered = 0
    for number, mutation in enumerate(MUTATIONS[::2]):
        write_manual(manual, mutated(f"render {number}", mutation, times=10))
        shutil.rmtree(manual / "site", ignore_errors=True)
        code = run(["render", "--with-errors", *DAY])
        printed = capsys.readouterr()
        assert code in (0, 1), (mutation.__name__, printed.err)
        assert "Traceback" not in printed.out + printed.err
        page = (manual / "site" / "index.html").read_text(encoding="utf-8")
        assert (code == 1) == ("Do not work by this page." in page)
        rendered += code
    assert rendered >= len(MUTATIONS) // 4


@pytest.mark.parametrize("mutation", some(MUTATIONS, 2), ids=lambda mutation: mutation.__name__)
def test_render_answers_for_every_mutated_configuration(
    manual: Path, mutation: Mutation, capsys: pytest.CaptureFixture[str]
) -> None:
    """mkdocs.yml is written by hand too: what cannot be used is told, with exit code 2."""
    for number in range(2):
        lines = MKDOCS.replace(": {name: material}", ":\n  name: material").replace(": [bayleaf]", ":\n  - bayleaf")
        text = "\n".join(mutation(lines.splitlines(), random.Random(f"mkdocs {number}")))
        (manual / "mkdocs.yml").write_text(text, encoding="utf-8")
        code = run(["render", *DAY])
        printed = capsys.readouterr()
        assert code in (0, 2), printed.err
        assert "Traceback" not in printed.out + printed.err
        assert (code == 2) == bool(printed.err.startswith("bayleaf: ")), printed.err


BYTES = {
    "nothing": b"",
    "zeros": b"\0" * 300,
    "latin": "title: Prüfung\n".encode("latin-1"),
    "utf-16": "format: 1\ntitle: Prüfung\n".encode("utf-16"),
    "photo": bytes(range(256)) * 8,
    "deep": b"[" * 100_000,
    "bomb": b"a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n",
    "long line": b"title: " + b"x" * 200_000,
    "huge": b"# much\n" * 300_000,
}


@pytest.mark.parametrize("data", BYTES.values(), ids=BYTES)
@pytest.mark.parametrize(
    "place", ["procedures/test-van/job.yml", "procedures/test-van/vehicle.yml", "procedures/workshop.yml"]
)
def test_check_answers_for_files_that_are_something_else(
    manual: Path, place: str, data: bytes, capsys: pytest.CaptureFixture[str]
) -> None:
    """A photo, a file of another encoding, a mischief: one error at least, and never the program's end."""
    (manual / place).write_bytes(data)
    assert 1 == run(["check", *DAY])
    assert "Traceback" not in "".join(capsys.readouterr())


def test_what_lies_about_is_no_part_of_the_manual(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Locks of editors, notes of systems and backups are left alone; a folder may end in .yml."""
    van = manual / "procedures" / "test-van"
    (van / "._job.yml").write_bytes(b"\0\5\26\7")
    (van / ".job.yml.swp").write_bytes(b"b0VIM")
    (van / "job.yml~").write_text("format: 1", encoding="utf-8")
    (van / "folder.yml").mkdir()
    (manual / "procedures" / ".git").mkdir()
    (manual / "procedures" / ".git" / "x.yml").write_text("no", encoding="utf-8")
    before = run(["check", *DAY])
    assert 0 == before, capsys.readouterr().out


def test_a_link_to_nowhere_is_told(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A procedure that cannot be opened is an error at its place; an editor's lock, a link too, is none."""
    van = manual / "procedures" / "test-van"
    link(van / ".#job.yml", "somebody@somewhere.4711")
    assert 0 == run(["check", *DAY])
    link(van / "other.yml", "gone.yml")
    capsys.readouterr()
    assert 1 == run(["check", *DAY])
    assert "procedures/test-van/other.yml" in capsys.readouterr().out
