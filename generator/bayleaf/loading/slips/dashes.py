"""A list entry without its dash: its keys are added to those of the entry above, and some of them stand there twice.

The entry is parted where the dash was meant, so that one slip gives one finding and both entries are read.
"""

from collections.abc import Iterator
from typing import Any

from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from ..schema import action_keys
from .draft import Draft
from .slip import MAX_SLIPS, Slip, shown
from .where import line_above


def part_entries(root: Node | None, draft: Draft) -> list[Slip]:
    """Parts the entries of the lists in a tree, in place; a slip for each dash that is missing."""
    slips: list[Slip] = []
    for node in _lists(root):
        entries: list[Node] = []
        for entry in node.value:
            entries += _parted(entry, draft, slips) if isinstance(entry, MappingNode) else [entry]
        node.value[:] = entries
    return slips[:MAX_SLIPS]


def _lists(root: Node | None) -> Iterator[SequenceNode]:
    """Every list of a tree that is written with dashes."""
    rest = [root]
    while rest:
        node = rest.pop()
        if isinstance(node, SequenceNode):
            rest += node.value
            if not node.flow_style:
                yield node
        elif isinstance(node, MappingNode):
            rest += [value for _, value in node.value]


def _parted(entry: MappingNode, draft: Draft, slips: list[Slip]) -> list[Node]:
    """One entry as the two or more that were meant."""
    parts: list[Node] = []
    while not entry.flow_style and (number := _dash_meant_before(entry, draft)):
        key = entry.value[number][0]
        slips.append(_slip(entry, number, draft))
        parts.append(_part(entry, entry.value[:number], entry.start_mark, key.start_mark))
        entry = _part(entry, entry.value[number:], key.start_mark, entry.end_mark)
    return [*parts, entry]


def _part(entry: MappingNode, pairs: list[Any], start: Any, end: Any) -> MappingNode:
    return MappingNode(entry.tag, pairs, start, end, flow_style=False)


def _dash_meant_before(entry: MappingNode, draft: Draft) -> int | None:
    """The number of the pair that should have begun a new entry; None where a key only stands there twice."""
    keys = [key.value if isinstance(key, ScalarNode) else None for key, _ in entry.value]
    again = next((number for number, key in enumerate(keys) if key and key in keys[:number]), None)
    if again is None:
        return None
    if keys[again] == keys[0]:
        return again if again + 1 < len(keys) else None
    for number in range(again, 0, -1):
        is_action = keys[number] in action_keys() and not action_keys().isdisjoint(keys[:number])
        if is_action or _begins_paragraph(entry.value[number][0], draft):
            begins_with_id = is_action and keys[number - 1] == "id" and "id" in keys[: number - 1]
            return number - 1 if begins_with_id else number
    return None


def _begins_paragraph(key: Node, draft: Draft) -> bool:
    """Whether an empty line or a remark stands above a key."""
    line_start = draft.line(key.start_mark.index)[0]
    above = line_above(draft, line_start)
    return above is not None and len(draft.text[draft.line(above)[1] : line_start].splitlines()) > 1


def _slip(entry: MappingNode, number: int, draft: Draft) -> Slip:
    key = entry.value[number][0]
    start, end = key.start_mark.index, key.end_mark.index
    name = shown(draft, start, end)
    above = [one for one, _ in entry.value[:number]]
    action = next((one for one in above if one.value in action_keys()), None)
    if action is not None and key.value in action_keys():
        rule, first, text = "two-actions-in-one-step", action, "the action of the step above"
        because = f"without it, this is a second action of the step above, beside `{action.value}`"
    else:
        first = next((one for one in above if one.value == key.value), above[0])
        rule, text = "repeated-key", "the entry above"
        because = "without it, what follows is written a second time for the entry above"
    return Slip(
        rule,
        start,
        end,
        f"the dash before `{name}` is missing",
        because,
        f"write `- {shown(draft, start, draft.line(start)[1])}`",
        see=((first.start_mark.index, first.end_mark.index, text),),
    )
