"""Scatter by the way of tightening: laws. The figures stand in data/calculations/tightening_factor.py."""

from math import isclose

import pytest
from bayleaf.calculations import tightening_factor
from bayleaf.calculations.tightening_factor import METHODS
from hypothesis import given
from hypothesis import strategies as st


@given(st.floats(1, 20))
def test_factor_and_scatter_are_inverse(factor: float) -> None:
    """α from ± and back."""
    assert isclose(factor, tightening_factor.factor_of_scatter(tightening_factor.scatter(factor)), rel_tol=1e-9)


@given(st.floats(0.1, 1000), st.floats(1, 20))
def test_the_scatter_is_symmetric_about_the_middle(highest: float, factor: float) -> None:
    """Highest and lowest preload lie as far above as below the middle of both."""
    lowest = tightening_factor.lowest_preload(highest, factor)
    middle = (highest + lowest) / 2

    assert isclose(highest, middle * (1 + tightening_factor.scatter(factor)), rel_tol=1e-9)
    assert isclose(lowest, middle * (1 - tightening_factor.scatter(factor)), rel_tol=1e-9)


@pytest.mark.parametrize("method", METHODS)
def test_a_range_is_a_range(method: str) -> None:
    """From a lower factor to a higher one, none below 1."""
    assert 1 < METHODS[method][0] < METHODS[method][1]


def test_only_the_impact_driver_is_from_memory() -> None:
    """Its ± 60 % is printed in a catalogue, its lower value was not seen; the calculator says so."""
    assert ["impact driver"] == [name for name, row in METHODS.items() if row[3] == "from memory"]
    assert "from memory" in tightening_factor.FORMULAS[0].function("impact driver", 20)[3]
    assert "restated" in tightening_factor.FORMULAS[0].function("hydraulic", 20)[3]


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: tightening_factor.scatter(0.9), "1 or more"),
        (lambda: tightening_factor.factor_of_scatter(1), "below 100 %"),
        (lambda: tightening_factor.factor_of_scatter(-0.1), "below 100 %"),
        (lambda: tightening_factor.lowest_preload(0, 1.6), "preload is 0"),
        (lambda: tightening_factor.lowest_preload(10, 0.5), "1 or more"),
        (lambda: tightening_factor.FORMULAS[0].function("by feel", 20), "way of tightening `by feel`"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """The highest preload is never below the lowest."""
    with pytest.raises(ValueError, match=named):
        call()
