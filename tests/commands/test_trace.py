"""`bayleaf check --trace`: a procedure followed step by step, with the state of every circuit."""

from pathlib import Path

import pytest
from bayleaf.commands import run
from kit import PLACES, PROCEDURE, write_manual

DAY = ("--today", "2026-11-01")
JOB = PROCEDURE.replace(
    "  - do: Look at the vehicle.\n    on: nothing\n", "  - perform: test-van/isolate\n  - pause: break\n"
)
STAYS = "stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]\n"


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A manual whose job isolates the bus and then breaks off; the current folder is in it."""
    folder = write_manual(tmp_path / "manual", {PLACES["procedure"]: JOB + STAYS})
    monkeypatch.chdir(folder)
    return folder


def test_each_step_is_told_with_its_states(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Before the step, and behind each way out; steps of what is performed stand behind the step that performs it."""
    assert 0 == run(["check", "--trace", "test-van/job", *DAY])

    text = capsys.readouterr().out
    proof = text[text.index("1.8  prove_dead") :].split("\n\n")[0].splitlines()
    assert "    before       traction: waited" in proof[1]
    assert "    dead         traction: proved dead" == proof[2]
    assert "    not_dead     traction: not dead" == proof[3]
    assert "    not_decided  as before" == proof[4]
    assert "    then    traction: waited" in text[text.index("\n2  pause") :], (
        "a break ends the proof, not the isolation"
    )


def test_steps_stand_in_their_order(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """1, then 1.1 to 1.8, then 2."""
    run(["check", "--trace", "test-van/job", *DAY])

    blocks = capsys.readouterr().out.split("\n\n")[1:]
    assert ["1", *(f"1.{number}" for number in range(1, 9)), "2"] == [block.split()[0] for block in blocks]


def test_what_is_wrong_is_reported_behind(manual: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The exit code is that of the check."""
    text = (JOB + STAYS).replace("  - pause: break\n", "  - pause: break\n  - unplug: X7\n  - plug: X7\n")
    (manual / PLACES["procedure"]).write_text(text, encoding="utf-8")

    assert 1 == run(["check", "--trace", "test-van/job", *DAY])
    assert "live-conductor-touched" in capsys.readouterr().out


@pytest.mark.parametrize(
    "arguments",
    [("--trace", "test-van/none"), ("--trace", "test-van/job", "--format", "json"), ("--trace", "procedures")],
)
def test_a_wrong_call_ends_with_2(manual: Path, arguments: tuple[str, ...]) -> None:
    """One procedure, as text."""
    assert 2 == run(["check", *arguments, *DAY])
