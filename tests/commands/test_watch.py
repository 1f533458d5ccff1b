"""`bayleaf check --watch`: after a save, what is new and what is gone, and how many are left."""

import threading
from pathlib import Path

import pytest
from bayleaf.commands import run
from bayleaf.commands._watching import Teller
from bayleaf.manual import ManualKeeper
from kit import PLACES, PROCEDURE, TODAY, write_manual


def test_what_is_new_and_what_is_gone_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A misspelt key comes, and goes again: the fault in full, then its message, then that there is none."""
    keeper = ManualKeeper(write_manual(tmp_path, {}))
    right = keeper.manual(TODAY)
    (tmp_path / PLACES["procedure"]).write_text(PROCEDURE.replace("title:", "titel:"), "utf-8")
    wrong = keeper.manual(TODAY)
    teller = Teller(tmp_path, lambda _: True, right.findings)
    teller.tell(wrong)
    came = capsys.readouterr().out
    teller.tell(right)
    went = capsys.readouterr().out

    assert "titel" in came and "1 error" in came.splitlines()[-1]
    assert went.startswith(f"gone: {PLACES['procedure']}: ") and went.rstrip().endswith("No faults.")


def test_a_free_page_is_watched_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A tag that leads nowhere comes, and is told with its place."""
    keeper = ManualKeeper(write_manual(tmp_path, {PLACES["page"]: "[[vehicle: test-van]]"}))
    right = keeper.manual(TODAY)
    (tmp_path / PLACES["page"]).write_text("[[vehicle: test-vann]]", "utf-8")
    wrong = keeper.manual(TODAY)
    Teller(tmp_path, lambda _: True, right.findings).tell(wrong)
    came = capsys.readouterr().out

    assert f"{PLACES['page']}:1:12  error, form" in came and "did you mean `test-van`?" in came


def test_a_profile_is_told_of_before_what_rests_on_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Its own fault comes at once and once only, then what it makes wrong elsewhere; so does that it has none."""
    keeper = ManualKeeper(write_manual(tmp_path, {}))
    teller = Teller(tmp_path, lambda _: True, keeper.manual(TODAY).findings)
    profile = tmp_path / PLACES["vehicle"]
    whole = profile.read_text("utf-8")

    profile.write_text(whole + "\ntypo: 1\n", "utf-8")
    manual = keeper.manual(TODAY, soon=teller.tell_soon)
    first = capsys.readouterr().out
    teller.tell(manual)
    last = capsys.readouterr().out
    profile.write_text(whole, "utf-8")
    teller.tell(keeper.manual(TODAY, soon=teller.tell_soon))
    mended = capsys.readouterr().out.splitlines()

    assert "typo" in first and first.splitlines()[-1].endswith("vehicle.yml: 1 error, 0 other; now what rests on it.")
    assert "typo" not in last and "1 error" in last.splitlines()[-1]
    assert mended[0].endswith("vehicle.yml: no faults of its own; now what rests on it.")
    assert mended[-1].endswith("No faults.")


def _still_at_work(before: set[threading.Thread]) -> list[threading.Thread]:
    begun = set(threading.enumerate()) - before
    for one in begun:
        one.join(5)
    return [one for one in begun if one.is_alive()]


def _interrupted(*_: object) -> bool:
    raise KeyboardInterrupt


@pytest.mark.parametrize("call", [("check", "--watch"), ("preview", "--port", "0")], ids=["check", "preview"])
@pytest.mark.parametrize(
    "when", ["bayleaf.site.saves.stamp", "bayleaf.manual.ManualKeeper.manual", "bayleaf.site.saves.Saves.wait"]
)
def test_nothing_listens_any_more_once_it_is_interrupted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: tuple[str, ...], when: str
) -> None:
    """At whatever time that is: on Windows what listens would keep the program from ending."""
    monkeypatch.chdir(write_manual(tmp_path, {}))
    monkeypatch.setattr(when, _interrupted)
    before = set(threading.enumerate())

    assert run([*call]) == 130
    assert not _still_at_work(before)


def test_a_preview_that_cannot_begin_listens_no_more(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Its configuration does not do."""
    monkeypatch.chdir(write_manual(tmp_path, {"mkdocs.yml": "site_name: Bay\nplugins: []\n"}))
    before = set(threading.enumerate())

    assert run(["preview", "--port", "0"]) == 2
    assert not _still_at_work(before)
