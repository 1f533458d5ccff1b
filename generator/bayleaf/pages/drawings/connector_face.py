"""The face of a connector, with the pins at which a step probes.

The pins lie as in the profile. Each pair of probe points has a number, in a circle at both of its ends; below the face
stands what each probed pin is. Where the profile has no face, the probed pins stand in a row.
"""

from collections.abc import Mapping
from math import floor
from typing import NamedTuple

from .callouts import ROUND, callout, callout_width, callouts, spread
from .shapes import LINE, SIZE, WIDTH, Box, Drawing, Rect, Sheet
from .wrapping import width_of

#: Height of a pin that has its number in it, and of one that has not.
_TALL, _SMALL = 24.0, 17.0
_LEAST, _MOST = 10.0, 44.0  # widths of a pin
_LEADER, _PAD, _GAP = 9.0, 6.0, 4.0
_CHASSIS = 66.0
#: Pins in one row where their places are not known.
_IN_A_ROW = 6


class Probe(NamedTuple):
    """A pin that is probed: the numbers of its pairs, and what it is. `pin` None: all pins of the side."""

    numbers: tuple[str, ...]
    pin: str | None
    words: str


class Face(NamedTuple):
    """A connector at one step. `rows` is empty where the profile has no face; `chassis` are pairs that end there."""

    name: str
    rows: tuple[tuple[str, ...], ...]
    seen_from: str
    side: str
    probes: tuple[Probe, ...]
    chassis: tuple[str, ...]


def connector_face(face: Face) -> Drawing:
    """The face under the name of the connector, the chassis beside it, the probed pins in words below."""
    sheet = Sheet()
    y = sheet.write("name", face.name, 2, 0, WIDTH - 4, "strong")
    y = sheet.write("side", face.side, 2, y, WIDTH - 4)
    for line in _view_words(face):
        y = sheet.write("view", line, 2, y, WIDTH - 4, "quiet")
    top = y + _PAD
    rows = _rows(face)
    columns = max(map(len, rows), default=0)
    beside = bool(face.chassis) and columns * _TALL + 16 <= WIDTH - _CHASSIS and len(face.chassis) <= 9
    bottom = _shell(sheet, face, rows, top, WIDTH - 2 - (_CHASSIS + 14 if beside else 0)) if rows else top
    if beside:
        bottom = max(bottom, _chassis(sheet, face.chassis, WIDTH - 2 - _CHASSIS, top, _CHASSIS))
    elif face.chassis:
        bottom = _chassis(sheet, face.chassis, 2, bottom + _PAD, WIDTH - 4)
    bottom = _legend(sheet, face.probes, bottom + 2 * _PAD)
    return sheet.done(WIDTH, bottom + 2)


def face_words(face: Face) -> str:
    """The same for whoever does not see it."""
    parts = [face.side, *_view_words(face)]
    parts += [f"{_numbers(one.numbers)}: {_pin_words(one)}" for one in face.probes]
    if face.chassis:
        parts.append(f"{_numbers(face.chassis)}: chassis")
    if face.rows:
        parts.append("Rows of pins: " + "; ".join(" ".join(row) for row in face.rows))
    return ". ".join(parts)


def _numbers(numbers: tuple[str, ...]) -> str:
    return f"probe point{'s' if len(numbers) > 1 else ''} {', '.join(numbers)}"


def _view_words(face: Face) -> tuple[str, ...]:
    if not face.rows:
        return ("Not a view: how the contacts lie is not in the profile. Go by their numbers and what is said of them",)
    return (
        f"Seen from: {face.seen_from[:1].lower()}{face.seen_from[1:]}",
        "Seen from the other half, left and right change places",
    )


def _pin_words(probe: Probe) -> str:
    name = "all pins" if probe.pin is None else f"pin {probe.pin}"
    return f"{name}: {probe.words}" if probe.words else name


def _rows(face: Face) -> tuple[tuple[str, ...], ...]:
    """The rows of pins, those that the face lacks in rows of their own."""
    there = {pin for row in face.rows for pin in row}
    others = tuple(dict.fromkeys(one.pin for one in face.probes if one.pin is not None and one.pin not in there))
    return (*face.rows, *(others[at : at + _IN_A_ROW] for at in range(0, len(others), _IN_A_ROW)))


class _Grid(NamedTuple):
    """How pins are drawn: their width and height, whether numbers stand in them, room for one at the ends of a row."""

    width: float
    height: float
    numbered: bool
    ends: float


def _grid(rows: tuple[tuple[str, ...], ...], room: float) -> _Grid:
    columns = max(map(len, rows))
    widest = max(width_of(pin, SIZE, True) for row in rows for pin in row) + 4
    if widest * columns <= room:
        return _Grid(_even(min(max(widest, _MOST), room / columns)), _TALL, True, 0)
    ends = widest + 2
    if (room - 2 * ends) / columns < _LEAST:
        return _Grid(_even(room / columns), _SMALL, False, 0)
    return _Grid(_even(min(_TALL, (room - 2 * ends) / columns)), _SMALL, False, ends)


def _even(width: float) -> float:
    """A width that can be added up exactly, so that neighbours share an edge."""
    return floor(4 * width) / 4


def _shell(sheet: Sheet, face: Face, rows: tuple[tuple[str, ...], ...], y: float, right: float) -> float:
    """The rows of pins in an outline; gives the y below it."""
    left = 2.0
    whole = [number for one in face.probes if one.pin is None for number in one.numbers]
    if whole:  # all pins are meant: the line leads to the outline
        bottom = callouts(sheet, "all", whole, left + _PAD, y, right - left - 2 * _PAD)
        sheet.wire("leader", (left + _PAD + ROUND / 2, bottom), (left + _PAD + ROUND / 2, bottom + _LEADER))
        y = bottom + _LEADER
    grid = _grid(rows, right - left - 2 * _PAD)
    probed: dict[str, list[str]] = {}
    for one in face.probes:
        if one.pin is not None:
            probed.setdefault(one.pin, []).extend(one.numbers)
    below = y + _PAD
    for row in rows:
        first = (left + right - len(row) * grid.width) / 2
        below = _marked(sheet, row, probed, (first, below), grid.width, (left + _PAD, right - _PAD))
        _pins(sheet, row, probed, (first, below), grid)
        below += grid.height + _GAP
    below += _PAD - _GAP
    sheet.wire("shell", (left, y), (right, y), (right, below), (left, below), (left, y))
    return below


def _pins(
    sheet: Sheet, row: tuple[str, ...], probed: Mapping[str, list[str]], at: tuple[float, float], grid: _Grid
) -> None:
    """One row of pins, with their numbers in them or those of the first and the last beside them."""
    x, y = at
    for index, pin in enumerate(row):
        place = Rect(x + index * grid.width, y, grid.width, grid.height)
        sheet.boxes.append(Box(f"pin:{pin}", place, "pin-probed" if pin in probed else "pin"))
        if grid.numbered:
            sheet.label(f"pin:{pin}", pin, place, "strong" if pin in probed else "")
    if grid.ends:
        sheet.label(f"end:{row[0]}", row[0], Rect(x - grid.ends, y, grid.ends, grid.height))
        if len(row) > 1:
            sheet.label(f"end:{row[-1]}", row[-1], Rect(x + len(row) * grid.width, y, grid.ends, grid.height))


def _marked(
    sheet: Sheet, row: tuple[str, ...], probed: Mapping[str, list[str]], at: tuple[float, float], pin_width: float,
    ends: tuple[float, float],
) -> float:  # fmt: skip
    """The call-outs above a row of pins, with lines to them; gives the y of the pins below them.

    Where more pins of a row are probed than there is room for numbers, only the words below the face give these.
    """
    found = [
        (at[0] + (index + 0.5) * pin_width, number)
        for index, pin in enumerate(row)
        for number in dict.fromkeys(probed.get(pin, ()))
    ]
    widths = [callout_width(number) for _, number in found]
    places = spread([middle for middle, _ in found], widths, *ends) if found else None
    if places is None:
        return at[1]
    for (middle, number), place, width in zip(found, places, widths, strict=True):
        callout(sheet, f"mark:{number}", number, place, at[1])
        sheet.wire("leader", (place + width / 2, at[1] + ROUND), (middle, at[1] + ROUND + _LEADER))
    return at[1] + ROUND + _LEADER


def _chassis(sheet: Sheet, numbers: tuple[str, ...], x: float, y: float, width: float) -> float:
    """The symbol of the chassis (IEC 60417-5020, from memory) under the numbers of the pairs that end there."""
    bottom = callouts(sheet, "chassis", numbers, x + 6, y, width - 6)
    middle, bar = x + 6 + ROUND / 2, bottom + _LEADER
    sheet.wire("leader", (middle, bottom), (middle, bar))
    sheet.wire("frame", (x, bar), (x + 30, bar))
    for index in range(3):
        foot = x + 3 + 12 * index
        sheet.wire("leader", (foot, bar), (foot - 3, bar + 8))
    return sheet.write("chassis", "chassis", x, bar + 10, WIDTH - x)


def _legend(sheet: Sheet, probes: tuple[Probe, ...], y: float) -> float:
    """The numbers with what each probed pin is, line by line."""
    for one in probes:
        room = min(sum(callout_width(number) + 3 for number in one.numbers), 92.0)
        of = f"probe:{'all' if one.pin is None else one.pin}"
        bottom = callouts(sheet, of, one.numbers, 2, y, room)
        x = 2 + max(room, 24.0) + 5
        y = max(bottom, sheet.write(of, _pin_words(one), x, y + (ROUND - LINE) / 2, WIDTH - x)) + 4
    return y
