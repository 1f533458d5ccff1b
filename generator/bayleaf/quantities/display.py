"""How quantities and limits are shown: canonical, and in both systems of units.

Rounding of the second figure. A plain value is rounded half-even so that its rounding error is
no greater than that of the figure it came from (NIST SP 811, B.7.2), and never to fewer than
three figures. A limit must not be widened by being converted: its lower end is rounded up, its
upper end down (the "absolute" rule of IEEE/ASTM SI 10 and the withdrawn ISO 370), so finely that
no more than a tenth of the allowed width is given away.
"""

from fractions import Fraction

from .limit_value import Limit
from .numbers import plain
from .quantity import Exact, Quantity, join
from .units import UNITS, spellings

NO_BREAK = "\u00a0"

#: The unit of the other system that stands beside a unit; kept to those a workshop reads.
OTHER_UNIT: dict[str, str] = {
    **dict.fromkeys(("N·m", "kN·m", "kgf·m"), "lbf·ft"),
    **dict.fromkeys(("mN·m", "cN·m", "kgf·cm"), "lbf·in"),
    **dict.fromkeys(("lbf·ft", "lbf·in"), "N·m"),
    "ozf·in": "mN·m",
    "°C": "°F",
    "°F": "°C",
    **dict.fromkeys(("bar", "mbar", "kPa", "MPa", "hPa", "Pa", "atm", "kgf/cm²"), "psi"),
    **dict.fromkeys(("psi", "mmHg", "inHg", "inH₂O"), "kPa"),
    **dict.fromkeys(("mm", "cm", "µm"), "in"),
    "m": "ft",
    "km": "mi",
    **dict.fromkeys(("in", "thou"), "mm"),
    "ft": "m",
    "mi": "km",
    **dict.fromkeys(("mm²", "cm²"), "in²"),
    "in²": "mm²",
    **dict.fromkeys(("kg", "t"), "lb"),
    "g": "oz",
    "lb": "kg",
    "oz": "g",
    "L": "US qt",
    **dict.fromkeys(("mL", "cm³"), "US fl oz"),
    **dict.fromkeys(("US gal", "US qt", "US pt", "UK gal"), "L"),
    **dict.fromkeys(("US fl oz", "UK fl oz", "in³"), "mL"),
    "km/h": "mph",
    "mph": "km/h",
    **dict.fromkeys(("N", "kN", "kgf"), "lbf"),
    "lbf": "N",
    "L/min": "US gal/min",
    "US gal/min": "L/min",
    "PS": "kW",
}

_LEAST_FIGURES = 3
_MOST_ALIASES = 6
_MOST_GIVEN_AWAY = Fraction(1, 10)


def show(quantity: Quantity) -> str:
    """The quantity for a page: the figure as written, a true minus, a blank that does not break."""
    return _typeset(join(plain(quantity.value), quantity.unit))


def show_limit(limit: Limit) -> str:
    """The words of a limit for a page."""
    tolerance = _tied(limit.tolerance) if limit.tolerance else ""
    if limit.nominal is not None and tolerance:
        return f"{show(limit.nominal)} {tolerance}"
    return limit.in_words(show)


def dual(shown: Quantity | Limit) -> str:
    """The text for a page with the other system's value in brackets, where there is one."""
    text = show(shown) if isinstance(shown, Quantity) else show_limit(shown)
    second = other_system(shown)
    if second is None:
        return text
    return f"{text} ({show(second) if isinstance(second, Quantity) else show_limit(second)})"


def other_system(shown: Quantity | Limit) -> Quantity | Limit | None:
    """The same value in the other system, rounded; a limit never wider than it was."""
    if isinstance(shown, Limit):
        return _limit_inward(shown)
    symbol = OTHER_UNIT.get(shown.unit.symbol)
    return None if symbol is None else shown.to(symbol).rounded(_place(shown, symbol))


def _limit_inward(limit: Limit) -> Limit | None:
    """The limit in the other unit of its nominal value or lower end, each end rounded inward."""
    written = [value for value in (limit.nominal, limit.low, limit.high) if value is not None]
    symbol = OTHER_UNIT.get(written[0].unit.symbol)
    if symbol is None:
        return None
    low, high = (None if end is None else end.to(symbol) for end in (limit.low, limit.high))
    place = max(_place(value, symbol) for value in written)
    width = _width(low, high)
    if width is not None:
        if width == 0:
            return None  # a limit of one point has no inside to round into
        while _given_away(low, high, place) > width * _MOST_GIVEN_AWAY:
            place -= 1
    return Limit(
        None if low is None else low.rounded(place, "up"),
        None if high is None else high.rounded(place, "down"),
        origin=limit.origin,
    )


def _width(low: Exact | None, high: Exact | None) -> Fraction | None:
    """What a rounding is held against: the width, or the value where one end is missing."""
    if low is not None and high is not None:
        return high.value - low.value
    end = low or high
    if end is None or end.unit.quantity == "temperature" or end.value == 0:
        return None  # a share of a temperature has no meaning
    return abs(end.value)


def _given_away(low: Exact | None, high: Exact | None, place: int) -> Fraction:
    """How much of the allowed width the inward rounding of both ends takes."""
    lost = Fraction(0)
    if low is not None:
        lost += Fraction(low.rounded(place, "up").value) - low.value
    if high is not None:
        lost += high.value - Fraction(high.rounded(place, "down").value)
    return lost


def _place(written: Quantity, symbol: str) -> int:
    """The place 10^n to which a value is rounded in another unit.

    The last place of the written figure, converted, bounds the rounding error; three figures
    are the least. A temperature has no figures to count, as its zero is a convention.
    """
    exponent = written.value.as_tuple().exponent
    assert isinstance(exponent, int)  # finite numbers only
    place = _floor_log10(Fraction(10) ** exponent * written.unit.factor / UNITS[symbol].factor)
    size = abs(written.to(symbol).value)
    if written.quantity != "temperature" and size:
        place = min(place, _floor_log10(size) - _LEAST_FIGURES + 1)
    return place


def _floor_log10(number: Fraction) -> int:
    """The exponent of the greatest power of ten that is not above the number, exact."""
    exponent = len(str(number.numerator)) - len(str(number.denominator))
    return exponent if Fraction(10) ** exponent <= number else exponent - 1


def _typeset(text: str) -> str:
    return text.replace("-", "−").replace(" ", NO_BREAK)


def _tied(tolerance: str) -> str:
    """A tolerance whose numbers stay with their signs and units; `+1 V −3 V` may break between the two."""
    first, minus, second = tolerance.partition(" −")
    return _typeset(first) + (f" −{_typeset(second)}" if minus else "")


def aliases(quantity: Quantity) -> tuple[str, ...]:
    """Texts by which a search should find the quantity: `45 N·m`, `45 Nm`, `45Nm`, `45 N.m`."""
    numbers = [plain(quantity.value)]
    if "." in numbers[0] and (short := numbers[0].rstrip("0").rstrip(".")) != numbers[0]:
        numbers.append(short)
    if quantity.unit.symbol == "in" and (fraction := _inch_fraction(quantity)):
        numbers.append(fraction)
    symbol, *others = spellings(quantity.unit)
    units = [symbol, *[other for other in others if other.isascii()][:_MOST_ALIASES]]
    if "·" in symbol:
        units.append(symbol.replace("·", "."))
    texts = [f"{number} {unit}" for number in numbers for unit in units]
    texts += [f"{numbers[0]}{unit}" for unit in units[:2] if " " not in unit]
    return tuple(dict.fromkeys(texts))


def _inch_fraction(quantity: Quantity) -> str | None:
    """`3/8` or `1 1/2`, where the inches are halves to sixty-fourths."""
    size = Fraction(quantity.value)
    if size.denominator == 1 or 64 % size.denominator or size < 0:
        return None
    whole, part = divmod(size, 1)
    return f"{whole} {part}" if whole else f"{part}"
