"""Nut factors: laws, and what VDI 2230 implies. The figures stand in data/calculations/nut_factor.py."""

from math import isclose

import pytest
from bayleaf.calculations import nut_factor, tightening
from bayleaf.calculations.hexagon_heads import HEADS, bearing_diameter
from bayleaf.calculations.threads import METRIC
from data.calculations.nut_factor import POINTS
from hypothesis import given
from hypothesis import strategies as st

FACTOR = st.floats(0.05, 1)
DIAMETER = st.floats(3, 40)


@given(FACTOR, DIAMETER, st.floats(0.01, 1000))
def test_torque_and_preload_are_inverse(factor: float, diameter: float, torque: float) -> None:
    """The preload of a torque asks for that torque."""
    preload = nut_factor.preload_by_nut_factor(factor, diameter, torque)

    assert isclose(torque, nut_factor.torque_by_nut_factor(factor, diameter, preload), rel_tol=1e-9)


@given(st.sampled_from(list(HEADS)), st.floats(0, 0.5), st.floats(0.1, 500))
def test_the_short_form_and_the_long_one_agree(size: str, friction: float, preload: float) -> None:
    """With the factor that the friction implies, both give one torque."""
    bearing = bearing_diameter(size)
    factor = nut_factor.nut_factor_of_friction(size, friction, bearing)

    assert isclose(
        tightening.torque_of_preload(size, preload, friction, friction, bearing),
        nut_factor.torque_by_nut_factor(factor, METRIC[size][0], preload),
        rel_tol=1e-9,
    )


@pytest.mark.parametrize(
    ("friction", "least", "most"),
    [(0.08, 0.112, 0.119), (0.10, 0.135, 0.143), (0.12, 0.159, 0.166), (0.14, 0.182, 0.189), (0.20, 0.251, 0.258)],
)
def test_the_factor_of_a_friction_hardly_hangs_on_the_size(friction: float, least: float, most: float) -> None:
    """Hexagon heads M6 to M16, computed from VDI 2230: within these."""
    sizes = [size for size in HEADS if 6 <= METRIC[size][0] <= 16]
    factors = [nut_factor.nut_factor_of_friction(size, friction, bearing_diameter(size)) for size in sizes]

    assert (least, most) == pytest.approx((min(factors), max(factors)), abs=0.0006)


@pytest.mark.parametrize(("surface", "factor", "source"), POINTS)
def test_a_single_value_lies_within_the_range_of_its_surface(surface: str, factor: float, source: str) -> None:
    """What textbooks and distributors print as one number is one of many."""
    low, high = nut_factor.factor_range(surface)

    assert low <= factor <= high, source


@given(st.sampled_from(list(nut_factor.RANGES)), st.floats(1, 500))
def test_a_surface_gives_a_range_of_preloads_never_one(surface: str, torque: float) -> None:
    """The least and the most differ as the factors do, and lie evenly about their middle."""
    shown, least, most, percent = nut_factor.FORMULAS[0].function("M8", surface, torque)
    middle = (least + most) / 2

    assert least < most
    assert isclose(most / least, nut_factor.RANGES[surface][1] / nut_factor.RANGES[surface][0], rel_tol=1e-9)
    assert isclose(percent, 100 * (most - middle) / middle, rel_tol=1e-9)
    assert " to " in shown


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: nut_factor.torque_by_nut_factor(0, 8, 10), "nut factor is 0"),
        (lambda: nut_factor.torque_by_nut_factor(0.2, 0, 10), "diameter is 0"),
        (lambda: nut_factor.torque_by_nut_factor(0.2, 8, -1), "preload is -1"),
        (lambda: nut_factor.preload_by_nut_factor(0.2, 8, -1), "torque is -1"),
        (lambda: nut_factor.nut_factor_of_friction("M8", -0.1, 10), "friction is -0.1"),
        (lambda: nut_factor.nut_factor_of_friction("M8", 0.1, 0), "bearing diameter is 0"),
        (lambda: nut_factor.factor_range("clean"), "surface `clean`"),
        (lambda: nut_factor.half_scatter(2, 1), "above the highest"),
        (lambda: nut_factor.half_scatter(0, 1), "lowest value is 0"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """No factor without its surface."""
    with pytest.raises(ValueError, match=named):
        call()
