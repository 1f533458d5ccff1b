"""Computed readings: values from several readings, each with its uncertainty.

    difference   x1 − x2            u² = u1² + u2²                       errors against each other: u1 + u2
    parallel     1 / Σ (1 / Ri)     u² = Σ ((R / Ri)² · ui)²
    average      Σ xi / n           u² = s² / n + Σ ui² / n²             s² = Σ (xi − x)² / (n − 1)

    u1, ui  standard uncertainty of a reading        s  standard deviation of the readings

The readings are taken as independent of one another. One meter in one range errs alike in all of them: the
uncertainty of a difference is then less, that of an average no less than that of one reading. s says something from
about ten readings on.

Source: JCGM 100:2008 (GUM), 4.2 (repeated readings), 5.1.2 (combined uncertainty, readings without correlation).
"""

from collections.abc import Sequence
from math import inf, sqrt

from .checked import not_negative
from .formula import Formula, Input, Output


def difference(values: Sequence[float]) -> float:
    """The first reading less the second."""
    _check_count(values)
    return values[0] - values[1]


def difference_uncertainty(uncertainties: Sequence[float]) -> float:
    """The standard uncertainty of a difference of two independent readings: √(u1² + u2²)."""
    _check_count(uncertainties)
    return _root_of_squares(uncertainties)


def difference_worst_case(errors: Sequence[float]) -> float:
    """The most by which a difference is wrong where both errors add up: e1 + e2."""
    _check_count(errors)
    for one in errors:
        not_negative("error", one)
    return sum(errors)


def parallel(ohms: Sequence[float]) -> float:
    """Ohms of resistances in parallel: 1 / Σ(1/Ri). An endless one (a reading over range) leads nothing."""
    if len(ohms) == 0:
        raise ValueError("no resistance is given; one or more are needed")
    for one in ohms:
        if not one > 0:
            raise ValueError(f"resistance is {one:g}; it has to be above 0")
    through = sum([1 / one for one in ohms])
    return 1 / through if through > 0 else inf


def parallel_uncertainty(ohms: Sequence[float], uncertainties: Sequence[float]) -> float:
    """The standard uncertainty of resistances in parallel: √Σ((R/Ri)²·ui)²."""
    each = _for_each(uncertainties, len(ohms))
    together = parallel(ohms)
    if together == inf:
        raise ValueError("every resistance is endless; there is nothing to compute")
    return _root_of_squares([(together / ohms[number]) ** 2 * each[number] for number in range(len(ohms))])


def average(values: Sequence[float]) -> float:
    """The mean of the readings."""
    if len(values) == 0:
        raise ValueError("no reading is given; one or more are needed")
    return sum(values) / len(values)


def deviation_of_average(values: Sequence[float]) -> float:
    """The standard deviation of the mean, from how far the readings scatter: s/√n. Two readings at least."""
    if len(values) < 2:
        raise ValueError("one reading does not scatter; two or more are needed")
    mean = average(values)
    squares = sum([(one - mean) ** 2 for one in values])
    return sqrt(squares / (len(values) - 1) / len(values))


def average_uncertainty(values: Sequence[float], uncertainties: Sequence[float]) -> float:
    """The standard uncertainty of a mean: its scatter and that of each reading together, √(s²/n + Σui²/n²)."""
    each = _for_each(uncertainties, len(values))
    return _root_of_squares([deviation_of_average(values), _root_of_squares(each) / len(values)])


def _root_of_squares(values: Sequence[float]) -> float:
    for one in values:
        not_negative("uncertainty", one)
    return sqrt(sum([one * one for one in values]))


def _check_count(values: Sequence[float]) -> None:
    if len(values) != 2:
        raise ValueError(f"a difference is taken of two readings; here are {len(values)}")


def _for_each(uncertainties: Sequence[float], count: int) -> list[float]:
    """The uncertainty of each reading; one alone holds for all."""
    if len(uncertainties) == 1:
        return [uncertainties[0] for _ in range(count)]
    if len(uncertainties) != count:
        raise ValueError(f"{count} readings, but {len(uncertainties)} uncertainties; give one for each, or one for all")
    return list(uncertainties)


def _difference(values: Sequence[float], uncertainties: Sequence[float]) -> tuple[float, float, float]:
    each = _for_each(uncertainties, len(values))
    return difference(values), difference_uncertainty(each), difference_worst_case(each)


def _parallel(ohms: Sequence[float], uncertainties: Sequence[float]) -> tuple[float, float]:
    return parallel(ohms), parallel_uncertainty(ohms, uncertainties)


def _average(values: Sequence[float], uncertainties: Sequence[float]) -> tuple[float, float, float]:
    return average(values), deviation_of_average(values), average_uncertainty(values, uncertainties)


_U = Input("u", "Standard uncertainty of each, or one for all", default="0", several=True)
_VALID = "Readings that are independent of one another, all numbers in one unit."
_SOURCE = "JCGM 100:2008 (GUM), 4.2 and 5.1.2"
_UNCERTAINTY = Output("Standard uncertainty")

FORMULAS = (
    Formula(
        "difference",
        "Difference of two readings",
        (Input("of", "The first reading and the second, as plain numbers", several=True), _U),
        (Output("Difference"), _UNCERTAINTY, Output("With both errors against each other")),
        _difference,
        "x = x₁ − x₂;  u² = u₁² + u₂²",
        _VALID,
        _SOURCE,
        {"of": "12.65, 12.41", "u": "0.0479"},
    ),
    Formula(
        "parallel",
        "Resistances in parallel",
        (
            Input("of", "Resistances", "Ω", several=True),
            Input("u", "Standard uncertainty of each, or one for all", "Ω", "0 Ω", several=True),
        ),
        (Output("Resistance", "Ω"), Output("Standard uncertainty", "Ω")),
        _parallel,
        "1 / R = Σ 1 / Rᵢ;  u² = Σ ((R / Rᵢ)² · uᵢ)²",
        "Resistances that do not depend on one another, readings that are independent.",
        _SOURCE,
        {"of": "1 MΩ, 1.5 MΩ", "u": "20 kΩ, 30 kΩ"},
    ),
    Formula(
        "average",
        "Average of repeated readings",
        (Input("of", "The readings, as plain numbers", several=True), _U),
        (Output("Average"), Output("Standard deviation of the average"), _UNCERTAINTY),
        _average,
        "x = Σ xᵢ / n;  u² = s² / n + Σ uᵢ² / n²",
        _VALID + " Two or more; the scatter says something from about ten on.",
        _SOURCE,
        {"of": "59.8, 60.1, 60.0, 59.9", "u": "0.29"},
    ),
)
