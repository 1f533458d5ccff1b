"""List entries that are read as more of the text above, for a dash that is missing or an indent that is off."""

import re
from collections.abc import Iterator

from yaml.nodes import ScalarNode

from .draft import Draft
from .slip import Slip, shown

_ENTRY = re.compile(r"^[ ]*(- )", re.MULTILINE)


def entries_in_text(draft: Draft, node: ScalarNode) -> Iterator[Slip]:
    """A text over several lines, one of which begins with a dash: a list entry that was swallowed."""
    text = draft.text
    start, end = node.start_mark.index, node.end_mark.index
    line_start, line_end = draft.line(start)
    dashes = [match.start(1) for match in _ENTRY.finditer(text, line_end, end)]
    columns = {dash - draft.line(dash)[0] for dash in dashes}
    if not dashes:
        return
    before, column = text[line_start:start], min(columns)
    if not before.strip() and len(before) == column + 2:
        yield _dash_missing(draft, start, line_end, dashes[0])
    elif before.strip() == "-" and len(columns) == 1 and len(dashes) > 1:
        yield _too_shallow(draft, line_start, line_end, dashes)
    else:
        yield entry_in_text(draft, dashes[0], min(end, draft.line(dashes[0])[1]), (start, min(end, line_end)))


def entry_in_text(draft: Draft, start: int, end: int, text: tuple[int, int]) -> Slip:
    """The slip of a list entry that stands deeper than the text before it."""
    return Slip(
        "list-entry-read-as-text",
        start,
        end,
        f"`{shown(draft, start, end)}` would be read as more of the text above",
        "a line that is indented deeper than the text above continues it, dash or no dash",
        "give the dash the same indent as the dashes of its list",
        lambda draft: _dash_moved(draft, start),
        ((*text, "the text that it would continue"),),
    )


def _dash_missing(draft: Draft, start: int, end: int, below: int) -> Slip:
    """The first entry of a list has no dash, so those below it go on with it."""
    written = shown(draft, start, end)
    return Slip(
        "list-entry-read-as-text",
        start,
        start + len(draft.text[start:end].rstrip()),
        f"the dash before `{written}` is missing",
        "without it, the entries below would be read as more of this text",
        f"write `- {written}`",
        lambda draft: draft.blanked(start - 2, start - 1, by="-"),
        ((below, draft.line(below)[1], "the next entry"),),
    )


def _too_shallow(draft: Draft, line_start: int, line_end: int, dashes: list[int]) -> Slip:
    """The first entry of a list stands less deep than those below it, which so go on with it."""
    dash = draft.text.index("-", line_start)

    def mend(draft: Draft) -> Draft:
        for other in dashes:
            draft = _dash_to(draft, other, dash - line_start)
        return draft

    return Slip(
        "list-entry-read-as-text",
        dash,
        dash + len(draft.text[dash:line_end].rstrip()),
        f"`{shown(draft, dash, line_end)}` stands less deep than the entries below it",
        "a line that is indented deeper than the text above continues it, dash or no dash",
        "give its dash the same indent as the dashes below it",
        mend,
        ((dashes[0], draft.line(dashes[0])[1], "the next entry"),),
    )


def _dash_moved(draft: Draft, dash: int) -> Draft | None:
    """The dash of an entry that stands too deep, put below the nearest one above that stands less deep."""
    column = dash - draft.line(dash)[0]
    for above in reversed(list(_ENTRY.finditer(draft.text, 0, draft.line(dash)[0]))):
        start = above.start(1) - draft.line(above.start(1))[0]
        if start < column:
            return _dash_to(draft, dash, start)
    return None


def _dash_to(draft: Draft, dash: int, column: int) -> Draft:
    line_start = draft.line(dash)[0]
    return draft.blanked(dash, dash + 1).blanked(line_start + column, line_start + column + 1, by="-")
