"""Capacitors that discharge: laws that hold for all of them. The figures stand in data/calculations/discharge.py."""

from math import inf, isclose

import pytest
from bayleaf.calculations import discharge
from hypothesis import given
from hypothesis import strategies as st

OHMS = st.floats(1, 1e7)
FARADS = st.floats(1e-9, 1)
VOLTS = st.floats(0.1, 1500)


@given(OHMS, FARADS, VOLTS, VOLTS)
def test_time_and_voltage_are_inverse(ohms: float, farads: float, one: float, other: float) -> None:
    """After the time to fall to a voltage, that voltage is there."""
    start, end = max(one, other), min(one, other)
    seconds = discharge.time_to_fall(start, end, ohms, farads)

    assert isclose(end, discharge.voltage_after(seconds, start, ohms, farads), rel_tol=1e-9)


@given(OHMS, FARADS, VOLTS, VOLTS, st.floats(1, 10))
def test_more_of_anything_takes_longer(ohms: float, farads: float, start: float, end: float, more: float) -> None:
    """A larger resistance, capacitance or voltage at the start never shortens the time; a higher end never lengthens it."""
    seconds = discharge.time_to_fall(start, end, ohms, farads)

    assert seconds <= discharge.time_to_fall(start, end, ohms * more, farads)
    assert seconds <= discharge.time_to_fall(start, end, ohms, farads * more)
    assert seconds <= discharge.time_to_fall(start * more, end, ohms, farads)
    assert seconds >= discharge.time_to_fall(start, end * more, ohms, farads)


@given(FARADS, VOLTS, st.floats(1.01, 25), st.floats(0.1, 1000))
def test_the_needed_resistor_takes_the_time(farads: float, end: float, ratio: float, seconds: float) -> None:
    """With the resistor for a time, the fall takes that time."""
    ohms = discharge.resistance_for(seconds, end * ratio, end, farads)

    assert isclose(seconds, discharge.time_to_fall(end * ratio, end, ohms, farads), rel_tol=1e-9)


def test_what_is_not_above_the_end_needs_no_time() -> None:
    """Nothing has to be discharged: no time, and any resistor will do."""
    assert 0.0 == discharge.time_to_fall(48, 60, 47e3, 1e-3)
    assert inf == discharge.resistance_for(5, 48, 60, 1e-3)


def test_without_a_bleed_the_voltage_stays() -> None:
    """An endless resistance: it never falls."""
    assert inf == discharge.time_to_fall(400, 60, inf, 1e-3)
    assert 400 == discharge.voltage_after(3600, 400, inf, 1e-3)


def test_no_voltage_at_all_is_never_reached() -> None:
    """An exponential has no end."""
    assert inf == discharge.time_to_fall(400, 0, 47e3, 1e-3)


def test_curve_begins_at_the_start_and_ends_at_the_time() -> None:
    """Its points fall and lie at equal distances in time."""
    points = discharge.curve(410, 49350, 1.32e-3, until=300, points=31)

    assert 31 == len(points)
    assert discharge.Point(0, 410) == points[0]
    assert [10.0 * index for index in range(31)] == pytest.approx([point.seconds for point in points])
    assert sorted((point.volts for point in points), reverse=True) == [point.volts for point in points]
    assert discharge.voltage_after(300, 410, 49350, 1.32e-3) == points[-1].volts


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: discharge.time_to_fall(400, 60, 0, 1e-3), "resistance is 0"),
        (lambda: discharge.voltage_after(1, 400, 47e3, -1e-3), "capacitance is -0.001"),
        (lambda: discharge.voltage_after(-1, 400, 47e3, 1e-3), "before the start"),
        (lambda: discharge.resistance_for(0, 400, 60, 1e-3), "seconds is 0"),
        (lambda: discharge.curve(400, 47e3, 1e-3, 10, points=1), "two points"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """A formula outside its range gives no figure."""
    with pytest.raises(ValueError, match=named):
        call()
