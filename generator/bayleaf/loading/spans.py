"""From an offset in a value to the offset in the file, through quotes, folded lines and indents.

Exact or nothing: where the way back cannot be told for certain, None is returned, and the whole value
is marked instead.
"""

import re
from itertools import accumulate

from yaml.nodes import ScalarNode

from .slips.draft import NOTHING, Draft

_SPACE = " \t\r\n" + NOTHING
_WORDS = re.compile(f"[^{_SPACE}]")
_SINGLE = re.compile("''|.", re.DOTALL)
#: The escapes of a double-quoted text (YAML 1.1, 5.6), each one character of the value.
_DOUBLE = re.compile(r"\\(?:x..|u....|U........|.)|.", re.DOTALL)


def slice_of(draft: Draft, node: ScalarNode, start: int | None, end: int | None) -> tuple[int, int] | None:
    """The offsets in the draft of `value[start:end]`, the value as the author's text gives it."""
    value = draft.restored(node.value)
    first, last, _ = slice(start, end).indices(len(value))
    if last <= first:
        return None
    offsets = _offsets(draft, node, value)
    if offsets is None or offsets[first][0] is None or offsets[last - 1][1] is None:
        return None
    return offsets[first][0], offsets[last - 1][1]


def _offsets(draft: Draft, node: ScalarNode, value: str) -> list[tuple[int, int]] | None:
    """Start and end in the draft of each character of the value."""
    start, end = node.start_mark.index, node.end_mark.index
    style = node.style or ""
    if style in ("'", '"'):
        start, end = start + 1, end - 1
    source = draft.text[start:end]
    if source == node.value and NOTHING not in source:
        return [(start + number, start + number + 1) for number in range(len(value))]
    if style in ("'", '"') and not re.search("[\r\n]", source):
        return _quoted(source, start, value, _SINGLE if style == "'" else _DOUBLE)
    if style == '"' and "\\" in source or style == "'" and "''" in source:
        return None
    if style in ("|", ">"):
        header = re.search("[\r\n]", source)
        start, source = (start + header.end(), source[header.end() :]) if header else (end, "")
    return _folded(source, start, value)


def _quoted(source: str, start: int, value: str, unit: re.Pattern[str]) -> list[tuple[int, int]] | None:
    """One line in quotes: each escape is one character."""
    parts = [part for part in unit.findall(source) if part != NOTHING]
    if len(parts) != len(value) or NOTHING in source:
        return None
    ends = list(accumulate(map(len, parts), initial=start))
    return list(zip(ends, ends[1:], strict=False))


def _folded(source: str, start: int, value: str) -> list[tuple[int, int]] | None:
    """Folding and indents change white space only: the n-th other character is the n-th in both.

    White space of the value takes the place between its neighbours.
    """
    places = [start + match.start() for match in _WORDS.finditer(source)]
    if len(places) < sum(1 for character in value if character not in _SPACE):
        return None
    offsets: list[tuple[int, int]] = []
    used = 0
    for character in value:
        if character in _SPACE:
            before = places[used - 1] + 1 if used else start
            after = places[used] if used < len(places) else before
            offsets.append((before, after))
        else:
            offsets.append((places[used], places[used] + 1))
            used += 1
    return offsets
