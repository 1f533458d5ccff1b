"""`bayleaf tidy`: which files it writes, what it tells, and that an author's file is never lost."""

import os
from pathlib import Path

import pytest
from bayleaf.commands import run
from bayleaf.manual_writing import replace_file
from kit import PLACES, PROCEDURE, link, write_manual

FILE = PLACES["procedure"]
BROKEN = "procedures/test-van/broken.yml"


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A manual whose files are tidy but for one, which has `format` at its end; the current folder is in it."""
    folder = write_manual(tmp_path / "manual", {FILE: PROCEDURE})
    monkeypatch.chdir(folder)
    assert 0 == run(["tidy"])
    tidy = (folder / FILE).read_text(encoding="utf-8")
    (folder / FILE).write_text(tidy.replace("format: 1\n", "", 1) + "format: 1  # last\n", encoding="utf-8")
    return folder


def test_a_file_is_tidied_once(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It is written and named; the second time there is nothing to write."""
    capsys.readouterr()

    assert 0 == run(["tidy"])

    assert f"{FILE} tidied\n" in capsys.readouterr().out
    assert (manual / FILE).read_text(encoding="utf-8").startswith("format: 1  # last\nid: ")
    assert 0 == run(["tidy", "--check"])
    assert "not tidy" not in capsys.readouterr().out


@pytest.mark.parametrize(
    ("option", "code", "told"), [("--check", 1, f"{FILE} is not tidy"), ("--diff", 0, "+format: 1")]
)
def test_check_and_diff_write_nothing(
    manual: Path, capsys: pytest.CaptureFixture[str], option: str, code: int, told: str
) -> None:
    """They tell, and the exit code of --check is 1."""
    before = (manual / FILE).read_bytes()

    assert code == run(["tidy", option])

    assert told in capsys.readouterr().out
    assert before == (manual / FILE).read_bytes()


def test_a_file_that_cannot_be_read_for_certain_is_left_alone(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It is named with the line, the others are tidied, and the exit code is 1."""
    (manual / BROKEN).write_text("format: 1\ntitle: Off: now\n", encoding="utf-8")

    assert 1 == run(["tidy"])

    printed = capsys.readouterr()
    assert f"{BROKEN} is left alone: line 2: " in printed.err
    assert f"{FILE} tidied" in printed.out
    assert "format: 1\ntitle: Off: now\n" == (manual / BROKEN).read_text(encoding="utf-8")


def test_paths_choose_what_is_tidied(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A file, a folder, or the id of a procedure."""
    for path in (FILE, "procedures", "test-van/job"):
        assert 1 == run(["tidy", "--check", path])
    assert 0 == run(["tidy", "--check", "procedures/test-van/vehicle.yml"])
    assert 2 == run(["tidy", "mkdocs.yml"])


@pytest.mark.parametrize("fails", ["fsync", "replace"])
def test_a_full_disk_leaves_the_file_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fails: str) -> None:
    """Whatever fails while it is written, the old text stands there whole, and nothing beside it."""
    path = tmp_path / "a.yml"
    path.write_bytes(b"old")

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, fails, fail)
    with pytest.raises(OSError, match="No space"):
        replace_file(path, b"new")

    assert [path] == list(tmp_path.iterdir())
    assert b"old" == path.read_bytes()


@pytest.mark.parametrize("times", [2, 99], ids=["a moment", "all the time"])
def test_a_file_that_another_program_holds_is_written_once_it_is_let_go(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, times: int
) -> None:
    """So it is on Windows, where a scanner looks at every new file. What is held for good stays, and is named."""
    path = tmp_path / "a.yml"
    path.write_bytes(b"old")
    replace, held = os.replace, iter(range(times))

    def refuse(source: Path, target: Path) -> None:
        if next(held, None) is not None:
            raise PermissionError(13, "Access is denied", str(source), None, str(target))
        replace(source, target)

    monkeypatch.setattr(os, "replace", refuse)
    monkeypatch.setattr("bayleaf.manual_writing._WAITS", (0, 0, 0))
    if times == 2:
        replace_file(path, b"new")
    else:
        with pytest.raises(PermissionError, match="open in another program") as refused:
            replace_file(path, b"new")
        assert str(path) == refused.value.filename

    assert (b"new" if times == 2 else b"old") == path.read_bytes()
    assert [path] == list(tmp_path.iterdir())


def test_rights_and_links_stay(tmp_path: Path) -> None:
    """A file keeps who may read it; of a link the file behind it is written."""
    path, other = tmp_path / "a.yml", tmp_path / "b.yml"
    path.write_bytes(b"old")
    path.chmod(0o640)
    rights = path.stat().st_mode  # Windows knows no more than whether it may be written
    link(other, path)

    replace_file(other, b"new")

    assert other.is_symlink()
    assert (b"new", rights) == (path.read_bytes(), path.stat().st_mode)
