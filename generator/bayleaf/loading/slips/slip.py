"""A slip of the pen: what is wrong with the writing of a file, before anyone asks what the file says."""

from collections.abc import Callable
from dataclasses import dataclass

from ...diagnostics.finding import Finding, See
from ...diagnostics.mend import Edit, Mend
from ...diagnostics.place import Place
from ..text import Lines
from .draft import Draft

#: So many slips of one reading are looked at; a file with more is not a procedure.
MAX_SLIPS = 200
#: Longer pieces of the author's text are cut in a message: it is one line.
_LONGEST = 70


@dataclass(frozen=True, slots=True)
class Slip:
    """One fault with its span in the draft, and how to mend the draft so that reading can go on.

    `mend` may insert characters behind `start` only, for slips are mended from the last to the first;
    signs of the same length may be replaced anywhere. `write` is what the author would write, as spans with their new
    text; empty where more than one thing can be meant.
    """

    rule: str
    start: int
    end: int
    message: str
    because: str
    help: str
    mend: Callable[[Draft], Draft | None] | None = None
    see: tuple[tuple[int, int, str], ...] = ()
    write: tuple[tuple[int, int, str], ...] = ()


def finding_of(slip: Slip, file: str, draft: Draft, lines: Lines) -> Finding:
    """The slip as a finding, its places in the author's own text."""
    edits = tuple(Edit(place_of(file, draft, lines, start, end), new) for start, end, new in slip.write)
    return Finding(
        slip.rule,
        place_of(file, draft, lines, slip.start, slip.end),
        slip.message,
        slip.because,
        slip.help,
        tuple(See(place_of(file, draft, lines, start, end), text) for start, end, text in slip.see),
        mend=Mend(edits) if edits else None,
    )


def place_of(file: str, draft: Draft, lines: Lines, start: int, end: int) -> Place:
    """The place of a span of the draft; of a span over several lines its first line."""
    first = min(draft.original(start), len(lines.text))
    last = max(first, min(draft.original(end), lines.line_end(first)))
    line, column = lines.position(first)
    return Place(file, line, column, line, column + last - first)


def shown(draft: Draft, start: int, end: int) -> str:
    """The author's text between two offsets, on one line and not too long."""
    text = whole(draft, start, end)
    return text if len(text) <= _LONGEST else text[: _LONGEST - 1].rstrip() + "…"


def whole(draft: Draft, start: int, end: int) -> str:
    """The same without a cut: what the author is to write instead."""
    return " ".join(draft.restored(draft.text[start:end]).split())


def in_quotes(text: str) -> str:
    """The text as it is to be written in quotes."""
    if '"' in text or "\\" in text:
        return "'" + text.replace("'", "''") + "'"
    return f'"{text}"'


def in_quotes_there(draft: Draft, start: int, end: int) -> tuple[tuple[int, int, str], ...]:
    """The quotes put around a text of one line; nothing where a line ends within it."""
    text = draft.restored(draft.text[start:end])
    return () if "\n" in text or "\r" in text else ((start, end, in_quotes(text)),)
