"""Computed sizes as figures: rounded, in the unit with the prefix that a workshop would use."""

from decimal import Decimal
from fractions import Fraction
from functools import cache

from .quantity import Exact, Quantity, Rounding
from .units import UNITS, Unit, unit

#: Computed numbers carry the noise of the machine behind about the fifteenth digit; a limit that is rounded inward must
#: not take 59.400000000000006 for more than 59.4.
_DIGITS_THAT_COUNT = 12


def exact(number: float) -> Fraction:
    """A computed number as a fraction, without the noise of its last digits."""
    return Fraction(f"{number:.{_DIGITS_THAT_COUNT}g}")


def figure(number: float | Fraction, symbol: str, how: Rounding = "half-even", figures: int = 3) -> Quantity:
    """A number of a unit as a quantity of so many figures; `up` and `down` for the ends of a limit.

    `41000` ohms give `41 kΩ`. Zeros behind the point that say nothing are left out.
    """
    given = unit(symbol)
    size = (exact(number) if isinstance(number, float) else Fraction(number)) * given.factor + given.offset
    target = with_prefix(size, given)
    shown = Exact.of(size, target, given.quantity)
    rounded = shown.rounded(_place(shown.value, figures), how)
    return Quantity(Decimal(f"{rounded.value.normalize():f}"), target)


def with_prefix(size: Fraction, given: Unit) -> Unit:
    """The unit of the same name whose prefix leaves one to three digits before the point."""
    fitting = [one for one in family(given.symbol) if abs(size) >= one.factor]
    return fitting[-1] if fitting and size else given


@cache
def family(symbol: str) -> tuple[Unit, ...]:
    """A unit and those that differ from it by their prefix alone, from the smallest up, without centi and hecto."""
    base = unit(symbol)
    if base.quantity not in _PREFIXED:
        return (base,)
    root = base.symbol[-len(_PREFIXED[base.quantity]) :]
    if root != _PREFIXED[base.quantity]:
        return (base,)
    signs = ("p", "n", "µ", "m", "", "k", "M", "G")
    return tuple(UNITS[sign + root] for sign in signs if sign + root in UNITS)


#: The quantities that are read with prefixes, by the unit that takes them.
_PREFIXED = {
    "voltage": "V", "current": "A", "resistance": "Ω", "capacitance": "F", "inductance": "H", "power": "W",
    "energy": "J", "frequency": "Hz", "data rate": "bit/s",
}  # fmt: skip


def _place(value: Fraction, figures: int) -> int:
    """The place of the last figure that is kept."""
    if not value:
        return 0
    size, place = abs(value), 0
    while size >= 10:
        size, place = size / 10, place + 1
    while size < 1:
        size, place = size * 10, place - 1
    return place - figures + 1
