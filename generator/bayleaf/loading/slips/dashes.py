"""A list entry without its dash: its keys are added to those of the entry above, and some of them stand there twice.

The entry is parted where the dash was meant, so that one slip gives one finding and both entries are read.
"""

import re
from collections.abc import Iterator
from typing import Any

from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from ..schema import action_keys
from .draft import Draft
from .slip import MAX_SLIPS, Slip, shown
from .where import line_above


class PartedEntry(MappingNode):
    """An entry that was made of another one: what it holds may not be what was meant."""


#: Keys that begin a step; an empty line above one of them, where no dash stands, parts two steps.
_BEGIN = frozenset({"id", "do"})
_PARAGRAPH = re.compile(r"\n[ \t]*\r?\n +([a-z_]+):")


def may_lack_dashes(text: str) -> bool:
    """Whether a key that begins a step stands below an empty line, without a dash."""
    return any(match[1] in _BEGIN or match[1] in action_keys() for match in _PARAGRAPH.finditer(text))


def part_entries(root: Node | None, draft: Draft) -> list[Slip]:
    """Parts the entries of the lists in a tree, in place; a slip for each dash that is missing."""
    slips: list[Slip] = []
    for node in _lists(root):
        entries: list[Node] = []
        values = list(node.value)
        for number, entry in enumerate(values):
            if not isinstance(entry, MappingNode) or entry.flow_style:
                entries.append(entry)
                continue
            if number + 1 < len(values) and (moved := _moved_down(entry, values[number + 1], draft)):
                slip, entry, values[number + 1] = moved
                slips.append(slip)
            entries += _parted(entry, draft, slips)
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
    while number := _dash_meant_before(entry, draft):
        key = entry.value[number][0]
        slips.append(_slip(entry, number, draft))
        parts.append(_part(entry, entry.value[:number], entry.start_mark, key.start_mark))
        entry = _part(entry, entry.value[number:], key.start_mark, entry.end_mark)
    return [*parts, entry]


def _moved_down(entry: MappingNode, below: Node, draft: Draft) -> tuple[Slip, MappingNode, MappingNode] | None:
    """An entry without its last line, and the entry below with it, where two lines have changed places."""
    if not isinstance(below, MappingNode) or below.flow_style or len(entry.value) < 2:
        return None
    keys, keys_below = _keys(entry), _keys(below)
    key = keys[-1]
    if key is None or key in keys_below:
        return None
    is_action = key in action_keys() or key == "do"
    if key not in keys[:-1] and not _is_second_action(keys, len(keys) - 1) and key != "do":
        return None
    if key not in keys[:-1] and not action_keys().isdisjoint(keys_below):
        return None
    if len(set(keys[:-1])) < len(keys) - 1 or any(_is_second_action(keys[:-1], n) for n in range(len(keys) - 1)):
        return None
    node = entry.value[-1][0]
    slip = Slip(
        "two-actions-in-one-step" if is_action else "repeated-key",
        node.start_mark.index,
        node.end_mark.index,
        f"`{key}` stands above the dash of its entry",
        "so it belongs to the entry above, and the entry below has none",
        f"put this line below `- {shown(draft, below.start_mark.index, draft.line(below.start_mark.index)[1])}`",
    )
    first, *rest = below.value
    shorter = _part(entry, entry.value[:-1], entry.start_mark, node.start_mark)
    return slip, shorter, _part(below, [first, entry.value[-1], *rest], below.start_mark, below.end_mark)


def _part(entry: MappingNode, pairs: list[Any], start: Any, end: Any) -> MappingNode:
    return PartedEntry(entry.tag, pairs, start, end, flow_style=False)


def _keys(entry: MappingNode) -> list[str | None]:
    return [key.value if isinstance(key, ScalarNode) else None for key, _ in entry.value]


def _is_second_action(keys: list[str | None], number: int) -> bool:
    return keys[number] in action_keys() and not action_keys().isdisjoint(keys[:number])


def _dash_meant_before(entry: MappingNode, draft: Draft) -> int | None:
    """The number of the pair that should have begun a new entry; None where a key only stands there twice."""
    keys = _keys(entry)
    again = next((number for number, key in enumerate(keys) if key and key in keys[:number]), None)
    if again is None:
        return _begun_after_empty_line(entry, keys, draft)
    for number in range(again, 0, -1):
        if _is_second_action(keys, number) or _begins_paragraph(entry.value[number][0], draft):
            return number - 1 if number > 1 and keys[number - 1] == "id" else number
    return again if keys[again] == keys[0] and again + 1 < len(keys) else None


def _begun_after_empty_line(entry: MappingNode, keys: list[str | None], draft: Draft) -> int | None:
    """The number of the pair that begins a step below an empty line, in an entry that is a step already."""
    if not any(key in _BEGIN or key in action_keys() for key in keys[:1]):
        return None
    start = entry.value[0][0].start_mark.index
    for number, key in enumerate(keys[1:], start=1):
        at = entry.value[number][0].start_mark.index
        if not (key in _BEGIN or key in action_keys()) or at < start:  # one that was moved stands above the dash
            continue
        if not draft.text[: draft.line(at)[0]].splitlines()[-1].strip():
            return number
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
    also = ""
    if action is not None and key.value in action_keys():
        rule, first, text = "two-actions-in-one-step", action, "the action of the step above"
        because = f"without it, this is a second action of the step above, beside `{action.value}`"
    elif {one.value for one in above}.isdisjoint(one.value for one, _ in entry.value[number:]):
        rule, first, text = "two-actions-in-one-step", above[0], "the step above"
        because = "without it, this belongs to the step above, though an empty line stands between the two"
        also = "; if it does belong to that step, take the empty line out"
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
        f"write `- {shown(draft, start, draft.line(start)[1])}`{also}",
        see=((first.start_mark.index, first.end_mark.index, text),),
    )
