"""Small values that several kinds of file share."""

import posixpath
from dataclasses import dataclass
from typing import Literal

from ..diagnostics.place import Path

Mode = Literal["asleep", "off", "ignition", "ready", "engine running", "charging"]
MODES: tuple[Mode, ...] = ("asleep", "off", "ignition", "ready", "engine running", "charging")
#: Modes in which the vehicle keeps its contactors open.
QUIET: tuple[Mode, ...] = ("asleep", "off")

State = Literal["live", "switched off", "disconnected", "secured", "waited", "proved dead"]
#: From the least safe up.
STATES: tuple[State, ...] = ("live", "switched off", "disconnected", "secured", "waited", "proved dead")

SignalWord = Literal["danger", "warning", "caution", "notice"]
#: From the gravest down, as ANSI Z535.6 and ISO 3864-2 define the words.
SIGNAL_WORDS: tuple[SignalWord, ...] = ("danger", "warning", "caution", "notice")

#: Names that no element of a profile may have: they mean something in a file already.
RESERVED_NAMES = frozenset({"chassis", "nothing", "none", "never", "each", "mode-off"})
#: The isolation point that every vehicle has: open while the vehicle is off or asleep.
MODE_OFF = "mode-off"


@dataclass(frozen=True, slots=True)
class Message:
    """A safety message: the hazard, what it does, how to avoid it."""

    at: Path
    word: SignalWord
    hazard: str
    consequence: str
    avoid: str


@dataclass(frozen=True, slots=True)
class Callout:
    """A number on a picture: `x` and `y` in pixels of the original as it is seen, turned upright, and its text."""

    at: Path
    x: int
    y: int
    text: str


@dataclass(frozen=True, slots=True)
class Photo:
    """A picture file, relative to the folder of the file that names it."""

    at: Path
    file: str
    shows: str | None = None
    callouts: tuple[Callout, ...] = ()

    @property
    def file_at(self) -> Path:
        """The path to the name of the file."""
        return (*self.at, "file") if self.shows or self.callouts else self.at

    def path(self, folder: str) -> str:
        """Where the picture lies, from the folder of the manual; `folder` is that of the vehicle."""
        return posixpath.normpath(f"procedures/{folder}/{self.file}")


@dataclass(frozen=True, slots=True)
class Conditions:
    """What must hold; every field is empty or None where nothing is asked of it."""

    at: Path
    mode: Mode | None = None
    unplugged: tuple[str, ...] = ()
    plugged: tuple[str, ...] = ()
    open: tuple[str, ...] = ()
    closed: tuple[str, ...] = ()
    removed: tuple[str, ...] = ()
    fitted: tuple[str, ...] = ()
    load: str | None = None


@dataclass(frozen=True, slots=True)
class Built:
    """The years from and to which something was built; `last` is None where it still is."""

    first: int
    last: int | None


@dataclass(frozen=True, slots=True)
class Waiver:
    """A practice warning that the author waives, with the reason."""

    at: Path
    rule: str
    why: str
