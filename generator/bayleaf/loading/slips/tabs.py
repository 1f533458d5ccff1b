"""Lines that are indented with tabs."""

import re
from collections.abc import Callable
from typing import Any

from ..yaml_reader import Unread
from .draft import Draft
from .slip import Slip, shown

_INDENT = re.compile(r"^[ ]*\t[ \t]*(?=[^\s#])", re.MULTILINE)
#: The widths a tab may have been meant as, likeliest first: two spaces a level is the habit in YAML.
_WIDTHS = (2, 4, 8)
#: An indent, and the spaces to write in its place.
Spaces = tuple[int, int, str]
#: More tabs than this are told, but not mended.
_MOST = 500


def tab_as_indent(draft: Draft, at: int, read: Callable[[str], Any]) -> Slip | None:
    """The slip, if the line at which reading stopped is indented with a tab."""
    line_start, line_end = draft.line(at)
    match = _INDENT.match(draft.text, line_start)
    if match is None:
        return None
    indents = [found.span() for found in _INDENT.finditer(draft.text)]
    others = sum(1 for start, _ in indents if start != line_start)
    so = f", and so {'is' if others == 1 else 'are'} {others} more" if others else ""
    tab = draft.text.index("\t", line_start)
    return Slip(
        "tab-as-indent",
        tab,
        match.end(),
        f"this line is indented with a tab{so}",
        "a tab has no width of its own, so how deep the line stands cannot be told",
        f"replace each tab before `{shown(draft, match.end(), line_end)}` by spaces, two for each level",
        lambda draft: _without_tabs(draft, indents, read),
        write=_certain(draft, indents, read),
    )


def _certain(draft: Draft, indents: list[tuple[int, int]], read: Callable[[str], Any]) -> tuple[Spaces, ...]:
    """The indents in spaces, if every width in which the lines can be read gives the same values."""
    if sum(end - start for start, end in indents) > _MOST:
        return ()
    found = {width: read(_with_width(draft, indents, width).text) for width in _WIDTHS}
    readable = {width: _values(node) for width, node in found.items() if not isinstance(node, Unread)}
    if not readable or any(values != next(iter(readable.values())) for values in readable.values()):
        return ()
    width = next(iter(readable))
    return tuple((start, end, draft.text[start:end].replace("\t", " " * width)) for start, end in indents)


def _values(node: Any) -> Any:
    """What a tree of nodes says, without its places."""
    if node is None or isinstance(node.value, str):
        return node and node.value
    return [[_values(one) for one in child] if isinstance(child, tuple) else _values(child) for child in node.value]


def _without_tabs(draft: Draft, indents: list[tuple[int, int]], read: Callable[[str], Any]) -> Draft | None:
    """The draft with every tab that indents as spaces, in the first width that can be read."""
    if sum(end - start for start, end in indents) > _MOST:
        return None
    drafts = [_with_width(draft, indents, width) for width in _WIDTHS]
    return next((mended for mended in drafts if not isinstance(read(mended.text), Unread)), drafts[0])


def _with_width(draft: Draft, indents: list[tuple[int, int]], width: int) -> Draft:
    for start, end in reversed(indents):
        for at in range(end - 1, start - 1, -1):
            if draft.text[at] == "\t":
                draft = draft.blanked(at, at + 1).with_inserted(at + 1, " " * (width - 1))
    return draft
