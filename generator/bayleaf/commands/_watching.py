"""`bayleaf check --watch`: the findings, and after every save what is new and what is gone."""

import time
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

from ..diagnostics.finding import Finding
from ..manual import Manual, ManualKeeper
from ..site.preview import Stamp, stamp
from .common import report, say

_LOOK_EVERY = 0.1
#: Editors write a file in several goes; it is read when nothing has changed for so long.
_SETTLE = 0.05


def watch(folder: Path, day: date | None, is_wanted: Callable[[Finding], bool]) -> None:
    """Reports until it is interrupted. Names and times of files are compared: that works on a network drive too."""
    keeper, seen = ManualKeeper(folder), stamp(folder)
    manual = keeper.manual(day)
    before = tuple(filter(is_wanted, manual.findings))
    report(before, manual, "text", len(manual.files))
    say("Watching; stop with Ctrl+C.")
    for _ in _saves(folder, seen):
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


def _saves(folder: Path, seen: Stamp) -> Iterator[None]:
    while True:
        time.sleep(_LOOK_EVERY)
        now = stamp(folder)
        if now == seen:
            continue
        time.sleep(_SETTLE)
        settled = stamp(folder)
        while settled != now:
            now = settled
            time.sleep(_SETTLE)
            settled = stamp(folder)
        seen = settled
        yield
