"""Limits in words and as maps: what is read, what is refused, and with which words."""

import pytest
from bayleaf.quantities import Limit, Problem, limit_from_map, parse_limit

READ = [
    # text, canonical text, lower end, upper end
    ("11.5 V to 14.8 V", "11.5 V to 14.8 V", "11.5 V", "14.8 V"),
    ("11.5 to 14.8 V", "11.5 V to 14.8 V", "11.5 V", "14.8 V"),
    ("500 mΩ to 2 Ω", "500 mΩ to 2 Ω", "500 mΩ", "2 Ω"),
    ("−10 to 40 °C", "-10 °C to 40 °C", "-10 °C", "40 °C"),
    ("5 N·m to 25 N·m", "5 N·m to 25 N·m", "5 N·m", "25 N·m"),
    ("60 Ω to 60 Ω", "60 Ω to 60 Ω", "60 Ω", "60 Ω"),
    ("3/8 in to 1/2 in", "0.375 in to 0.5 in", "0.375 in", "0.5 in"),
    ("at least 500 kΩ", "at least 500 kΩ", "500 kΩ", None),
    ("At most 50 mV", "at most 50 mV", None, "50 mV"),
    ("60 Ω ± 5 %", "60 Ω ± 5 %", "57 Ω", "63 Ω"),
    ("1.1 mF ± 20 %", "1.1 mF ± 20 %", "0.88 mF", "1.32 mF"),
    ("60 Ω ± 3 Ω", "60 Ω ± 3 Ω", "57 Ω", "63 Ω"),
    ("60 Ω +- 3 Ω", "60 Ω ± 3 Ω", "57 Ω", "63 Ω"),
    ("60 Ω +/- 3 Ω", "60 Ω ± 3 Ω", "57 Ω", "63 Ω"),
    ("60±3 Ω", "60 Ω ± 3 Ω", "57 Ω", "63 Ω"),
    ("2 kΩ ± 50 Ω", "2 kΩ ± 50 Ω", "1.95 kΩ", "2.05 kΩ"),
    ("12.50 V ± 0.1 V", "12.50 V ± 0.1 V", "12.40 V", "12.60 V"),
    ("−5 V ± 10 %", "-5 V ± 10 %", "-5.5 V", "-4.5 V"),
    ("49 V +1 V −3 V", "49 V +1 V −3 V", "46 V", "50 V"),
    ("49 V −3 V +1 V", "49 V +1 V −3 V", "46 V", "50 V"),
    ("49 V +20 %/−10 %", "49 V +20 % −10 %", "44.1 V", "58.8 V"),
    ("10 +0.1/-0.2 mm", "10 mm +0.1 mm −0.2 mm", "9.8 mm", "10.1 mm"),
    ("20 lbf-ft +1 lbf-ft -2 lbf-ft", "20 lbf·ft +1 lbf·ft −2 lbf·ft", "18 lbf·ft", "21 lbf·ft"),
    # a tolerance of a temperature is a difference: 5 °C of it are 9 °F, not 41 °F
    ("60 °C ± 5 °C", "60 °C ± 5 K", "55 °C", "65 °C"),
    ("60 °C ± 5 K", "60 °C ± 5 K", "55 °C", "65 °C"),
    ("60 °C ± 9 °F", "60 °C ± 9 °F", "55 °C", "65 °C"),
    ("140 °F ± 9 °F", "140 °F ± 9 °F", "131 °F", "149 °F"),
    # lengths and gauge pressures may be negative
    ("−0.5 mm to 1.5 mm", "-0.5 mm to 1.5 mm", "-0.5 mm", "1.5 mm"),
    ("at least −0.8 bar", "at least -0.8 bar", "-0.8 bar", None),
    # the deviation does not convert exactly into inches, so the ends stand in its unit
    ("1 in ± 0.5 mm", "1 in ± 0.5 mm", "24.9 mm", "25.9 mm"),
]


@pytest.mark.parametrize(("written", "canonical", "low", "high"), READ)
def test_limits_in_words(written: str, canonical: str, low: str | None, high: str | None) -> None:
    """The ends are exact, in the author's own unit."""
    limit = parse_limit(written)
    assert isinstance(limit, Limit)
    assert (canonical, low, high) == (
        str(limit),
        None if limit.low is None else str(limit.low),
        None if limit.high is None else str(limit.high),
    )
    assert limit.origin == "in words"


HOW = "write it as `at least 5 V`, `at most 5 V`, `11 V to 14 V` or `12 V ± 5 %`"
NOT_A_LIMIT = "is not written as a limit"
REFUSED = [
    # other words for the same, each with the accepted ones
    ("less than 5 V", "limit-unreadable", f"`less than 5 V` {NOT_A_LIMIT}", "write `at most 5 V`"),
    ("more than 5 V", "limit-unreadable", f"`more than 5 V` {NOT_A_LIMIT}", "write `at least 5 V`"),
    ("< 5 V", "limit-unreadable", f"`< 5 V` {NOT_A_LIMIT}", "write `at most 5 V`"),
    ("≥ 5 V", "limit-unreadable", f"`≥ 5 V` {NOT_A_LIMIT}", "write `at least 5 V`"),
    ("max. 5 V", "limit-unreadable", f"`max. 5 V` {NOT_A_LIMIT}", "write `at most 5 V`"),
    ("5 V min", "limit-unreadable", f"`5 V min` {NOT_A_LIMIT}", "write `at least 5 V`"),
    ("up to 5 V", "limit-unreadable", f"`up to 5 V` {NOT_A_LIMIT}", "write `at most 5 V`"),
    ("5 V or less", "limit-unreadable", f"`5 V or less` {NOT_A_LIMIT}", "write `at most 5 V`"),
    ("between 11 V and 14 V", "limit-unreadable", f"`between 11 V and 14 V` {NOT_A_LIMIT}",
     "write `11 V to 14 V`"),
    ("11 – 14 V", "limit-unreadable", f"`11 – 14 V` {NOT_A_LIMIT}", "write `11 to 14 V`"),
    ("11-14 V", "limit-unreadable", f"`11-14 V` {NOT_A_LIMIT}", "write `11 to 14 V`"),
    ("11 V … 14 V", "limit-unreadable", f"`11 V … 14 V` {NOT_A_LIMIT}", "write `11 V to 14 V`"),
    ("at least 5 V, at most 6 V", "limit-unreadable", f"`at least 5 V, at most 6 V` {NOT_A_LIMIT}",
     "write `5 V to 6 V`"),
    ("(60 ± 3) Ω", "limit-unreadable", f"`(60 ± 3) Ω` {NOT_A_LIMIT}", "write `60 Ω ± 3 Ω`"),
    ("about 60 Ω", "limit-unreadable", f"`about 60 Ω` {NOT_A_LIMIT}",
     "write how far it may be off, such as `60 Ω ± 10 %`"),
    # no limit at all
    ("5 V", "limit-unreadable", "`5 V` does not say on which side of it a reading is good",
     "write `at least 5 V`, `at most 5 V` or `5 V ± 5 %`"),
    ("5 min", "limit-unreadable", "`5 min` does not say on which side of it a reading is good",
     "write `at least 5 min`, `at most 5 min` or `5 min ± 5 %`"),
    ("ok", "limit-unreadable", f"`ok` {NOT_A_LIMIT}", HOW),
    ("", "limit-unreadable", "there is no limit here", HOW),
    # tolerances
    ("49 V +1 V", "limit-unreadable", f"`49 V +1 V` {NOT_A_LIMIT}",
     "write both tolerances, such as `49 V +5 % −10 %`, or a range, such as `49 V to 50 V`"),
    ("49 V +1 V +3 V", "limit-unreadable", f"`49 V +1 V +3 V` {NOT_A_LIMIT}",
     "write one tolerance with + and one with −, or the two limits"),
    ("60 Ω ± −3 Ω", "limit-unreadable", f"`−3 Ω` {NOT_A_LIMIT}",
     "write a tolerance with one sign, such as `± 5 %`"),
    ("60 Ω ± 3", "unit-missing", "`3` has no unit", "write `3 Ω` or `3 %`"),
    ("60 ± 5 %", "unit-missing", "`60` has no unit", "write the unit after it, such as `60 V` or `60 mV`"),
    ("60 °C ± 5 %", "limit-unreadable",
     "`60 °C ± 5 %` takes a percentage of a temperature, which depends on where its scale begins",
     "write the lower and the upper limit, such as `60 °C to 61 °C`"),
    ("50 % ± 5 %", "limit-unreadable", "`50 % ± 5 %` can mean percent of the value or points of percent",
     "write the lower and the upper limit, such as `50 % to 51 %`"),
    ("30 psi ± 10 kPa", "limit-unreadable",
     "`30 psi ± 10 kPa` mixes two units that do not convert without rounding",
     "write the lower and the upper limit, such as `30 psi to 31 psi`"),
    # values that are no better in a limit than alone
    ("1.000 V to 2 V", "number-ambiguous", "`1.000` can be read in two ways", "write `1 V` if the point stands before decimals, `1000 V` if it parts thousands"),
    ("at most 5 mohm", "unit-ambiguous", "`5 mohm` can mean milliohm or megohm",
     "write `5 mOhm` for a milliohm or `5 MOhm` for a megohm"),
    ("11 V to 14", "unit-missing", "`14` has no unit", "write the unit after it, such as `14 V` or `14 mV`"),
    ("11 V to 14 A", "unit-of-another-quantity", "`14 A` is a current, but a voltage is expected",
     "write a voltage, such as `12 V`"),
    # limits that nothing can satisfy
    ("14.8 V to 11.5 V", "limit-reversed", "`14.8 V to 11.5 V` runs from high to low",
     "write `11.5 V to 14.8 V`"),
    ("2 Ω to 500 mΩ", "limit-reversed", "`2 Ω to 500 mΩ` runs from high to low", "write `500 mΩ to 2 Ω`"),
    ("at least −5 Ω", "limit-impossible", "`at least −5 Ω` is impossible", None),
    ("at most −300 °C", "limit-impossible", "`at most −300 °C` is impossible", None),
    ("0.2 Ω ± 0.3 Ω", "limit-impossible", "`0.2 Ω ± 0.3 Ω` is impossible: it reaches `-0.1 Ω`",
     "write `at most 0.5 Ω`, or a smaller tolerance"),
]  # fmt: skip


@pytest.mark.parametrize(("written", "rule", "message", "mend"), REFUSED)
def test_limits_are_refused_with_what_to_write(written, rule, message, mend) -> None:
    """Rule and words, whole."""
    found = parse_limit(written)
    assert isinstance(found, Problem)
    assert (rule, message, mend) == (found.rule, found.message, found.help)


@pytest.mark.parametrize(
    ("written", "part"),
    [
        ("  11.5 V to 14 Vv", "Vv"),
        ("1.000 V to 2 V", "1.000"),
        ("60 Ω ± 5 Nm", "Nm"),
        (" 14 V to 11 V ", "14 V to 11 V"),
        ("at least 5 mohm", "mohm"),
    ],
)
def test_offsets_enclose_the_faulty_part(written: str, part: str) -> None:
    """Counted in the text as given, blanks in front included."""
    found = parse_limit(written)
    assert isinstance(found, Problem)
    assert part == written[found.start : found.end]


def test_why_a_limit_is_impossible() -> None:
    """The reason is physical, and said."""
    assert parse_limit("at most −5 Ω").because == "A resistance is never negative."
    assert parse_limit("at least −300 °C").because == "Nothing is colder than absolute zero, -273.15 °C."
    assert parse_limit("at least −460 °F").because == "Nothing is colder than absolute zero, -459.67 °F."


def test_a_limit_must_fit_what_is_measured() -> None:
    """`expected` reaches the values inside."""
    found = parse_limit("at most 5 A", "voltage drop")
    assert isinstance(found, Problem)
    assert found.message == "`5 A` is a current, but a voltage drop is expected"


def test_limits_as_maps() -> None:
    """The four keys of a map."""
    both = limit_from_map(at_least="11.5 V", at_most="14.8 V")
    assert (str(both), both.origin) == ("11.5 V to 14.8 V", "map")
    with_nominal = limit_from_map(at_least="355 V", at_most="410 V", nominal="400 V")
    assert tuple(map(str, (with_nominal.low, with_nominal.high, with_nominal.nominal))) == (
        "355 V",
        "410 V",
        "400 V",
    )
    assert str(limit_from_map(at_least="5 MOhm", expected="insulation resistance")) == "at least 5 MΩ"


@pytest.mark.parametrize(
    ("tolerance", "canonical"),
    [
        ("5 %", "60 Ω ± 5 %"),
        ("± 5 %", "60 Ω ± 5 %"),
        ("3 Ω", "60 Ω ± 3 Ω"),
        ("+1 Ω −3 Ω", "60 Ω +1 Ω −3 Ω"),
        ("+20 %/−10 %", "60 Ω +20 % −10 %"),
    ],
)
def test_tolerances_of_maps(tolerance: str, canonical: str) -> None:
    """With or without its sign; the limit is the one that the words would give."""
    limit = limit_from_map(nominal="60 Ω", tolerance=tolerance)
    words = parse_limit(canonical)
    assert canonical == str(limit)
    assert (words.low, words.high, words.nominal) == (limit.low, limit.high, limit.nominal)


MAPS_REFUSED = [
    ({"at_least": "5 V", "at_most": "3 V"}, "at_most", "limit-reversed",
     "`5 V to 3 V` runs from high to low", "write `at_least: 3 V` and `at_most: 5 V`"),
    ({"at_least": "5 V", "at_most": "6 V", "nominal": "7 V"}, "nominal", "limit-impossible",
     "the nominal value `7 V` lies outside its limits, 5 V to 6 V", None),
    ({"at_most": "−5 Ω"}, "at_most", "limit-impossible", "`−5 Ω` is impossible", None),
    ({"at_least": "5 V", "at_most": "6 A"}, "at_most", "unit-of-another-quantity",
     "`6 A` is a current, but a voltage is expected", "write a voltage, such as `12 V`"),
    ({"nominal": "5 V"}, "nominal", "limit-unreadable", "`5 V` alone sets no limit",
     "write `tolerance:`, `at_least:` or `at_most:` too"),
    ({"tolerance": "5 %"}, "tolerance", "limit-unreadable", "`5 %` has no nominal value beside it",
     "write `nominal:` too"),
    ({"nominal": "5 V", "tolerance": "5 %", "at_most": "6 V"}, "tolerance", "limit-unreadable",
     "`5 %` says again what `at_least` and `at_most` say",
     "write either the tolerance or `at_least:` and `at_most:`"),
    ({"nominal": "60 Ω", "tolerance": "3"}, "tolerance", "unit-missing", "`3` has no unit",
     "write `3 Ω` or `3 %`"),
    ({}, "at_least", "limit-unreadable", "there is no limit here",
     "write `at_least:`, `at_most:`, or `nominal:` with `tolerance:`"),
]  # fmt: skip


@pytest.mark.parametrize(("parts", "key", "rule", "message", "mend"), MAPS_REFUSED)
def test_maps_are_refused_at_their_key(parts, key, rule, message, mend) -> None:
    """The problem stands at the key whose value is at fault."""
    (found,) = limit_from_map(**parts)
    assert (key, rule, message, mend) == (
        found.key,
        found.problem.rule,
        found.problem.message,
        found.problem.help,
    )
    assert len(parts.get(key, "")) >= found.problem.end


def test_every_faulty_part_of_a_map_is_told_at_once() -> None:
    """Not only the first."""
    found = limit_from_map(at_least="five V", at_most="6 mohm")
    assert [key for key, _ in found] == ["at_least", "at_most"]
