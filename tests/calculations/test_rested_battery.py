"""Rested batteries: a range, and why. The figures stand in data/calculations/rested_battery.py."""

import pytest
from bayleaf.calculations import rested_battery
from bayleaf.calculations.formula import formula_named
from hypothesis import given
from hypothesis import strategies as st

VOLTS = st.floats(10, 12.99)
ERRORS = st.floats(0, 0.5)
NAMES = st.sampled_from(list(rested_battery.SETS))


@given(VOLTS, ERRORS, NAMES)
def test_the_range_holds_what_every_set_says(volts: float, error: float, name: str) -> None:
    """No set is taken as the true one."""
    low, high = rested_battery.charge_range(volts, error)
    least, most = rested_battery.charge_in_set(volts, name)

    assert 0 <= low <= least <= most <= high <= 100


@given(VOLTS, ERRORS, ERRORS)
def test_a_worse_meter_never_narrows_the_range(volts: float, one: float, other: float) -> None:
    """The error opens it on both sides."""
    narrow, wide = (rested_battery.charge_range(volts, error) for error in sorted((one, other)))

    assert wide[0] <= narrow[0]
    assert narrow[1] <= wide[1]


@given(VOLTS, VOLTS)
def test_more_volts_never_mean_less_charge(one: float, other: float) -> None:
    """Both ends of the range rise."""
    below, above = (rested_battery.charge_range(volts) for volts in sorted((one, other)))

    assert below[0] <= above[0]
    assert below[1] <= above[1]


@pytest.mark.parametrize("volts", [12.0, 12.1, 12.2, 12.3, 12.4, 12.5])
def test_one_voltage_does_not_give_one_charge(volts: float) -> None:
    """The sets disagree, even for a meter without error: the formula gives two figures."""
    low, high = rested_battery.charge_range(volts)

    assert low < high
    assert 2 == len(formula_named("rested battery").outputs)


def test_the_sets_differ_by_up_to_150_millivolts() -> None:
    """At a quarter of charge: 12.0 V, 12.15 V, 12.06 V."""
    quarter = [volts for rows in rested_battery.SETS.values() for charge, volts in rows if charge == 25]

    assert pytest.approx(0.15) == max(quarter) - min(quarter)


def test_one_per_cent_of_the_voltage_is_15_per_cent_of_charge() -> None:
    """80 mV for 10 % by the rule of thumb: 120 mV either way are 15 % either way."""
    charges = [rested_battery.charge_in_set(12.3 + error, "rule of thumb")[0] for error in (-0.12, 0, 0.12)]

    assert pytest.approx([62.5 - 15, 62.5, 62.5 + 15]) == charges


def test_below_its_last_row_a_set_says_only_that_it_is_less() -> None:
    """The magazine ends at a quarter of charge."""
    assert (0.0, 25.0) == rested_battery.charge_in_set(11.0, "magazine")
    assert (0.0, 0.0) == rested_battery.charge_in_set(11.0, "rule of thumb")
    assert (0.0, 25.0) == rested_battery.charge_range(11.0)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: rested_battery.charge_range(13.0), "13 V is more than a rested battery has"),
        (lambda: rested_battery.charge_range(0), "voltage is 0; it has to be above 0"),
        (lambda: rested_battery.charge_range(12, -0.1), "error of the meter is -0.1"),
        (lambda: rested_battery.charge_range(12, 12), "as large as the reading"),
        (lambda: rested_battery.charge_in_set(12, "best"), "set `best` is not known"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """The sentence names what is wrong."""
    with pytest.raises(ValueError, match=named):
        call()
