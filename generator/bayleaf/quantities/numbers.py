"""Written numbers, read exactly and never guessed.

A comma or point with three digits after it and one to three before it is a decimal sign to one
reader and a thousands separator to the other, a factor of a thousand apart: it is refused. A
leading zero, another count of digits or a second separator settles which it is.
"""

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from .problem import Problem
from .units import BLANKS, UNITS, known_unit

#: Characters that take no room on the screen: a value that holds one is not what it looks like.
INVISIBLE = re.compile("[\u00ad\u034f\u061c\u180e\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]")

SIGNS = "+\\-\u2212\u2013"
_SIGN = re.compile(f"([{SIGNS}]?)[{BLANKS}]*")
_FRACTION = re.compile(f"(?:([0-9]+)[{BLANKS}]+)?([0-9]+)[{BLANKS}]*[/⁄][{BLANKS}]*([0-9]+)")
# digits and separators, then groups of three behind a blank, then decimals (`12 345.67`)
_DIGITS = re.compile(f"[.,]?[0-9][0-9.,'’]*(?:[{BLANKS}][0-9]{{3}}(?![0-9/]))*(?:[.,][0-9.,]*)?")
_GROUPED = re.compile(f"([0-9]{{1,3}}(?:[{BLANKS}][0-9]{{3}})+)(?:[.,]([0-9]+))?")
_PLAIN = re.compile("([0-9]+)(?:([.,])([0-9]+))?")
_EXPONENT = re.compile(f"[{BLANKS}]*(?:[eE]|[x×·*][{BLANKS}]*10\\^?)([{SIGNS}⁻]?(?:[0-9]+|[⁰¹²³⁴-⁹]+))")
_GOES_ON = re.compile(f"[{BLANKS}]*[0-9.,'’⁄½¼¾⅛⅜⅝⅞{SIGNS}/]")
_VALUE_BEHIND_WORDS = re.compile(f"[^0-9]*[^0-9.,/]((?:[0-9]+(?:[.,][0-9]{{1,2}})?)([{BLANKS}]*[^0-9]+))")
_FROM_TO = re.compile(f"[0-9.,]+[{BLANKS}]*[\\-−–][{BLANKS}]*([0-9]+(?:[.,][0-9]+)?)")
_MORE = re.compile(f"[0-9{BLANKS}.,'’⁄½¼¾⅛⅜⅝⅞{SIGNS}/]+")
_RATE = re.compile(f"[{BLANKS}]*1?/[a-z]")  # `300 1/min`: the unit begins with a digit

_MOST_DIGITS = 24
_WHY_AMBIGUOUS = "With three digits after it, the separator can mean thousands or decimals."


@dataclass(frozen=True, slots=True)
class Number:
    """A number and where it ends in its text."""

    value: Decimal
    start: int
    end: int


def exact_decimal(value: Fraction) -> Decimal | None:
    """The fraction as a decimal number, or None where its digits never end (1/3)."""
    twos = fives = 0
    rest = value.denominator
    while rest % 2 == 0:
        rest, twos = rest // 2, twos + 1
    while rest % 5 == 0:
        rest, fives = rest // 5, fives + 1
    if rest != 1:
        return None
    places = max(twos, fives)
    # built from text: arithmetic on Decimals would round to the digits of the context
    return Decimal(f"{value.numerator * 10**places // value.denominator}E-{places}")


def plain(value: Decimal) -> str:
    """The digits of a number without exponent, the minus as on a keyboard."""
    return format(value, "f")


def unmistakable(value: Decimal) -> str:
    """The digits of a number as they may stand in a file: `1.125` becomes `1.1250`."""
    text = plain(value)
    whole, point, decimals = text.lstrip("-").partition(".")
    if point and len(decimals) == 3 and len(whole) <= 3 and whole[0] != "0":
        return text[:-1] if decimals.endswith("0") else text + "0"
    return text


def read_number(text: str, start: int, end: int, decimals: int | None = None) -> Number | Problem:
    """The number that begins at `start`; `decimals=3` settles that `1.000` has three decimals."""
    sign = _SIGN.match(text, start, end)
    assert sign is not None  # both parts may be empty
    body = sign.end()
    found = _FRACTION.match(text, body, end)
    if found is not None:
        value = _fraction(found)
    else:
        found = _DIGITS.match(text, body, end)
        if found is None:
            return _no_number(text, start, end)
        value = _digits(found[0], decimals)
    stop = found.end()
    minus = "" if sign[1] in ("", "+") else "-"
    if isinstance(value, _Refused):
        mend = "write " + (
            _two_ways(value, text[stop:end], minus)
            if value.parted_by
            else _with_unit(value.mends, text[stop:end], minus)
        )
        return Problem(value.rule, f"`{text[start:stop]}` {value.fault}", start, stop, value.because, mend)
    if minus:
        value = value.copy_negate()
    return _what_follows(text, start, stop, end, value) or Number(value, start, stop)


@dataclass(frozen=True, slots=True)
class _Refused:
    fault: str
    mends: tuple[str, ...]
    rule: str = "number-unreadable"
    because: str | None = None
    #: The separator, where the mends are the number with decimals and the one in thousands.
    parted_by: str = ""


_TOO_LONG = _Refused(f"has more than {_MOST_DIGITS} digits", ("fewer digits, or a larger unit",))


def _with_unit(mends: tuple[str, ...], rest: str, minus: str = "") -> str:
    """What to write: numbers with the unit that follows, if it is one; words as they are."""
    unit = rest.strip(BLANKS)
    behind = f" {unit}" if known_unit(unit) else ""
    return " or ".join(f"`{minus}{mend}{behind}`" if mend[0] in "-0123456789" else mend for mend in mends)


def _two_ways(refused: _Refused, rest: str, minus: str) -> str:
    """What to write for `5.012 V`: which number stands for what, since one is a thousand times the other."""
    small, large = refused.mends
    ways = [_with_unit((small,), rest, minus)]
    unit = known_unit(rest.strip(BLANKS))
    if unit is not None and len(small.partition(".")[2]) > 2:
        finer = [
            one.symbol for one in UNITS.values() if (one.quantity, one.factor * 1000) == (unit.quantity, unit.factor)
        ]
        ways += [f"`{minus}{large} {symbol}`" for symbol in finer if len(finer) == 1 or symbol.endswith(unit.symbol)]
    sign = "comma" if refused.parted_by == "," else "point"
    thousands = _with_unit((large,), rest, minus)
    return f"{' or '.join(ways)} if the {sign} stands before decimals, {thousands} if it parts thousands"


def _digits(body: str, decimals: int | None) -> Decimal | _Refused:
    """The value of digits and separators."""
    if sum(character.isdigit() for character in body) > _MOST_DIGITS:
        return _TOO_LONG
    if grouped := _GROUPED.fullmatch(body):
        whole = re.sub(f"[{BLANKS}]", "", grouped[1])
        return Decimal(f"{whole}.{grouped[2]}" if grouped[2] else whole)
    if simple := _PLAIN.fullmatch(body):
        whole, separator, rest = simple.groups()
        if rest is None:
            return Decimal(whole)
        value = Decimal(f"{whole}.{rest}")
        if len(rest) == 3 != decimals and len(whole) <= 3 and whole[0] != "0":
            mends = (unmistakable(value.normalize()), f"{whole}{rest}")
            return _Refused("can be read in two ways", mends, "number-ambiguous", _WHY_AMBIGUOUS, separator)
        return value
    return _misplaced(body)


def _misplaced(body: str) -> _Refused:
    """What is wrong with separators that stand where none can."""
    whole, separator, rest = body[:-1], body[-1], body[1:]
    if separator in ".," and whole.isdigit():
        return _Refused("ends in a separator", (whole,))
    if body[0] in ".," and rest.isdigit():
        return _Refused("begins with a separator", (f"0.{rest}",))
    parts = re.split(r"[.,'’]", body)
    kinds = re.findall(r"[.,'’]", body)
    if all(map(str.isdigit, parts)) and all(len(part) == 3 for part in parts[1:-1]):
        # `1,234,567`, `1.234,5`, `1'000`
        if len(set(kinds)) == 1 and len(parts[-1]) == 3:
            return _Refused("holds thousands separators", ("".join(parts),), "number-ambiguous")
        if len(set(kinds)) == 2 and kinds[-1] not in kinds[:-1]:
            mend = f"{''.join(parts[:-1])}.{parts[-1]}"
            return _Refused("holds two kinds of separator", (mend,), "number-ambiguous")
    return _Refused("is not a number", ("digits with one decimal point, such as `1234.5`",))


def _fraction(found: re.Match[str]) -> Decimal | _Refused:
    """The value of `3/8` or `1 1/2`."""
    whole, above, below = found.groups()
    if len(found[0]) > _MOST_DIGITS:
        return _TOO_LONG
    if int(below) == 0:
        return _Refused("divides by zero", ("the number as a decimal",))
    part = Fraction(int(above), int(below))
    if whole is not None and part >= 1:
        return _Refused("holds a fraction that is not below one", ("the number as a decimal",))
    value = exact_decimal(int(whole or 0) + part)
    if value is None:
        return _Refused("has no exact decimal value", ("the number as a decimal, rounded as it should be",))
    return value


def _what_follows(text: str, start: int, stop: int, end: int, value: Decimal) -> Problem | None:
    """Powers of ten, and a number that seems to go on behind its end."""
    if power := _EXPONENT.match(text, stop, end):
        stop = power.end()
        message = f"`{text[start:stop]}` is written with a power of ten"
        mend = f"write {_with_unit(_in_full(value, power[1]), text[stop:end])}, or choose a prefix"
        return Problem("number-unreadable", message, start, stop, None, mend)
    if _GOES_ON.match(text, stop, end) and not _RATE.match(text, stop, end):
        more = _MORE.match(text, stop, end)
        stop = more.end() if more else stop
        found = text[start:stop].rstrip(BLANKS)
        message = f"`{found}` is not one number"
        mend = "write " + _with_unit(_one_number(found), text[stop:end])
        return Problem("number-unreadable", message, start, start + len(found), None, mend)
    return None


_PLAIN_EXPONENT = str.maketrans("−–⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "---0123456789")
_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}


def _in_full(value: Decimal, exponent: str) -> tuple[str, ...]:
    """A number with a power of ten, without it."""
    digits = exponent.translate(_PLAIN_EXPONENT)
    if len(digits) > 3 or abs(int(digits)) > 12:
        return ("the number in full",)
    return (plain(value.scaleb(int(digits))),)


def _one_number(found: str) -> tuple[str, ...]:
    """What was meant by `1½` or `1-1/2`, or an example."""
    spelt = found.replace("-", " ")
    for sign, fraction in _VULGAR.items():
        spelt = spelt.replace(sign, f" {fraction}").strip()
    if _FRACTION.fullmatch(spelt):
        return (spelt,)
    range_ = _FROM_TO.fullmatch(found)
    return (range_[1],) if range_ else ("one number, such as `1234.5` or `1 1/2`",)


def value_behind_words(text: str) -> str | None:
    """The number with its unit at the end of a text that begins with something else, such as `about 3 min`."""
    found = _VALUE_BEHIND_WORDS.fullmatch(text)
    return found[1] if found is not None and known_unit(found[2].strip(BLANKS)) else None


def _no_number(text: str, start: int, end: int) -> Problem:
    found = text[start:end]
    message = f"`{found}` does not begin with a number" if found.strip(BLANKS) else "there is no value here"
    mend = "write a number in digits, then its unit"
    if found[:1] in _VULGAR:
        mend = "write " + _with_unit((_VULGAR[found[0]],), found[1:])
    elif value := value_behind_words(found):
        mend = f"write `{value}`"
    return Problem("number-unreadable", message, start, end, None, mend)


def invisible(text: str) -> Problem | None:
    """The first invisible character of a text, as a problem."""
    found = INVISIBLE.search(text)
    if found is None:
        return None
    visible = INVISIBLE.sub("", text)
    message = f"an invisible character (U+{ord(found[0]):04X}) stands in `{visible}`"
    because = "It comes along with text copied from a page or a chat."
    mend = "delete the value and type it anew"
    return Problem("number-unreadable", message, found.start(), found.end(), because, mend)
