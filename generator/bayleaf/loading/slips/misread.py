"""Text that can be read, but not as it was meant: cut at `#`, joined to the line above, torn at a comma.

Each check asks first, by a search that costs microseconds, whether the file holds anything suspicious at
all; only then are the reader's tokens made, which tell text from remarks and quotes for certain.
"""

import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import islice
from typing import Any

from yaml import tokens as kinds

from ..plain_data import Plain
from ..schema import every_key
from ..yaml_reader import tokens
from .braces import OPENING, closes_nothing, torn_in_braces
from .draft import Draft
from .entries import entries_in_text
from .slip import MAX_SLIPS, Slip, in_quotes, shown, whole

_CUT = re.compile(r"#[^ \t\r\n]")
_TIGHT_COLON = re.compile(r":[^ \t\r\n/:]")
_KEY_BEFORE = re.compile(r"(?:^[ ]*(?:- +)*|[\[{,] *)([a-z_]+)$", re.MULTILINE)
#: An indent and a key together; what stands farther from its colon is no key.
_LONGEST_KEY = 200
CURLY_OPENERS = "“”‘’„"
_CURLY = re.compile(f"[{CURLY_OPENERS}]")
_CURLY_PAIRS = CURLY_OPENERS + "\"'"
_TO_CLOSING = re.compile("“[^“”\r\n]*”|„[^“”\r\n]*[“”]|‘[^‘’\r\n]*’")
_BRACKET_AT_END = re.compile(r"[\]}][ \t]*$", re.MULTILINE)


@dataclass
class _Tokens:
    """The tokens of a draft, made when first asked for, in order of place."""

    draft: Draft
    loader: type | None

    @cached_property
    def all(self) -> list[Any]:
        return list(tokens(self.draft.text, self.loader))

    @cached_property
    def seen(self) -> list[Any]:
        """Those that take up room in the text."""
        return [token for token in self.all if token.start_mark.index < token.end_mark.index]

    @cached_property
    def starts(self) -> list[int]:
        return [token.start_mark.index for token in self.seen]

    def at(self, offset: int) -> Any | None:
        """The last token that begins at or before an offset."""
        number = bisect_right(self.starts, offset)
        return self.seen[number - 1] if number else None

    def plain_text(self, offset: int) -> Any | None:
        """The text without quotes that covers an offset."""
        token = self.at(offset)
        covers = token is not None and _is_plain(token) and offset < token.end_mark.index
        return token if covers else None


def misread(draft: Draft, tree: Plain, loader: type | None) -> list[Slip]:
    """The slips of a text that could be read."""
    found = _Tokens(draft, loader)
    checks = (
        _cut_at_hash(draft, found),
        _space_missing(draft, found),
        _curly(draft, found),
        _bracket_left(draft, found),
        (slip for node in tree.braces for slip in torn_in_braces(draft, node)),
        (slip for node in tree.dashes for slip in entries_in_text(draft, node)),
    )
    return _one_a_place(draft, [slip for check in checks for slip in islice(check, MAX_SLIPS)])


def _one_a_place(draft: Draft, slips: list[Slip]) -> list[Slip]:
    """A comma inside curly quotes inside braces is torn because the quotes are curly: one slip, not two."""
    curly_ones = {draft.line(slip.start)[0]: slip for slip in slips if slip.rule == "curly-quote-opens-text"}
    kept: list[Slip] = []
    for slip in slips:
        cause = curly_ones.get(draft.line(slip.start)[0])
        if slip.rule == "key-without-value-in-braces" and cause is not None and cause.start < slip.start:
            kept[kept.index(cause)] = replace(cause, mend=slip.mend)
        else:
            kept.append(slip)
    return kept


def _is_plain(token: Any) -> bool:
    return isinstance(token, kinds.ScalarToken) and token.plain


def _cut_at_hash(draft: Draft, found: _Tokens) -> Iterator[Slip]:
    text = draft.text
    for match in _CUT.finditer(text):
        at = match.start()
        if text[at - 1 : at] not in (" ", "\t"):
            continue
        before = found.at(at)
        if before is None or before.end_mark.index > at:
            continue
        line_start, line_end = draft.line(at)
        end = before.end_mark.index
        if end <= line_start or "#" in text[end:at]:
            continue  # a line of remark, or a remark that goes on
        if _is_plain(before):
            yield cut_at_hash(draft, max(before.start_mark.index, line_start), at, line_end)
        elif isinstance(before, kinds.ValueToken | kinds.BlockEntryToken | kinds.KeyToken):
            yield cut_at_hash(draft, at, at, line_end)


def cut_at_hash(draft: Draft, start: int, at: int, end: int) -> Slip:
    """The slip of a text from `start` that a `#` at `at` cuts; the line ends at `end`."""
    lost = shown(draft, at, end)
    left = f"of this text only `{shown(draft, start, at)}` would be read" if start < at else "it is no text"
    return Slip(
        "text-cut-at-hash",
        at,
        at + len(draft.text[at:end].rstrip()),
        f"`{lost}` is taken for a remark: {left}",
        "a `#` after a space begins a remark that reaches to the end of the line",
        f"put the text in quotes: {in_quotes(whole(draft, start, end))}; "
        "if a remark was meant, put a space after the `#`",
        lambda draft: draft.covered(at, at + 1),
    )


def _space_missing(draft: Draft, found: _Tokens) -> Iterator[Slip]:
    text = draft.text
    for match in _TIGHT_COLON.finditer(text):
        colon = match.start()
        start = _key_before(text, colon)
        if start is None:
            continue
        token = found.plain_text(start)
        if token is None or token.end_mark.index <= colon:
            continue
        line_start, line_end = draft.line(start)
        if token.start_mark.index == start or not text[line_start:start].strip():
            yield space_missing(draft, start, colon, min(token.end_mark.index, line_end))


def _key_before(text: str, colon: int) -> int | None:
    """Where the key before a colon begins, if the line or an entry in brackets begins with it."""
    first = max(colon - _LONGEST_KEY, 0)
    head = text[first:colon]
    line = max(head.rfind("\n"), head.rfind("\r")) + 1
    match = _KEY_BEFORE.search(head, line)
    if match is None or match.start() == line == 0 and first:
        return None
    return first + match.start(1)


def space_missing(draft: Draft, start: int, colon: int, end: int) -> Slip:
    """The slip of a key at `start` whose colon is followed by text at once."""
    written = shown(draft, start, end)
    key, value = shown(draft, start, colon), whole(draft, colon + 1, end)
    no_break = draft.text[colon + 1] == "\u00a0"
    message = f"`{written}` has no space after the colon"
    if no_break:
        message = f"the space after `{key}:` is a no-break space (U+00A0)"
    return Slip(
        "space-after-colon-missing",
        start,
        end,
        message,
        f"only a colon with an ordinary space divides the key `{key}` from its value",
        f"write `{key}: {value}`; if all of it is one text, put it in quotes: " + in_quotes(whole(draft, start, end)),
        (lambda draft: draft.blanked(colon + 1, colon + 2))
        if no_break
        else (lambda draft: draft.with_inserted(colon + 1, " ")),
        write=((colon + 1, colon + 2 if no_break else colon + 1, " "),) if _is_surely_key(draft, start, key) else (),
    )


def _is_surely_key(draft: Draft, start: int, key: str) -> bool:
    """Whether what begins a line is a key of the format; behind a dash it might be a text."""
    return key in every_key() and not draft.text[draft.line(start)[0] : start].strip(" ")


def _bracket_left(draft: Draft, found: _Tokens) -> Iterator[Slip]:
    """A bracket that ends a line on which none is opened: the opening one was lost."""
    for match in _BRACKET_AT_END.finditer(draft.text):
        at = match.start()
        line_start = draft.text.rfind("\n", 0, at) + 1
        if any(opening in draft.text[line_start:at] for opening in OPENING.values()):
            continue
        text = found.plain_text(at)
        if text is not None and text.start_mark.index >= line_start:
            yield _opening_lost(draft, text.start_mark.index, at)


def _opening_lost(draft: Draft, start: int, at: int) -> Slip:
    opening = OPENING[draft.text[at]]
    return replace(
        closes_nothing(draft, at),
        help=f"write `{opening}{whole(draft, start, at + 1)}`, or take it out; if it is a text, put it in quotes",
        mend=lambda draft: draft.with_inserted(start, opening),
    )


def _curly(draft: Draft, found: _Tokens) -> Iterator[Slip]:
    text = draft.text
    if text.isascii():
        return
    for match in _CURLY.finditer(text):
        at = match.start()
        if at and text[at - 1] not in " \t\r\n[{,":
            continue
        token = found.plain_text(at)
        if token is not None and token.start_mark.index == at:
            yield curly(draft, at, min(token.end_mark.index, draft.line(at)[1]))


def curly(draft: Draft, start: int, end: int) -> Slip:
    """The slip of a text that begins with a curly quote."""
    closing = _TO_CLOSING.match(draft.text, start)
    if closing is not None and closing.end() > end:
        end = closing.end()  # inside braces, where a comma has ended the text before its second quote
    written = whole(draft, start, end)
    inside = written.strip(_CURLY_PAIRS)
    meant = in_quotes(inside)
    pair: tuple[tuple[int, int, str], ...] = ((start, start + 1, '"'), (end - 1, end, '"'))
    if len(written) - len(inside) < 2 or _CURLY.search(inside):
        meant, pair = in_quotes(written), ()  # it is a word of the text that stands in quotes
    if '"' in meant[1:-1] or "\\" in meant or draft.text[end - 1 : end] not in set(CURLY_OPENERS):
        pair = ()
    return Slip(
        "curly-quote-opens-text",
        start,
        end,
        f"the text begins with the curly quote {written[0]}",
        "only the straight quotes \" and ' enclose a text; a curly one becomes part of it",
        f"write {meant}",
        write=pair,
    )
