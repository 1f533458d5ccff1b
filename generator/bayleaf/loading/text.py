"""From the bytes of a file to its text, and from an offset in the text to line and column.

Accepted: UTF-8 with or without a byte order mark, UTF-16 with one; lines that end in LF, CRLF or CR.
Everything else is a fault with the place of the first byte that does not fit, never an exception.
"""

import re
from bisect import bisect_right
from contextlib import suppress
from dataclasses import dataclass
from functools import cached_property

#: A procedure is 10 KB, a large vehicle profile 100 KB; more than this is some other file by mistake.
MAX_BYTES = 1 << 20

_UTF_8_SIGN = re.compile(rb"[\xc2-\xdf][\x80-\xbf]|[\xe0-\xef][\x80-\xbf]{2}")
_BREAK = re.compile("\r\n|\r|\n")
_BOMS = ((b"\xef\xbb\xbf", "utf-8"), (b"\xff\xfe", "utf-16-le"), (b"\xfe\xff", "utf-16-be"))
_UTF_32_BOMS = (b"\xff\xfe\x00\x00", b"\x00\x00\xfe\xff")
_SAVE_AS = "in the editor choose “Save as” (or “Save with encoding”) and take UTF-8"


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a file could not be turned into text. Line and column count from 1, columns in characters."""

    rule: str
    line: int
    column: int
    message: str
    because: str
    help: str
    encoding: str | None = None


class Lines:
    """Where the lines of a text begin. A line ends at LF, CRLF or CR, as in every editor."""

    def __init__(self, text: str) -> None:
        """The lines of `text`, looked for when first asked for."""
        self.text = text

    @cached_property
    def starts(self) -> list[int]:
        """The offset at which each line begins."""
        return [0, *(match.end() for match in _BREAK.finditer(self.text))]

    def position(self, offset: int) -> tuple[int, int]:
        """Line and column of the character at `offset`, both counting from 1."""
        line = bisect_right(self.starts, offset)
        return line, offset - self.starts[line - 1] + 1

    def line_start(self, offset: int) -> int:
        """The offset at which the line of `offset` begins."""
        return self.starts[bisect_right(self.starts, offset) - 1]

    def line_end(self, offset: int) -> int:
        """The offset behind the last character of the line of `offset`, its line break left out."""
        line = bisect_right(self.starts, offset)
        if line == len(self.starts):
            return len(self.text)
        end = self.starts[line] - 1
        return end - 1 if self.text[end - 1 : end + 1] == "\r\n" else end


def decode(data: bytes) -> str | Fault:
    """The text of a file without its byte order mark, or the fault that keeps it from being read."""
    if len(data) > MAX_BYTES:
        return _too_large(len(data))
    if data.startswith(_UTF_32_BOMS):
        return _other_encoding("UTF-32", "utf-32")
    for bom, encoding in _BOMS:
        if data.startswith(bom):
            return _decoded(data[len(bom) :], encoding)
    return _decoded(data, "utf-8")


def _decoded(data: bytes, encoding: str) -> str | Fault:
    if encoding == "utf-8" and _is_utf_16(data):
        return _utf_16_without_mark(data)
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as error:
        before = data[: error.start].decode(encoding, "replace")
        bad = data[error.start]
        if encoding == "utf-8":
            return _not_utf_8(data, before, bad)
        return _broken_utf_16(before)


def _too_large(size: int) -> Fault:
    return Fault(
        "file-too-large",
        1,
        1,
        f"the file holds {size:,} bytes; at most {MAX_BYTES:,} are read".replace(",", " "),
        "no procedure, vehicle or workshop file comes near this size, so this is probably some other file",
        "check that the right file was saved here; if it was, divide it into several procedures",
    )


def _other_encoding(name: str, encoding: str | None = None) -> Fault:
    message = f"the file is saved as {name}, not as UTF-8"
    return Fault("not-utf-8", 1, 1, message, "only UTF-8 is the same on every computer", _SAVE_AS, encoding)


def _is_utf_16(data: bytes) -> bool:
    """Whether most bytes in every second place are zero: the signs of a keyboard take two bytes there."""
    first, second = data[::2].count(0), data[1::2].count(0)
    return len(data) > 3 and min(first, second) == 0 and max(first, second) > len(data) // 4


def _utf_16_without_mark(data: bytes) -> Fault:
    zeros_behind = data[1::2].count(0) > data[::2].count(0)
    return _other_encoding("UTF-16 without a mark", "utf-16-le" if zeros_behind else "utf-16-be")


def _broken_utf_16(before: str) -> Fault:
    line, column = _end_of(before)
    message = "the file begins as UTF-16, but here two bytes are no character"
    return Fault("not-utf-8", line, column, message, "the file was damaged or cut short", _SAVE_AS)


def _not_utf_8(data: bytes, before: str, bad: int) -> Fault:
    """Windows-1252 is what Windows editors of Western Europe and America write by old habit."""
    line, column = _end_of(before)
    was = bytes([bad]).decode("cp1252", "replace")
    meant = f", which would be “{was}” in Windows-1252" if was.isprintable() and was != "\ufffd" else ""
    return Fault(
        "not-utf-8",
        line,
        column,
        f"the file is not saved as UTF-8: byte 0x{bad:02X} stands here{meant}",
        "signs such as Ω, µ, ° and ± would be read as other signs",
        _SAVE_AS,
        "cp1252" if _is_surely_windows_1252(data) else None,
    )


def _is_surely_windows_1252(data: bytes) -> bool:
    """Whether every byte is a sign of that encoding, and none of them part of a sign in UTF-8."""
    with suppress(UnicodeDecodeError):
        signs = data.decode("cp1252").translate(dict.fromkeys(map(ord, "\r\n\t\u00a0\u00ad")))
        return signs.isprintable() and _UTF_8_SIGN.search(data) is None
    return False


def _end_of(before: str) -> tuple[int, int]:
    return Lines(before).position(len(before))
