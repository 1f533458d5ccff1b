"""A quantity: an exact number and its unit, as an author wrote it."""

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor
from typing import Literal

from .numbers import Number, exact_decimal, invisible, plain, read_number, unmistakable
from .problem import Problem
from .refused_units import find_unit, likely_unit
from .units import BLANKS, QUANTITIES, UNITS, Unit, base_quantity, known_unit, unit

Expected = str | tuple[str, ...] | None
Rounding = Literal["half-even", "up", "down"]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value and its unit. Equal means written equal; `1000 mV` and `1 V` only `same_as`.

    Order is by size, within one quantity; comparing a torque with an energy is a TypeError.
    """

    value: Decimal
    unit: Unit

    @property
    def quantity(self) -> str:
        """What is measured, in plain words: `voltage`, `torque`."""
        return self.unit.quantity

    @property
    def si(self) -> Fraction:
        """The exact size in the coherent unit of the table (temperatures in kelvin)."""
        return _size(self.value, self.unit.symbol)

    def to(self, symbol: str) -> "Exact":
        """The same size in another unit of the same quantity, exact."""
        return Exact.of(self.si, unit(symbol), self.quantity)

    def same_as(self, other: "Quantity") -> bool:
        """Whether both say the same, in whatever units."""
        return self.quantity == other.quantity and self.si == other.si

    def __lt__(self, other: "Quantity") -> bool:
        return self._order(other) < 0 if self._comparable(other) else NotImplemented

    def __le__(self, other: "Quantity") -> bool:
        return self._order(other) <= 0 if self._comparable(other) else NotImplemented

    def __gt__(self, other: "Quantity") -> bool:
        return self._order(other) > 0 if self._comparable(other) else NotImplemented

    def __ge__(self, other: "Quantity") -> bool:
        return self._order(other) >= 0 if self._comparable(other) else NotImplemented

    def _comparable(self, other: object) -> bool:
        return isinstance(other, Quantity) and other.quantity == self.quantity

    def _order(self, other: "Quantity") -> int:
        """Below, equal, above as -1, 0, 1; in one unit the figures tell."""
        if self.unit.symbol == other.unit.symbol:
            return (self.value > other.value) - (self.value < other.value)
        here, there = self.si, other.si
        return (here > there) - (here < there)

    def __str__(self) -> str:
        """The canonical text for a file: parsing it gives this quantity again."""
        return join(unmistakable(self.value), self.unit)


@lru_cache(maxsize=8192)
def _size(value: Decimal, symbol: str) -> Fraction:
    """The exact size of a value; the same few are asked for again and again."""
    known = unit(symbol)
    size = Fraction(value) * known.factor
    return size + known.offset if known.offset else size


@dataclass(frozen=True, slots=True)
class Exact:
    """A converted value, exact and so perhaps without an end to its digits."""

    value: Fraction
    unit: Unit

    @classmethod
    def of(cls, si: Fraction, target: Unit, quantity: str) -> "Exact":
        """A size in the coherent unit, expressed in `target`."""
        if target.quantity != quantity:
            raise ValueError(f"a {quantity} cannot be given in {target.symbol}, a unit of {target.quantity}")
        return cls((si - target.offset) / target.factor, target)

    def rounded(self, place: int, how: Rounding = "half-even") -> Quantity:
        """Rounded to the place 10^`place`: -1 keeps one decimal, 0 none, 1 gives tens."""
        steps = self.value / Fraction(10) ** place
        count = round(steps) if how == "half-even" else ceil(steps) if how == "up" else floor(steps)
        value = Decimal(f"{count}E{place}")
        return Quantity(Decimal(plain(value)) if place > 0 else value, self.unit)

    def decimal(self) -> Quantity | None:
        """As a quantity without rounding, or None where the digits never end."""
        value = exact_decimal(self.value)
        return None if value is None else Quantity(value, self.unit)


def join(number: str, of: Unit) -> str:
    """Number and unit with the blank between them; the sign of an angle follows without one."""
    return f"{number}{'' if of.symbol == '°' else ' '}{of.symbol}"


@lru_cache(maxsize=1 << 16)
def parse_quantity(text: str, expected: Expected = None, decimals: int | None = None) -> Quantity | Problem:
    """The quantity a text says, or what is wrong with it.

    `expected` names one or several quantities, by a name of `units.QUANTITIES` or a trade name
    such as `insulation resistance`. `decimals=3` says that the field is known to hold three
    decimals, as the display of an instrument does, so that `1.000` is no riddle.
    """
    if (problem := invisible(text)) is not None:
        return problem
    start, end = whole(text)
    if (problem := _is_a_limit(text, start, end)) is not None:
        return problem
    found = read(text, start, end, expected, decimals)
    if isinstance(found, Number):
        return unit_missing(text, found, expected)
    return found


@lru_cache(maxsize=1 << 12)
def parse_count(text: str) -> int | Problem:
    """A whole number of things, from 1 upwards."""
    if (problem := invisible(text)) is not None:
        return problem
    start, end = whole(text)
    number = read_number(text, start, end)
    if isinstance(number, Problem):
        return number
    found = text[start:end]
    if number.end < end:
        rest, _ = trimmed(text, number.end, end)
        message = f"`{found}` is not a count alone"
        return Problem("number-unreadable", message, rest, end, None, f"write `{plain(number.value)}`")
    if number.value != number.value.to_integral_value() or number.value < 1 or "." in found or "," in found:
        message = f"`{found}` is not a count"
        return Problem("number-unreadable", message, start, end, None, "write a whole number from 1 upwards")
    return int(number.value)


def trimmed(text: str, start: int, end: int, around: str = BLANKS) -> tuple[int, int]:
    """The span without the blanks around it."""
    while start < end and text[start] in around:
        start += 1
    while end > start and text[end - 1] in around:
        end -= 1
    return start, end


def whole(text: str) -> tuple[int, int]:
    """The span of a text without blanks and line ends around it."""
    return trimmed(text, 0, len(text), BLANKS + "\r\n")


def read(
    text: str, start: int, end: int, expected: Expected, decimals: int | None = None
) -> Quantity | Number | Problem:
    """One number with its unit, or the bare number where no unit follows; offsets stay those of `text`."""
    number = read_number(text, start, end, decimals)
    if isinstance(number, Problem):
        return number
    unit_start, unit_end = trimmed(text, number.end, end)
    if unit_start == unit_end:
        return number
    spelling = text[unit_start:unit_end]
    found = known_unit(spelling) or find_unit(spelling, text[start : number.end])
    if isinstance(found, Problem):
        return found.moved(unit_start)
    return fits(text, start, Quantity(number.value, found), unit_start, unit_end, expected)


def fits(
    text: str, start: int, found: Quantity, unit_start: int, unit_end: int, expected: Expected
) -> Quantity | Problem:
    """The quantity if it is one of the expected ones."""
    if expected is None:
        return found
    names = (expected,) if isinstance(expected, str) else expected
    wanted = tuple(base_quantity(name) or name for name in names)
    if found.quantity in wanted:
        return found
    if found.quantity == "temperature" and "temperature difference" in wanted:
        return Quantity(found.value, UNITS["K" if found.unit.symbol == "°C" else "Δ°F"])
    number = unmistakable(found.value)
    likely = next(filter(None, (likely_unit(found.unit, name) for name in wanted)), None)
    mend = f"`{join(number, UNITS[likely])}`" if likely else f"{article(names[0])}, {such_as(wanted[0])}"
    message = f"`{text[start:unit_end]}` is {article(found.quantity)}, but {one_of(names)} is expected"
    because = None
    if {found.quantity, wanted[0]} == {"torque", "energy"}:
        because = "A torque and an energy are two things, though both are newtons times metres."
    return Problem("unit-of-another-quantity", message, unit_start, unit_end, because, f"write {mend}")


def unit_missing(text: str, number: Number, expected: Expected) -> Problem:
    """The problem of a number that stands alone."""
    names = (expected,) if isinstance(expected, str) else (expected or ("voltage",))
    units = QUANTITIES.get(base_quantity(names[0]) or names[0], (UNITS["V"],))[:2]
    mends = " or ".join(f"`{join(unmistakable(number.value), of)}`" for of in units)
    written = text[number.start : number.end]
    message = f"`{written}` has no unit"
    return Problem("unit-missing", message, number.start, number.end, None, f"write the unit after it, such as {mends}")


def article(noun: str) -> str:
    """The noun with its article."""
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"


def one_of(names: tuple[str, ...]) -> str:
    """`a voltage`, `a voltage or a current`."""
    return " or ".join(article(name) for name in names)


def such_as(quantity: str) -> str:
    """An example value of a quantity."""
    units = QUANTITIES.get(quantity)
    return f"such as `{join('12', units[0])}`" if units else "with its unit"


_LIMIT_WORDS = re.compile(r"\bat (?:least|most)\b|(?<=\S)[^\S\n]+to[^\S\n]+|±|\+/?[-−–]", re.IGNORECASE)


def _is_a_limit(text: str, start: int, end: int) -> Problem | None:
    if _LIMIT_WORDS.search(text, start, end) is None:
        return None
    message = f"`{text[start:end]}` is a limit, but one value is expected"
    return Problem("number-unreadable", message, start, end, None, "write one number with its unit")
