"""`bayleaf check --watch`: after a save, what is new and what is gone, and how many are left."""

from pathlib import Path

import pytest
from bayleaf.commands._watching import tell
from bayleaf.manual import ManualKeeper
from kit import PLACES, PROCEDURE, TODAY, write_manual


def test_what_is_new_and_what_is_gone_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A misspelt key comes, and goes again: the fault in full, then its message, then that there is none."""
    keeper = ManualKeeper(write_manual(tmp_path, {}))
    right = keeper.manual(TODAY)
    (tmp_path / PLACES["procedure"]).write_text(PROCEDURE.replace("title:", "titel:"), "utf-8")
    wrong = keeper.manual(TODAY)
    tell(right.findings, wrong.findings, wrong)
    came = capsys.readouterr().out
    tell(wrong.findings, right.findings, right)
    went = capsys.readouterr().out

    assert "titel" in came and "1 error" in came.splitlines()[-1]
    assert went.startswith(f"gone: {PLACES['procedure']}: ") and went.rstrip().endswith("No faults.")


def test_a_free_page_is_watched_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A tag that leads nowhere comes, and is told with its place."""
    keeper = ManualKeeper(write_manual(tmp_path, {PLACES["page"]: "[[vehicle: test-van]]"}))
    right = keeper.manual(TODAY)
    (tmp_path / PLACES["page"]).write_text("[[vehicle: test-vann]]", "utf-8")
    wrong = keeper.manual(TODAY)
    tell(right.findings, wrong.findings, wrong)
    came = capsys.readouterr().out

    assert f"{PLACES['page']}:1:12  error, form" in came and "did you mean `test-van`?" in came
