"""Reading stopped inside brackets or quotes, or just behind them."""

import re

from yaml import tokens as kinds

from ..yaml_reader import Unread, tokens
from .braces import OPENING, closes_nothing
from .colons import colon_in_text
from .draft import Draft
from .misread import cut_at_hash
from .slip import Slip, in_quotes, shown, whole
from .where import depth_of, end_of_entry, indent_of, value_on_line

_CUT = re.compile(r"[ \t](#)[^ \t\r\n]")
_REMARK = re.compile(r"[ \t]+#[^\r\n]*$")
#: A text in quotes that ends in what divides two entries: its second quote was lost, and the next one ended it.
_ENTRY_IN_QUOTES = re.compile(r"""(["'][^,\[\]{}"']*)[\]}]*[ ]*,[ ]*[\[{]*["']""")
_CLOSING = {"[": "]", "{": "}"}


def inside_brackets(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    """Brackets were opened, and what follows does not fit into them."""
    since = trouble.since
    if since is None:
        return None
    text = draft.text
    cut = _CUT.search(text, since, at)
    if cut:
        begin = max(text.rfind(sign, since, cut.start()) for sign in ("[", "{", ", ", ": ")) + 1
        begin += len(text[begin : cut.start()]) - len(text[begin : cut.start()].lstrip())
        line_end = draft.line(cut.start())[1]
        closing = re.compile(r"[\]},]").search(text, cut.end(1), line_end)
        return cut_at_hash(draft, begin, cut.start(1), closing.start() if closing else line_end)
    same_line = draft.line(at)[0] <= since or indent_of(draft, at) > depth_of(draft, since)
    if same_line and text[at : at + 1] == ":":
        begin = max(text.rfind(sign, since, at) for sign in ("[", "{", ", ", ": ")) + 1
        begin += len(text[begin:at]) - len(text[begin:at].lstrip())
        return colon_in_text(draft, begin, end_of_entry(draft, at, inside=True))
    if same_line and text[:at].rstrip()[-1:] in ("'", '"'):
        return behind_quotes(draft, at)
    if same_line and text[at : at + 1] in ("]", "}"):
        if _CLOSING[text[since]] in text[at : draft.line(at)[1]] and _is_closed(text[since:at], text[at]):
            return closes_nothing(draft, at)
        return _not_closed(draft, since, at)
    return _not_closed(draft, since) if not same_line or at >= len(text.rstrip()) else None


def _not_closed(draft: Draft, since: int, at: int | None = None) -> Slip:
    opening = draft.text[since]
    closing = _CLOSING.get(opening, "]")
    line_end = draft.line(since)[1]
    remark = _REMARK.search(draft.text, since, line_end)
    end = at if at else remark.start() if remark else since + len(draft.text[since:line_end].rstrip())
    return Slip(
        "not-readable",
        since,
        end,
        f"the bracket `{opening}` that opens here is not closed",
        f"everything up to the next `{closing}` would belong to it",
        f"write `{whole(draft, since, end)}{closing}`; if it is a text, put it in quotes",
        lambda draft: draft.with_inserted(end, closing),
    )


def _is_closed(text: str, closing: str) -> bool:
    """Whether every bracket of a kind is closed already."""
    return text.count(OPENING[closing]) <= text.count(closing)


def behind_quotes(draft: Draft, at: int) -> Slip:
    """Something follows at `at`, behind the quote that ended the text."""
    text = draft.text
    end = end_of_entry(draft, at)
    quote = text[:at].rstrip()[-1:]
    value = value_on_line(draft, at)
    if value and text[value[0]] == quote:
        start = value[0]
    else:
        start = max(text.rfind(quote, draft.line(at)[0], len(text[:at].rstrip()) - 1), draft.line(at)[0])
    entry = _ENTRY_IN_QUOTES.fullmatch(text, start, len(text[:at].rstrip()))
    if entry is not None:
        return _quote_lost(draft, start, entry.end(1))
    written = whole(draft, start, end)
    is_whole = len(written) > 1 and written[0] == written[-1] == quote  # the quotes that were meant stand there
    meant = written[1:-1] if is_whole else written
    return Slip(
        "not-readable",
        at,
        at + len(text[at:end].rstrip()),
        f"`{shown(draft, at, end)}` stands behind the quote that ends the text",
        f"a value in quotes ends with the second `{quote}`",
        f"put the whole text in other quotes: {in_quotes(meant)}"
        if is_whole
        else f"put the whole text in quotes: {in_quotes(meant)}",
        lambda draft: _without_quotes(draft, start, start + len(draft.text[start:end].rstrip()), is_whole),
    )


def _quote_lost(draft: Draft, start: int, end: int) -> Slip:
    """The slip of an entry in brackets whose second quote is missing; it was to stand at `end`."""
    quote = draft.text[start]
    return Slip(
        "not-readable",
        start,
        end,
        f"the quote `{quote}` that opens here is not closed",
        "everything up to the next quote would belong to the text",
        f"write {whole(draft, start, end)}{quote}",
        lambda draft: draft.with_inserted(end, quote),
    )


def _without_quotes(draft: Draft, start: int, end: int, at_both_ends: bool = True) -> Draft:
    """What stands in quotes as bare text; a quote at one end alone belongs to the text."""
    draft = draft.covered(start, end)
    return draft.blanked(start, start + 1).blanked(end - 1, end) if at_both_ends else draft


def quote_runs_on(draft: Draft, at: int) -> Slip | None:
    """A quote that was never closed swallows lines up to the next quote."""
    last = None
    for token in tokens(draft.text):
        if token.start_mark.index >= at:
            break
        if isinstance(token, kinds.ScalarToken) and token.style in ("'", '"'):
            last = token
    if last is None or last.start_mark.line == last.end_mark.line or draft.text[last.end_mark.index : at].strip():
        return None
    return quote_not_closed(draft, at, Unread("", at, "", last.start_mark.index))


def quote_not_closed(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    """A quote was opened and the file ended, or the next quote is lines away."""
    if trouble.since is None:
        return None
    since = trouble.since
    end = since + len(draft.text[since : draft.line(since)[1]].rstrip())
    quote, written = draft.text[since], whole(draft, since, end)
    inner = written[1:].rstrip(quote)
    return Slip(
        "not-readable",
        since,
        end,
        f"the quote `{quote}` that opens here is not closed on this line",
        "everything up to the next quote would belong to the text",
        f"write {in_quotes(inner)}",
        lambda draft: draft.covered(since, end).blanked(since, since + 1),
    )


def escape(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    """A backslash inside double quotes that means nothing."""
    text = draft.text
    since = trouble.since if trouble.since is not None else max(text.find("\\U"), 0)
    backslash = text.rfind("\\", since, max(at, since) + 2)
    backslash = backslash if backslash >= 0 else since
    closing = text.find('"', backslash)
    line_end = draft.line(backslash)[1]
    end = closing + 1 if since <= closing < line_end else line_end
    written = shown(draft, backslash, min(backslash + 2, end))
    return Slip(
        "not-readable",
        backslash,
        min(backslash + 2, end),
        f"`{written}` means nothing inside double quotes",
        "inside double quotes a backslash begins the name of a special character",
        "put the text in single quotes: '" + whole(draft, since, end).strip('"') + "'",
        lambda draft: _without_quotes(draft, since, end, text[end - 1] == '"' and end - 1 > since),
    )
