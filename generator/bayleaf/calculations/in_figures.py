"""Results as they are shown: four figures, in the unit that fits, the same text on the console and in the browser.

A computed number carries the noise of the machine behind about the fifteenth digit. So it is cut to twelve figures
first, and then rounded half up to those that are shown: 0.1 + 0.2 and 0.3 give one text, on every machine and in both
languages. Like every calculation this is run in the browser as well, translated.
"""

from math import inf

#: So many figures are shown. Common practice: a computed result is never better than the readings that it comes from.
FIGURES = 4
#: Beyond these powers of ten a number without a prefix is written with its power.
LOWEST_POWER = -6
HIGHEST_POWER = 9

#: A unit that may be shown: its symbol, its size in the unit that is computed in, from how many of it on it is used.
Step = tuple[str, float, float]


def exponent_of(value: float) -> int:
    """The power of ten of the first figure of a number, cut to twelve figures: 2 for 410, -3 for 0.0011."""
    return int(f"{abs(value):.11e}".split("e")[1])


def in_figures(value: float, figures: int = FIGURES) -> str:
    """A number in so many figures, rounded half up, without the zeros at its end that say nothing."""
    if value == inf or value == -inf:
        return "endless" if value > 0 else "endless, negative"
    digits = f"{abs(value):.11e}".split("e")[0].replace(".", "")
    power = exponent_of(value)
    kept = int(digits[:figures]) + (1 if digits[figures] >= "5" else 0)
    text = str(kept)
    if len(text) > figures:
        power = power + 1
    text = text.rstrip("0")
    if text == "":
        return "0"
    sign = "-" if value < 0 else ""
    if power < LOWEST_POWER or power > HIGHEST_POWER:
        rest = text[1:]
        return sign + text[0] + ("." + rest if rest else "") + " × 10^" + str(power)
    return sign + with_point(text, power)


def with_point(digits: str, power: int) -> str:
    """Digits with the point where the power of the first one puts it."""
    if power < 0:
        return "0." + "0" * (-power - 1) + digits
    missing = power + 1 - len(digits)
    if missing >= 0:
        return digits + "0" * missing
    return digits[: power + 1] + "." + digits[power + 1 :]


def fitting(value: float, steps: list[Step]) -> Step:
    """The unit that leaves the fewest figures before the point; the steps go from the smallest unit up."""
    size = abs(value)
    if size == 0 or size == inf:
        return own_unit(steps)
    found = steps[0]
    for step in steps:
        if rounded(size / step[1]) >= step[2]:
            found = step
    return found


def own_unit(steps: list[Step]) -> Step:
    """The unit that is computed in."""
    return [step for step in steps if step[1] == 1][0]


def rounded(size: float) -> float:
    """A number as it will be shown, so that 999.96 Ω is 1 kΩ and not 1000 Ω."""
    if size == 0 or size == inf or exponent_of(size) < LOWEST_POWER or exponent_of(size) > HIGHEST_POWER:
        return size
    return float(in_figures(size))


def shown(value: float | str | bool, steps: list[Step]) -> str:
    """A result for the reader: a number with its unit, a plain number where there are no steps, or the text itself."""
    if value is True or value is False:
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    if len(steps) == 0 or value == inf or value == -inf:
        return in_figures(value)
    step = fitting(value, steps)
    return joined(in_figures(value / step[1]), step[0])


def joined(number: str, symbol: str) -> str:
    """Number and unit with the blank between them; the sign of an angle follows without one."""
    return number + ("" if symbol == "°" else " ") + symbol
