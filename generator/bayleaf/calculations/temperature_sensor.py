"""Temperature sensors: platinum by IEC 60751, and thermistors whose resistance falls as they warm (NTC).

    platinum   R = R0 · (1 + A·t + B·t²)                           0 °C to 850 °C
               R = R0 · (1 + A·t + B·t² + C·(t − 100)·t³)          -200 °C to 0 °C
    NTC        R = R25 · e^(β · (1/T − 1/298.15))                  T = t + 273.15, in K

    R0   resistance at 0 °C, 100 Ω or 1000 Ω         R25  resistance at 25 °C
    t    temperature, °C                             β    constant of the thermistor, K

The law with one β is exact at the two temperatures only that β was taken from; over the whole range it is no
reference for 1 °C. A table of the maker is better: between its points ln R is taken as straight over 1/T, outside it
there is no figure.

Source: IEC 60751:2008 (restated by four references); law of the thermistor: any data sheet of one.
"""

from collections.abc import Sequence
from math import exp, log, sqrt

from .checked import above_zero, known
from .formula import Formula, Input, Output

#: Constants of platinum. Source: IEC 60751:2008 (restated).
A = 3.9083e-3
B = -5.775e-7
C = -4.183e-12
LOWEST, HIGHEST = -200.0, 850.0
#: Ohms at 0 °C by the name of the sensor.
AT_ZERO = {"Pt100": 100.0, "Pt1000": 1000.0}
#: Tolerance in K: a part that is fixed, and a part for each °C away from 0 °C. Source: IEC 60751:2008 (restated).
TOLERANCES = {"A": (0.15, 0.002), "B": (0.30, 0.005)}
#: 0 °C in K, and the temperature to which the resistance of a thermistor refers, in °C.
KELVIN = 273.15
REFERENCE = 25.0


def pt_resistance(celsius: float, kind: str = "Pt100") -> float:
    """Ohms of a platinum sensor at a temperature; IEC 60751, C below 0 °C only."""
    known("sensor", kind, list(AT_ZERO))
    if not LOWEST <= celsius <= HIGHEST:
        raise ValueError(f"{celsius:g} °C lies outside the law of platinum, {LOWEST:g} °C to {HIGHEST:g} °C")
    below = C * (celsius - 100) * celsius**3 if celsius < 0 else 0.0
    return AT_ZERO[kind] * (1 + A * celsius + B * celsius**2 + below)


def pt_temperature(ohms: float, kind: str = "Pt100") -> float:
    """°C of a platinum sensor of this resistance: the quadratic solved from 0 °C on, halving below."""
    above_zero("resistance", ohms)
    low, high = pt_resistance(LOWEST, kind), pt_resistance(HIGHEST, kind)
    if not low <= ohms <= high:
        raise ValueError(f"{ohms:g} Ω lies outside the law of a {kind}, {low:.2f} Ω to {high:.2f} Ω")
    if ohms >= AT_ZERO[kind]:
        above = ohms / AT_ZERO[kind] - 1
        return 2 * above / (A + sqrt(A * A + 4 * B * above))
    colder, warmer = LOWEST, 0.0
    for _ in range(60):
        middle = (colder + warmer) / 2
        if pt_resistance(middle, kind) < ohms:
            colder = middle
        else:
            warmer = middle
    return (colder + warmer) / 2


def pt_slope(celsius: float, kind: str = "Pt100") -> float:
    """Ohms for each K at a temperature: the derivative of the law."""
    pt_resistance(celsius, kind)
    below = C * (4 * celsius**3 - 300 * celsius**2) if celsius < 0 else 0.0
    return AT_ZERO[kind] * (A + 2 * B * celsius + below)


def pt_tolerance(celsius: float, accuracy_class: str = "B") -> float:
    """How far, in K, a platinum sensor may be off: class A 0.15 + 0.002·|t|, class B 0.30 + 0.005·|t|."""
    known("class", accuracy_class, list(TOLERANCES))
    fixed, rising = TOLERANCES[accuracy_class]
    return fixed + rising * abs(celsius)


def pt_tolerance_ohms(celsius: float, accuracy_class: str = "B", kind: str = "Pt100") -> float:
    """The same in ohms: the tolerance times the slope."""
    return pt_tolerance(celsius, accuracy_class) * pt_slope(celsius, kind)


def ntc_resistance(celsius: float, at_25: float, beta: float) -> float:
    """Ohms of a thermistor at a temperature, from its resistance at 25 °C and its constant in K."""
    above_zero("resistance at 25 °C", at_25)
    above_zero("constant β", beta)
    return at_25 * exp(beta * (1 / _kelvin(celsius) - 1 / _kelvin(REFERENCE)))


def ntc_temperature(ohms: float, at_25: float, beta: float) -> float:
    """°C of a thermistor of this resistance: 1 / (1/298.15 + ln(R/R25)/β) − 273.15."""
    above_zero("resistance", ohms)
    above_zero("resistance at 25 °C", at_25)
    above_zero("constant β", beta)
    inverse = 1 / _kelvin(REFERENCE) + log(ohms / at_25) / beta
    if not inverse > 0:
        raise ValueError(f"{ohms:g} Ω is too little for this thermistor; the law gives no temperature")
    return 1 / inverse - KELVIN


def ntc_beta(first: float, first_celsius: float, second: float, second_celsius: float) -> float:
    """The constant in K of a thermistor from two resistances and their temperatures: ln(R1/R2) / (1/T1 − 1/T2)."""
    above_zero("first resistance", first)
    above_zero("second resistance", second)
    if first_celsius == second_celsius:
        raise ValueError("both resistances are at one temperature; two are needed")
    beta = log(first / second) / (1 / _kelvin(first_celsius) - 1 / _kelvin(second_celsius))
    if not beta > 0:
        raise ValueError("the resistance does not fall as it warms; this is no NTC thermistor")
    return beta


def ntc_table_temperature(ohms: float, temperatures: Sequence[float], resistances: Sequence[float]) -> float:
    """°C of a resistance between two points of a maker's table; refuses what lies outside it.

    The points rise in temperature and fall in resistance.
    """
    above_zero("resistance", ohms)
    _check_table(temperatures, resistances)
    for number in range(1, len(resistances)):
        warm, cold = resistances[number], resistances[number - 1]
        if warm <= ohms <= cold:
            part = log(ohms / cold) / log(warm / cold)
            from_cold = 1 / _kelvin(temperatures[number - 1])
            return 1 / (from_cold + part * (1 / _kelvin(temperatures[number]) - from_cold)) - KELVIN
    raise ValueError(f"{ohms:g} Ω lies outside the table, {resistances[-1]:g} Ω to {resistances[0]:g} Ω")


def ntc_table_resistance(celsius: float, temperatures: Sequence[float], resistances: Sequence[float]) -> float:
    """Ohms at a temperature between two points of a maker's table; refuses what lies outside it."""
    _check_table(temperatures, resistances)
    for number in range(1, len(temperatures)):
        cold, warm = temperatures[number - 1], temperatures[number]
        if cold <= celsius <= warm:
            from_cold = 1 / _kelvin(cold)
            part = (1 / _kelvin(celsius) - from_cold) / (1 / _kelvin(warm) - from_cold)
            return resistances[number - 1] * (resistances[number] / resistances[number - 1]) ** part
    raise ValueError(f"{celsius:g} °C lies outside the table, {temperatures[0]:g} °C to {temperatures[-1]:g} °C")


def _kelvin(celsius: float) -> float:
    if not celsius > -KELVIN:
        raise ValueError(f"{celsius:g} °C is not above absolute zero")
    return celsius + KELVIN


def _check_table(temperatures: Sequence[float], resistances: Sequence[float]) -> None:
    if len(temperatures) != len(resistances):
        raise ValueError(f"{len(temperatures)} temperatures, but {len(resistances)} resistances")
    if len(temperatures) < 2:
        raise ValueError("a table has at least two points")
    for one in resistances:
        above_zero("resistance in the table", one)
    for number in range(1, len(temperatures)):
        if temperatures[number] <= temperatures[number - 1] or resistances[number] >= resistances[number - 1]:
            raise ValueError("the points have to rise in temperature and fall in resistance")


def _pt_resistance(celsius: float, kind: str, accuracy_class: str) -> tuple[float, float, float, float]:
    ohms = pt_resistance(celsius, kind)
    off = pt_tolerance_ohms(celsius, accuracy_class, kind)
    return ohms, ohms - off, ohms + off, pt_tolerance(celsius, accuracy_class)


def _pt_temperature(ohms: float, kind: str, accuracy_class: str) -> tuple[float, float]:
    celsius = pt_temperature(ohms, kind)
    return celsius, pt_tolerance(celsius, accuracy_class)


def _ntc_resistance(celsius: float, at_25: float, beta: float) -> tuple[float]:
    return (ntc_resistance(celsius, at_25, beta),)


def _ntc_temperature(ohms: float, at_25: float, beta: float) -> tuple[float]:
    return (ntc_temperature(ohms, at_25, beta),)


def _ntc_beta(first: float, first_celsius: float, second: float, second_celsius: float) -> tuple[float]:
    return (ntc_beta(first, first_celsius, second, second_celsius),)


def _ntc_table(ohms: float, temperatures: Sequence[float], resistances: Sequence[float]) -> tuple[float]:
    return (ntc_table_temperature(ohms, temperatures, resistances),)


_KIND = Input("sensor", "Sensor", default="Pt100", choices=tuple(AT_ZERO))
_CLASS = Input("class", "Tolerance class", default="B", choices=tuple(TOLERANCES))
_OHMS = Input("R", "Resistance", "Ω")
_CELSIUS = Input("t", "Temperature", "°C")
_AT_25 = Input("R25", "Resistance at 25 °C", "Ω")
_BETA = Input("beta", "Constant β", "K")
_PT_VALID = (
    "From -200 °C to 850 °C; a sensor of one class is good in a part of it. Without the resistance of the leads."
)
_PT_SOURCE = "IEC 60751:2008"
_NTC_VALID = "Exact at the two temperatures only that β was taken from; some K off far from them."
_NTC_SOURCE = "Law of the thermistor; any data sheet of one"

FORMULAS = (
    Formula(
        "Pt resistance",
        "Resistance of a platinum sensor",
        (_CELSIUS, _KIND, _CLASS),
        (Output("Resistance", "Ω"), Output("At least", "Ω"), Output("At most", "Ω"), Output("Tolerance", "K")),
        _pt_resistance,
        "R = R₀ · (1 + A·t + B·t²), below 0 °C + C·(t − 100)·t³",
        _PT_VALID,
        _PT_SOURCE,
        {"t": "80 °C"},
    ),
    Formula(
        "Pt temperature",
        "Temperature of a platinum sensor",
        (_OHMS, _KIND, _CLASS),
        (Output("Temperature", "°C"), Output("Tolerance", "K")),
        _pt_temperature,
        "the same, solved for t",
        _PT_VALID,
        _PT_SOURCE,
        {"R": "119.40 Ω"},
    ),
    Formula(
        "NTC resistance",
        "Resistance of a thermistor",
        (_CELSIUS, _AT_25, _BETA),
        (Output("Resistance", "Ω"),),
        _ntc_resistance,
        "R = R₂₅ · e^(β · (1/T − 1/298.15 K))",
        _NTC_VALID,
        _NTC_SOURCE,
        {"t": "60 °C", "R25": "10 kΩ", "beta": "3435 K"},
    ),
    Formula(
        "NTC temperature",
        "Temperature of a thermistor",
        (_OHMS, _AT_25, _BETA),
        (Output("Temperature", "°C"),),
        _ntc_temperature,
        "1/T = 1/298.15 K + ln(R / R₂₅) / β",
        _NTC_VALID,
        _NTC_SOURCE,
        {"R": "3 kΩ", "R25": "10 kΩ", "beta": "3435 K"},
    ),
    Formula(
        "NTC beta",
        "Constant β of a thermistor from two points",
        (_AT_25, Input("t25", "Its temperature", "°C", "25 °C"), _OHMS, _CELSIUS),
        (Output("Constant β", "K"),),
        _ntc_beta,
        "β = ln(R₁ / R₂) / (1/T₁ − 1/T₂)",
        _NTC_VALID,
        _NTC_SOURCE,
        {"R25": "10 kΩ", "R": "1451 Ω", "t": "85 °C"},
    ),
    Formula(
        "NTC by table",
        "Temperature of a thermistor from a table of its maker",
        (
            _OHMS,
            Input("temperatures", "Temperatures of the table, rising", "°C", several=True),
            Input("resistances", "Resistances of the table, falling", "Ω", several=True),
        ),
        (Output("Temperature", "°C"),),
        _ntc_table,
        "ln R straight over 1/T between two points",
        "Between the first and the last point of the table.",
        "Law of the thermistor, between two points",
        {"R": "4 kΩ", "temperatures": "0 °C, 25 °C, 60 °C", "resistances": "28.7 kΩ, 10 kΩ, 2.98 kΩ"},
    ),
)
