"""`bayleaf check --watch`: the findings, and after every save what is new and what is gone."""

import gc
import time
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from ..diagnostics.finding import Finding
from ..manual import Manual, ManualKeeper
from ..manual_files import Sources
from ..site.saves import Saves
from .common import report, say


def watch(folder: Path, day: date | None, is_wanted: Callable[[Finding], bool]) -> None:
    """Reports until it is interrupted."""
    with closing(Saves(folder)) as saves:
        keeper = ManualKeeper(folder)
        manual = keeper.manual(day)
        gc.freeze()  # what was read stays: looking through it for garbage would take longer than a save
        teller = Teller(folder, is_wanted, tuple(filter(is_wanted, manual.findings)))
        report(teller.known, manual.folder, manual.text, "text", len(manual.files))
        say("Watching; stop with Ctrl+C.")
        for _ in saves:
            teller.tell(keeper.manual(day, soon=teller.tell_soon))


@dataclass
class Teller:
    """Tells after each save what is new and what is gone. `known` is what was told of the state before."""

    folder: Path
    is_wanted: Callable[[Finding], bool]
    known: tuple[Finding, ...]
    told_soon: tuple[Finding, ...] = ()

    def tell_soon(self, sources: Sources, files: tuple[str, ...], found: tuple[Finding, ...]) -> None:
        """What is new in files on which others rest, while those are still being judged."""
        own = tuple(filter(self.is_wanted, found))
        new = self.told_soon = tuple(one for one in own if one not in self.known)
        if new:
            report(new, self.folder, sources.text, "text", len(files))
        words = _count(own) if own else f"no faults of {'its' if len(files) == 1 else 'their'} own"
        say(f"{_clock()}  {', '.join(files)}: {words}; now what rests on it.")

    def tell(self, manual: Manual) -> None:
        """What else is new in full, what is gone by its message, and in the last line how many are left."""
        now = tuple(filter(self.is_wanted, manual.findings))
        new = tuple(one for one in now if one not in self.known and one not in self.told_soon)
        if new:
            report(new, manual.folder, manual.text, "text", len({one.place.file for one in new}))
        there = {(one.rule, one.place.file, one.message) for one in now}
        for one in self.known:
            if (one.rule, one.place.file, one.message) not in there:
                say(f"gone: {one.place.file}: {one.message}")
        say(f"{_clock()}  {_count(now) if now else 'No faults'}.")
        self.known, self.told_soon = now, ()


def _count(findings: tuple[Finding, ...]) -> str:
    errors = sum(one.severity == "error" for one in findings)
    return f"{errors} error{'' if errors == 1 else 's'}, {len(findings) - errors} other"


def _clock() -> str:
    return time.strftime("%H:%M:%S")
