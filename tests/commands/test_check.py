"""`bayleaf check`: which findings are reported, and how their files are called from where one stands."""

import json
import os
from pathlib import Path, PureWindowsPath

import pytest
from bayleaf.commands import common, run
from kit import PLACES, PROCEDURE, write_manual

DAY = ("--today", "2026-11-01")
BROKEN = PROCEDURE + "    time: 5 Nm\n"
MORE = PROCEDURE.replace("test-van/job", "test-van/more") + "    time: 7 Ω\n"


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A manual with an error in each of two procedures and a file that ends in .yaml; the current folder is in it."""
    files = {PLACES["procedure"]: BROKEN, "procedures/test-van/more.yml": MORE, "procedures/test-van/old.yaml": MORE}
    folder = write_manual(tmp_path / "manual", files)
    monkeypatch.chdir(folder)
    return folder


def files_told(capsys: pytest.CaptureFixture[str], *paths: str) -> list[str]:
    """The files with findings, as `check` names them."""
    run(["check", *paths, "--format", "json", *DAY])
    printed = capsys.readouterr()
    assert "" == printed.err
    return [one["file"] for one in json.loads(printed.out)["diagnostics"]]


VAN = "procedures/test-van"
ALL = [f"{VAN}/job.yml", f"{VAN}/more.yml", f"{VAN}/old.yaml"]


@pytest.mark.parametrize(
    ("paths", "expected"),
    [
        ((), ALL),
        ((".",), ALL),
        (("procedures",), ALL),
        ((VAN,), ALL),
        ((f"{VAN}/",), ALL),
        ((f"{VAN}/job.yml",), ALL[:1]),
        (("test-van/more",), ALL[1:2]),
        ((f"{VAN}/old.yaml",), ALL[2:]),
        (("test-van/more", f"{VAN}/old.yaml"), ALL[1:]),
        ((f"{VAN}/../test-van/job.yml",), ALL[:1]),
        ((f"{VAN}/vehicle.yml",), []),
        (("procedures/workshop.yml",), []),
    ],
)
def test_paths_choose_what_is_reported(
    manual: Path, capsys: pytest.CaptureFixture[str], paths: tuple[str, ...], expected: list[str]
) -> None:
    """A file tells its own findings, a folder those of all below it, those of misnamed files included."""
    assert expected == files_told(capsys, *paths)


@pytest.mark.parametrize(
    ("start", "expected"),
    [
        (".", f"{VAN}/job.yml"),
        ("procedures", "../procedures/test-van/job.yml"),
        (VAN, "../../procedures/test-van/job.yml"),
        ("..", f"manual/{VAN}/job.yml"),
    ],
)
def test_files_are_named_from_the_current_folder(
    manual: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    start: str,
    expected: str,
) -> None:
    """Whoever clicks on a path in the terminal gets to the file."""
    monkeypatch.chdir(manual / start)
    told = files_told(capsys, str(manual / VAN / "job.yml"))
    assert [expected] == told
    assert Path(told[0]).resolve() == manual / VAN / "job.yml"


def test_ids_are_found_from_within_the_manual(
    manual: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """An id means the same in every folder of the manual."""
    monkeypatch.chdir(manual / VAN)
    assert ["../../procedures/test-van/more.yml"] == files_told(capsys, "test-van/more")


def test_on_another_drive_files_are_named_in_full(
    manual: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """On Windows there is no way from one drive to another: `relpath` refuses, and the whole path is printed."""

    def refuse(*_: object) -> str:
        raise ValueError("path is on mount 'C:', start on mount 'D:'")

    monkeypatch.setattr(os.path, "relpath", refuse)
    assert [(manual / file).as_posix() for file in ALL] == files_told(capsys)


def test_paths_are_printed_with_slashes_on_windows() -> None:
    """The folder of the manual may come with backslashes; the path of a finding has none."""
    assert "..\\manual" == str(PureWindowsPath("../manual"))
    assert f"../manual/{VAN}/job.yml" == common.below("..\\manual")(f"{VAN}/job.yml")


def test_line_ends_of_windows_change_nothing(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A manual saved with CRLF has the same findings at the same places, and the same report."""
    reports = []
    for _ in range(2):
        run(["check", *DAY])
        reports.append(capsys.readouterr().out)
        for path in (manual / "procedures").rglob("*.y*ml"):
            path.write_bytes(path.read_bytes().replace(b"\r\n", b"\n").replace(b"\n", b"\r\n"))
    assert reports[0] == reports[1]
    assert "\r" not in reports[1]


WRONG = [
    ((f"{VAN}/photo.jpg",), "is nothing that is checked"),
    (("mkdocs.yml",), "is nothing that is checked"),
    (("../other/procedures/test-van/job.yml", f"{VAN}/job.yml"), "is not in the same manual as"),
    (("..",), "is in no manual"),
    (("test-van/jobb",), "there is no test-van/jobb, neither as a path nor as the id of a procedure"),
    (("procedures\\test-van\\nowhere.yml",), "there is no procedures\\test-van\\nowhere.yml"),
    (("x" * 5000,), ""),
    (("a\0b",), "there is no a"),
]


@pytest.mark.parametrize(("paths", "says"), WRONG)
def test_paths_that_lead_nowhere(
    manual: Path, capsys: pytest.CaptureFixture[str], paths: tuple[str, ...], says: str
) -> None:
    """Exit code 2, a sentence on standard error, and nothing on standard output that a program would read."""
    write_manual(manual.parent / "other", {})
    (manual / VAN / "photo.jpg").write_bytes(b"\xff\xd8")
    code = run(["check", *paths, "--format", "json", *DAY])
    printed = capsys.readouterr()
    assert (2, "") == (code, printed.out)
    assert printed.err.startswith("bayleaf: ")
    assert says in printed.err
    assert "Traceback" not in printed.err


def test_json_has_the_stated_shape(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Every key is there in every finding; places count from 1, and what may be null is null or text."""
    run(["check", "--format", "json", *DAY])
    printed = json.loads(capsys.readouterr().out)
    assert ["format", "diagnostics", "counts"] == list(printed)
    assert 1 == printed["format"]
    assert {"error": 3, "warning": 0, "advice": 0} == printed["counts"]
    for one in printed["diagnostics"]:
        assert {
            "rule", "class", "severity", "file", "line", "column", "end_line", "end_column", "message", "because",
            "see", "help", "data",
        } == set(one)  # fmt: skip
        assert one["class"] in ("danger", "validity", "practice", "form")
        assert one["severity"] in ("error", "warning", "advice")
        assert all(isinstance(one[key], int) and one[key] >= 1 for key in ("line", "column", "end_line", "end_column"))
        assert all(one[key] is None or isinstance(one[key], str) for key in ("because", "help"))
        assert isinstance(one["see"], list) and isinstance(one["data"], dict)


def test_json_of_a_manual_without_faults(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """An empty list, counts of nought, exit code 0."""
    folder = write_manual(tmp_path / "good", {})
    assert 0 == run(["check", str(folder), "--format", "json", *DAY])
    expected = {"format": 1, "diagnostics": [], "counts": {"error": 0, "warning": 0, "advice": 0}}
    assert expected == json.loads(capsys.readouterr().out)


def test_today_is_what_dates_are_held_against(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A revision of September lies in the future in January."""
    folder = write_manual(tmp_path / "good", {})
    run(["check", str(folder), "--today", "2026-01-15"])
    assert "date-in-future" in capsys.readouterr().out
    run(["check", str(folder), "--today", "2026-11-01"])
    assert "date-in-future" not in capsys.readouterr().out


def test_warnings_alone_end_with_0(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A warning is told, and keeps nobody from going on."""
    measure = (
        "  - set: {mode: ignition}\n"
        "  - measure: Supply\n    quantity: voltage\n    between: [X210/3, X210/1]\n    using: multimeter\n"
        "    limits: at least 11.5 V\n    when: {mode: ignition}\n"
        "  - set: {mode: off}\n"
    )
    write_manual(manual, {PLACES["procedure"]: PROCEDURE + measure})
    assert 0 == run(["check", "test-van/job", *DAY])
    assert "warning" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("procedures/test-van/job.yml", "procedures/test-van/job.yml"),
        ("procedures/test-van/JOB.yml", "procedures/test-van/job.yml"),
        ("procedures/workshop.YML", "procedures/workshop.yml"),
        ("procedures/test-van", "procedures/test-van"),
        ("procedures/../procedures", "procedures"),
        (".", ""),
    ],
)
def test_a_path_is_that_of_the_file_as_it_is_saved(tmp_path: Path, typed: str, expected: str) -> None:
    """Windows and macOS open it in whatever capitals it is typed."""
    folder = write_manual(tmp_path, {}).resolve()
    assert expected == common.within(folder, folder / typed)
