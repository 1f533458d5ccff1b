"""A whole file: tidied, and held against what it was. If anything differs, it is left alone."""

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from yaml.nodes import MappingNode, ScalarNode

from ..load import Loaded, load
from ..schema import FileKind
from ..text import Fault, decode
from ..yaml_reader import Unread, compose
from .blocks import NotTidied, tidied_blocks
from .inline import tidied_lines

_REMARK = re.compile(r"(?m)(?:^|(?<=[ \t]))#.*$")


@dataclass(frozen=True, slots=True)
class Tidied:
    """The text of a file before and after, line breaks as LF. `is_tidy` of bytes that need no writing."""

    before: str
    after: str
    is_tidy: bool


@dataclass(frozen=True, slots=True)
class LeftAlone:
    """A file that is not touched, and the reason as the rest of a sentence."""

    reason: str


def tidied(file: str, data: bytes, kind: FileKind) -> Tidied | LeftAlone:
    """The file in the order and spelling of the format. Never raises on what is in it."""
    text = decode(data)
    if isinstance(text, Fault):
        return LeftAlone(text.message)
    before = load(file, data, kind)
    if before.source.findings or before.source.data is None:
        first = before.source.findings[0]
        return LeftAlone(f"line {first.place.line}: {first.message}")
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    try:
        after = _in_order(text, kind)
    except NotTidied as why:
        return LeftAlone(str(why))
    if after.encode() == data:
        return Tidied(text, after, True)
    if not _says_the_same(before, load(file, after.encode(), kind)) or _remarks(text) != _remarks(after):
        return LeftAlone("tidying it would change what it says")
    return Tidied(text, after, False)


def _in_order(text: str, kind: FileKind) -> str:
    tree = _tree(text)
    lines = tidied_lines(text, tree, kind)
    return tidied_blocks(lines, tree if lines == text else _tree(lines), kind)


def _tree(text: str) -> Any:
    node = compose(text)
    if node is None or isinstance(node, Unread):
        raise NotTidied("it cannot be read")
    return node


def _says_the_same(before: Loaded, after: Loaded) -> bool:
    """Whether two readings have the same model and the same faults."""
    rules = [Counter(finding.rule for finding in one.findings) for one in (before, after)]
    return before.model == after.model and rules[0] == rules[1]


def _remarks(text: str) -> Counter[str]:
    """Every remark of a text, with how often it stands there."""
    texts = [(node.start_mark.index, node.end_mark.index) for node in _scalars(_tree(text))]
    found: Counter[str] = Counter()
    at = 0
    for start, end in [*sorted(texts), (len(text), len(text))]:
        found.update(match.group().rstrip() for match in _REMARK.finditer(text, at, max(at, start)))
        at = max(at, end)
    return found


def _scalars(node: Any) -> Iterator[ScalarNode]:
    if isinstance(node, ScalarNode):
        yield node
        return
    for child in node.value:
        for one in child if isinstance(node, MappingNode) else (child,):
            yield from _scalars(one)
