"""`check --fix`: mends are shown, asked for and written. What is offered for which mistake is in `test_mistakes.py`."""

import os
import re
from pathlib import Path

import pytest
from bayleaf.commands import run
from bayleaf.diagnostics.report_json import json_object
from bayleaf.diagnostics.report_sarif import report_sarif
from bayleaf.manual import load_manual
from bayleaf.manual_mending import carry_out, offers
from kit import PROCEDURE, TODAY, completed, write_manual
from mistakes.reading import all_mistakes, write

MISTAKES = {mistake.name: mistake for mistake in all_mistakes()}
DAY = ("--today", TODAY.isoformat())


def written(name: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The manual with a mistake, as the current folder."""
    write(MISTAKES[name], folder)
    monkeypatch.chdir(folder)


def files(folder: Path) -> dict[str, bytes]:
    """Every file of a manual."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.mark.parametrize("name", ["typing/tab", "files/yaml-ending", "typing/windows-1252"])
def test_nothing_is_written_where_nobody_can_be_asked(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The mend is shown, with how to write it; the error stands, and so does the file."""
    written(name, tmp_path, monkeypatch)
    before = files(tmp_path)

    assert 1 == run(["check", "--fix", *DAY])

    told = capsys.readouterr().out
    assert "0 mends written, 1 not written; nobody can be asked here, so add --yes to write them\n" in told
    assert before == files(tmp_path)


def test_with_yes_each_mend_is_shown_and_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The line stands there before and after, what cannot be seen by its name; then it is checked again."""
    written("typing/no-break-space-from-chat", tmp_path, monkeypatch)

    assert 0 == run(["check", "--fix", "--yes", *DAY])

    told = capsys.readouterr().out
    assert re.search(r"isolate-traction\.yml:[0-9]+: this line is indented with a no-break space", told)
    assert re.search(r"old: (<no-break space>)+wait: 5 min\n    new:  +wait: 5 min\n", told)
    assert told.endswith("1 mend written\n\nNo faults in 6 files\n")


@pytest.mark.parametrize(("answer", "code"), [("y\n", 0), ("n\n", 1), ("\n", 1)])
def test_at_a_terminal_each_mend_is_asked_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, answer: str, code: int
) -> None:
    """Only a yes writes."""
    written("typing/tab", tmp_path, monkeypatch)
    before = files(tmp_path)
    monkeypatch.setattr("sys.stdin.isatty", lambda: True, raising=False)
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    monkeypatch.setattr("click.confirm", lambda text, default: answer == "y\n")

    assert code == run(["check", "--fix", *DAY])

    assert (before == files(tmp_path)) == bool(code)


def test_paths_choose_what_is_mended(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A mistake in another file stays."""
    written("typing/tab", tmp_path, monkeypatch)
    before = files(tmp_path)

    assert 0 == run(["check", "--fix", "--yes", "procedures/workshop.yml", *DAY])

    assert before == files(tmp_path)


@pytest.mark.parametrize("options", [("--yes",), ("--fix", "--format", "json")])
def test_options_that_do_not_go_together(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, options: tuple[str, ...]
) -> None:
    """They are a wrong call."""
    written("typing/tab", tmp_path, monkeypatch)

    assert 2 == run(["check", *options])


def test_a_tab_whose_width_matters_is_left_to_the_author(tmp_path: Path) -> None:
    """Where two widths can be read and say different things, nothing is offered."""
    write(MISTAKES["typing/tab"], tmp_path)
    file = tmp_path / "procedures/mosswell-c4/return-to-service.yml"
    file.write_text("steps:\n  - ask: a\n    answers:\n      - answer: b\n        then: c\n\tby: d\n", encoding="utf-8")

    found = [one for one in load_manual(tmp_path, today=TODAY).findings if one.rule == "tab-as-indent"]

    assert [True] == [one.mend is None for one in found if one.place.file.endswith("return-to-service.yml")]


def test_editors_and_code_hosts_are_given_the_mend(tmp_path: Path) -> None:
    """JSON has it in `data`, SARIF as a fix: the place, and what to write there."""
    manual = load_manual(write(MISTAKES["values/volts-dc"], tmp_path), today=TODAY)
    (finding,) = manual.findings

    (told,) = json_object(manual.findings)["diagnostics"]
    place = {name: told[name] for name in ("file", "line", "column", "end_line", "end_column")}
    assert {"edits": [{**place, "new": "V"}], "encoding": None, "rename": None} == told["data"]["mend"]
    assert '"insertedContent": {\n' in report_sarif(manual.findings, "1")
    assert finding.mend is not None


@pytest.mark.parametrize("is_itself", [True, False], ids=["itself", "another"])
def test_a_new_name_is_offered_unless_another_file_has_it(tmp_path: Path, is_itself: bool) -> None:
    """On Windows and macOS the file itself is found under the name in small letters; here a second name stands for that."""
    folder = write_manual(tmp_path, {"procedures/test-van/more.YML": completed("id: test-van/more\n", PROCEDURE)})
    here, there = folder / "procedures/test-van/more.YML", folder / "procedures/test-van/more.yml"
    capitals_count = not there.exists()
    if capitals_count:
        if is_itself:
            there.hardlink_to(here)
        else:
            there.write_bytes(here.read_bytes())
    elif not is_itself:
        pytest.skip("there is no other file of this name")
    offered = [one.finding for one in offers(load_manual(folder, TODAY))]

    names = [one.mend.rename for one in offered if one.mend]
    assert names == (["procedures/test-van/more.yml"] if is_itself else [])
    if is_itself and not capitals_count:
        carry_out(folder, offered)
        assert "more.yml" in os.listdir(here.parent)
