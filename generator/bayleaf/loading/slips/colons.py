"""Reading stopped at a colon too many, at one too few, or at one without a space behind it."""

import re
from dataclasses import replace

from ..plain_data import key_missing
from ..schema import every_key, list_of
from ..yaml_reader import Unread
from .draft import Draft
from .entries import entry_in_text
from .misread import CURLY_OPENERS, curly, space_missing
from .slip import Slip, in_quotes, in_quotes_there, shown, whole
from .where import line_above, value_on_line

_KEYS = re.compile(r"([a-z_]+): ")
_NO_SPACE = re.compile(r"[ ]*(?:- +)*([a-z_]+:)(?=[^ \t\r\n/])")
_FIRST_KEY = re.compile(r"- +([a-z_]+):(?=[ \t])")
#: So many characters above a list its key is looked for.
_FAR = 1000
_WORD = re.compile(r"[A-Za-z0-9-]+(?=[ \t])")
_BLOCK = re.compile(r"([a-z_]+: *[>|][-+0-9]*)[ \t]*(?=[\r\n]|$)")
_KNOWN_KEY = re.compile(r"([a-z_]+)(?=[ \t]|$)")
_KEY_BEFORE_BRACKET = re.compile(r"[ ]*(?:- +)*([a-z_]+)[ \t]+(?=[\[{])")
_REMARK = re.compile(r"[ \t]+#[^\r\n]*$")


def colon_too_many(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    """A colon stands where no key can be."""
    bare = _KEY_BEFORE_BRACKET.match(draft.text, *draft.line(at))
    if bare is not None and bare[1] in every_key():
        return _colon_behind(draft, bare.start(1), bare.end(1), draft.line(at)[1])
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
        write=() if _holds_key(written) else in_quotes_there(draft, start, end),
    )


def _holds_key(text: str) -> bool:
    """Whether a line break may have been lost before a key of the format."""
    return any(key in every_key() for key in _KEYS.findall(text))


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
        entry = entry_in_text(draft, start, line_end, value)
        return _list_without_key(draft, start) or (entry if _goes_on_above(draft, start) else replace(entry, mend=None))
    return Slip(
        "not-readable",
        start,
        at if at > start else line_end,
        f"`{shown(draft, start, at)}` is indented deeper than the line above, which has its value already",
        "deeper lines belong to the key above them, and that key holds a text",
        "give the line the same indent as the key above it",
        see=((*value, "the value that stands there already"),),
    )


def _goes_on_above(draft: Draft, dash: int) -> bool:
    """Whether the nearest entry above that stands less deep begins with the same key."""
    line_start, line_end = draft.line(dash)
    key = _FIRST_KEY.match(draft.text, dash, line_end)
    entries = re.compile(rf"^ {{0,{max(dash - line_start - 1, 0)}}}(- +[a-z_]+:(?=[ \t]))", re.MULTILINE)
    above = list(entries.finditer(draft.text, max(0, line_start - _FAR), line_start))
    return key is None or bool(above) and above[-1][1].split() == key[0].split()


def _list_without_key(draft: Draft, dash: int) -> Slip | None:
    """A list at the place of a dash that stands below a text, though no key for a list is there."""
    line_start, line_end = draft.line(dash)
    indent = draft.text[line_start:dash]
    first = _FIRST_KEY.match(draft.text, dash, line_end)
    key = list_of(first[1]) if first is not None else None
    goes_on = re.compile(rf"(?:{indent} [^\r\n]*(?:\r\n?|\n))*{indent}- ").match(draft.text, _next_line(draft, dash))
    if key is None or goes_on is None or len(indent) < 2:
        return None
    above = f"{indent[:-2]}{key}:\n"
    parted = _bare_key_above(draft, line_start, indent[:-2], key)

    def mend(draft: Draft) -> Draft:
        return (draft.blanked(*parted) if parted else draft).with_inserted(line_start, above)

    return Slip(
        "missing-key",
        dash,
        line_end,
        f"the list that begins with `{shown(draft, dash, line_end)}` does not stand below a key",
        "a list belongs to the key directly above it",
        f"put the line `{key}:` directly above it" if parted else f"write `{key}:` in a line of its own above it",
        mend,
        ((*parted, f"`{key}` stands here, without its list"),) if parted else (),
    )


def _bare_key_above(draft: Draft, line_start: int, indent: str, key: str) -> tuple[int, int] | None:
    """Where the key of a list stands in the same step, with other lines between the two."""
    lines = re.compile(rf"^{indent}({key}:)[ \t]*$", re.MULTILINE)
    found = list(lines.finditer(draft.text, max(0, line_start - _FAR), line_start))
    if not found or re.search(
        rf"^ {{0,{max(len(indent) - 1, 0)}}}\S", draft.text[found[-1].end() : line_start], re.MULTILINE
    ):
        return None
    return found[-1].span(1)


def _next_line(draft: Draft, at: int) -> int:
    end = draft.line(at)[1]
    return end + (2 if draft.text.startswith("\r\n", end) else 1)


def colon_missing(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    """A line among keys that has no key."""
    if trouble.since is None:
        return None
    missing = _space_missing_in(draft, draft.line(trouble.since)[0])
    if missing:
        return missing
    start, end = trouble.since, draft.line(trouble.since)[1]
    known = _KNOWN_KEY.match(draft.text, start, end)
    if known is not None and known[1] in every_key():
        return _colon_behind(draft, start, known.end(1), end)
    block = _text_block_above(draft, start)
    if block is not None:
        return _not_in_block(draft, start, end, block)
    word = _WORD.match(draft.text, start, end)  # read as the key, so that nothing seems to be missing
    return Slip(
        "not-readable",
        start,
        start + len(draft.text[start:end].rstrip()),
        f"`{shown(draft, start, end)}` has no colon, so it is no key, and its indent makes it no text either",
        "each line here begins with a key and a colon",
        "put a colon behind its key, or write the key before it; if it goes on with the text above, indent it deeper "
        "than that key",
        lambda draft: draft.with_inserted(word.end(), ":") if word else draft.blanked(start, end),
    )


def _text_block_above(draft: Draft, at: int) -> tuple[int, int] | None:
    """The key and sign that begin a text of several lines, where they end the line above."""
    above = line_above(draft, at)
    found = None if above is None else _BLOCK.search(draft.text, above, draft.line(above)[1])
    return found.span(1) if found else None


def _not_in_block(draft: Draft, start: int, end: int, block: tuple[int, int]) -> Slip:
    """The slip of the first line of a text that is not indented deeper than the key of the text."""
    depth = block[0] - draft.line(block[0])[0] + 2
    return Slip(
        "not-readable",
        start,
        start + len(draft.text[start:end].rstrip()),
        f"`{shown(draft, start, end)}` is not indented deeper than `{shown(draft, *block)}` above it",
        "a text of several lines stands deeper than its key",
        f"indent it by {depth} spaces",
        lambda draft: draft.with_inserted(start, " " * max(depth - (start - draft.line(start)[0]), 1)),
        ((*block, "the text begins here"),),
    )


def _colon_behind(draft: Draft, start: int, key_end: int, end: int) -> Slip:
    """The slip of a key between two offsets that has no colon behind it; the line ends at `end`."""
    key, value = shown(draft, start, key_end), whole(draft, key_end, end)
    also = "; if it goes on with the text above, indent it deeper than that key" if value[:1].isalpha() else ""
    return Slip(
        "not-readable",
        start,
        start + len(draft.text[start:end].rstrip()),
        f"the colon behind `{key}` is missing",
        "a key is told from a text by its colon",
        f"write `{f'{key}: {value}'.rstrip()}`{also}",
        lambda draft: draft.with_inserted(key_end, ":"),
    )


def key_missing_before(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    """A colon with nothing before it."""
    return key_missing(draft, at) if not draft.text[draft.line(at)[0] : at].strip(" -") else None
