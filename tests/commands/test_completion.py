"""What the Tab key offers, asked as click's completion asks it, and in the shells themselves."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from bayleaf.commands import program, run
from click.shell_completion import BashComplete
from kit import PLACES, RECORD, write_manual

#: What the line that switches it on reads, and then what is offered for the words `bayleaf check test-van/i`.
SHELLS = {
    "bash": 'eval "$(bayleaf completion bash)"; COMP_WORDS=(bayleaf check test-van/i); COMP_CWORD=2;'
    ' _bayleaf_completion bayleaf; printf "%s\\n" "${COMPREPLY[@]}"',
    "fish": 'bayleaf completion fish | source; complete -C "bayleaf check test-van/i"',
    "zsh": "autoload -Uz compinit; compinit -u -D; eval \"$(bayleaf completion zsh)\";"
    " compadd() { print -rl -- ${(P)@[-1]}; }; words=(bayleaf check test-van/i) CURRENT=3; _bayleaf_completion",
}  # fmt: skip


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The small manual with a job record, with the current folder in it."""
    folder = write_manual(tmp_path / "manual", {PLACES["record"]: RECORD})
    monkeypatch.chdir(folder)
    return folder


def offered(*words: str) -> list[tuple[str, str]]:
    """Kind and text of what is offered behind these words, of which the last one is being typed."""
    asked = BashComplete(program, {}, "bayleaf", "_BAYLEAF_COMPLETE")
    return [(item.type, item.value) for item in asked.get_completions(list(words[:-1]), words[-1])]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (("re",), ["record", "render"]),
        (("check", "--fo"), ["--format"]),
        (("check", "--format", "s"), ["sarif"]),
        (("check", ""), ["test-van", "test-van/isolate", "test-van/job"]),
        (("check", "test-van/j"), ["test-van/job"]),
        (("check", "test-van/job", "test-van/"), ["test-van/isolate"]),
        (("check", "--trace", "test-van/"), ["test-van/isolate", "test-van/job"]),
        (("tidy", "--diff", "test"), ["test-van", "test-van/isolate", "test-van/job"]),
        (("render", "--sheet", ""), ["test-van/isolate", "test-van/job"]),
        (("render", "--pdf", "test-van/i"), ["test-van/isolate"]),
        (("record", "2026"), ["2026-0001"]),
        (("explain", "torque-beyond"), ["torque-beyond-yield"]),
        (("compute", "tightening-o"), ["tightening-order"]),
        (("compute", "discharge", ""), []),
        (("completion", ""), ["bash", "zsh", "fish"]),
    ],
)
def test_names_are_offered_where_they_are_meant(manual: Path, words: tuple[str, ...], expected: list[str]) -> None:
    """Commands, options and their values, vehicles, procedures, records, rules and formulas."""
    found = offered(*words)

    assert {"plain"} >= {kind for kind, _ in found}
    assert expected == [text for _, text in found]


@pytest.mark.parametrize("command", ["check", "tidy", "record"])
def test_what_no_name_fits_is_left_to_the_shell(manual: Path, command: str) -> None:
    """It completes files then, as everywhere."""
    assert [("file", "procedures/te")] == offered(command, "procedures/te")


def test_outside_of_a_manual_nothing_fails(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """There are no names; files are completed all the same."""
    monkeypatch.chdir(tmp_path)

    assert [("file", "")] == offered("check", "")
    assert [] == offered("render", "--sheet", "")


def test_names_come_from_the_manual_that_is_named(
    manual: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """`--manual` counts, not the current folder."""
    monkeypatch.chdir(tmp_path)

    assert ("plain", "test-van/job") in offered("render", "--manual", str(manual), "--sheet", "")


def test_a_file_with_faults_changes_nothing(manual: Path) -> None:
    """Only names of files are looked at: whoever presses Tab does not wait for a check."""
    (manual / PLACES["procedure"]).write_bytes(b"\xff\x00: [")

    assert ("plain", "test-van/job") in offered("check", "test-van/")


def test_the_program_tells_how_it_is_switched_on(capsys: pytest.CaptureFixture[str]) -> None:
    """One line for each shell, and where it does not work."""
    assert 0 == run(["completion"])

    said = capsys.readouterr().out
    assert all(f"bayleaf completion {shell}" in said for shell in SHELLS)
    assert "PowerShell and the command prompt of Windows cannot complete it" in said


@pytest.mark.parametrize("shell", SHELLS)
def test_the_shell_itself_offers_a_procedure(manual: Path, tmp_path: Path, shell: str) -> None:
    """The script that is printed is read by the shell, which then asks the program."""
    path = shutil.which(shell)
    if path is None:
        pytest.skip(f"there is no {shell} here")
    called = tmp_path / "bin" / "bayleaf"
    called.parent.mkdir()
    called.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m bayleaf "$@"\n')
    called.chmod(0o755)
    places = {"PATH": f"{called.parent}{os.pathsep}{os.environ['PATH']}", "HOME": str(tmp_path)}

    done = subprocess.run([path, "-c", SHELLS[shell]], env={**os.environ, **places}, capture_output=True, text=True)

    assert "test-van/isolate" in done.stdout.split(), done
    assert "" == done.stderr
