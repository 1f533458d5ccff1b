"""Error and uncertainty of readings, and the decisions that rest on them: laws and independent references."""

from typing import Any

import pytest
from bayleaf.calculations import decision, reading_error
from hypothesis import given
from hypothesis import strategies as st

READINGS = st.floats(-1000, 1000)
SHARES = st.floats(0, 10)
COUNTS = st.integers(0, 50)
STEPS = st.floats(1e-6, 10)


@given(READINGS, SHARES, COUNTS, STEPS)
def test_an_error_is_the_same_on_both_sides_of_zero(reading: float, percent: float, digits: int, step: float) -> None:
    """The sign of a reading does not change how wrong it may be."""
    error = reading_error.greatest_error(reading, percent, digits, step)

    assert error == reading_error.greatest_error(-reading, percent, digits, step)
    assert digits * step <= error


@given(st.floats(0.1, 1000), SHARES, COUNTS, STEPS)
def test_the_highest_reading_is_just_safe(limit: float, percent: float, digits: int, step: float) -> None:
    """With its error it reaches the limit, and no further."""
    reading = reading_error.highest_reading_below(limit, percent, digits, step)
    if reading > 0:
        error = reading_error.greatest_error(reading, percent, digits, step)
        assert limit == pytest.approx(reading + error, rel=1e-9)


@given(st.floats(0, 10), st.floats(0, 5))
def test_a_guard_band_never_narrows_the_error(error: float, guard_band: float) -> None:
    """A workshop can be stricter than the error of its instrument, never laxer."""
    assert error <= reading_error.band(error, guard_band)


@pytest.fixture(scope="module")
def norm() -> Any:
    """The normal distribution of scipy, which takes long to be imported: not while tests are collected."""
    from scipy.stats import norm

    return norm


@given(z=st.floats(-38, 38))
def test_normal_share_agrees_with_scipy(norm: Any, z: float) -> None:
    """Reference: scipy.stats.norm."""
    assert norm.cdf(z) == pytest.approx(decision.normal_share(z), rel=1e-9, abs=1e-300)


@given(reading=READINGS, uncertainty=st.floats(0.01, 100), one=READINGS, other=READINGS)
def test_conformity_agrees_with_scipy(norm: Any, reading: float, uncertainty: float, one: float, other: float) -> None:
    """Reference: scipy.stats.norm, both limits."""
    low, high = min(one, other), max(one, other)
    expected = norm.cdf(high, reading, uncertainty) - norm.cdf(low, reading, uncertainty)

    assert expected == pytest.approx(decision.conformity(reading, uncertainty, low, high), abs=1e-12)


def test_a_rectangular_error_has_the_uncertainty_of_gtc() -> None:
    """Reference: GTC. Two readings of 12.6 V with 0.5 % and 2 counts of 10 mV differ with u = 0.0677 V."""
    from GTC import result, ureal  # takes long to be imported: not while tests are collected

    u = reading_error.standard_uncertainty(reading_error.greatest_error(12.6, 0.5, 2, 0.01))
    difference = result(ureal(12.6, u) - ureal(12.6, u))

    assert 0.0677 == pytest.approx(difference.u, abs=1e-4)  # the source rounds u to 0.0479 V first


def test_counts_belong_to_the_range_in_use() -> None:
    """2 counts at 100.0 V are 0.2 V: 1 % and 2 counts reach from 98.8 V to 101.2 V, not from 99.8 V.

    A page of one maker prints the narrower range; another page of the trade has it right.
    """
    error = reading_error.greatest_error(100.0, 1, 2, 0.1)

    assert (98.8, 101.2) == pytest.approx((100 - error, 100 + error))


def test_counts_are_not_added_to_the_error_of_the_percentage_one_place_lower() -> None:
    """2 % of 5.02 V and 3 counts of 10 mV are 0.1304 V. A page of a forum adds 0.003 V instead."""
    assert 0.1304 == pytest.approx(reading_error.greatest_error(5.02, 2, 3, 0.01))


def test_a_ratio_of_four_alone_does_not_protect_a_reading_on_the_limit() -> None:
    """There the risk is one half, whatever the ratio (abstract of a paper on calibration)."""
    assert 4.0 == decision.uncertainty_ratio(0, 8, 1)
    assert 0.5 == pytest.approx(decision.conformity(8, 0.5, 0, 8), abs=1e-9)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: decision.conformity(1, 0, 0, 2), "uncertainty"),
        (lambda: decision.conformity(1, 1, 2, 0), "lower limit"),
        (lambda: decision.acceptance_limits(0, 1, 1, 1), "no reading"),
        (lambda: decision.uncertainty_ratio(0, 1, 0), "uncertainty"),
        (lambda: decision.one_sided_ratio(0, 1, 0), "uncertainty"),
        (lambda: decision.managed_guard_factor(0), "ratio is 0"),
        (lambda: reading_error.greatest_error(1, -1, 0, 1), "not negative"),
        (lambda: reading_error.greatest_error(1, 1, 0, -1), "resolution is -1"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """A formula outside its range gives no figure."""
    with pytest.raises(ValueError, match=named):
        call()
