"""Decisions: whether a reading shows that a value conforms, in spite of its uncertainty.

    acceptance limit  A = T − g (upper), T + g (lower)      guard band  g = r · U
    probability       p = Φ((T − y) / u)                    ratio       TUR = (T_U − T_L) / (2 · U)

    T  limit that must hold (tolerance limit)       u  standard uncertainty of the reading y, U = 2 · u
    y  reading                                      Φ  share of a normal distribution below a point
    r  guard band in multiples of U                 M  guard-band factor of Z540.3 method 6

Valid for a normal distribution of what is known of the value, and, for a risk, for one limit that matters. The ratio
alone does not protect a reading on the limit: there the risk is one half whatever the instrument.

Source: JCGM 106:2012; ILAC-G8:09/2019, table 1; ISO 14253-1:2017; ANSI/NCSL Z540.3-2006, 5.3 b (method 6 as its
handbook is restated).
"""

from math import exp, inf, log, pi, sqrt

from .formula import Formula, Input, Output

#: Guard bands in multiples of U, by the rule that asks for them. Source: ILAC-G8:09/2019, table 1; ISO 14253-1:2017.
GUARD_BANDS = {
    "six sigma": 3.0,
    "three sigma": 1.5,
    "ILAC-G8:2009": 1.0,
    "ISO 14253-1": 0.83,
    "simple acceptance": 0.0,
}
#: The ratio at which a false acceptance is taken as rare enough where it is not computed.
#: Source: ANSI/NCSL Z540.3-2006, 5.3 b.
RATIO_ASKED = 4.0


def normal_share(z: float) -> float:
    """The share of a normal distribution below z standard deviations, Φ(z).

    A series near the middle (Abramowitz and Stegun 26.2.11) and a continued fraction in the tails (26.2.14): good to
    fifteen figures, without a library that a browser lacks.
    """
    if z == inf or z == -inf:
        return 1.0 if z > 0 else 0.0
    size = abs(z)
    density = exp(-z * z / 2) / sqrt(2 * pi)
    if size < 4:
        term = size
        total = size
        for step in range(1, 200):
            term = term * size * size / (2 * step + 1)
            total = total + term
        above = 0.5 - density * total
    else:
        fraction = 0.0
        for step in range(100, 0, -1):
            fraction = step / (size + fraction)
        above = density / (size + fraction)
    return above if z < 0 else 1 - above


def conformity(reading: float, uncertainty: float, low: float, high: float) -> float:
    """The probability that the value lies between two limits (an endless one is none): Φ((T_U−y)/u) − Φ((T_L−y)/u)."""
    if not uncertainty > 0:
        raise ValueError("the uncertainty has to be above 0")
    if low > high:
        raise ValueError("the lower limit is above the upper one")
    below = normal_share((high - reading) / uncertainty)
    return below - normal_share((low - reading) / uncertainty)


def specific_risk(guard_band: float) -> float:
    """The risk of a reading on the acceptance limit being a value beyond the limit: 1 − Φ(2·r), U = 2·u."""
    return normal_share(-2 * guard_band)


def acceptance_limits(low: float, high: float, expanded: float, guard_band: float) -> tuple[float, float]:
    """Both limits, each drawn in by r·U; an endless one stays. Refuses a band wider than what lies between."""
    width = guard_band * expanded
    lower, upper = low + width, high - width
    if lower > upper:
        raise ValueError("the guard band is wider than the limits are apart: no reading could be accepted")
    return lower, upper


def uncertainty_ratio(low: float, high: float, expanded: float) -> float:
    """Test uncertainty ratio: (T_U − T_L) / (2·U)."""
    if not expanded > 0:
        raise ValueError("the uncertainty has to be above 0")
    return (high - low) / (2 * expanded)


def one_sided_ratio(limit: float, nominal: float, expanded: float) -> float:
    """The same for one limit and the value that is meant: |T − nominal| / U."""
    if not expanded > 0:
        raise ValueError("the uncertainty has to be above 0")
    return abs(limit - nominal) / expanded


def managed_guard_factor(ratio: float) -> float:
    """The factor M of the guard band M·U for a false acceptance of 2 %: 1.04 − e^(0.38·ln TUR − 0.54), at least 0."""
    if not ratio > 0:
        raise ValueError(f"the ratio is {ratio}; it has to be above 0")
    return max(0.0, 1.04 - exp(0.38 * log(ratio) - 0.54))


def _acceptance(low: float, high: float, expanded: float, rule: str) -> tuple[float, float, float, float]:
    factor = GUARD_BANDS[rule]
    lower, upper = acceptance_limits(low, high, expanded, factor)
    return lower, upper, uncertainty_ratio(low, high, expanded), specific_risk(factor)


def _conformity(reading: float, uncertainty: float, low: float, high: float) -> tuple[float, float]:
    share = conformity(reading, uncertainty, low, high)
    return share, 1 - share


_LOW = Input("low", "Lower limit, as a plain number")
_HIGH = Input("high", "Upper limit")
_VALID = (
    "Normal distribution; all numbers in one unit; the rule is agreed before the measurement (ISO/IEC 17025, 7.1.3)."
)

FORMULAS = (
    Formula(
        "acceptance limits",
        "Limits drawn in by the uncertainty",
        (
            _LOW,
            _HIGH,
            Input("U", "Expanded uncertainty, k = 2"),
            Input("rule", "Rule", "", "ILAC-G8:2009", tuple(GUARD_BANDS)),
        ),
        (
            Output("Accept from"),
            Output("Accept to"),
            Output("Uncertainty ratio"),
            Output("Risk at the acceptance limit"),
        ),
        _acceptance,
        "A = T ± r · U;  TUR = (T_U − T_L) / (2 · U)",
        _VALID,
        "JCGM 106:2012; ILAC-G8:09/2019, table 1; ISO 14253-1:2017; ANSI/NCSL Z540.3-2006",
        {"low": "9", "high": "11", "U": "0.2"},
    ),
    Formula(
        "probability of conformity",
        "How sure a reading makes",
        (Input("reading", "Reading"), Input("u", "Standard uncertainty"), _LOW, _HIGH),
        (Output("Probability that the value is good"), Output("Probability that it is not")),
        _conformity,
        "p = Φ((T_U − y) / u) − Φ((T_L − y) / u)",
        _VALID,
        "JCGM 106:2012",
        {"reading": "509.7", "u": "8.6", "low": "490", "high": "1000"},
    ),
)
