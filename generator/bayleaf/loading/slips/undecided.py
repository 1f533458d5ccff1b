"""Two versions of the same lines, which a program for versions could not merge and left for the author to choose."""

import re

from .draft import Draft
from .slip import MAX_SLIPS, Slip

#: The marks that Git and its like put at the left edge: `<<<<<<< mine`, `=======`, `>>>>>>> theirs`.
_CONFLICT = re.compile(
    r"^<{7}(?: [^\r\n]*)?\r?\n(?:[^\r\n]*\r?\n)*?(={7}\r?\n(?:[^\r\n]*\r?\n)*?>{7}[^\r\n]*)", re.MULTILINE
)


def undecided(draft: Draft) -> tuple[list[Slip], Draft]:
    """The slips, and the draft with the first of each two versions."""
    text = draft.text
    if "<<<<<<<" not in text:
        return [], draft
    slips = []
    for match in list(_CONFLICT.finditer(text))[:MAX_SLIPS]:
        start, line_end = draft.line(match.start())
        slips.append(_slip(start, line_end))
        draft = _blank_lines(draft, start, line_end)
        draft = _blank_lines(draft, *match.span(1))
    return slips, draft


def _blank_lines(draft: Draft, start: int, end: int) -> Draft:
    """The draft without what stands between two offsets: remarks stand there, since an empty line has a meaning."""
    for part in re.finditer(r"[^\r\n]+", draft.text[start:end]):
        draft = draft.blanked(start + part.start(), start + part.end(), by="#")
    return draft


def _slip(start: int, end: int) -> Slip:
    return Slip(
        "not-readable",
        start,
        end,
        "two versions of the same lines stand here, and nobody has chosen between them",
        "they were left when the changes of two people were put together",
        "keep one of the two, and delete the lines that begin with `<<<<<<<`, `=======` and `>>>>>>>`",
    )
