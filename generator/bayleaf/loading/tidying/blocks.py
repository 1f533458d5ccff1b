"""Lines as entries within entries: put in the order of the schema, and indented by two a level.

An entry is a key with its value or a dash with what follows it. It takes with it the empty lines and remarks above it,
and the remarks below it that stand deeper than what comes next.
"""

from dataclasses import dataclass, field
from typing import Any

from yaml.nodes import Node, ScalarNode, SequenceNode

from ...diagnostics.place import Path
from ..schema import FileKind
from .keys import in_schema_order

_LEVEL = 2


class NotTidied(Exception):
    """The lines are written in a way that is left alone; the text says how."""


@dataclass
class Entry:
    """A key or dash. `head` are its own lines, the first without indent and dash, the others as they stood.

    `lead` and `tail` are the remarks above and below it, without their indents.
    """

    column: int
    key: str | None
    lead: list[str] = field(default_factory=list)
    head: list[str] = field(default_factory=list)
    children: list["Entry"] = field(default_factory=list)
    tail: list[str] = field(default_factory=list)


def tidied_blocks(text: str, root: Node, kind: FileKind) -> str:
    """The text with its lines in order and indented; ends in a line break."""
    reading = _Reading(text.split("\n"), kind)
    entries = reading.entries(root, ())
    if not entries:
        return text
    footer = reading.gap(len(reading.lines), -1)
    lines = [*_without_double(reading.header)]
    for entry in entries:
        _write(entry, 0, lines)
    return "\n".join([*lines, *_without_double(footer)]).strip("\n") + "\n"


class _Reading:
    """Goes down the lines once; `at` is the first line that is in no entry yet."""

    def __init__(self, lines: list[str], kind: FileKind) -> None:
        self.lines, self.kind = lines, kind
        self.at = 0
        self.header: list[str] = []
        self.last: Entry | None = None

    def entries(self, node: Any, path: Path) -> list[Entry]:
        """The entries of a list or map that is not in brackets, in the order in which they are to stand."""
        if isinstance(node, ScalarNode) or node.flow_style:
            return []
        if isinstance(node, SequenceNode):
            return [self._item(item, node, (*path, number)) for number, item in enumerate(node.value)]
        made = {key.value: self._pair(key, value, (*path, key.value)) for key, value in node.value}
        order = in_schema_order(self.kind, path, made)
        first, second = next(iter(made)), order[0]
        if first != second:  # what is now the first has nothing to be set off from
            made[first].lead, made[second].lead = _blanks_moved(made[second].lead, made[first].lead)
        return [made[key] for key in order]

    def _pair(self, key: Any, value: Any, path: Path) -> Entry:
        line, column = key.start_mark.line, key.start_mark.column
        if self.lines[line][:column].strip(" -"):
            raise NotTidied(f"line {line + 1} begins with a sign that is not known here")
        return self._entry(Entry(column, key.value), line, value, path)

    def _item(self, item: Any, above: Any, path: Path) -> Entry:
        column = above.start_mark.column
        line = item.start_mark.line
        while line > self.at and not self._is_dash(line, column):
            line -= 1
        if not self._is_dash(line, column):
            raise NotTidied(f"the dash of the entry in line {item.start_mark.line + 1} is not found")
        return self._entry(Entry(column, None), line, item, path)

    def _is_dash(self, line: int, column: int) -> bool:
        text = self.lines[line]
        return (
            text[column : column + 1] == "-" and not text[:column].strip(" -") and text[column + 1 :][:1] in ("", " ")
        )

    def _entry(self, entry: Entry, line: int, value: Any, path: Path) -> Entry:
        entry.lead = self.gap(line, entry.column)
        if isinstance(value, ScalarNode) or value.flow_style:
            self._leaf(entry, line, value)
            return entry
        first = value.start_mark.line
        if entry.key is not None or first > line:
            own = self.lines[line][entry.column :]
            if entry.key is None:  # a dash alone, perhaps with a remark
                entry.lead += [own[1:].strip()] if own[1:].strip() else []
            else:
                entry.head = [own.rstrip()]
            self.at, self.last = line + 1, entry
        entry.children = self.entries(value, path)
        if entry.children:
            self._lead_of_first(entry, entry.children[0])
        return entry

    def _lead_of_first(self, entry: Entry, child: Entry) -> None:
        """What stands above the first child: above the dash where it shares the dash's line, else without a gap."""
        if entry.key is None:
            entry.lead, child.lead = [*entry.lead, *child.lead], []
        else:
            _, child.lead = _blanks_moved(child.lead, [])

    def _leaf(self, entry: Entry, line: int, value: Any) -> None:
        end = value.end_mark.line + 1
        if isinstance(value, ScalarNode) and value.style in ("|", ">"):
            end = line + 1
            while end < len(self.lines) and (not self.lines[end].strip() or _indent(self.lines[end]) > entry.column):
                end += 1
            while end > line + 1 and not self.lines[end - 1].strip() and "+" not in self.lines[line]:
                end -= 1
        elif isinstance(value, ScalarNode) and value.start_mark.index == value.end_mark.index:
            end = line + 1
        first = self.lines[line][entry.column :]
        first = first[1:].lstrip(" ") if entry.key is None else first
        entry.head = [first.rstrip(), *self.lines[line + 1 : end]]
        self.at, self.last = end, entry

    def gap(self, line: int, column: int) -> list[str]:
        """The remarks and empty lines up to a line, those left out that stand deeper and belong to what is above."""
        lines = self.lines[self.at : line]
        if any(text.strip() and not text.lstrip().startswith(("#", "...")) for text in lines) and self.last is not None:
            raise NotTidied(f"between line {self.at + 1} and line {line + 1} stands something that is not known here")
        self.at = max(self.at, line)
        if self.last is None:
            self.header += lines
            return []
        deeper = 0
        for number, text in enumerate(lines, 1):
            if text.strip() and (_indent(text) <= max(column, 0) or self.last.column <= column):
                break
            deeper = number if text.strip() else deeper
        self.last.tail += [text.strip() for text in lines[:deeper]]
        return [text.strip() for text in lines[deeper:]]


def _write(entry: Entry, column: int, lines: list[str]) -> None:
    """Adds the lines of an entry that begins at a column."""
    lines += [" " * column + text if text else "" for text in _without_double(entry.lead)]
    by = column - entry.column
    if entry.key is None and entry.children:
        own: list[str] = []
        for child in entry.children:
            _write(child, column + _LEVEL, own)
        own[0] = " " * column + "- " + own[0].lstrip(" ")
        lines += own
        return
    dash = "- " if entry.key is None else ""
    lines.append((" " * column + dash + entry.head[0]).rstrip())
    lines += [_shifted(text, by) for text in entry.head[1:]]
    lines += [" " * column + text if text else "" for text in _without_double(entry.tail)]
    for child in entry.children:
        _write(child, column + _LEVEL, lines)


def _shifted(text: str, by: int) -> str:
    return " " * max(_indent(text) + by, 1) + text.lstrip(" ") if text.strip() else text


def _indent(text: str) -> int:
    return len(text) - len(text.lstrip(" "))


def _without_double(lines: list[str]) -> list[str]:
    """One empty line where there were several."""
    return [text for number, text in enumerate(lines) if text.strip() or number == 0 or lines[number - 1].strip()]


def _blanks_moved(source: list[str], target: list[str]) -> tuple[list[str], list[str]]:
    """The empty lines that `source` begins with put before `target`; both in the order target, source."""
    count = next((number for number, text in enumerate(source) if text), len(source))
    return [*source[:count], *target], source[count:]
