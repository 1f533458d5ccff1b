"""Values from several readings, held to two libraries. The figures stand in data/calculations/readings.py."""

from math import inf, isclose, sqrt
from statistics import fmean, stdev

import pytest
from bayleaf.calculations import readings
from bayleaf.calculations.formula import formula_named
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

VALUES = st.floats(-1e4, 1e4)
OHMS = st.floats(1, 1e7)
ERRORS = st.floats(0.001, 100)
MEASURED_OHMS = st.lists(st.tuples(OHMS, ERRORS), min_size=1, max_size=6)
MEASURED = st.lists(st.tuples(VALUES, ERRORS), min_size=2, max_size=8)


@given(VALUES, ERRORS, VALUES, ERRORS)
def test_a_difference_is_as_uncertain_as_the_library_says(first, u1, second, u2) -> None:
    """`uncertainties`, linear propagation; with errors against each other it is never less."""
    expected = ufloat(first, u1) - ufloat(second, u2)

    assert expected.nominal_value == readings.difference([first, second])
    assert isclose(expected.std_dev, readings.difference_uncertainty([u1, u2]), rel_tol=1e-9)
    assert readings.difference_uncertainty([u1, u2]) <= readings.difference_worst_case([u1, u2])


def test_two_libraries_give_one_uncertainty_of_a_difference() -> None:
    """`GTC`, two readings of 12.6 V with u = 0.0479 V: 0.06774 V."""
    import GTC  # takes long to be imported: not while tests are collected

    drop = GTC.ureal(12.6, 0.0479) - GTC.ureal(12.6, 0.0479)

    assert pytest.approx(GTC.uncertainty(drop)) == readings.difference_uncertainty([0.0479, 0.0479])
    assert pytest.approx(0.06774, abs=5e-6) == readings.difference_uncertainty([0.0479, 0.0479])


@given(MEASURED_OHMS)
def test_parallel_resistances_are_as_uncertain_as_the_library_says(measured) -> None:
    """`uncertainties` on 1/Σ(1/R)."""
    expected = 1 / sum(1 / ufloat(*one) for one in measured)
    ohms, errors = [one[0] for one in measured], [one[1] for one in measured]

    assert isclose(expected.nominal_value, readings.parallel(ohms), rel_tol=1e-9)
    assert isclose(expected.std_dev, readings.parallel_uncertainty(ohms, errors), rel_tol=1e-9)


@given(st.lists(OHMS, min_size=1, max_size=6), OHMS)
def test_one_more_in_parallel_only_lowers(ohms: list[float], another: float) -> None:
    """Less than each; an endless one changes nothing; the order does not matter."""
    together = readings.parallel(ohms)

    assert readings.parallel([*ohms, another]) < min(together, another)
    assert isclose(together, readings.parallel([*ohms, inf]))
    assert isclose(together, readings.parallel(ohms[::-1]))
    assert inf == readings.parallel([inf])


@given(MEASURED)
def test_an_average_is_as_uncertain_as_the_library_says(measured) -> None:
    """`statistics` for mean and scatter, `uncertainties` for what each reading brings."""
    values, errors = [one[0] for one in measured], [one[1] for one in measured]
    each = sum(ufloat(*one) for one in measured) / len(measured)
    scatter = stdev(values) / sqrt(len(values))

    assert isclose(fmean(values), readings.average(values), rel_tol=1e-9, abs_tol=1e-9)
    assert isclose(scatter, readings.deviation_of_average(values), rel_tol=1e-6, abs_tol=1e-9)
    assert isclose(sqrt(scatter**2 + each.std_dev**2), readings.average_uncertainty(values, errors), rel_tol=1e-6)


def test_two_libraries_give_one_deviation_of_an_average() -> None:
    """`GTC`, evaluation of type A."""
    import GTC  # as above

    values = [59.8, 60.1, 60.0, 59.9]

    assert pytest.approx(GTC.type_a.estimate(values).u) == readings.deviation_of_average(values)


def test_one_uncertainty_holds_for_all_readings() -> None:
    """As typed at the bench."""
    one = formula_named("average").function([59.8, 60.1, 60.0], [0.3])

    assert one == formula_named("average").function([59.8, 60.1, 60.0], [0.3, 0.3, 0.3])
    assert (2.0, 0.5, 0.7) == pytest.approx(formula_named("difference").function([5, 3], [0.3, 0.4]))
    assert (60.0, 0.0) == formula_named("parallel").function([120, 120], [0.0])


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: readings.difference([1]), "a difference is taken of two readings; here are 1"),
        (lambda: readings.difference([1, 2, 3]), "here are 3"),
        (lambda: readings.difference_uncertainty([0.1, -0.1]), "uncertainty is -0.1"),
        (lambda: readings.difference_worst_case([0.1, -0.1]), "error is -0.1"),
        (lambda: readings.parallel([]), "no resistance is given"),
        (lambda: readings.parallel([120, 0]), "resistance is 0; it has to be above 0"),
        (lambda: readings.parallel_uncertainty([inf], [0.1]), "every resistance is endless"),
        (lambda: readings.parallel_uncertainty([1, 2, 3], [0.1, 0.1]), "3 readings, but 2 uncertainties"),
        (lambda: readings.average([]), "no reading is given"),
        (lambda: readings.deviation_of_average([1]), "one reading does not scatter"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """The sentence names what is wrong."""
    with pytest.raises(ValueError, match=named):
        call()
