"""Slips of the keyboard, made at random places of a file that is right: one for each kind that authors make."""

import re
from collections.abc import Callable
from random import Random

Mutation = Callable[[str, Random], str | None]

_KEY = re.compile(r"(?m)^ *(?:- )?([a-z_]{3,})(?=:)")
_NAME = re.compile(r"[a-zA-Z0-9]+(?:-[a-z0-9]+)+|\bX[0-9]+\b")
_UNIT = re.compile(r"(?<=[0-9] )(?:V|mΩ|MΩ|kΩ|N·m|min|s|A|L|bar|kW|°C)(?![A-Za-z])")
_OTHER_UNITS = ("V", "Ω", "MOHM", "Nm", "min", "m", "A", "C", "Volt", "")
_LINE = re.compile(r"(?m)^ *[^ #\n].*$")


def delete_line(text: str, random: Random) -> str | None:
    """A line is cut and never pasted."""
    start, end = random.choice([match.span() for match in _LINE.finditer(text)])
    return text[:start] + text[end + 1 :]


def swap_lines(text: str, random: Random) -> str | None:
    """Two lines change places."""
    lines = text.splitlines(keepends=True)
    places = [n for n, (one, two) in enumerate(zip(lines, lines[1:], strict=False)) if one.strip() and two.strip()]
    at = random.choice(places)
    lines[at], lines[at + 1] = lines[at + 1], lines[at]
    return "".join(lines)


def indent(text: str, random: Random) -> str | None:
    """A line stands one or two spaces too deep, or not deep enough."""
    start, end = random.choice([match.span() for match in _LINE.finditer(text)])
    line, by = text[start:end], random.choice((-2, -1, 1, 2))
    if by < 0 and not line.startswith(" " * -by):
        return None
    return text[:start] + (" " * by + line if by > 0 else line[-by:]) + text[end:]


def drop_quote(text: str, random: Random) -> str | None:
    """One quote of a pair is missing."""
    return _without(text, random, re.compile('"'))


def drop_bracket(text: str, random: Random) -> str | None:
    """A bracket or a brace is missing."""
    return _without(text, random, re.compile(r"[\[\]{}]"))


def drop_dash(text: str, random: Random) -> str | None:
    """The dash of a list entry is missing; the rest of the line stays where it is."""
    places = [match.start(1) for match in re.finditer(r"(?m)^ *(-) \S", text)]
    at = random.choice(places)
    return text[:at] + " " + text[at + 1 :]


def drop_colon(text: str, random: Random) -> str | None:
    """The colon behind a key is missing."""
    at = random.choice([match.end(1) for match in _KEY.finditer(text)])
    return text[:at] + text[at + 1 :]


def change_unit(text: str, random: Random) -> str | None:
    """A unit becomes another one, or none."""
    places = [match.span() for match in _UNIT.finditer(text)]
    if not places:
        return None
    start, end = random.choice(places)
    return text[:start] + random.choice(_OTHER_UNITS) + text[end:]


def mistype_key(text: str, random: Random) -> str | None:
    """A key has a letter too few, too many, or two of them changed over."""
    return _mistyped(text, random, [match.span(1) for match in _KEY.finditer(text)])


def mistype_name(text: str, random: Random) -> str | None:
    """A name has a letter too few, too many, or two of them changed over."""
    return _mistyped(text, random, [match.span() for match in _NAME.finditer(text)])


KINDS: tuple[Mutation, ...] = (
    delete_line, swap_lines, indent, drop_quote, drop_bracket, drop_dash, drop_colon, change_unit, mistype_key,
    mistype_name,
)  # fmt: skip


def mutated(text: str, kind: Mutation, random: Random) -> str:
    """The text with one slip of a kind; where a file has no place for it, a line is deleted instead."""
    for _ in range(20):
        found = kind(text, random)
        if found is not None and found != text:
            return found
    return delete_line(text, random) or text


def _without(text: str, random: Random, sign: re.Pattern[str]) -> str | None:
    places = [match.start() for match in sign.finditer(text)]
    if not places:
        return None
    at = random.choice(places)
    return text[:at] + text[at + 1 :]


def _mistyped(text: str, random: Random, places: list[tuple[int, int]]) -> str | None:
    start, end = random.choice(places)
    at = random.randrange(start, end - 1)
    one, two = text[at], text[at + 1]
    how = random.randrange(3)
    typed = (one, two + one, one + one + two)[how]
    return text[:at] + typed + text[at + 2 :]
