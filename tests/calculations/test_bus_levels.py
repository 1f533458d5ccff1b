"""Data buses: laws, and what is refused. The figures stand in data/calculations/bus_levels.py."""

from math import inf, isclose

import pytest
from bayleaf.calculations import bus_levels
from bayleaf.calculations.formula import formula_named
from hypothesis import given
from hypothesis import strategies as st

LOADS = st.floats(0, 100)


@given(LOADS, LOADS)
def test_means_add_up_to_5_volts(load: float, dominant: float) -> None:
    """At every load; the difference is that of the two."""
    high, low, between = bus_levels.mean_voltages(load, dominant)

    assert isclose(5.0, high + low)
    assert isclose(high - low, between, abs_tol=1e-12)


@given(st.floats(0.001, 100))
def test_every_sound_load_is_plausible(load: float) -> None:
    """From the first frame to a full bus; and the share of dominant time is found again."""
    high, low, _ = bus_levels.mean_voltages(load)

    assert "plausible" == bus_levels.judged_means(high, low)
    assert isclose(load / 2, bus_levels.dominant_share(high, low), rel_tol=1e-9, abs_tol=1e-9)


@pytest.mark.parametrize(
    ("high", "low", "expected"),
    [
        (2.6, 2.4, "plausible"),
        (2.7, 2.2, "plausible"),
        (3.0, 2.0, "plausible"),
        (2.9, 2.45, "plausible"),  # 5.35 V: drivers differ by a tenth
        (2.5, 2.5, "no traffic: both lines at the level of rest"),
        (2.4, 2.6, "not plausible: CAN_H is below CAN_L"),
        (2.5, 2.3, "not plausible: both lines on one side of 2.5 V"),
        (3.2, 1.8, "not plausible: the bus is dominant for more than half of the time"),
        (3.5, 2.4, "not plausible: the two do not add up to 5 V ± 0.5 V"),
        (0.0, 0.0, "not plausible: the two do not add up to 5 V ± 0.5 V"),
        (12.6, 12.6, "not plausible: the two do not add up to 5 V ± 0.5 V"),
    ],
)
def test_what_means_say(high: float, low: float, expected: str) -> None:
    """The window is as wide as the drivers allow: a fixed one of 0.05 V would reject sound buses."""
    assert expected == bus_levels.judged_means(high, low)


def test_levels_fit_one_another() -> None:
    """The usual difference is that of the usual lines; dominant differences lie above what a receiver takes as dominant."""
    for bus, rows in bus_levels.LEVELS.items():
        for state in {row[0] for row in rows}:
            usual = {row[1]: row[3] for row in rows if row[0] == state}
            if None not in usual.values() and len(usual) == 3:
                assert pytest.approx(usual["between"], abs=0.21) == usual["high"] - usual["low"], (bus, state)
    assert bus_levels.bus_level("CAN", "dominant", "between")[0] > bus_levels.CAN_RECEIVER[0]
    assert bus_levels.bus_level("CAN", "recessive", "between")[2] < bus_levels.CAN_RECEIVER[1]
    assert bus_levels.LEVELS["CAN"] == bus_levels.LEVELS["CAN FD"]


def test_a_level_is_said_with_what_is_printed_of_it() -> None:
    """Where no range is printed there is none."""
    said = formula_named("bus levels").function

    assert ("usually 2.5 V, at least 2 V, at most 3 V",) == said("CAN", "recessive", "high")
    assert ("at least 1.5 V, at most 5 V",) == said("CAN", "dominant, arbitration", "between")
    assert ("usually -2 V",) == said("FlexRay", "data 0", "between")


@given(st.integers(1, 6), st.floats(1, 1000), st.integers(0, 100))
def test_nodes_only_lower_the_termination(number: int, ohms: float, nodes: int) -> None:
    """Each path in parallel takes current; many nodes less than halve two resistors of 120 Ω."""
    assert bus_levels.termination(number, ohms, nodes) <= bus_levels.termination(number, ohms)
    assert bus_levels.termination(number + 1, ohms, nodes) < bus_levels.termination(number, ohms, nodes)


@given(st.integers(1, 3), st.floats(100, 130))
def test_the_number_of_resistors_is_found_again(number: int, ohms: float) -> None:
    """For any resistors of 100 Ω to 130 Ω the bands do not overlap."""
    words = {1: "one terminating resistor", 2: "two,", 3: "three:"}

    assert bus_levels.judged_termination(bus_levels.termination(number, ohms)).startswith(words[number])


def test_what_fits_no_number_of_resistors_is_said() -> None:
    """80 Ω lies between one and two; 20 Ω is less than three, and no short."""
    assert "no number of resistors of 100 Ω to 130 Ω" == bus_levels.judged_termination(80)
    assert "no number of resistors of 100 Ω to 130 Ω" == bus_levels.judged_termination(20)
    assert inf == bus_levels.termination(0, 120, 0)


@given(st.floats(7, 18))
def test_a_lin_driver_is_surer_than_a_receiver_asks(supply: float) -> None:
    """What is sent as recessive lies above the threshold, what is sent as dominant below."""
    recessive, dominant, sent_recessive, sent_dominant = bus_levels.lin_thresholds(supply)

    assert sent_dominant < dominant < recessive < sent_recessive < supply


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: bus_levels.bus_level("LAN", "dominant", "high"), "bus `LAN` is not known"),
        (lambda: bus_levels.bus_level("CAN", "asleep", "between"), "no level is known of CAN, asleep, between"),
        (lambda: bus_levels.mean_voltages(101), "bus load is 101 %; it has to lie between 0 % and 100 %"),
        (lambda: bus_levels.mean_voltages(20, -1), "dominant share is -1 %"),
        (lambda: bus_levels.termination(2, 0), "terminating resistor is 0; it has to be above 0"),
        (lambda: bus_levels.termination(-1, 120), "number of resistors is -1"),
        (lambda: bus_levels.termination(2, 120, -1), "number of nodes is -1"),
        (lambda: bus_levels.termination(2, 120, 1, 0), "resistance of a node is 0"),
        (lambda: bus_levels.termination_range(2, 120, 100), "tolerance is 100 %"),
        (lambda: bus_levels.judged_termination(-1), "resistance is -1"),
        (lambda: bus_levels.lin_thresholds(24), "a supply of 24 V lies outside 7 V to 18 V"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """The sentence names what is wrong."""
    with pytest.raises(ValueError, match=named):
        call()
