"""Reading stopped at a colon too many, at one too few, or at one without a space behind it."""

import re
from dataclasses import replace

from ..plain_data import key_missing
from ..schema import every_key
from ..yaml_reader import Unread
from .draft import Draft
from .misread import CURLY_OPENERS, curly, entry_in_text, space_missing
from .slip import Slip, in_quotes, shown, whole
from .where import line_above, value_on_line

_NO_SPACE = re.compile(r"[ ]*(?:- +)*([a-z_]+:)(?=[^ \t\r\n/])")
_REMARK = re.compile(r"[ \t]+#[^\r\n]*$")


def colon_too_many(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    """A colon stands where no key can be."""
    value = value_on_line(draft, at)
    if value and value[0] < at < draft.line(at)[1] and draft.text[value[0] : at].strip("- "):
        return colon_in_text(draft, *value)
    return _space_missing_above(draft, at) or _deeper_than_text(draft, at)


def colon_in_text(draft: Draft, start: int, end: int) -> Slip:
    """The slip of a text between two offsets that holds a colon and a space."""

    def mend(draft: Draft) -> Draft:
        return draft.covered(start, end)

    if draft.text[start] in CURLY_OPENERS:
        return replace(curly(draft, start, end), mend=mend)
    written = shown(draft, start, end)
    return Slip(
        "colon-in-text",
        start,
        end,
        f"the text `{written}` holds a colon that would begin another value",
        "a colon with a space behind it divides a key from its value, and a line has room for one",
        f"put the text in quotes: {in_quotes(whole(draft, start, end))}",
        mend,
    )


def _space_missing_above(draft: Draft, at: int) -> Slip | None:
    above = line_above(draft, at)
    return None if above is None else _space_missing_in(draft, above)


def _space_missing_in(draft: Draft, line_start: int) -> Slip | None:
    match = _NO_SPACE.match(draft.text, line_start)
    if match is None:
        return None
    line_end = draft.line(line_start)[1]
    remark = _REMARK.search(draft.text, match.end(), line_end)
    end = remark.start() if remark else line_end
    return space_missing(draft, match.start(1), match.end(1) - 1, end)


def _deeper_than_text(draft: Draft, at: int) -> Slip | None:
    above = line_above(draft, at)
    line_start, line_end = draft.line(at)
    start = line_start + len(draft.text[line_start:at]) - len(draft.text[line_start:at].lstrip())
    value = None if above is None else value_on_line(draft, above)
    if above is None or value is None or value[0] >= value[1]:
        return None
    if draft.text.startswith("- ", start):
        return entry_in_text(draft, start, line_end, value)
    return Slip(
        "not-readable",
        start,
        at if at > start else line_end,
        f"`{shown(draft, start, at)}` is indented deeper than the line above, which has its value already",
        "deeper lines belong to the key above them, and that key holds a text",
        "give the line the same indent as the key above it",
        see=((*value, "the value that stands there already"),),
    )


def colon_missing(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    """A line among keys that has no key."""
    if trouble.since is None:
        return None
    missing = _space_missing_in(draft, draft.line(trouble.since)[0])
    if missing:
        return missing
    start, end = trouble.since, draft.line(trouble.since)[1]
    key, _, value = whole(draft, start, end).partition(" ")
    help = "write its key before it"
    if key in every_key():
        help = f"write `{key}: {value}`"
    return Slip(
        "not-readable",
        start,
        start + len(draft.text[start:end].rstrip()),
        f"`{shown(draft, start, end)}` has no colon, so it is no key, and its indent makes it no text either",
        "each line here begins with a key and a colon",
        f"{help}; if it goes on with the text above, indent it deeper than that key",
        lambda draft: draft.blanked(start, end),
    )


def key_missing_before(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    """A colon with nothing before it."""
    return key_missing(draft, at) if not draft.text[draft.line(at)[0] : at].strip(" -") else None
