"""The files for editors: whole in themselves, written only when they change."""

import json
from pathlib import Path

import pytest
from bayleaf.commands import run
from bayleaf.editors.settings import vscode_settings
from bayleaf.editors.snippets import step_snippets
from bayleaf.loading.schema import step_schema
from kit import write_manual

NAMES = {"procedure", "record", "test-van", "vehicle", "workshop"}


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The small manual, with the current folder in it."""
    write_manual(tmp_path, {})
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_every_schema_is_whole_in_itself(manual: Path) -> None:
    """No reference leads out of the file, so that no network is asked."""
    assert 0 == run(["schema"])
    files = {
        path.name.removesuffix(".schema.json"): path.read_text("utf-8") for path in (manual / ".bayleaf").iterdir()
    }

    assert NAMES == files.keys()
    for text in files.values():
        assert json.loads(text)
        assert "common.schema.json" not in text


def test_files_that_have_not_changed_are_left_alone(manual: Path) -> None:
    """The second run writes none of them; `--check` tells by the exit code."""
    assert 1 == run(["schema", "--check"])
    assert 0 == run(["schema"])
    before = {path: path.stat().st_mtime_ns for path in (manual / ".bayleaf").iterdir()}
    assert 0 == run(["schema"])
    assert before == {path: path.stat().st_mtime_ns for path in (manual / ".bayleaf").iterdir()}
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

    assert ["/procedures/a-1/!(vehicle).yml"] == schemas["./.bayleaf/a-1.schema.json"]  # type: ignore[index]


@pytest.mark.parametrize("snippet", step_snippets(), ids=lambda one: one["label"])
def test_a_snippet_has_only_keys_that_go_with_its_action(snippet: dict) -> None:
    """And all that its action needs."""
    step, keys = step_schema(), set(snippet["body"])
    action = snippet["label"].removeprefix("step: ")
    allowed = step["dependentSchemas"].get(action, step["else"])["propertyNames"]["enum"]

    assert keys <= set(allowed)
    assert set(step["dependentRequired"].get(action, ())) <= keys
