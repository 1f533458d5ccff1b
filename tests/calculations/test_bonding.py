"""Bonds: laws that hold for all of them. The figures stand in data/calculations/bonding.py."""

from math import isclose

import pytest
from bayleaf.calculations import bonding
from bayleaf.calculations.formula import formula_named
from hypothesis import given
from hypothesis import strategies as st

OHMS = st.floats(0, 10)
AMPERES = st.floats(0.001, 100)


@given(OHMS, AMPERES)
def test_drop_and_resistance_are_inverse(ohms: float, amperes: float) -> None:
    """The drop that a bond gives, over the current, is the bond."""
    assert isclose(ohms, bonding.resistance(bonding.voltage_drop(ohms, amperes), amperes), abs_tol=1e-12)


@given(OHMS, OHMS)
def test_two_wires_never_show_less_than_the_bond(ohms: float, leads: float) -> None:
    """What they show too much is their leads, and can be taken off."""
    shown = bonding.shown_by_two_wires(ohms, leads)

    assert ohms <= shown
    assert isclose(ohms, bonding.behind_leads(shown, leads), abs_tol=1e-12)


def test_ordinary_leads_have_more_than_the_limit() -> None:
    """So a good bond fails, and its resistance is lost, with two wires that are not zeroed. 0.2 Ω to 0.5 Ω: a maker of meters."""
    assert (0.2, 0.5) == (bonding.LEADS_FROM, bonding.LEADS_TO)
    assert bonding.LEADS_FROM > bonding.LIMIT
    assert not bonding.is_bonded(bonding.shown_by_two_wires(0.0, bonding.LEADS_FROM))


@given(st.floats(0, 100))
def test_the_highest_reading_is_good_at_its_worst(accuracy: float) -> None:
    """With the error of the tester it is still the limit, no more."""
    assert isclose(bonding.LIMIT, bonding.highest_reading(accuracy) * (1 + accuracy / 100))


@pytest.mark.parametrize(
    ("volts", "amperes", "expected"),
    [
        (0.012, 0.2, "below 0.1 Ω"),
        (0.030, 0.2, "not below 0.1 Ω"),
        (0.001, 0.1, "not shown: the test current is below 0.2 A"),
    ],
)
def test_a_bond_is_shown_with_enough_current_only(volts: float, amperes: float, expected: str) -> None:
    """0.01 Ω at 0.1 A is no proof."""
    assert expected == formula_named("bonding").function(volts, amperes)[2]


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: bonding.resistance(0.02, 0), "test current is 0; it has to be above 0"),
        (lambda: bonding.resistance(-0.02, 1), "voltage drop is -0.02"),
        (lambda: bonding.voltage_drop(-1, 1), "resistance is -1"),
        (lambda: bonding.is_bonded(-0.01), "resistance is -0.01"),
        (lambda: bonding.current_suffices(0), "test current is 0"),
        (lambda: bonding.behind_leads(0.2, 0.3), "0.2 Ω is less than the leads alone, 0.3 Ω"),
        (lambda: bonding.shown_by_two_wires(0.1, -0.2), "leads is -0.2"),
        (lambda: bonding.highest_reading(-1), "accuracy is -1"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """The sentence names what is wrong."""
    with pytest.raises(ValueError, match=named):
        call()
