"""Voltage drops: laws that hold for all. The figures stand in data/calculations/voltage_drop.py."""

from math import isclose

import pytest
from bayleaf.calculations import conductor, voltage_drop
from bayleaf.calculations.conductor_tables import KINDS
from bayleaf.calculations.formula import formula_named
from hypothesis import given
from hypothesis import strategies as st

AMPERES = st.floats(0.1, 500)
LENGTHS = st.floats(0.1, 50)
TABLES = st.sampled_from(list(KINDS))


@given(AMPERES, LENGTHS, TABLES, st.floats(-40, 120))
def test_there_and_back_is_twice_one_way(amperes: float, length: float, kind: str, celsius: float) -> None:
    """The joints are those of the whole path: they are not doubled."""
    once = voltage_drop.voltage_drop(amperes, length, 16, "one way", kind, celsius)
    path = voltage_drop.voltage_drop(amperes, length, 16, "there and back", kind, celsius, 3, 0.001)

    assert isclose(2 * once + amperes * 0.003, path, rel_tol=1e-9)


@given(AMPERES, LENGTHS, st.floats(1, 10))
def test_more_current_or_length_never_loses_less(amperes: float, length: float, more: float) -> None:
    """The drop is proportional to both."""
    drop = voltage_drop.voltage_drop(amperes, length, 6)

    assert isclose(more * drop, voltage_drop.voltage_drop(more * amperes, length, 6), rel_tol=1e-9)
    assert isclose(more * drop, voltage_drop.voltage_drop(amperes, more * length, 6), rel_tol=1e-9)


@given(AMPERES, LENGTHS, st.floats(0.05, 2), TABLES)
def test_the_smallest_area_is_enough_and_the_next_smaller_is_not(amperes, length, drop, kind) -> None:
    """Or no size of the table is enough, and that is said."""
    lost = [voltage_drop.voltage_drop(amperes, length, size, kind=kind) for size, _ in KINDS[kind]]
    if min(lost) > drop:
        with pytest.raises(ValueError, match="no cable up to 120 mm² loses as little"):
            voltage_drop.smallest_area(amperes, length, drop, kind=kind)
        return
    area = voltage_drop.smallest_area(amperes, length, drop, kind=kind)

    assert voltage_drop.voltage_drop(amperes, length, area, kind=kind) <= drop
    assert all(one > drop for (size, _), one in zip(KINDS[kind], lost, strict=True) if size < area)


@given(AMPERES, LENGTHS, st.floats(0.05, 2))
def test_the_area_of_pure_copper_loses_just_the_drop(amperes: float, length: float, drop: float) -> None:
    """Computed back through the resistance of pure copper."""
    area = voltage_drop.area_of_pure_metal(amperes, length, drop)

    assert isclose(drop, amperes * conductor.cable_resistance(length, area, "pure copper"), rel_tol=1e-9)


def test_the_rule_of_three_per_cent_is_that_of_12_volts() -> None:
    """0.36 V."""
    assert pytest.approx(3) == voltage_drop.share_of_supply(voltage_drop.usual_drop("design of a 12 V circuit"), 12)


def test_a_guide_value_says_how_sure_it_is() -> None:
    """Each with its source; what is common practice is from memory."""
    usual = formula_named("usual voltage drop").function

    assert (1.0, "common practice", "from memory") == usual("any path")
    assert {"restated", "from memory"} == {
        certainty for _, source, certainty in voltage_drop.USUAL_DROPS.values() if source
    }


def test_the_formulas_give_what_else_is_asked_at_the_bench() -> None:
    """Drop, share, resistance of the path; cross-section, and the drop with it."""
    drop, conductor_for = formula_named("voltage drop").function, formula_named("conductor for drop").function

    assert pytest.approx((0.798, 6.65, 0.0798)) == drop(10, 5, 2.5, "there and back", 12, "class 5", 20, 0, 0)
    assert pytest.approx((6.0, 0.264)) == conductor_for(20, 4, 0.3, "one way", "class 5", 20, 0, 0)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: voltage_drop.voltage_drop(0, 5, 6), "current is 0; it has to be above 0"),
        (lambda: voltage_drop.voltage_drop(5, 0, 6), "length is 0"),
        (
            lambda: voltage_drop.voltage_drop(5, 5, 6, "round"),
            "way `round` is not known; known are one way, there and back",
        ),
        (lambda: voltage_drop.share_of_supply(-1, 12), "voltage drop is -1"),
        (lambda: voltage_drop.share_of_supply(1, 0), "supply is 0"),
        (lambda: voltage_drop.smallest_area(5, 5, 0), "voltage drop is 0"),
        (lambda: voltage_drop.smallest_area(5, 5, 1, kind="pure copper"), "cable `pure copper` is not known"),
        (lambda: voltage_drop.area_of_pure_metal(5, 5, 0), "voltage drop is 0"),
        (lambda: voltage_drop.usual_drop("roof"), "path `roof` is not known"),
        (
            lambda: formula_named("voltage drop").function(500, 50, 1.0, "one way", 12, "class 5", 20, 0, 0),
            "more than the supply of 12 V",
        ),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """The sentence names what is wrong."""
    with pytest.raises(ValueError, match=named):
        call()
