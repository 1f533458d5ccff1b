"""The commands, as they are called: exit codes, what they print, what they leave alone."""

import json
import os
import subprocess
import sys
from pathlib import Path

import bayleaf.commands.check as check_command
import pytest
from bayleaf.commands import run
from bayleaf.rules.rule import all_rules
from bayleaf.site.folder import MARK, listing
from kit import MKDOCS, PLACES, PROCEDURE, link, write_manual

DAY = ("--today", "2026-11-01")
BROKEN = {PLACES["procedure"]: PROCEDURE + "    time: 5 Nm\n"}


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The small manual, with the current folder in it."""
    folder = write_manual(tmp_path / "manual", {})
    monkeypatch.chdir(folder)
    return folder


def test_check_says_that_nothing_is_wrong(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Without faults it ends with 0 and one line."""
    assert run(["check", *DAY]) == 0
    assert capsys.readouterr().out == "No faults in 4 files\n"


def test_check_ends_with_1_where_there_are_errors(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The report goes to standard output, with the path from the current folder."""
    write_manual(manual, BROKEN)

    code = run(["check", *DAY])

    assert code == 1
    assert "procedures/test-van/job.yml:10:13  error, form" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("path", "expected"),
    [
        ("procedures/test-van/job.yml", 1),
        ("test-van/job", 1),
        ("procedures", 1),
        ("test-van/isolate", 0),
        ("records", 0),
    ],
)
def test_paths_and_ids_choose_what_is_reported(manual: Path, path: str, expected: int) -> None:
    """A file, a folder or the id of a procedure; the faults of other files are not told then."""
    write_manual(manual, BROKEN)
    (manual / "records").mkdir()

    assert run(["check", path, *DAY]) == expected


def test_a_file_that_ends_in_yaml_is_told_when_it_is_named(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It is not part of the manual, but whoever asks for it learns why."""
    (manual / "procedures" / "test-van" / "more.yaml").write_text(PROCEDURE, encoding="utf-8")

    code = run(["check", "procedures/test-van/more.yaml", *DAY])

    assert code == 1
    assert "rename it to `more.yml`" in capsys.readouterr().out


def test_json_stands_alone_on_standard_output(manual: Path, capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    """The object has a version, the findings with their spans, and the counts; nothing else is printed."""
    write_manual(manual, BROKEN)

    run(["check", "--format", "json", *DAY])
    printed = json.loads(capfdbinary.readouterr().out.decode("utf-8"))

    assert set(printed) == {"format", "diagnostics", "counts"}
    assert printed["counts"] == {"error": 1, "warning": 0, "advice": 0}
    only = printed["diagnostics"][0]
    assert (only["file"], only["line"], only["column"]) == ("procedures/test-van/job.yml", 10, 13)
    assert {"rule", "class", "severity", "end_line", "end_column", "message", "because", "see", "help", "data"} < set(
        only
    )


@pytest.mark.parametrize(("form", "begins"), [("github", b"::error file="), ("sarif", b"{")])
def test_other_formats(manual: Path, capfdbinary: pytest.CaptureFixture[bytes], form: str, begins: bytes) -> None:
    """Each format begins as its readers expect."""
    write_manual(manual, BROKEN)

    run(["check", "--format", form, *DAY])

    assert capfdbinary.readouterr().out.startswith(begins)


WRONG_CALLS = [
    (["check", "nowhere"], "there is no nowhere"),
    (["check", "--today", "1.11.2026"], "--today takes year-month-day"),
    (["check", "--format", "xml"], "'xml' is not one of"),
    (["chek"], "No such command 'chek'"),
    (["explain", "unit-mising"], "did you mean unit-missing?"),
    (["explain", "zzzz"], "there is no rule zzzz"),
    (["render", "--manual", "nowhere"], "there is no nowhere"),
]


@pytest.mark.parametrize(("call", "says"), WRONG_CALLS)
def test_a_wrong_call_ends_with_2_and_one_sentence(
    manual: Path, capsys: pytest.CaptureFixture[str], call: list[str], says: str
) -> None:
    """What is wrong with the call goes to standard error; there is no traceback."""
    code = run(call)
    printed = capsys.readouterr()

    assert code == 2
    assert says in printed.err
    assert "Traceback" not in printed.err + printed.out


def test_outside_a_manual_it_says_what_a_manual_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit code 2, and the sentence names what is missing."""
    monkeypatch.chdir(tmp_path)

    assert run(["check"]) == 2
    assert "A manual is a folder with mkdocs.yml and procedures/" in capsys.readouterr().err


def test_a_fault_of_the_program_is_told_in_one_sentence(
    manual: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit code 70; the traceback only with --debug."""

    def fail(*_: object, **__: object) -> None:
        raise ZeroDivisionError("planted")

    monkeypatch.setattr(check_command, "load", fail)

    assert run(["check"]) == 70
    short = capsys.readouterr().err
    assert run(["--debug", "check"]) == 70
    long = capsys.readouterr().err

    assert "This is not your mistake" in short and "Traceback" not in short
    assert "Traceback" in long


def test_an_interruption_ends_with_130(manual: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As shells expect of Ctrl+C."""

    def interrupt(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(check_command, "load", interrupt)

    assert run(["check"]) == 130


def test_explain_prints_the_page_of_every_rule(capsys: pytest.CaptureFixture[str]) -> None:
    """Every rule that can be reported can be looked up."""
    for rule in all_rules():
        assert run(["explain", rule.name]) == 0
        assert rule.page.split("\n", 1)[0] in capsys.readouterr().out, rule.name


def test_explain_lists_all_rules(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a name it lists them."""
    assert run(["explain"]) == 0
    printed = capsys.readouterr().out
    assert [rule.name for rule in all_rules() if rule.name not in printed] == []


def contents(folder: Path) -> dict[str, bytes]:
    return {name: (folder / name).read_bytes() for name in listing(folder)}


def test_render_makes_the_site_and_says_where(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The site has the pages, the mark of its maker, and no file of the author's."""
    code = run(["render", *DAY])

    assert code == 0
    assert f"The manual is {manual / 'site' / 'index.html'}" in capsys.readouterr().out
    names = listing(manual / "site")
    assert {"index.html", "test-van/job.html", "test-van/vehicle.html", "codes.html", MARK} <= set(names)
    assert not [name for name in names if name.endswith((".yml", ".yaml", ".md"))]


def test_with_errors_nothing_is_rendered_and_the_last_good_site_stays(
    manual: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Not a byte of the site changes; the exit code is 1."""
    run(["render", *DAY])
    before = contents(manual / "site")
    write_manual(manual, BROKEN)

    code = run(["render", *DAY])

    assert code == 1
    assert "Nothing was rendered" in capsys.readouterr().out
    assert before == contents(manual / "site")


def test_with_errors_marks_the_pages(manual: Path) -> None:
    """`--with-errors` renders all the same, says on the page what is wrong, and still ends with 1."""
    write_manual(manual, BROKEN)

    code = run(["render", "--with-errors", *DAY])

    assert code == 1
    page = (manual / "site" / "test-van" / "job.html").read_text(encoding="utf-8")
    assert "`5 Nm` is a torque, but a time is expected" in page


def test_the_site_is_replaced_as_a_whole(manual: Path) -> None:
    """The page of a procedure that is gone is gone."""
    run(["render", *DAY])
    (manual / PLACES["procedure"]).unlink()

    run(["render", *DAY])

    assert not (manual / "site" / "test-van" / "job.html").exists()
    assert not [path.name for path in manual.iterdir() if path.name.startswith(".site")]


def test_a_folder_of_somebody_else_is_refused(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A folder that holds something and was not made here is left as it is; exit code 2."""
    (manual / "site").mkdir()
    (manual / "site" / "diary.txt").write_text("mine", encoding="utf-8")

    code = run(["render", *DAY])

    assert code == 2
    assert "did not write" in capsys.readouterr().err
    assert [path.name for path in (manual / "site").iterdir()] == ["diary.txt"]


@pytest.mark.parametrize(
    "text",
    ["", "site_name: [", "site_name: x\n", "site_name: x\ntheme: nothing-of-this-name\nplugins: [bayleaf]\n",
     MKDOCS + "plugins: [no-such-plugin]\n", MKDOCS + "nav: 3\n"],
)  # fmt: skip
def test_a_broken_configuration_is_told_without_a_traceback(
    manual: Path, capsys: pytest.CaptureFixture[str], text: str
) -> None:
    """Whatever stands in mkdocs.yml, the person gets a sentence and exit code 2."""
    (manual / "mkdocs.yml").write_text(text, encoding="utf-8")

    code = run(["render", *DAY])
    printed = capsys.readouterr()

    assert code == 2, printed.err
    assert "Traceback" not in printed.err + printed.out


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "utf-8"])
def test_every_console_can_show_the_report(manual: Path, encoding: str) -> None:
    """On a console that lacks Ω and ±, signs are written in letters; nothing fails."""
    write_manual(manual, {PLACES["procedure"]: PROCEDURE + "    time: 5 mΩ\n    expect: ± Ω\n"})
    environment = {**os.environ, "PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"}

    done = subprocess.run(
        [sys.executable, "-m", "bayleaf", "check", *DAY], cwd=manual, env=environment, capture_output=True
    )

    assert done.returncode == 1, done.stderr
    assert b"Traceback" not in done.stderr
    assert "1 error in 1 file" in done.stdout.decode(encoding)


def test_a_file_that_cannot_be_opened_is_told(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A link that leads nowhere is a finding like any other; with its file it is a procedure like any other."""
    target = manual / "elsewhere.yml"
    link(manual / "procedures" / "test-van" / "more.yml", target)

    broken = run(["check", *DAY])
    printed = capsys.readouterr().out
    target.write_text(PROCEDURE.replace("test-van/job", "test-van/more"), encoding="utf-8")
    mended = run(["check", *DAY])

    assert (broken, mended) == (1, 0)
    assert "`procedures/test-van/more.yml` cannot be opened: no such file or directory" in printed


def test_a_misspelt_key_is_one_fault_and_its_value_is_still_looked_at(
    manual: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The value under a misspelt key is read as what was meant, and marked where it stands."""
    write_manual(manual, {PLACES["procedure"]: PROCEDURE + "    tiem: 5 Nm\n"})

    run(["check", "--format", "json", *DAY])
    printed = json.loads(capsys.readouterr().out)

    assert [(one["rule"], one["line"], one["column"]) for one in printed["diagnostics"]] == [
        ("unknown-key", 10, 5),
        ("unit-of-another-quantity", 10, 13),
    ]
