"""`bayleaf start`: what it writes is a manual without faults that renders at once, and nothing is ever overwritten."""

import json
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from bayleaf.commands import run
from bayleaf.editors.settings import vscode_settings
from bayleaf.manual import load_manual
from bayleaf.starting import carry_out, plan_start

DAY = ("--today", "2031-05-04")
FILES = {
    ".gitattributes", ".github/workflows/manual.yml", ".gitignore", ".vscode/extensions.json", ".vscode/settings.json",
    "mkdocs.yml", "procedures/index.md", "procedures/workshop.yml", "procedures/wrenfold-c4/heater-stays-cold.yml",
    "procedures/wrenfold-c4/isolate-traction.yml", "procedures/wrenfold-c4/return-to-service.yml",
    "procedures/wrenfold-c4/vehicle.yml", "records/README.md",
}  # fmt: skip


def contents(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.mark.parametrize("name", ["manual", "my manual", "Werkstatt für Züge", "a/b/c"])
def test_a_new_manual_has_no_fault(tmp_path: Path, name: str) -> None:
    """Whatever the folder is called, and in whichever year it is started: no error, no warning, no advice."""
    assert run(["start", str(tmp_path / name), *DAY]) == 0

    assert set(contents(tmp_path / name)) == FILES
    assert load_manual(tmp_path / name, date(2031, 5, 4)).findings == ()


def test_a_new_workshop_keeps_the_numbers_of_its_customers_vehicles_out_of_its_records(tmp_path: Path) -> None:
    """The demo's depot works on its own vehicles and allows them; that is not what others begin from."""
    run(["start", str(tmp_path / "manual"), *DAY])

    assert b"allow_vin" not in (tmp_path / "manual" / "procedures" / "workshop.yml").read_bytes()
    assert not load_manual(tmp_path / "manual", date(2031, 5, 4)).workshop.policy.allow_vin


def test_it_tells_the_next_commands(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The folder is quoted where a shell would part its name."""
    folder = tmp_path / "my manual"
    run(["start", str(folder), *DAY])

    lines = capsys.readouterr().out.splitlines()
    assert [line.split("  ")[1] for line in lines if line.startswith("  ")] == [
        f'cd "{folder}"', "bayleaf check", "bayleaf preview", "bayleaf draft", "bayleaf schema",
    ]  # fmt: skip


def test_it_renders_and_mkdocs_builds_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Both ways to the site, from a process of its own for MkDocs."""
    run(["start", str(tmp_path), "--today", date.today().isoformat()])
    monkeypatch.chdir(tmp_path)

    assert run(["render"]) == 0
    built = subprocess.run([sys.executable, "-m", "mkdocs", "build", "--strict", "-d", "built"], capture_output=True)

    assert built.returncode == 0, built.stderr
    for site in ("site", "built"):
        assert (tmp_path / site / "wrenfold-c4" / "heater-stays-cold.html").is_file()


@pytest.mark.parametrize("name", sorted(FILES))
def test_a_file_in_the_way_is_named_and_nothing_is_written(
    tmp_path: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Everything is looked at first."""
    (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
    (tmp_path / name).write_text("mine")

    assert run(["start", str(tmp_path), *DAY]) == 2

    assert contents(tmp_path) == {name: b"mine"}
    assert f"nothing was written, because {name} is there already" in capsys.readouterr().err


def test_a_file_where_a_folder_should_be_is_in_the_way(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It is told once, though many files would lie in that folder."""
    (tmp_path / "procedures").write_text("mine")

    assert run(["start", str(tmp_path), *DAY]) == 2
    assert contents(tmp_path) == {"procedures": b"mine"}
    assert "because procedures is there already" in capsys.readouterr().err


def test_other_files_are_left_alone(tmp_path: Path) -> None:
    """A folder that holds something else is fine."""
    (tmp_path / "notes.txt").write_text("mine")

    assert run(["start", str(tmp_path), *DAY]) == 0
    assert contents(tmp_path)["notes.txt"] == b"mine"


def test_a_second_start_is_told_that_it_is_a_manual_already(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The way out is to work with it."""
    run(["start", str(tmp_path), *DAY])
    assert run(["start", str(tmp_path), *DAY]) == 2
    assert "It is a manual already" in capsys.readouterr().err


def test_no_manual_is_started_within_another(tmp_path: Path) -> None:
    """Its files would be taken for those of the manual around it."""
    run(["start", str(tmp_path), *DAY])
    before = contents(tmp_path)

    assert run(["start", str(tmp_path / "procedures" / "new"), *DAY]) == 2
    assert contents(tmp_path) == before


def test_a_file_that_comes_into_being_meanwhile_is_not_overwritten(tmp_path: Path) -> None:
    """Between looking and writing somebody else may write."""
    planned = plan_start(tmp_path, date(2031, 5, 4))
    (tmp_path / "mkdocs.yml").write_text("mine")

    with pytest.raises(FileExistsError):
        carry_out(planned, tmp_path)
    assert (tmp_path / "mkdocs.yml").read_text() == "mine"


def test_every_schema_that_the_editor_is_told_of_is_made_by_the_next_command(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A wrong name would leave the editor without help, and without a word."""
    run(["start", str(tmp_path), *DAY])
    monkeypatch.chdir(tmp_path)
    settings = json.loads((tmp_path / ".vscode" / "settings.json").read_text("utf-8"))

    assert run(["schema"]) == 0
    assert settings.items() >= vscode_settings(["wrenfold-c4"]).items()
    assert all((tmp_path / name).is_file() for name in settings["yaml.schemas"])
