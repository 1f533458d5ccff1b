"""Temperature sensors: laws and independent routes. The figures stand in data/calculations/temperature_sensor.py."""

from math import isclose
from typing import Any

import numpy
import pytest
from bayleaf.calculations import temperature_sensor as sensor
from hypothesis import given
from hypothesis import strategies as st
from thermistor_utils import Beta_converter

CELSIUS = st.floats(-200, 850)
KINDS = st.sampled_from(["Pt100", "Pt1000"])
BETAS = st.floats(2500, 5000)
WARM = st.floats(-55, 150)
TEMPERATURES = (-40.0, -20.0, 0.0, 25.0, 60.0, 100.0)
RESISTANCES = (248277.0, 77522.0, 28704.0, 10000.0, 2980.9, 987.0)


@given(CELSIUS, KINDS)
def test_temperature_and_resistance_of_platinum_are_inverse(celsius: float, kind: str) -> None:
    """Over the whole range of the law."""
    assert isclose(celsius, sensor.pt_temperature(sensor.pt_resistance(celsius, kind), kind), abs_tol=1e-6)


@pytest.mark.parametrize("ohms", [18.6, 35.54, 84.27, 99.9, 100.1, 119.40, 150, 390])
def test_another_search_gives_the_same_temperature(ohms: float) -> None:
    """`scipy.optimize.brentq` on the law."""
    from scipy.optimize import brentq  # takes long to be imported: not while tests are collected

    found = brentq(lambda celsius: sensor.pt_resistance(celsius) - ohms, -200, 850, xtol=1e-10)

    assert pytest.approx(found, abs=1e-6) == sensor.pt_temperature(ohms)


@given(st.floats(-199, 849), KINDS)
def test_the_slope_is_that_of_the_law(celsius: float, kind: str) -> None:
    """Held to the difference over a thousandth of a degree on both sides."""
    over = (sensor.pt_resistance(celsius + 1e-3, kind) - sensor.pt_resistance(celsius - 1e-3, kind)) / 2e-3

    assert isclose(over, sensor.pt_slope(celsius, kind), rel_tol=1e-5)


def test_alpha_is_that_of_the_standard() -> None:
    """(R100 − R0) / (100 · R0) = 0.0038505."""
    assert pytest.approx(0.0038505, abs=5e-8) == (sensor.pt_resistance(100) - 100) / 1e4


@given(CELSIUS)
def test_class_a_is_closer_than_class_b(celsius: float) -> None:
    """At every temperature; both widen away from 0 °C."""
    assert sensor.pt_tolerance(celsius, "A") < sensor.pt_tolerance(celsius, "B")
    assert sensor.pt_tolerance(0, "B") <= sensor.pt_tolerance(celsius, "B")


@given(WARM, st.floats(100, 1e6), BETAS)
def test_temperature_and_resistance_of_a_thermistor_are_inverse(celsius: float, at_25: float, beta: float) -> None:
    """And the constant is found again from two points."""
    ohms = sensor.ntc_resistance(celsius, at_25, beta)

    assert isclose(celsius, sensor.ntc_temperature(ohms, at_25, beta), abs_tol=1e-6)
    if abs(celsius - 25) > 1:
        assert isclose(beta, sensor.ntc_beta(at_25, 25, ohms, celsius), rel_tol=1e-6)


@pytest.mark.parametrize("ohms", [500, 3000, 10e3, 86e3])
def test_another_library_gives_the_same_for_a_thermistor(ohms: float) -> None:
    """`thermistor-utils`, with one β."""
    other = Beta_converter.from_beta(3435, 10e3)
    celsius = other.temperature(ohms)

    assert pytest.approx(celsius) == sensor.ntc_temperature(ohms, 10e3, 3435)
    assert pytest.approx(other.resistance(celsius)) == sensor.ntc_resistance(celsius, 10e3, 3435)


@pytest.fixture(scope="module")
def interp1d() -> Any:
    """The straight line between points, of scipy."""
    from scipy.interpolate import interp1d

    return interp1d


@given(celsius=st.floats(-40, 100))
def test_a_table_is_straight_in_its_logarithm(interp1d: Any, celsius: float) -> None:
    """ln R over 1/T, as `scipy` joins the points; and back again."""
    straight = interp1d([1 / (one + 273.15) for one in TEMPERATURES], numpy.log(RESISTANCES), fill_value="extrapolate")
    ohms = sensor.ntc_table_resistance(celsius, TEMPERATURES, RESISTANCES)

    assert isclose(float(numpy.exp(straight(1 / (celsius + 273.15)))), ohms, rel_tol=1e-9)
    assert isclose(
        celsius, sensor.ntc_table_temperature(min(max(ohms, 987.0), 248277.0), TEMPERATURES, RESISTANCES), abs_tol=1e-6
    )


@given(st.floats(-40, 100), BETAS)
def test_a_table_of_a_thermistor_with_one_beta_gives_it_back(celsius: float, beta: float) -> None:
    """Between the points as well."""
    table = [sensor.ntc_resistance(one, 10e3, beta) for one in TEMPERATURES]

    assert isclose(
        sensor.ntc_resistance(celsius, 10e3, beta),
        sensor.ntc_table_resistance(celsius, TEMPERATURES, table),
        rel_tol=1e-9,
    )


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: sensor.pt_resistance(-201), "-201 °C lies outside the law of platinum, -200 °C to 850 °C"),
        (lambda: sensor.pt_resistance(0, "Pt500"), "sensor `Pt500` is not known; known are Pt100, Pt1000"),
        (lambda: sensor.pt_temperature(0), "resistance is 0; it has to be above 0"),
        (lambda: sensor.pt_temperature(1000), "1000 Ω lies outside the law of a Pt100, 18.52 Ω to 390.48 Ω"),
        (lambda: sensor.pt_tolerance(0, "C"), "class `C` is not known"),
        (lambda: sensor.pt_slope(900), "900 °C lies outside"),
        (lambda: sensor.ntc_resistance(-274, 1e4, 3435), "-274 °C is not above absolute zero"),
        (lambda: sensor.ntc_resistance(20, 0, 3435), "resistance at 25 °C is 0"),
        (lambda: sensor.ntc_temperature(100, 1e4, 0), "constant β is 0"),
        (lambda: sensor.ntc_temperature(0.01, 1e4, 3435), "0.01 Ω is too little for this thermistor"),
        (lambda: sensor.ntc_beta(1e4, 25, 1e3, 25), "both resistances are at one temperature"),
        (lambda: sensor.ntc_beta(1e3, 25, 1e4, 85), "this is no NTC thermistor"),
        (lambda: sensor.ntc_beta(1e4, 25, 1e4, 85), "this is no NTC thermistor"),
        (
            lambda: sensor.ntc_table_temperature(500, TEMPERATURES, RESISTANCES),
            "500 Ω lies outside the table, 987 Ω to 248277 Ω",
        ),
        (
            lambda: sensor.ntc_table_resistance(101, TEMPERATURES, RESISTANCES),
            "101 °C lies outside the table, -40 °C to 100 °C",
        ),
        (lambda: sensor.ntc_table_temperature(500, (0, 25), (1e4,)), "2 temperatures, but 1 resistances"),
        (lambda: sensor.ntc_table_temperature(500, (0,), (1e4,)), "at least two points"),
        (lambda: sensor.ntc_table_temperature(500, (0, 25), (1e4, 2e4)), "rise in temperature and fall in resistance"),
        (lambda: sensor.ntc_table_temperature(500, (25, 0), (2e4, 1e4)), "rise in temperature and fall in resistance"),
        (lambda: sensor.ntc_table_temperature(500, (0, 25), (1e4, 0)), "resistance in the table is 0"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """The sentence names what is wrong."""
    with pytest.raises(ValueError, match=named):
        call()
