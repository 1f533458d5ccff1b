"""Where things stand in a text that could not be read: by lines, since there is no tree to ask."""

import re

from .draft import Draft

_KEY = re.compile(r"[ ]*(?:[-?][ \t]+)*(?:\"[^\"\r\n]*\"|'[^'\r\n]*'|[^\s\"'#\[{][^\r\n]*?)[ \t]*:[ \t]+(?=\S)")
_DASHES = re.compile(r"[ ]*(?:-[ \t]+)+")


def value_on_line(draft: Draft, offset: int) -> tuple[int, int] | None:
    """Start and end of the value on a line: behind its first key and colon, or behind its dash."""
    line_start, line_end = draft.line(offset)
    head = _KEY.match(draft.text, line_start, line_end) or _DASHES.match(draft.text, line_start, line_end)
    if head is None:
        return None
    remark = re.compile(r"[ \t]+#").search(draft.text, head.end(), line_end)
    end = remark.start() if remark else line_end
    return head.end(), head.end() + len(draft.text[head.end() : end].rstrip())


def end_of_entry(draft: Draft, at: int, inside: bool = False) -> int:
    """The end of a value: of the line, or inside brackets of the entry."""
    line_start, line_end = draft.line(at)
    before = draft.text[line_start:at]
    depth = sum(before.count(sign) for sign in "[{") - sum(before.count(sign) for sign in "]}")
    end = re.compile(r"[,\]}]").search(draft.text, at + 1, line_end) if inside or depth > 0 else None
    return end.start() if end else line_end


def line_above(draft: Draft, at: int) -> int | None:
    """Where the nearest line above begins that is neither empty nor a remark."""
    start = draft.line(at)[0]
    while start:
        start = draft.line(start - (2 if draft.text[start - 2 : start] == "\r\n" else 1))[0]
        text = draft.text[start : draft.line(start)[1]].strip()
        if text and not text.startswith("#"):
            return start
    return None


def depth_of(draft: Draft, at: int) -> int:
    """The column of the first key or text on the line around an offset, behind its dashes."""
    start, end = draft.line(at)
    dashes = _DASHES.match(draft.text, start, end)
    return dashes.end() - start if dashes else indent_of(draft, at)


def indent_of(draft: Draft, at: int) -> int:
    """How many spaces the line around an offset begins with."""
    start, end = draft.line(at)
    return end - start - len(draft.text[start:end].lstrip(" "))
