"""The YAML reader, told to guess nothing: every value is text, a list or a map.

Two readers do the same work: libyaml's, and PyYAML's own where libyaml is missing. What libyaml cannot
read is read again by PyYAML's own reader, whose account of the trouble is then the one that is
explained; so a fault has the same words and the same place on every computer.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import yaml
from yaml.error import Mark, MarkedYAMLError, YAMLError
from yaml.nodes import MappingNode, Node, ScalarNode

from .slow_reader import SlowScanner

#: Steps, outcomes and limits nest six or seven deep; the bound keeps every later walk over the tree safe.
MAX_DEPTH = 40

#: What `Unread.problem` says of a tree that nests deeper.
TOO_DEEP = "too deep"
#: Brackets in a file, or characters in a line, that no stack minds if each of them opens a level.
_HARMLESS = 400

_TEXT, _LIST, _MAP = "text", "list", "map"


@dataclass(frozen=True, slots=True)
class Unread:
    """Where and why the reader stopped. `context` is what it was busy with, `since` where that began."""

    problem: str
    at: int
    context: str = ""
    since: int | None = None


class TooDeep(YAMLError):
    """The tree nests deeper than `MAX_DEPTH`; `at` is where the innermost list or map allowed begins."""

    def __init__(self, at: int) -> None:
        super().__init__(TOO_DEEP)
        self.at = at


class _AsText:
    """What all readers share: no value has a type of its own."""

    def resolve(self, kind: type[Node], value: Any, implicit: Any) -> str:
        """The tag of a node without an explicit one: what it looks like is not asked."""
        if kind is ScalarNode:
            return _TEXT
        return _MAP if kind is MappingNode else _LIST


class _Bounded(_AsText):
    """Counts how deep the composer is: it recurses in C, where a stack that runs out ends the program."""

    _depth = 0

    def descend_resolver(self, parent: Node | None, index: Any) -> None:
        """Called by the composer before each node."""
        self._depth += 1
        if self._depth > MAX_DEPTH:
            raise TooDeep(parent.start_mark.index if parent is not None else 0)

    def ascend_resolver(self) -> None:
        """Called by the composer after each node."""
        self._depth -= 1


class SlowTextLoader(_Bounded, SlowScanner, yaml.SafeLoader):
    """PyYAML's own reader, told to guess nothing."""


if yaml.__with_libyaml__:

    class TextLoader(_AsText, yaml.CSafeLoader):
        """libyaml's reader, told to guess nothing."""

    class BoundedTextLoader(_Bounded, yaml.CSafeLoader):
        """The same for texts that may nest without end: counting costs a tenth of the time."""

else:  # pragma: no cover - only where PyYAML was built without libyaml

    class TextLoader(SlowTextLoader):  # type: ignore[no-redef]
        """PyYAML's own reader in its place."""

    class BoundedTextLoader(SlowTextLoader):  # type: ignore[no-redef]
        """The same."""


def compose(text: str, loader: type | None = None) -> Node | None | Unread:
    """The tree of nodes of a text, None where it holds nothing, or where reading stopped."""
    first = _compose(text, loader or (BoundedTextLoader if _may_nest(text) else TextLoader))
    if isinstance(first, Unread) and first.problem != TOO_DEEP:
        return _compose(text, SlowTextLoader)
    return first


def _may_nest(text: str) -> bool:
    """Whether a text could nest by the thousand.

    Brackets nest no deeper than there are opening ones; lists and maps by indent open at most two
    levels a column, so no more than twice the longest line.
    """
    return text.count("[") + text.count("{") > _HARMLESS or max(map(len, text.split("\n"))) > _HARMLESS


def tokens(text: str, loader: type | None = None) -> Iterator[Any]:
    """The tokens of a text; ends where the reader stops."""
    try:
        yield from yaml.scan(text, Loader=loader or TextLoader)
    except (YAMLError, ValueError, OverflowError):
        return


def _compose(text: str, loader: type) -> Node | None | Unread:
    try:
        return yaml.compose(text, Loader=loader)
    except TooDeep as deep:
        return Unread(TOO_DEEP, deep.at)
    except MarkedYAMLError as error:
        at, since = _index(error.problem_mark or error.context_mark), _index(error.context_mark)
        since = since if since is not None and since < len(text) else None
        return Unread(error.problem or "", at or 0, error.context or "", since)
    except (YAMLError, ValueError, OverflowError) as error:  # `\UFFFFFFFF`, and what no list foresees
        return Unread(str(error), getattr(error, "position", None) or 0)


def _index(mark: Mark | None) -> int | None:
    return None if mark is None else mark.index
