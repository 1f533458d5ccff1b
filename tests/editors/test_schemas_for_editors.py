"""The files for editors: whole in themselves, written only when they change."""

import json
from pathlib import Path

import pytest
from bayleaf.commands import run
from bayleaf.editors.files import editor_files
from bayleaf.editors.settings import vscode_settings
from bayleaf.editors.snippets import step_snippets
from bayleaf.loading.schema import step_schema
from bayleaf.manual import load_manual
from kit import write_manual

NAMES = {"procedure", "record", "vehicle", "vehicles/test-van", "workshop"}


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The small manual, with the current folder in it."""
    write_manual(tmp_path, {})
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_every_schema_is_whole_in_itself(manual: Path) -> None:
    """No reference leads out of the file, so that no network is asked."""
    assert 0 == run(["schema"])
    folder = manual / ".bayleaf"
    files = {
        path.relative_to(folder).as_posix().removesuffix(".schema.json"): path.read_text("utf-8")
        for path in folder.rglob("*.json")
    }

    assert NAMES == files.keys()
    for text in files.values():
        assert json.loads(text)
        assert "common.schema.json" not in text


def test_files_that_have_not_changed_are_left_alone(manual: Path) -> None:
    """The second run writes none of them; `--check` tells by the exit code."""
    assert 1 == run(["schema", "--check"])
    assert 0 == run(["schema"])
    before = {path: path.stat().st_mtime_ns for path in (manual / ".bayleaf").rglob("*.json")}
    assert 0 == run(["schema"])
    assert before == {path: path.stat().st_mtime_ns for path in (manual / ".bayleaf").rglob("*.json")}
    assert 0 == run(["schema", "--check"])


def test_a_changed_profile_makes_the_schema_stale(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A name that is new in the profile is offered after the next run."""
    run(["schema"])
    profile = manual / "procedures" / "test-van" / "vehicle.yml"
    profile.write_text(profile.read_text("utf-8").replace("Long wheelbase", "Extra long"), "utf-8")
    capsys.readouterr()

    assert 1 == run(["schema", "--check"])
    assert "test-van.schema.json is not up to date" in capsys.readouterr().out


def test_each_vehicle_folder_has_a_schema_in_the_settings() -> None:
    """The profile beside the procedures has another one."""
    schemas = vscode_settings(["a-1", "b-2"])["yaml.schemas"]

    assert ["/procedures/a-1/!(vehicle).yml"] == schemas["./.bayleaf/vehicles/a-1.schema.json"]  # type: ignore[index]


@pytest.mark.parametrize("folder", ["procedure", "vehicle", "workshop", "record"])
def test_a_vehicle_may_be_called_like_a_kind_of_file(manual: Path, folder: str) -> None:
    """Its folder has a schema of its own all the same, and none of the others is lost."""
    (manual / "procedures" / "test-van").rename(manual / "procedures" / folder)
    for path in (manual / "procedures" / folder).iterdir():
        path.write_text(path.read_text("utf-8").replace("test-van/", f"{folder}/"), "utf-8")
    files = editor_files(load_manual(manual))

    assert "X210/1" in files[f"vehicles/{folder}.schema.json"]
    assert "X210/1" not in files[f"{folder}.schema.json"]
    named = {name.removeprefix("./.bayleaf/") for name in vscode_settings([folder])["yaml.schemas"]}  # type: ignore[attr-defined]
    assert files.keys() == named | {"procedure.schema.json"}


def test_the_settings_are_printed_with_a_line_for_each_vehicle(
    manual: Path, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    """They name every schema that `bayleaf schema` writes for a file of the manual; nothing is written."""
    assert 0 == run(["schema", "--settings"])
    printed = json.loads(capfdbinary.readouterr().out)

    assert vscode_settings(["test-van"]) == printed
    assert not (manual / ".bayleaf").exists()
    assert 2 == run(["schema", "--settings", "--check"])
    assert 2 == run(["schema", "--settings", "--output", ".."])


@pytest.mark.parametrize("snippet", step_snippets(), ids=lambda one: one["label"])
def test_a_snippet_has_only_keys_that_go_with_its_action(snippet: dict) -> None:
    """And all that its action needs."""
    step, keys = step_schema(), set(snippet["body"])
    action = snippet["label"].removeprefix("step: ")
    allowed = step["dependentSchemas"].get(action, step["else"])["propertyNames"]["enum"]

    assert keys <= set(allowed)
    assert set(step["dependentRequired"].get(action, ())) <= keys
