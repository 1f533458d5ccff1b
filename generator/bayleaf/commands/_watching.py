"""`bayleaf check --watch`: the findings, and after every save what is new and what is gone."""

import gc
import time
from collections.abc import Callable
from contextlib import closing
from datetime import date
from pathlib import Path

from ..diagnostics.finding import Finding
from ..manual import Manual, ManualKeeper
from ..site.saves import Saves
from .common import report, say


def watch(folder: Path, day: date | None, is_wanted: Callable[[Finding], bool]) -> None:
    """Reports until it is interrupted."""
    with closing(Saves(folder)) as saves:
        keeper = ManualKeeper(folder)
        manual = keeper.manual(day)
        gc.freeze()  # what was read stays: looking through it for garbage would take longer than a save
        before = tuple(filter(is_wanted, manual.findings))
        report(before, manual, "text", len(manual.files))
        say("Watching; stop with Ctrl+C.")
        for _ in saves:
            manual = keeper.manual(day)
            now = tuple(filter(is_wanted, manual.findings))
            tell(before, now, manual)
            before = now


def tell(before: tuple[Finding, ...], now: tuple[Finding, ...], manual: Manual) -> None:
    """What is new in full, what is gone by its message, and in the last line how many are left."""
    new = tuple(one for one in now if one not in before)
    if new:
        report(new, manual, "text", len({one.place.file for one in new}))
    there = {(one.rule, one.place.file, one.message) for one in now}
    for one in before:
        if (one.rule, one.place.file, one.message) not in there:
            say(f"gone: {one.place.file}: {one.message}")
    errors = sum(one.severity == "error" for one in now)
    words = f"{errors} error{'' if errors == 1 else 's'}, {len(now) - errors} other" if now else "No faults"
    say(f"{time.strftime('%H:%M:%S')}  {words}.")
