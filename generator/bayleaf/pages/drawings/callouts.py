"""Call-outs: plain numbers in outlined circles, and places for them that lie side by side."""

from collections.abc import Sequence

from .shapes import SIZE, Box, Rect, Sheet
from .wrapping import width_of

#: Height of a call-out, and the room between two of them.
ROUND, APART = 18.0, 3.0


def callout_width(number: str) -> float:
    """How wide a call-out is: a circle, longer for a number of several figures."""
    return max(ROUND, width_of(number, SIZE) + 6)


def callout(sheet: Sheet, of: str, number: str, x: float, y: float) -> None:
    """A number in a circle whose upper left corner is here."""
    place = Rect(x, y, callout_width(number), ROUND)
    sheet.boxes.append(Box(of, place, "callout"))
    sheet.label(of, number, place)


def callouts(sheet: Sheet, of: str, numbers: Sequence[str], x: float, y: float, width: float) -> float:
    """Several call-outs in lines of this width; gives the y below them."""
    at = x
    for number in numbers:
        if at > x and at + callout_width(number) > x + width:
            at, y = x, y + ROUND + APART
        callout(sheet, f"{of}:{number}", number, at, y)
        at += callout_width(number) + APART
    return y + ROUND


def spread(middles: Sequence[float], widths: Sequence[float], low: float, high: float) -> list[float] | None:
    """Left sides of things in a line, each as near to its middle as its neighbours allow; None where they do not fit.

    `middles` rise. The order stays, so that lines from the things to their middles do not cross.
    """
    if sum(widths) + APART * (len(widths) - 1) > high - low:
        return None
    found: list[float] = []
    free = low
    for middle, width in zip(middles, widths, strict=True):
        found.append(max(middle - width / 2, free))
        free = found[-1] + width + APART
    limit = high
    for index in reversed(range(len(found))):
        found[index] = min(found[index], limit - widths[index])
        limit = found[index] - APART
    return found
