"""Computed sizes in words, in the unit that stands in the record."""

from fractions import Fraction

from ..quantities.numbers import plain
from ..quantities.quantity import Exact, Quantity, Rounding, join
from ..quantities.units import Unit, unit


def width(size: Fraction, like: Quantity) -> str:
    """An error or a band, rounded up to two figures; that of a temperature is a difference, in kelvin."""
    of = unit("K") if like.unit.offset else like.unit
    return _written(size / of.factor, of, 2, "up")


def size(found: Fraction, symbol: str, figures: int = 5) -> str:
    """A size in the coherent unit, in this unit with so many figures."""
    of = unit(symbol)
    return _written((found - of.offset) / of.factor, of, figures, "half-even")


def _written(value: Fraction, of: Unit, figures: int, how: Rounding) -> str:
    """Figures before the point are never rounded away."""
    place = 1
    while place > -30 and value and abs(value) < Fraction(10) ** (place - 1):
        place -= 1
    while abs(value) >= Fraction(10) ** place:
        place += 1
    rounded = Exact(value, of).rounded(min(place - figures, 0), how)
    number = plain(rounded.value)
    return join(number.rstrip("0").rstrip(".") if "." in number else number, of)
