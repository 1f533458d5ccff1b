"""A formula computed: its results as numbers and as texts, and the units in which they are shown."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import isfinite, isnan
from typing import Any

from ..quantities.figures import family
from ..quantities.quantity import Quantity
from ..quantities.units import unit
from .asked import Asked, Refused, Understood
from .formula import Output
from .in_figures import Step, in_figures, joined, shown

#: Times are read in hours, minutes and seconds, and split further below a second. Each from so many on.
_TIMES = (("ns", 1.0), ("µs", 1.0), ("ms", 1.0), ("s", 1.0), ("min", 5.0), ("h", 5.0))
#: What is said where the numbers themselves lead nowhere.
BEYOND = "these values lead to a division by zero, to a root that does not exist, or to a number without end"


@dataclass(frozen=True, slots=True)
class Result:
    """One value that a formula gives."""

    output: Output
    value: Any

    @property
    def text(self) -> str:
        """The value for the reader: `99.36 s`."""
        return shown(self.value, list(steps_of(self.output.unit)))


def compute(asked: Asked) -> tuple[Result, ...]:
    """The results. Raises `Refused` where the formula has none for these values."""
    return tuple(map(Result, asked.formula.outputs, _called(asked.formula.function, asked)))


def curve_points(asked: Asked) -> list[tuple[float, float]]:
    """The points of the curve that can be drawn, in the units of its axes; none where the formula has no curve."""
    if asked.formula.curve is None:
        return []
    try:
        points = _called(asked.formula.curve.points, asked)
    except Refused:
        return []
    return [(x, y) for x, y in points if isfinite(x) and isfinite(y)]


def _called(function: Any, asked: Asked) -> Any:
    name = asked.formula.slug
    try:
        values = function(*asked.arguments)
    except ValueError as error:
        why = BEYOND if str(error).startswith(("math ", "expected ")) else str(error)
        raise Refused(f"{name} cannot be computed: {why}") from error
    except ArithmeticError as error:
        raise Refused(f"{name} cannot be computed: {BEYOND}") from error
    if any(isinstance(one, complex) or (isinstance(one, float) and isnan(one)) for one in values):
        raise Refused(f"{name} cannot be computed: {BEYOND}")
    return values


@cache
def steps_of(symbol: str) -> tuple[Step, ...]:
    """The units in which a result may be shown, from the smallest up; none for a plain number."""
    if not symbol:
        return ()
    base = unit(symbol)
    if base.quantity == "time":
        return tuple((name, float(unit(name).factor / base.factor), least) for name, least in _TIMES)
    return tuple((one.symbol, float(one.factor / base.factor), 1.0) for one in family(symbol))


def understood_text(one: Understood) -> str:
    """What was given, and in the unit that is computed in where that is another one: `1.1 mF = 0.0011 F`."""
    return "; ".join(_value_text(value, one.input.unit) for value in one.values)


def _value_text(value: Quantity | Fraction | str, symbol: str) -> str:
    if isinstance(value, str):
        return value
    if isinstance(value, Fraction):
        return in_figures(float(value), 10)
    if value.unit.symbol == symbol:
        return str(value)
    return f"{value} = {joined(in_figures(float(value.to(symbol).value), 6), symbol)}"
