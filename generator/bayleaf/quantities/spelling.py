"""The spelling of values in files: `5Nm` as `5 N·m`, `0,5 V` as `0.5 V`. No digit is added or taken away."""

import re

from .limit_value import Limit
from .limit_words import AT, PLUS_MINUS, SIGNED, TO, parse_limit
from .numbers import Number, read_number
from .quantity import Quantity, join, parse_quantity, trimmed, whole
from .units import BLANKS, known_unit

_BLANKS = re.compile(f"[{BLANKS}]+")
_DECIMAL_COMMA = re.compile(r"([0-9]),(?=[0-9]+$)")


def spelled(text: str) -> str:
    """The value in the spelling of the unit table; the text itself where it is no value that can be read."""
    start, end = whole(text)
    body = text[start:end]
    quantity = parse_quantity(body)
    if isinstance(quantity, Quantity):
        mended = _value(body)
        return mended if parse_quantity(mended) == quantity else text
    limit = parse_limit(body)
    if isinstance(limit, Limit):
        mended = _limit(body)
        return mended if parse_limit(mended) == limit else text
    return text


def _limit(text: str) -> str:
    if word := AT.match(text):
        return f"at {word[1].lower()} {_value(text[word.end() :])}"
    if sign := PLUS_MINUS.search(text, 1):
        return f"{_value(text[: sign.start()])} ± {_value(text[sign.end() :])}"
    if word := TO.search(text):
        return f"{_value(text[: word.start()])} to {_value(text[word.end() :])}"
    first, second = SIGNED.finditer(text, 1)
    nominal, one = text[: first.start()], text[first.end() : second.start()].rstrip(BLANKS + "/,;")
    signs = ["+" if sign[0] == "+" else "−" for sign in (first, second)]
    return f"{_value(nominal)} {signs[0]}{_value(one)} {signs[1]}{_value(text[second.end() :])}"


def _value(text: str) -> str:
    """One number, with its unit if it has one."""
    start, end = trimmed(text, 0, len(text))
    number = read_number(text, start, end)
    if not isinstance(number, Number):
        return text
    figure = _DECIMAL_COMMA.sub(r"\1.", _BLANKS.sub(" ", text[start : number.end]))
    unit = known_unit(text[slice(*trimmed(text, number.end, end))])
    return figure if unit is None else join(figure, unit)
