"""The bolts of a fastener, each with its turn when they are tightened.

Crosswise and in turn they are drawn on a circle, many of them on a long frame, counted clockwise from the first; from
the middle out in two rows, or in one. It is a scheme: the profile says how many bolts there are, not where they stand.
"""

from dataclasses import dataclass
from math import cos, pi, sin

from ...calculations.tightening_order import cross_order, in_turn, middle_out, passes, ranks
from .shapes import WIDTH, Box, Drawing, Rect, Sheet

CROSS, MIDDLE, TURN = "crosswise", "from the middle out", "in turn"
#: With fewer there is nothing to draw; more are told in words.
FEWEST, MOST = 3, 60
_SIDE = 26.0  # of a bolt
_APART = 30.0  # middles of two bolts in a row
_ROUND = 37.0  # and on a circle
_ON_CIRCLE = 24  # more stand on a frame, so many of them along its top
_ACROSS, _FRAME = 10, 34.0


@dataclass(frozen=True, slots=True)
class Bolts:
    """What is known of the bolts: `last` is the torque of the last pass in words, `passes` their number."""

    order: str
    count: int
    passes: int | None
    last: str


def bolt_order(bolts: Bolts) -> Drawing | None:
    """The bolts with their turns; nothing where an order by numbers has no use."""
    if not FEWEST <= bolts.count <= MOST or bolts.order not in (CROSS, MIDDLE, TURN):
        return None
    sheet = Sheet()
    places = _places(bolts)
    for (x, y), turn in zip(places, turns(bolts), strict=True):
        place = Rect(x - _SIDE / 2, y - _SIDE / 2, _SIDE, _SIDE)
        sheet.boxes.append(Box(f"bolt:{turn}", place, "bolt"))
        sheet.label(f"bolt:{turn}", str(turn), place, "strong")
    y = max(y for _, y in places) + _SIDE / 2 + 8
    for sentence in order_sentences(bolts):
        y = sheet.write("words", sentence, 2, y, WIDTH - 4)
    return sheet.done(WIDTH, y + 2)


def order_words(bolts: Bolts) -> str:
    """The same for whoever does not see it."""
    told = ", ".join(map(str, turns(bolts)))
    counted = "row by row" if bolts.order == MIDDLE else "clockwise"
    return f"{bolts.count} bolts; their turns, {counted}: {told}. {' '.join(order_sentences(bolts))}"


def turns(bolts: Bolts) -> list[int]:
    """When the turn of each bolt comes, in the order in which they are drawn."""
    if bolts.order == CROSS:
        return ranks(cross_order(bolts.count))
    return in_turn(bolts.count) if bolts.order == TURN else ranks(middle_out(*_rows(bolts.count), False))


def order_sentences(bolts: Bolts) -> tuple[str, ...]:
    """What stands below the bolts: the order, and the passes as far as they are known."""
    found = [f"{bolts.order.capitalize()}: the number in a bolt is its turn."]
    drawn = "Drawn in rows" if bolts.order == MIDDLE else "Drawn as a ring, begun with any bolt"
    found.append(f"{drawn}; the bolts may stand otherwise.")
    if bolts.passes is not None and bolts.passes > 1:
        last = f", the last with {bolts.last}" if bolts.last else ""
        found.append(f"In {bolts.passes} passes, each in this order{last}.")
        if bolts.order == CROSS and bolts.passes == 3:
            shares = [f"{low:g} to {high:g}\u00a0%" for _, low, high, _ in passes(100.0)[1:3]]
            found.append(
                f"Where there is a gasket and the maker states no steps: {', then '.join(shares)}, then all of "
                "the torque (ASME PCC-1, table 1, as restated)."
            )
    return tuple(found)


def _rows(count: int) -> tuple[int, int]:
    """Two rows of bolts, upright where they are too long to lie; one row of an odd number."""
    short, long = (2, count // 2) if count % 2 == 0 else (1, count)
    return (long, short) if long * _APART > WIDTH else (short, long)


def _places(bolts: Bolts) -> list[tuple[float, float]]:
    """The middles of the bolts: clockwise from the top, or row by row."""
    if bolts.order == MIDDLE:
        down, across = _rows(bolts.count)
        left, top = WIDTH / 2 - (across - 1) * _APART / 2, _SIDE / 2 + 2
        return [(left + _APART * column, top + _APART * row) for row in range(down) for column in range(across)]
    if bolts.count > _ON_CIRCLE:
        return _on_frame(bolts.count)
    radius = max(38.0, _ROUND / 2 / sin(pi / bolts.count))
    angles = [2 * pi * index / bolts.count for index in range(bolts.count)]
    highest = radius + _SIDE / 2 + 2
    return [(WIDTH / 2 + radius * sin(angle), highest - radius * cos(angle)) for angle in angles]


def _on_frame(count: int) -> list[tuple[float, float]]:
    """Places round a frame that is as wide as the drawing; of an odd number the last place is left free."""
    across = _ACROSS - 1
    down = (count + 1) // 2 - across
    ring = [(column, 0) for column in range(across)] + [(across, row) for row in range(down)]
    ring += [(across - column, down) for column in range(across)] + [(0, down - row) for row in range(down)]
    first = _SIDE / 2 + 2
    return [(first + _FRAME * column, first + _FRAME * row) for column, row in ring[:count]]
