"""From the tree of nodes to plain data: maps, lists, text, and None where no value stands."""

from dataclasses import dataclass, field
from typing import Any

from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from .schema import every_key
from .slips.draft import STAND_INS, Draft
from .slips.slip import Slip, shown
from .yaml_reader import MAX_DEPTH, TooDeep

_NO_VALUE = frozenset(("", "~", "null"))
_LIST_ENTRY = " - "
_ALIAS = STAND_INS[ord("*")]


_NAME_MISSING = (
    "if they belong to something of their own, its name is missing above them: write it there, with a colon behind it"
)


@dataclass(slots=True)
class Plain:
    """Plain data, what is wrong with it, and the nodes that deserve a second look."""

    data: Any
    slips: list[Slip] = field(default_factory=list)
    braces: list[MappingNode] = field(default_factory=list)
    dashes: list[ScalarNode] = field(default_factory=list)


def plain(root: Node | None, draft: Draft) -> Plain:
    """The data of a tree; raises `TooDeep`. Of two equal keys the first holds."""
    tree = Plain(None)
    if root is not None:
        tree.data = _Builder(tree, draft).value(root, 1)
    return tree


class _Builder:
    """The one hot loop of reading: a few hundred nodes a file, so it asks as little as it can."""

    __slots__ = ("draft", "mended", "tree")

    def __init__(self, tree: Plain, draft: Draft) -> None:
        self.tree, self.draft, self.mended = tree, draft, draft.mended

    def value(self, node: Node, depth: int) -> Any:
        kind = type(node)
        if kind is ScalarNode:
            return self.text(node)
        if depth >= MAX_DEPTH and node.value:
            raise TooDeep(node.start_mark.index)
        if kind is SequenceNode:
            depth += 1
            return [self.value(child, depth) for child in node.value]
        return self.map(node, depth + 1)

    def text(self, node: Any) -> str | None:
        value = node.value
        if value in _NO_VALUE and not node.style:
            return None
        if _LIST_ENTRY in value and not node.style:
            self.tree.dashes.append(node)
        return self.draft.restored(value) if self.mended else value

    def map(self, node: Any, depth: int) -> dict[str, Any]:
        result: dict[str, Any] = {}
        bare = False
        again: list[ScalarNode] = []
        for key_node, value_node in node.value:
            key = key_node.value
            if not key or type(key_node) is not ScalarNode:
                self.tree.slips.append(_key_not_text(self.draft, key_node, node))
                continue
            if self.mended:
                key = self.draft.restored(key)
                if key == "<<" and str(value_node.value).startswith(_ALIAS):
                    continue  # told already: `alias-or-anchor`
            if key in result:
                again.append(key_node)
                continue
            if type(value_node) is ScalarNode:
                value = result[key] = self.text(value_node)
                bare = bare or value is None
            else:
                result[key] = self.value(value_node, depth)
        if bare and node.flow_style:
            self.tree.braces.append(node)
        if again:
            self.tree.slips.append(self.repeated(again[0], len(again) - 1, node))
        return result

    def repeated(self, again: ScalarNode, more: int, node: MappingNode) -> Slip:
        """The slip of a key that stands there twice, as `more` keys below it do."""
        key = self.draft.restored(again.value)
        first = next(
            key_node
            for key_node, _ in node.value
            if type(key_node) is ScalarNode and self.draft.restored(key_node.value) == key
        )
        start, end = first.start_mark.index, first.end_mark.index
        return Slip(
            "repeated-key",
            again.start_mark.index,
            again.end_mark.index,
            f"`{key}` is written twice for the same thing" + _and_more(more),
            "only one of the two can hold, and which one was meant cannot be told",
            f"keep one `{key}`{self.if_both(key, node)}" if not more else _NAME_MISSING,
            see=((start, end, f"`{key}` stands here already"),),
        )

    def if_both(self, key: str, node: MappingNode) -> str:
        """What to write where two things were meant."""
        before = self.draft.text[self.draft.line(node.start_mark.index)[0] : node.start_mark.index]
        if before.strip(" ") == "-":
            return "; if a new list entry was meant, put a dash before its first key"
        if key in every_key():
            return " and take the other out"
        return "; if they are two things, call the second by a name of its own"


def _and_more(more: int) -> str:
    if not more:
        return ""
    return f", and so {'is 1 key' if more == 1 else f'are {more} keys'} below it"


def _key_not_text(draft: Draft, key: Node, parent: MappingNode) -> Slip:
    start, end = key.start_mark.index, key.end_mark.index
    if start == end:
        colon = draft.text.find(":", start)
        return key_missing(draft, colon if colon >= 0 else parent.start_mark.index)
    text = shown(draft, start, min(end, draft.line(start)[1]))
    return Slip(
        "key-not-text",
        start,
        end,
        f"`{text}` stands where a key is expected, but is no text",
        "a key is one word or a short text",
        "write a text as the key; if a list was meant, put it behind a key and a colon",
    )


def key_missing(draft: Draft, at: int) -> Slip:
    """The slip of a colon at `at` with no key before it."""
    line_end = draft.line(at)[1]
    return Slip(
        "key-not-text",
        at,
        at + 1,
        "the key before this colon is missing",
        "every value needs a key that says what it is",
        f"write the key: `key{shown(draft, at, line_end)}`",
        lambda draft: draft.blanked(at, line_end),
    )
