"""The gauge of a limit: where a reading is bad, too close to call, or good, with the instrument in hand.

It is a scheme and not to scale: on a scale that shows the limits, the error of a good instrument could not be seen.
"""

from typing import NamedTuple

from .shapes import LINE, SIZE, WIDTH, Box, Drawing, Rect, Sheet, Text
from .wrapping import width_of

_TOP, _HEIGHT = LINE + 6, 34.0
#: Widths of a zone beyond a limit and of one that is too close to it, wide enough for their words.
_BAD, _CLOSE = 70.0, 54.0
#: Where the gauge begins and ends, so that its frame lies on the drawing.
_LEFT, _RIGHT = 2.0, WIDTH - 2.0


class GaugeEnd(NamedTuple):
    """One end of a limit: its figure, and the first figure that counts as good; None where the error is not known."""

    limit: str
    accepts: str | None


def limit_gauge(low: GaugeEnd | None, high: GaugeEnd | None) -> Drawing:
    """The gauge of a limit with a lower end, an upper end, or both."""
    sheet = Sheet()
    left = _side(sheet, low, "too low", _LEFT, 1) if low is not None else _LEFT
    right = _side(sheet, high, "too high", _RIGHT, -1) if high is not None else _RIGHT
    _zone(sheet, "good", left, right, "good")
    return sheet.done(WIDTH, _TOP + _HEIGHT + LINE + 8)


def _side(sheet: Sheet, end: GaugeEnd, words: str, edge: float, sign: int) -> float:
    """The zones at one end; gives the x at which the good zone begins or ends."""
    bad = edge + sign * _BAD
    close = bad + sign * _CLOSE if end.accepts is not None else bad
    _zone(sheet, "bad", min(edge, bad), max(edge, bad), words)
    limit = (bad + close) / 2
    if end.accepts is not None:
        _zone(sheet, "close", min(bad, close), max(bad, close), "close")
        _figure(sheet, "accepts", end.accepts, close, _TOP - LINE - 4, "")
    reach = 8 if end.accepts is not None else _HEIGHT  # not through the word of its zone
    sheet.wire("limit", (limit, _TOP), (limit, _TOP + reach))
    sheet.wire("limit", (limit, _TOP + _HEIGHT - reach), (limit, _TOP + _HEIGHT + 5))
    _figure(sheet, "limit", end.limit, limit, _TOP + _HEIGHT + 5, "strong")
    return close


def _zone(sheet: Sheet, look: str, left: float, right: float, words: str) -> None:
    sheet.boxes.append(Box(look, Rect(left, _TOP, right - left, _HEIGHT), f"zone-{look}"))
    bold = look == "good"
    width = width_of(words, SIZE, bold)
    x = left + (right - left - width) / 2
    place = Rect(x, _TOP + (_HEIGHT - LINE) / 2, width, LINE)
    sheet.texts.append(Text(look, place, (words,), "strong" if bold else ""))


def _figure(sheet: Sheet, of: str, words: str, middle: float, y: float, look: str) -> None:
    """A figure about its middle, kept on the drawing."""
    width = width_of(words, SIZE, look == "strong")
    x = min(max(middle - width / 2, 0), WIDTH - width)
    sheet.texts.append(Text(of, Rect(x, y, width, LINE), (words,), look))
