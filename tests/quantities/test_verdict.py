"""Intervals, and the verdict on a reading."""

from fractions import Fraction

import pytest
from bayleaf.quantities import Interval, Verdict, judge, judge_overload, parse_limit, parse_quantity

CASES = [
    # limit, reading, band in the coherent unit, exit of the step
    ("11.5 V to 14.8 V", "12.6 V", None, "within"),
    ("11.5 V to 14.8 V", "11.5 V", None, "within"),
    ("11.5 V to 14.8 V", "14.8 V", None, "within"),
    ("11.5 V to 14.8 V", "11.49 V", None, "below"),
    ("11.5 V to 14.8 V", "14.81 V", None, "above"),
    ("11.5 V to 14.8 V", "11500 mV", None, "within"),
    # with a band of 0.1 V the ends move inward for a pass and outward for a failure
    ("11.5 V to 14.8 V", "11.6 V", "0.1", "within"),
    ("11.5 V to 14.8 V", "11.59 V", "0.1", "not_decided"),
    ("11.5 V to 14.8 V", "11.4 V", "0.1", "not_decided"),
    ("11.5 V to 14.8 V", "11.39 V", "0.1", "below"),
    ("11.5 V to 14.8 V", "14.91 V", "0.1", "above"),
    # a band wider than the limits can pass nothing
    ("60 Ω ± 1 Ω", "60 Ω", "2", "not_decided"),
    # one side only
    ("at least 500 kΩ", "2 GΩ", "1000", "within"),
    ("at least 500 kΩ", "499 kΩ", None, "below"),
    ("at most 50 mV", "-3 V", "0.001", "within"),
    ("at most 50 mV", "51 mV", "0.0005", "above"),
    ("at most 50 mV", "50.5 mV", "0.0005", "not_decided"),
    # scales with a zero of their own
    ("at most 60 °C", "140 °F", None, "within"),
    ("at most 60 °C", "140.1 °F", None, "above"),
]


@pytest.mark.parametrize(("limit", "reading", "band", "exit_"), CASES)
def test_verdicts(limit: str, reading: str, band: str | None, exit_: str) -> None:
    """Within only wholly inside, outside only wholly outside, else not decided."""
    verdict = judge(parse_quantity(reading), parse_limit(limit), None if band is None else Fraction(band))
    assert exit_ == verdict.exit


def test_an_overload_is_no_reading() -> None:
    """Whatever the limit."""
    verdict = judge(None, parse_limit("at least 500 kΩ"))
    assert (verdict.verdict, verdict.side, verdict.exit) == (Verdict.NO_READING, None, None)


@pytest.mark.parametrize(
    ("limit", "leads_hold", "verdict", "ask"),
    [
        ("at least 5 MΩ", False, Verdict.NO_READING, True),
        ("at least 5 MΩ", True, Verdict.WITHIN, False),
        ("at most 5 Ω", False, Verdict.NO_READING, True),
        ("at most 5 Ω", True, Verdict.OUTSIDE, False),
        ("50 Ω to 65 Ω", False, Verdict.NO_READING, True),
        ("50 Ω to 65 Ω", True, Verdict.OUTSIDE, False),
    ],
)
def test_an_overload_is_a_large_value_or_a_lost_lead(limit: str, leads_hold: bool, verdict: Verdict, ask: bool) -> None:
    """A very good one on a limit that is open upwards, a broken wire on others; once somebody has looked at the leads."""
    found = judge_overload(parse_limit(limit), leads_hold)  # type: ignore[arg-type]

    assert (verdict, ask) == (found.verdict, found.ask)


def test_a_reading_of_another_quantity_is_a_fault_of_the_caller() -> None:
    """Units are checked where the reading is read."""
    with pytest.raises(ValueError, match="a current cannot be held against a limit of voltage"):
        judge(parse_quantity("5 A"), parse_limit("at most 5 V"))


ONE, TWO, THREE = Fraction(1), Fraction(2), Fraction(3)


def test_the_ends_of_an_interval_are_open_or_closed() -> None:
    """An open end does not belong."""
    assert ONE in Interval(ONE, TWO)
    assert ONE not in Interval(ONE, TWO, low_open=True)
    assert TWO not in Interval(ONE, TWO, high_open=True)
    assert Fraction(-(10**9)) in Interval(None, TWO)
    assert not Interval(ONE, ONE).empty
    assert Interval(ONE, ONE, low_open=True).empty
    assert Interval(TWO, ONE).empty


def test_intervals_meet_cover_and_shrink() -> None:
    """The tighter end counts, and of two equal ends the open one."""
    assert Interval(TWO, THREE) == Interval(ONE, THREE).meet(Interval(TWO, None))
    assert Interval(ONE, TWO, high_open=True) == Interval(ONE, TWO).meet(Interval(None, TWO, high_open=True))
    assert Interval(ONE, THREE).covers(Interval(ONE, TWO))
    assert not Interval(ONE, THREE, low_open=True).covers(Interval(ONE, TWO))
    assert not Interval(ONE, TWO).covers(Interval(ONE, None))
    assert Interval(Fraction(3, 2), Fraction(5, 2)) == Interval(ONE, THREE).drawn_in(Fraction(1, 2))
    assert Interval(ONE, THREE).drawn_in(TWO).empty
    assert (Interval(ONE, THREE).width, Interval(ONE, None).width) == (TWO, None)
