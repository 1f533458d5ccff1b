"""What is tidied within a line: the spelling of values, quotes without need, the blanks and keys inside braces."""

import re
from collections.abc import Iterator
from typing import Any

from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode
from yaml.resolver import Resolver

from ...diagnostics.place import Path
from ...quantities.spelling import spelled
from ..schema import FileKind
from .keys import in_schema_order, is_value

#: Text that no reader takes for anything else, in or outside brackets; everything else keeps its quotes.
_PLAIN = re.compile(r"[^\W_](?:[^\[\]{},:#&*!|>'\"%@`“”„‘’\\]*[^\[\]{},:#&*!|>'\"%@`“”„‘’\\\s])?")
_TEXT = "tag:yaml.org,2002:str"
_NO_VALUE = {"null", "none", "nan", "inf"}
_COLON = re.compile(r"[ \t]*:[ \t]+")

Edit = tuple[int, int, str]


def tidied_lines(text: str, root: Node, kind: FileKind) -> str:
    """The text with every value, brace and colon as it is written by custom; its lines stay where they are."""
    for start, end, new in sorted(_edits(text, root, kind, ()), reverse=True):
        text = text[:start] + new + text[end:]
    return text


def _edits(text: str, node: Any, kind: FileKind, path: Path) -> Iterator[Edit]:
    start, end = node.start_mark.index, node.end_mark.index
    if isinstance(node, ScalarNode) or node.flow_style and node.start_mark.line == node.end_mark.line:
        new = _written(text, node, kind, path)
        if new != text[start:end]:
            yield start, end, new
    elif isinstance(node, MappingNode):
        for key, value in node.value:
            colon = key.end_mark.index, value.start_mark.index
            if _COLON.fullmatch(text, *colon):
                yield *colon, ": "
            yield from _edits(text, value, kind, (*path, key.value))
    else:
        for number, item in enumerate(node.value):
            yield from _edits(text, item, kind, (*path, number))


def _written(text: str, node: Any, kind: FileKind, path: Path) -> str:
    """A text, or a list or map in brackets on one line."""
    if isinstance(node, SequenceNode):
        return f"[{', '.join(_written(text, item, kind, (*path, number)) for number, item in enumerate(node.value))}]"
    if isinstance(node, MappingNode):
        pairs = {
            key.value: f"{_source(text, key)}: {_written(text, value, kind, (*path, key.value))}".rstrip()
            for key, value in node.value
        }
        return "{" + ", ".join(pairs[key] for key in in_schema_order(kind, path, pairs)) + "}"
    written = _source(text, node)
    if node.start_mark.line != node.end_mark.line or node.style in ("|", ">"):
        return written
    value = spelled(node.value) if is_value(kind, path) else node.value
    if value != node.value:
        return value if _is_plain(value) or not node.style else f"{node.style}{value}{node.style}"
    return value if node.style and _is_plain(value) else written


def _source(text: str, node: Node) -> str:
    return text[node.start_mark.index : node.end_mark.index]


def _is_plain(value: str) -> bool:
    """Whether a text needs no quotes, for an editor either, which takes `no`, `1` and dates for something else."""
    return (
        _PLAIN.fullmatch(value) is not None
        and value.isprintable()
        and value.casefold() not in _NO_VALUE
        and not re.match(r"[0-9]+([.e_xo][0-9a-f_+-]*)?$", value, re.IGNORECASE)
        and Resolver().resolve(ScalarNode, value, (True, False)) == _TEXT
    )
