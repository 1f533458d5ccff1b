"""What runs at every change: the hooks for pre-commit, and the workflow that a new manual has.

That pre-commit itself takes the hooks is tried by hand: `pre-commit try-repo CHECKOUT --all-files` in a new manual.
"""

import re
import shlex
import subprocess
import sys
from pathlib import Path
from typing import Any

import click
import pytest
import yaml
from bayleaf import folders
from bayleaf.commands import program, run

CHECKOUT = Path(__file__).resolve().parents[1]
HOOKS: list[dict[str, Any]] = yaml.safe_load((CHECKOUT / ".pre-commit-hooks.yaml").read_text("utf-8"))
WORKFLOW = folders.starter() / "dot-github" / "workflows" / "manual.yml"
STEPS: list[dict[str, Any]] = yaml.safe_load(WORKFLOW.read_text("utf-8"))["jobs"]["check"]["steps"]
BOOK = (CHECKOUT / "procedures" / "book" / "every-change.md").read_text("utf-8")


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A new manual, with the current folder in it."""
    assert 0 == run(["start", str(tmp_path / "manual")])
    monkeypatch.chdir(tmp_path / "manual")
    return tmp_path / "manual"


def understood(call: str) -> bool:
    """Whether the program has such a command with such options."""
    name, *words = shlex.split(call)[1:]
    command = program.get_command(click.Context(program), name)
    return command is not None and command.make_context(name, words) is not None


@pytest.mark.parametrize("hook", HOOKS, ids=lambda hook: hook["id"])
def test_a_hook_calls_what_there_is(hook: dict[str, Any], manual: Path) -> None:
    """A real command with real options, which finds nothing in a new manual; with its files where it takes them."""
    files = [path.relative_to(manual).as_posix() for path in manual.rglob("*") if path.is_file()]
    taken = [name for name in files if re.search(hook["files"], name)]
    words = shlex.split(hook["entry"])[1:] + (taken if hook.get("pass_filenames", True) else [])

    assert {"id", "name", "description", "entry", "language", "files"} <= set(hook)
    assert "python" == hook["language"]
    assert understood(hook["entry"])
    assert len([name for name in taken if name.endswith(".yml")]) >= 5
    assert 0 == run(words)


@pytest.mark.parametrize(
    ("path", "hooks"),
    [
        ("procedures/workshop.yml", ["bayleaf-check", "bayleaf-tidy"]),
        ("procedures/wrenfold-c4/vehicle.yml", ["bayleaf-check", "bayleaf-tidy"]),
        ("deep/er/procedures/wrenfold-c4/job.yml", ["bayleaf-check", "bayleaf-tidy"]),
        ("records/2026-0001.yml", ["bayleaf-check", "bayleaf-tidy"]),
        ("procedures/wrenfold-c4/cover.jpg", ["bayleaf-check"]),
        ("procedures/wrenfold-c4/job.yaml", ["bayleaf-check"]),
        ("mkdocs.yml", ["bayleaf-check"]),
        (".github/workflows/manual.yml", []),
        ("notes.txt", []),
    ],
)
def test_a_hook_runs_where_a_file_concerns_it(path: str, hooks: list[str]) -> None:
    """The check also where a photo or a misnamed file comes in; tidy gets only files that it takes."""
    assert hooks == [hook["id"] for hook in HOOKS if re.search(hook["files"], path)]


def test_the_book_names_the_hooks_as_they_are_called() -> None:
    """What is copied from the page works."""
    assert {hook["id"] for hook in HOOKS} == set(re.findall(r"- id: (\S+)", BOOK))


def test_every_call_of_the_workflow_is_understood() -> None:
    """It checks beside the lines, looks at the order, makes a report, and renders."""
    calls = [step["run"].split(" > ")[0] for step in STEPS if step.get("run", "").startswith("bayleaf ")]

    assert [
        "bayleaf check --format github",
        "bayleaf tidy --check",
        "bayleaf check --format sarif",
        "bayleaf render",
    ] == calls
    assert all(map(understood, calls))
    assert all(call in BOOK for call in calls)


@pytest.mark.skipif(sys.platform == "win32", reason="the workflow runs its lines in a POSIX shell")
@pytest.mark.parametrize("faulty", [False, True])
def test_the_lines_of_the_workflow_do_what_they_should(manual: Path, tmp_path: Path, faulty: bool) -> None:
    """With a fault the check stops the change, the report is made all the same, and only a wrong call fails it."""
    called = tmp_path / "bin" / "bayleaf"
    called.parent.mkdir()
    called.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m bayleaf "$@"\n')
    called.chmod(0o755)
    if faulty:
        job = manual / "procedures" / "wrenfold-c4" / "heater-stays-cold.yml"
        job.write_text(job.read_text("utf-8").replace("format: 1", "format: 2"), "utf-8")

    codes = {
        step["name"]: subprocess.run(["sh", "-e", "-c", f'PATH="{called.parent}:$PATH"; {step["run"]}']).returncode
        for step in STEPS
        if "name" in step
    }

    assert codes == {"Check": faulty, "Tidy": 0, "Report for the code host": 0, "Render": faulty}
    assert (manual / "bayleaf.sarif").read_text("utf-8").count('"level": "error"') == faulty
