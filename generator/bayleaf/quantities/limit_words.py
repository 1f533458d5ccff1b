"""Limits as an author writes them: in words."""

import re
from dataclasses import replace
from functools import lru_cache

from .limit_value import Deviation, Limit, checked, toleranced
from .numbers import SIGNS, Number, invisible, value_behind_words
from .other_words import mend_of
from .problem import Problem
from .quantity import Expected, Quantity, fits, join, read, trimmed, unit_missing, whole
from .units import BLANKS

AT = re.compile(f"at[{BLANKS}]+(least|most)(?:[{BLANKS}]+|$)", re.IGNORECASE)
TO = re.compile(f"[{BLANKS}]+to[{BLANKS}]+", re.IGNORECASE)
PLUS_MINUS = re.compile(f"±|\\+[{BLANKS}]*/?[{BLANKS}]*[\\-−–]")
# a sign before a number, behind a blank, a separator or a number; never the hyphen of a unit
SIGNED = re.compile(f"(?<=[{BLANKS}/,;0-9%])[{SIGNS}](?=[{BLANKS}]*[0-9.,])")


@lru_cache(maxsize=1 << 15)
def parse_limit(text: str, expected: Expected = None) -> Limit | Problem:
    """The limit a text says, such as `11.5 V to 14.8 V`, or what is wrong with it."""
    if (problem := invisible(text)) is not None:
        return problem
    start, end = whole(text)
    found = _limit(text, start, end, expected)
    return checked(found, text[start:end], start) if isinstance(found, Limit) else found


def _limit(text: str, start: int, end: int, expected: Expected) -> Limit | Problem:
    """The form of the limit, by the first word or sign that tells it."""
    if word := AT.match(text, start, end):
        value = value_in(text, word.end(), end, expected)
        if isinstance(value, Problem):
            return _said_otherwise(text, start, end) or value
        return Limit(low=value) if word[1].lower() == "least" else Limit(high=value)
    signs = list(SIGNED.finditer(text, start + 1, end))
    found: Limit | Problem
    if sign := PLUS_MINUS.search(text, start + 1, end):
        found = _plus_minus(text, start, end, sign, expected)
    elif word := TO.search(text, start, end):
        found = _range(text, (start, word.start()), (word.end(), end), expected)
    elif len(signs) == 2:
        found = _two_tolerances(text, start, end, signs, expected)
    elif len(signs) == 1 and isinstance(one := value_in(text, start, signs[0].start(), expected), Quantity):
        mend = f"write both tolerances, such as `{one} +5 % −10 %`, or a range, such as `{_ends_like(one)}`"
        found = unreadable(text, start, end, mend)
    else:
        return _no_direction(text, start, end, expected)
    return (_said_otherwise(text, start, end) or found) if isinstance(found, Problem) else found


def _said_otherwise(text: str, start: int, end: int) -> Problem | None:
    """The limit in words that are understood but not accepted."""
    mend = mend_of(text[start:end])
    return None if mend is None else unreadable(text, start, end, mend)


def unreadable(text: str, start: int, end: int, mend: str, fault: str = "is not written as a limit") -> Problem:
    return Problem("limit-unreadable", f"`{text[start:end]}` {fault}", start, end, None, mend)


def _no_direction(text: str, start: int, end: int, expected: Expected) -> Problem:
    """A single value, or nothing that is one."""
    value = value_in(text, start, end, expected)
    if isinstance(value, Quantity):
        mend = f"write `at least {value}`, `at most {value}` or `{value} ± 5 %`"
        return unreadable(text, start, end, mend, "does not say on which side of it a reading is good")
    if otherwise := _said_otherwise(text, start, end):
        return otherwise
    if alone := value_behind_words(text[start:end]):
        mend = f"write `at least {alone}`, `at most {alone}`, or `12 V ± 5 %` for a value with its tolerance"
        return unreadable(text, start, end, mend)
    if not re.search("[0-9]", text[start:end]):
        mend = "write it as `at least 5 V`, `at most 5 V`, `11 V to 14 V` or `12 V ± 5 %`"
        if start == end:
            return Problem("limit-unreadable", "there is no limit here", start, end, None, mend)
        return unreadable(text, start, end, mend)
    return value


def value_in(
    text: str, start: int, end: int, expected: Expected, unit_of: Quantity | None = None
) -> Quantity | Problem:
    """One value; where it has no unit, that of `unit_of` is its unit too."""
    start, end = trimmed(text, start, end)
    found = read(text, start, end, expected)
    if not isinstance(found, Number):
        return found
    if unit_of is None:
        return unit_missing(text, found, expected)
    return Quantity(found.value, unit_of.unit)


def _range(text: str, first: tuple[int, int], second: tuple[int, int], expected: Expected) -> Limit | Problem:
    """`11.5 V to 14.8 V`, or the unit once, at the end."""
    high = value_in(text, *second, expected)
    if isinstance(high, Problem) and high.rule == "unit-missing":
        like = value_in(text, *first, expected)
        high = value_in(text, *second, like.quantity if isinstance(like, Quantity) else expected)
    low = value_in(text, *first, expected, high if isinstance(high, Quantity) else None)
    for end in (low, high):
        if isinstance(end, Problem):
            return end
    assert isinstance(low, Quantity) and isinstance(high, Quantity)
    if low.quantity != high.quantity:
        found = fits(text, trimmed(text, *second)[0], high, *trimmed(text, *second), low.quantity)
        assert isinstance(found, Problem)
        return found
    return Limit(low, high)


def _tolerance_quantities(nominal: Quantity) -> tuple[str, str]:
    """What a tolerance may be: a temperature has a difference beside it."""
    own = "temperature difference" if nominal.quantity == "temperature" else nominal.quantity
    return (own, "ratio")


def _nominal(text: str, start: int, end: int, expected: Expected, tolerance: tuple[int, int]) -> Quantity | Problem:
    """The nominal value; in `60 ± 3 Ω` its unit is that of the tolerance, in `60 ± 5 %` it is missing."""
    found = read(text, *trimmed(text, start, end), expected)
    if not isinstance(found, Number):
        return found
    amount = read(text, *trimmed(text, *tolerance), None)
    if isinstance(amount, Quantity) and amount.quantity != "ratio":
        span = trimmed(text, *tolerance)
        return fits(text, span[0], Quantity(found.value, amount.unit), *span, expected)
    return unit_missing(text, found, expected)


def _plus_minus(text: str, start: int, end: int, sign: re.Match[str], expected: Expected) -> Limit | Problem:
    """`60 Ω ± 5 %` and `60 Ω ± 3 Ω`."""
    nominal = _nominal(text, start, sign.start(), expected, (sign.end(), end))
    if isinstance(nominal, Problem):
        return nominal
    deviation = _deviation(text, sign.end(), end, nominal)
    if isinstance(deviation, Problem):
        return deviation
    return _toleranced(text, start, end, nominal, deviation, deviation)


def _two_tolerances(text: str, start: int, end: int, signs: list[re.Match[str]], expected: Expected) -> Limit | Problem:
    """`49 V +1 V −3 V`, in either order, the two parted by a blank, a comma or a slash."""
    one, other = signs
    spans = ((one.end(), _before(text, other.start())), (other.end(), end))
    nominal = _nominal(text, start, one.start(), expected, spans[1])
    if isinstance(nominal, Problem):
        return nominal
    second = _deviation(text, *spans[1], nominal)
    first = _deviation(text, *spans[0], nominal, second if isinstance(second, Deviation) else None)
    for deviation in (first, second):
        if isinstance(deviation, Problem):
            return deviation
    assert isinstance(first, Deviation) and isinstance(second, Deviation)
    if (one[0] == "+") == (other[0] == "+"):
        return unreadable(text, start, end, "write one tolerance with + and one with −, or the two limits")
    plus, minus = (first, second) if one[0] == "+" else (second, first)
    return _toleranced(text, start, end, nominal, minus, plus)


def _before(text: str, end: int) -> int:
    """The end of what stands before a sign, without the slash or comma between."""
    while text[end - 1] in BLANKS + "/,;":
        end -= 1
    return end


def _deviation(
    text: str, start: int, end: int, nominal: Quantity, unit_of: Deviation | None = None
) -> Deviation | Problem:
    """One tolerance, without its sign."""
    start, end = trimmed(text, start, end)
    if start < end and text[start] in "+-−–±":
        return unreadable(text, start, end, "write a tolerance with one sign, such as `± 5 %`")
    quantities = _tolerance_quantities(nominal)
    amount = value_in(text, start, end, quantities, unit_of.amount if unit_of else None)
    if isinstance(amount, Quantity):
        return Deviation(amount)
    if amount.rule == "unit-missing":
        number = text[start:end]
        return replace(amount, help=f"write `{join(number, nominal.unit)}` or `{number} %`")
    return amount


def _toleranced(
    text: str, start: int, end: int, nominal: Quantity, minus: Deviation, plus: Deviation
) -> Limit | Problem:
    found = toleranced(nominal, minus, plus)
    if isinstance(found, Limit):
        return found
    mend = "write the lower and the upper limit, such as `11 V to 14 V`"
    return unreadable(text, start, end, mend.replace("11 V to 14 V", _ends_like(nominal)), found)


def _ends_like(nominal: Quantity) -> str:
    """An example of a range in the unit of a nominal value."""
    return f"{nominal} to {Quantity(nominal.value + 1, nominal.unit)}"
