"""A reading as a display shows it: verdict with the error of the instrument at that reading."""

from fractions import Fraction

import pytest
from bayleaf.limits.instrument import ranges_for
from bayleaf.limits.reading import Judged, is_overload, is_size_alone, judge_reading
from bayleaf.quantities import Limit, Problem, parse_limit
from instrument_kit import measure, workshop


def judged(text: str, limit: str, guard_band: str | None = None, **more: bool) -> Judged | Problem:
    """The verdict of the coarse meter: 0.5 % + 2 digits, 0.1 V to 60 V, 1 V to 600 V."""
    allowed = parse_limit(limit)
    assert isinstance(allowed, Limit)
    ranges = ranges_for(measure(), workshop().instruments["coarse"], None)
    return judge_reading(text, allowed, ranges, None if guard_band is None else Fraction(guard_band), **more)


@pytest.mark.parametrize(
    ("text", "limit", "guard_band", "exit_"),
    [
        # 59.5 V is wrong by 0.4975 V at most, 59.6 V by 0.498 V: the edge of 60 V (GUM 4.3.7, JCGM 106)
        ("59.5 V", "at most 60 V", None, "within"),
        ("59.6 V", "at most 60 V", None, "not_decided"),
        ("60.5 V", "at most 60 V", None, "not_decided"),  # read on the range of 600 V: 2.3 V
        ("62.3 V", "at most 60 V", None, "not_decided"),
        ("62.4 V", "at most 60 V", None, "above"),
        ("59.5 V", "at most 60 V", "1", "not_decided"),  # 1.155 · 0.4975 V
        ("59,4 V", "at most 60 V", "1", "within"),
        ("12.6 V", "11.5 V to 14.8 V", "1", "within"),
        ("11.7 V", "11.5 V to 14.8 V", "1", "not_decided"),
        ("11,2 V", "11.5 V to 14.8 V", "1", "below"),
        ("12600 mV", "11.5 V to 14.8 V", "1", "within"),
    ],
)
def test_verdict(text: str, limit: str, guard_band: str | None, exit_: str) -> None:
    """Within and outside only where reading and band lie wholly on one side."""
    found = judged(text, limit, guard_band)

    assert isinstance(found, Judged)
    assert exit_ == found.judgement.exit


def test_without_an_instrument_a_reading_is_taken_as_it_is() -> None:
    """The scan tool gives no error: the limit itself counts."""
    limit = parse_limit("at most 60 V")
    assert isinstance(limit, Limit)
    found = judge_reading("60 V", limit)

    assert isinstance(found, Judged)
    assert ("within", None) == (found.judgement.exit, found.band)


def test_at_a_proof_the_sign_does_not_count() -> None:
    """Probes the wrong way round: −400 V is not at most 5 V."""
    limit = parse_limit("at most 5 V")
    assert isinstance(limit, Limit)

    found = judge_reading("-400 V", limit, size_alone=True)

    assert isinstance(found, Judged)
    assert "above" == found.judgement.exit


@pytest.mark.parametrize(
    ("text", "alone"),
    [("at most 5 V", True), ("0 V to 5 V", True), ("-0.5 V to 0.5 V", False), ("at least -1 V", False)],
)
def test_after_a_discharge_a_limit_below_zero_asks_for_the_sign(text: str, alone: bool) -> None:
    """Else a minus would never be below it, and the exit that the author wrote for it would lead nowhere."""
    limit = parse_limit(text)
    assert isinstance(limit, Limit)

    assert alone == is_size_alone(limit)


@pytest.mark.parametrize("text", ["OL", "ol", "O.L", "0L", " O L ", "overload", "1 .", "1.", "----", "OPEN"])
def test_overload(text: str) -> None:
    """What displays show when they show no figure."""
    assert is_overload(text)
    found = judged(text, "at least 5 V")
    assert isinstance(found, Judged)
    assert found.value is None
    assert found.judgement.ask


@pytest.mark.parametrize("text", ["1", "1 V", "0", "10.", "12.6 V"])
def test_a_figure_is_no_overload(text: str) -> None:
    """A one without its point is a one."""
    assert not is_overload(text)


def test_an_overload_with_leads_that_hold_is_good_on_an_open_limit() -> None:
    """At least 5 MΩ, and the tester shows that it is more than it can show."""
    found = judged("OL", "at least 5 V", leads_hold=True)
    assert isinstance(found, Judged)
    assert "within" == found.judgement.exit


@pytest.mark.parametrize("text", ["12.6 A", "12.6", "much", ""])
def test_what_is_no_reading_of_this_kind_is_told(text: str) -> None:
    """A wrong unit, none, or no figure at all."""
    assert isinstance(judged(text, "at least 5 V"), Problem)
