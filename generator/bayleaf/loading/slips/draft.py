"""The text as it is handed to the YAML reader: the author's, with slips mended in place.

A file with one slip should give one finding, not hide every other fault of the file. So a slip that
is understood is mended before the text is read again: the sign that misled the reader is replaced by a
stand-in of the same length, which turns back into the author's sign when values are taken out. Offsets
stay true; only an inserted character needs to be counted.
"""

from bisect import bisect_left
from dataclasses import dataclass, replace

#: Signs that can mislead the reader of YAML, each with a stand-in from the characters that Unicode keeps
#: for use inside a program (U+FDD0 to U+FDEF, "noncharacters", Unicode Standard 23.7). A file that holds
#: one of these is told so (`invisible-character`), so a stand-in in the draft is always ours.
SIGNS = ":,#*&!%@`[]{}|>\"'?-"
STAND_INS = {ord(sign): chr(0xFDD0 + number) for number, sign in enumerate(SIGNS)}
#: Stands for a character that no value shall hold.
NOTHING = "\ufdef"
_RESTORE = {ord(stand_in): chr(sign) for sign, stand_in in STAND_INS.items()} | {ord(NOTHING): None}


@dataclass(frozen=True, slots=True)
class Draft:
    """A text to read, and where characters were inserted into it (offsets in the draft, rising)."""

    text: str
    inserted: tuple[int, ...] = ()
    mended: bool = False

    def covered(self, start: int, end: int) -> "Draft":
        """The signs between `start` and `end` turned into stand-ins: they are text now."""
        return self._with(start, end, self.text[start:end].translate(STAND_INS))

    def blanked(self, start: int, end: int, by: str = " ") -> "Draft":
        """Everything between `start` and `end` replaced by spaces (or `by`)."""
        return self._with(start, end, by * (end - start))

    def with_inserted(self, at: int, text: str) -> "Draft":
        """`text` inserted before the character at `at`."""
        size = len(text)
        before = bisect_left(self.inserted, at)
        shifted = tuple(offset + size for offset in self.inserted[before:])
        inserted = (*self.inserted[:before], *range(at, at + size), *shifted)
        return Draft(self.text[:at] + text + self.text[at:], inserted, True)

    def cut_at(self, at: int) -> "Draft":
        """Only what stands before `at`."""
        return replace(self, text=self.text[:at], mended=True)

    def original(self, offset: int) -> int:
        """The offset in the author's text of the character at `offset` of the draft."""
        return offset - bisect_left(self.inserted, offset)

    def restored(self, value: str) -> str:
        """A value as the author wrote it."""
        return value.translate(_RESTORE) if self.mended else value

    def line(self, offset: int) -> tuple[int, int]:
        """Start and end of the draft's line around `offset`."""
        text = self.text
        start = text.rfind("\n", 0, offset) + 1
        start = max(start, text.rfind("\r", start, offset) + 1)
        end = text.find("\n", offset)
        end = len(text) if end < 0 else end
        carriage_return = text.find("\r", offset, end)
        return start, end if carriage_return < 0 else carriage_return

    def _with(self, start: int, end: int, text: str) -> "Draft":
        return replace(self, text=self.text[:start] + text + self.text[end:], mended=True)
