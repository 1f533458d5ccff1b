"""Supply ranges: laws, and what is refused. The figures stand in data/calculations/supply_range.py."""

from math import inf

import pytest
from bayleaf.calculations import supply_range
from bayleaf.calculations.formula import formula_named
from hypothesis import given
from hypothesis import strategies as st


@given(st.floats(36, 100), st.floats(0, 100))
def test_further_up_is_never_borne_longer(volts: float, more: float) -> None:
    """From the unlimited range upwards the time only falls."""
    assert supply_range.time_allowed_48(volts + more) <= supply_range.time_allowed_48(volts)


@given(st.floats(0, 52), st.floats(0, 52))
def test_further_down_is_never_borne_longer(volts: float, less: float) -> None:
    """From the unlimited range downwards as well."""
    assert supply_range.time_allowed_48(max(0.0, volts - less)) <= supply_range.time_allowed_48(volts)


def test_the_unlimited_range_is_that_of_the_table() -> None:
    """Both functions agree at its ends."""
    low, high = supply_range.supply_range("48 V", "unlimited")

    assert inf == supply_range.time_allowed_48(low) == supply_range.time_allowed_48(high)


@pytest.mark.parametrize("row", supply_range.RANGES, ids=lambda row: row[1])
def test_a_range_reaches_around_its_nominal_voltage(row) -> None:
    """And says how sure it is."""
    low, high, certainty = formula_named("supply range").function(row[0], row[1])

    assert low < float(row[0].removesuffix(" V")) < high
    assert ("restated" if row[0] == "48 V" else "from memory") == certainty


def test_a_range_from_memory_is_never_a_default() -> None:
    """System and code have to be given."""
    assert [None, None] == [one.default for one in formula_named("supply range").inputs]


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: supply_range.supply_range("12 V", "E"), "code E is none of a 12 V system; its codes are A, B, C, D"),
        (lambda: supply_range.supply_range("48 V", "A"), "code A is none of a 48 V system; its codes are unlimited"),
        (lambda: supply_range.supply_range("6 V", "A"), "system `6 V` is not known; known are 12 V, 24 V, 48 V"),
        (lambda: supply_range.time_allowed_48(-1), "voltage is -1; it has to be 0 or more"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """The sentence names what is wrong."""
    with pytest.raises(ValueError, match=named):
        call()
