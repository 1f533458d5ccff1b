"""Text that a comma tears apart inside braces: `{do: Park, select P}`; brackets that close nothing."""

import re
from collections.abc import Iterator
from typing import Any

from yaml.nodes import MappingNode, ScalarNode

from .draft import Draft
from .slip import Slip, in_quotes, shown

_KEY_AND_TEXT = re.compile(r"[a-z_]+:[^/]")
#: What opens, by what closes it.
OPENING = {"]": "[", "}": "{"}
_THOUSANDS = re.compile(r"[1-9],[0-9]{3}(?![0-9])")


def torn_in_braces(draft: Draft, node: MappingNode) -> Iterator[Slip]:
    """Keys without colon and value inside braces, and the commas that tore them off."""
    text = draft.text
    lonely = [key for key, value in node.value if _is_lonely(text, key, value)]
    if not lonely:
        return
    start, end = lonely[0].start_mark.index, lonely[0].end_mark.index
    commas = _commas_beside(text, node)
    line_end = draft.line(node.start_mark.index)[1]
    whole = shown(draft, node.start_mark.index, min(node.end_mark.index, line_end))
    mended = _joined(draft, node, commas)
    help = f"put the text in quotes: `{mended}`" if mended else f"write a value: `{{{shown(draft, start, end)}: …}}`"
    if any(_THOUSANDS.match(text, comma - 1) for comma in commas):
        number = shown(draft, max(text.rfind(sign, 0, start) for sign in ": {") + 1, end).replace(",", "")
        help = f"write the thousands without a comma, such as `{number}`, or decimals with a point"
    yield Slip(
        "key-without-value-in-braces",
        start,
        end,
        f"`{shown(draft, start, end)}` stands in braces without a value",
        f"a comma inside braces begins the next key, so `{whole}` is torn apart there",
        help,
        (lambda draft: _cover_all(draft, commas)) if commas else None,
    )


def _is_lonely(text: str, key: Any, value: Any) -> bool:
    if not isinstance(key, ScalarNode) or not isinstance(value, ScalarNode):
        return False
    if value.start_mark.index < value.end_mark.index or value.style:
        return False
    if _KEY_AND_TEXT.match(key.value):
        return False  # another slip: `space-after-colon-missing`
    rest = re.compile(r"[ \t\r\n]*(.?)").match(text, key.end_mark.index)
    return bool(key.value) and rest is not None and rest[1] in (",", "}")


def _commas_beside(text: str, node: MappingNode) -> list[int]:
    """The commas between a lonely key and the text before it, or the key behind it."""
    commas: set[int] = set()
    pairs = node.value
    for number, (key, value) in enumerate(pairs):
        if not _is_lonely(text, key, value):
            continue
        if number:
            last = _last_of(text, pairs[number - 1])
            if isinstance(last, ScalarNode) and not last.style:
                commas.add(text.find(",", last.end_mark.index, key.start_mark.index))
        elif len(pairs) > 1 and isinstance(pairs[1][0], ScalarNode) and not pairs[1][0].style:
            commas.add(text.find(",", key.end_mark.index, pairs[1][0].start_mark.index))
    return sorted(comma for comma in commas if comma >= 0)


def _last_of(text: str, pair: tuple[Any, Any]) -> Any:
    return pair[0] if _is_lonely(text, *pair) else pair[1]


def _cover_all(draft: Draft, commas: list[int]) -> Draft:
    for comma in commas:
        draft = draft.covered(comma, comma + 1)
    return draft


def _joined(draft: Draft, node: MappingNode, commas: list[int]) -> str | None:
    """The braces as they were meant: the torn text in quotes."""
    if not commas:
        return None
    start, end = node.start_mark.index + 1, node.end_mark.index - 1
    text = _cover_all(draft, commas).text[start:end]
    parts = []
    for part in text.split(","):
        key, colon, value = part.strip().partition(": ")
        words = [
            in_quotes(_shown_text(draft, word)) if word != word.translate(_PLAIN) else word for word in (key, value)
        ]
        parts.append(words[0] + colon + words[1])
    return "{" + ", ".join(parts) + "}"


def _shown_text(draft: Draft, word: str) -> str:
    return " ".join(Draft(word, mended=True).restored(word).split())


_PLAIN = {code: None for code in range(0xFDD0, 0xFDF0)}


def closes_nothing(draft: Draft, at: int) -> Slip:
    """A closing bracket at `at` for which none is open."""
    closing = draft.text[at]
    opening = OPENING[closing]
    opened = opening in draft.text[draft.line(at)[0] : at]
    return Slip(
        "not-readable",
        at,
        at + 1,
        f"the bracket `{closing}` closes nothing here",
        f"every `{opening}` before it is closed already" if opened else f"no `{opening}` opens before it",
        "take it out; if it belongs to a text, put the text in quotes",
        lambda draft: draft.blanked(at, at + 1),
    )
