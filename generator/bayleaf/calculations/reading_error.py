"""Errors of readings: from what the maker of the instrument promises.

    a = |reading| · p / 100 + n · d          u = a / √3          U = k · u, k = 2

    p  percent of the reading                      a  greatest error, in the unit of the reading
    n  digits: counts of the last place            u  standard uncertainty
    d  resolution: the last place of the range     U  expanded uncertainty, about 95 %

The error is taken as equally likely anywhere within ±a. A specification holds within the calibration interval and the
temperatures that the maker states.

Source: JCGM 100:2008 (GUM), 4.3.7 (rectangular distribution) and 6.2 (expanded uncertainty); "digits" as the makers of
multimeters use the word: counts of the last place of the range in use.
"""

from math import sqrt

from .formula import Formula, Input, Output

#: The coverage factor of an expanded uncertainty of about 95 %. Source: JCGM 100:2008, 6.3.
COVERAGE = 2.0


def greatest_error(reading: float, percent: float, digits: float, resolution: float) -> float:
    """The most by which a reading may be wrong, in its own unit: |reading|·p/100 + n·d."""
    if percent < 0 or digits < 0:
        raise ValueError("an accuracy is not negative")
    if not resolution >= 0:
        raise ValueError(f"resolution is {resolution}; it has to be 0 or more")
    return abs(reading) * percent / 100 + digits * resolution


def standard_uncertainty(greatest: float) -> float:
    """The standard uncertainty of a reading whose error lies anywhere within ±greatest: a/√3."""
    return greatest / sqrt(3)


def expanded_uncertainty(greatest: float) -> float:
    """The expanded uncertainty, k = 2, of a reading whose error lies anywhere within ±greatest: 2·a/√3."""
    return COVERAGE * standard_uncertainty(greatest)


def band(greatest: float, guard_band: float) -> float:
    """How far a reading has to stay from a limit: max(a, r·U). A guard band can widen the error, never narrow it.

    `guard_band` is r, in multiples of the expanded uncertainty U (JCGM 106:2012; ILAC-G8:09/2019).
    """
    return max(greatest, guard_band * expanded_uncertainty(greatest))


def highest_reading_below(limit: float, percent: float, digits: float, resolution: float) -> float:
    """The highest reading r whose true value is surely not above a limit: r + r·p/100 + n·d = limit."""
    return max(0.0, (limit - digits * resolution) / (1 + percent / 100))


def _error(reading: float, percent: float, digits: float, resolution: float) -> tuple[float, float, float, str]:
    greatest = greatest_error(reading, percent, digits, resolution)
    shown = f"{reading - greatest:.6g} to {reading + greatest:.6g}"
    return greatest, standard_uncertainty(greatest), expanded_uncertainty(greatest), shown


FORMULAS = (
    Formula(
        "reading error",
        "Error of a reading",
        (
            Input("reading", "What the instrument shows, as a plain number"),
            Input("percent", "Accuracy, percent of the reading"),
            Input("digits", "Accuracy, counts of the last place", default="0"),
            Input("resolution", "One count of the last place of this range"),
        ),
        (
            Output("Greatest error"),
            Output("Standard uncertainty"),
            Output("Expanded uncertainty, k = 2"),
            Output("True value lies within"),
        ),
        _error,
        "a = |reading| · p / 100 + n · d;  u = a / √3;  U = 2 · u",
        "Within the calibration interval and the temperatures that the maker states. All numbers in one unit.",
        "JCGM 100:2008 (GUM), 4.3.7 and 6.2",
        {"reading": "100.0", "percent": "1", "digits": "2", "resolution": "0.1"},
    ),
)
