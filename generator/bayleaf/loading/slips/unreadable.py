"""What keeps a text from being read, in plain words, and how to read on behind it.

The reader says where it stopped and what it was looking for. That is rarely where the slip is, so each
kind of trouble has one function that looks for the slip in the lines concerned.
"""

from collections.abc import Callable
from dataclasses import replace

from ..plain_data import key_missing
from ..yaml_reader import MAX_DEPTH, TOO_DEEP, Unread, compose
from .braces import closes_nothing
from .colons import colon_missing, colon_too_many, key_missing_before
from .draft import Draft
from .enclosed import behind_quotes, escape, inside_brackets, quote_not_closed, quote_runs_on
from .marks import marked, special
from .slip import Slip, shown
from .tabs import tab_as_indent
from .where import end_of_entry, line_above, value_on_line

_FIND_IT = "compare its indent, colon, quotes and brackets with those of the lines around it"


def explain(draft: Draft, trouble: Unread, loader: type | None) -> Slip:
    """The slip behind a text that could not be read to its end."""
    at = min(trouble.at, len(draft.text))
    tab = tab_as_indent(draft, at, lambda text: compose(text, loader))
    if tab:
        return tab
    line_start, line_end = draft.line(at)
    if draft.text.startswith("%", line_start):
        return replace(special(draft, line_start, line_end), mend=lambda draft: draft.blanked(line_start, line_end))
    account = f"{trouble.context} {trouble.problem}"
    for words, function in _TROUBLES:
        if words in account:
            slip = function(draft, at, trouble)
            if slip:
                return slip
    return _not_readable(draft, at)


def _not_readable(draft: Draft, at: int) -> Slip:
    line_start, line_end = draft.line(at)
    text = draft.text[line_start:line_end]
    start = line_start + len(text) - len(text.lstrip())
    message = "the file breaks off here"
    if text.strip():
        message = f"this line cannot be read: `{shown(draft, start, line_end)}`"
    return Slip(
        "not-readable",
        start,
        max(line_start + len(text.rstrip()), start),
        message,
        "it is neither a key with its value, nor a list entry, nor more of the text above",
        _FIND_IT,
    )


def _too_deep(draft: Draft, at: int, trouble: Unread) -> Slip:
    return Slip(
        "nested-too-deep",
        at,
        at + 1,
        f"lists and maps stand inside one another more than {MAX_DEPTH} deep here",
        "no file of a manual needs half of that, so a bracket or an indent was repeated by mistake",
        "look for brackets that are never closed, or for lines that move further and further to the right",
    )


def _several_documents(draft: Draft, at: int, trouble: Unread) -> Slip:
    return Slip(
        "several-documents",
        at,
        at + 3,
        "a second document begins here",
        "each procedure, vehicle and record has a file of its own",
        "delete the line `---`, or move what follows it to another file",
        lambda draft: draft.cut_at(at),
    )


def _special_at(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    if draft.text[at : at + 1] == ":":
        return replace(key_missing(draft, at), mend=None)
    if not draft.text[at : at + 1].strip():
        return None
    return special(draft, at, end_of_entry(draft, at))


def _special_since(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    since = trouble.since
    return special(draft, since, end_of_entry(draft, since)) if since is not None else None


def _out_of_step(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    """Something follows where the list or map should go on."""
    text = draft.text
    value = value_on_line(draft, at)
    if value and value[0] < at and text[value[0]] in "[{" and text[at : at + 1] in ("]", "}"):
        return closes_nothing(draft, at)
    if value and value[0] < at and text[value[0]] in "[{*&!":
        return special(draft, value[0], draft.line(at)[1])
    if value and value[0] < at and text[value[0]] in "\"'":
        return quote_runs_on(draft, at) or behind_quotes(draft, at)
    if text[draft.line(at)[0] : at].strip(" -"):
        return quote_runs_on(draft, at)
    return _wrong_indent(draft, at, trouble)


def _wrong_indent(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    line_end = draft.line(at)[1]
    written = shown(draft, at, line_end)
    if "but found '-'" in trouble.problem:
        message = f"`{written}` stands where the next key should begin"
        help = "give it the indent of the list it belongs to"
    elif "but found '?'" in trouble.problem:
        message = f"`{written}` stands where the next entry of the list should begin"
        help = "put a dash before it, or give it the indent of the keys it belongs to"
    elif "start>" in trouble.problem:
        message = f"the indent of `{written}` fits no line above"
        help = "give it the indent of the lines it belongs to"
    else:
        return None
    end = at + len(draft.text[at:line_end].rstrip())
    return Slip("not-readable", at, end, message, "lines that belong together have the same indent", help)


def _instruction_above(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    above = line_above(draft, at)
    if above is None or draft.text[above] != "%":
        return None
    end = draft.line(above)[1]
    return replace(special(draft, above, end), mend=lambda draft: draft.blanked(above, end))


def _anchor_twice(draft: Draft, at: int, trouble: Unread) -> Slip | None:
    slips = marked(draft, None)
    if not slips:
        return None

    def mend(draft: Draft) -> Draft:
        for slip in sorted(slips, key=lambda slip: slip.start, reverse=True):
            draft = slip.mend(draft) or draft if slip.mend else draft
        return draft

    return replace(slips[0], mend=mend)


_TROUBLES: tuple[tuple[str, Callable[[Draft, int, Unread], Slip | None]], ...] = (
    (TOO_DEEP, _too_deep),
    ("but found another document", _several_documents),
    ("cannot start any token", _special_at),
    ("found undefined alias", _special_at),
    ("second occurrence", _anchor_twice),
    ("scanning an alias", _special_since),
    ("scanning an anchor", _special_since),
    ("scanning a tag", _special_since),
    ("parsing a tag", _special_since),
    ("parsing a node", _special_at),
    ("scanning a block scalar", _special_since),
    ("sequence entries are not allowed", _special_at),
    ("mapping keys are not allowed", _special_at),
    ("escape", escape),
    ("too large to convert", escape),
    ("chr() arg", escape),
    ("quoted scalar", quote_not_closed),
    ("mapping values are not allowed", colon_too_many),
    ("could not find expected ':'", colon_missing),
    ("expected the node content", _special_at),
    ("parsing a flow", inside_brackets),
    ("expected <block end>, but found ':'", key_missing_before),
    ("expected <block end>", _out_of_step),
    ("expected '<document start>'", _instruction_above),
)
