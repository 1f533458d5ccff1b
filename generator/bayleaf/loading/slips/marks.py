"""Values that begin with a sign of YAML's own, on purpose (`&name`, `*name`, `!name`) or by accident."""

import re
from typing import Any

from yaml import tokens as kinds

from ..yaml_reader import tokens
from .draft import Draft
from .slip import MAX_SLIPS, Slip, in_quotes, in_quotes_there, shown, whole
from .where import end_of_entry

#: What can stand before a mark; the empty text is the beginning of the file.
_BEFORE_MARK = " \t\r\n[{,:\"'"
#: What a copied page writes for a sign, as `&nbsp;`: in quotes it would still be no text of the author's.
_OF_A_PAGE = re.compile("&[A-Za-z0-9#]+;")
_MARK = re.compile(r"[&*!]")


def marked(draft: Draft, loader: type | None) -> list[Slip]:
    """`&name`, `*name` and `!name`: looked for before the tree is walked, for they can tie it in knots."""
    text = draft.text
    if not any(_may_be_mark(text, match.start()) for match in _MARK.finditer(text)):
        return []
    found = list(tokens(text, loader))
    names = {token.value for token in found if isinstance(token, kinds.AliasToken)}
    anchors: dict[str, Any] = {}
    slips = []
    for token, after in zip(found, [*found[1:], None], strict=True):
        if isinstance(token, kinds.AliasToken):
            slips.append(_alias(draft, token, anchors.get(token.value)))
        elif isinstance(token, kinds.AnchorToken):
            anchors.setdefault(token.value, token)
            if token.value not in names:
                slips.append(_anchor(draft, token, after))
        elif isinstance(token, kinds.TagToken):
            slips.append(_tag(draft, token, after))
    return slips[:MAX_SLIPS]


def _may_be_mark(text: str, at: int) -> bool:
    """A mark begins a value, and a name follows it at once; `!` alone is one, too."""
    before, after = text[at - 1 : at], text[at + 1 : at + 2]
    return before in _BEFORE_MARK and (text[at] == "!" or after not in " \t\r\n")


def _alias(draft: Draft, token: Any, anchor: Any | None) -> Slip:
    start, end = token.start_mark.index, token.end_mark.index
    see: tuple[tuple[int, int, str], ...] = ()

    def mend(draft: Draft) -> Draft:
        if anchor is not None:
            draft = draft.blanked(anchor.start_mark.index, anchor.end_mark.index)
        return draft.covered(start, start + 1)

    if anchor is not None:
        see = ((anchor.start_mark.index, anchor.end_mark.index, f"`&{token.value}` stands here"),)
    return Slip(
        "alias-or-anchor",
        start,
        end,
        f"`*{token.value}` stands for something written elsewhere",
        "a manual is read on paper too: every value stands where it is used",
        f"write out what `&{token.value}` stands for",
        mend,
        see,
    )


def _anchor(draft: Draft, token: Any, after: Any | None) -> Slip:
    start, end = token.start_mark.index, token.end_mark.index
    if _on_same_line(draft, end, after):
        return special(draft, start, end_of_entry(draft, start))
    return Slip(
        "alias-or-anchor",
        start,
        end,
        f"`&{token.value}` gives a name to what follows, and nothing uses it",
        "a manual is read on paper too: every value stands where it is used, without short cuts",
        f"delete `&{token.value}`; if it belongs to a text, put the text in quotes",
        lambda draft: draft.blanked(start, end),
    )


def _tag(draft: Draft, token: Any, after: Any | None) -> Slip:
    start, end = token.start_mark.index, token.end_mark.index
    written = draft.text[start:end]
    if not written.startswith(("!!", "!<")) and not _begins_structure(after):
        return special(draft, start, end_of_entry(draft, start))
    return Slip(
        "tagged-value",
        start,
        end,
        f"`{written}` stands before the value and would change what it is",
        "what a value is follows from its key alone",
        f"delete `{written}`",
        lambda draft: draft.blanked(start, end),
    )


def _on_same_line(draft: Draft, end: int, after: Any | None) -> bool:
    return (
        isinstance(after, kinds.ScalarToken)
        and after.plain
        and not re.search("[\r\n]", draft.text[end : after.start_mark.index])
    )


def _begins_structure(token: Any | None) -> bool:
    if isinstance(token, kinds.ScalarToken):
        return not token.plain
    return isinstance(
        token,
        kinds.FlowSequenceStartToken
        | kinds.FlowMappingStartToken
        | kinds.BlockSequenceStartToken
        | kinds.BlockMappingStartToken
        | kinds.AnchorToken,
    )


_MEANINGS = {
    "*": "stands for something written elsewhere",
    "&": "gives a name to what follows",
    "!": "says of what kind a value is",
    "%": "begins an instruction to the reader",
    "@": "is kept for later use",
    "`": "is kept for later use",
    "[": "begins a list",
    "{": "begins a map",
    "]": "ends a list",
    "}": "ends a map",
    ",": "divides the entries of a list",
    "|": "begins a text of several lines",
    ">": "begins a text of several lines",
    "?": "begins a key",
    "-": "begins a list entry",
    '"': "begins a text in quotes, which ends at the next one",
    "'": "begins a text in quotes, which ends at the next one",
}


def special(draft: Draft, start: int, line_end: int) -> Slip:
    """The slip of a text at `start` that begins with a sign of YAML's own."""
    text = draft.text
    remark = re.compile(r"[ \t]#").search(text, start, line_end)
    end = start + len(text[start : remark.start() if remark else line_end].rstrip())
    sign, written = text[start], shown(draft, start, end)
    return Slip(
        "special-character-opens-text",
        start,
        end,
        f"the text `{written}` begins with `{sign}`",
        f"at the beginning of a value `{sign}` {_MEANINGS[sign]}",
        f"put the text in quotes: {in_quotes(whole(draft, start, end))}",
        lambda draft: draft.covered(start, start + 1),
        write=in_quotes_there(draft, start, end) if sign in "*&!%@`" and not _OF_A_PAGE.match(written) else (),
    )
