"""The verdict in JavaScript is the verdict of Python, exactly, on one table of readings."""

from collections import Counter
from fractions import Fraction
from typing import Any

import pytest
from bayleaf.pages.js_literal import js_literal
from bayleaf.quantities import Limit, Problem, Quantity, judge, judge_overload, parse_limit, parse_quantity, unit
from bayleaf.quantities.numbers import Number, read_number
from data.verdict_cases import BY_HAND, CASES, Case
from js_kit import Node, asset


def limit_of(case: Case) -> Limit:
    limit = parse_limit(case.limit)
    assert isinstance(limit, Limit), limit
    return limit


def in_python(case: Case) -> tuple[str, str | None]:
    """What Python says."""
    reading = None if case.reading is None else parse_quantity(f"{case.reading} {case.unit}", decimals=3)
    assert reading is None or isinstance(reading, Quantity), reading
    found = judge(reading, limit_of(case), None if case.band is None else Fraction(case.band))
    return found.verdict.value, found.side


def call(case: Case) -> list[Any]:
    """What the script is given: texts of exact fractions."""
    limit, of = limit_of(case), unit(case.unit)
    ends = {name: None if end is None else str(end.si) for name, end in (("low", limit.low), ("high", limit.high))}
    band = None if case.band is None else str(Fraction(case.band))
    return [case.reading, {"factor": str(of.factor), "offset": str(of.offset), "places": 3}, ends, band]


def in_javascript(node: Node, cases: tuple[Case, ...], verdict: str | None = None) -> list[tuple[str, str | None]]:
    """What the script says."""
    calls = js_literal([call(case) for case in cases])
    program = asset("exact.js") + (verdict or asset("verdict.js"))
    found = node(f"{program}\nanswer = {calls}.map((given) => bayleafVerdict.judge(...given));")
    return [(one.get("verdict"), one.get("side")) for one in found]


def wrong(found: list[tuple[str, str | None]], cases: tuple[Case, ...] = CASES) -> list[Any]:
    return [
        (case, one) for case, one in zip(cases, found, strict=True) if one != (case.verdict, case.side)
    ]  # fmt: skip


def test_the_table_holds_every_kind_of_verdict() -> None:
    """At least 300 readings, each verdict and each side many times; the first are written by hand."""
    kinds = Counter((case.verdict, case.side) for case in CASES)

    assert len(CASES) >= 300 and len(BY_HAND) >= 30
    assert {
        ("within", None),
        ("outside", "below"),
        ("outside", "above"),
        ("not decided", None),
        ("no reading", None),
    } == set(kinds)
    assert min(count for (verdict, _), count in kinds.items() if verdict != "no reading") >= 30


def test_python_says_what_the_table_says() -> None:
    """The judge of the checker."""
    assert [] == wrong([in_python(case) for case in CASES])


def test_javascript_says_what_the_table_says(node: Node) -> None:
    """The judge of the page."""
    assert [] == wrong(in_javascript(node, CASES))


@pytest.mark.parametrize(
    ("right", "planted"),
    [
        ("isBelow(one, fraction(limit.low))", "!isBelow(fraction(limit.low), one)"),
        ("if (below(highest))", "if (below(lowest))"),
        ("if (above(lowest))", "if (above(highest))"),
        ("size(fraction(band ?? \"0\"))", "fraction(\"0\")"),
        ("plus(times(given.value, fraction(unit.factor)), fraction(unit.offset))", "times(given.value, fraction(unit.factor))"),
        ('verdict: "no reading"', 'verdict: "within"'),
    ],
)  # fmt: skip
def test_a_wrong_verdict_is_found(node: Node, right: str, planted: str) -> None:
    """The table is not blind: whatever is turned round, some reading shows it."""
    script = asset("verdict.js")
    assert right in script

    assert [] != wrong(in_javascript(node, CASES, script.replace(right, planted)))


OVERLOADS = [
    (text, holds) for text in ("at least 5 MΩ", "at most 5 Ω", "50 Ω to 65 Ω", "60 Ω ± 5 %") for holds in (False, True)
]


def test_an_overload_is_judged_alike(node: Node) -> None:
    """With leads that hold and without, on limits open upwards and on others."""
    limits = [parse_limit(text) for text, _ in OVERLOADS]
    ends = [[{"low": one.low and str(one.low.si), "high": one.high and str(one.high.si)}, holds]
            for one, (_, holds) in zip(limits, OVERLOADS, strict=True)]  # fmt: skip
    found = node(
        f"{asset('exact.js')}{asset('verdict.js')}\nanswer = {js_literal(ends)}.map((one) => bayleafVerdict.judgeOverload(...one));"
    )

    expected = [judge_overload(one, holds) for one, (_, holds) in zip(limits, OVERLOADS, strict=True)]
    assert [(one.verdict.value, one.ask) for one in expected] == [(one["verdict"], one["ask"]) for one in found]


TYPED = (
    "12.6", "12,6", " 12,6 ", "-3", "−3,5", "+4", "0.125", "1.000", "1,250", "410.500", "1234.567", "12 345.6", "12\u00a0345", "12 34",
    "1,", ".5", "1.2.3", "1,234,567", "1'000", "", "abc", "12 V", "5k", "1e3", "3/8", "--2", "- 2", "1234567890123456789012345",
    "٣", "½", "1.10", "0,001", "007", "1 000,5",
)  # fmt: skip


def test_typed_numbers_are_read_as_python_reads_them(node: Node) -> None:
    """The same value, or refused by both; fractions of an inch are left to the command line."""
    found = node(
        f"{asset('exact.js')}\nanswer = {js_literal(TYPED)}.map((one) => {{ const r = bayleafExact.read(one); return r.problem ?? r.value.map(String); }});"
    )

    for text, one in zip(TYPED, found, strict=True):
        start, end = len(text) - len(text.lstrip()), len(text.rstrip())
        read = read_number(text, start, end)
        refused = isinstance(read, Problem) or read.end < end
        assert refused == isinstance(one, str) or text == "3/8", (text, read, one)
        if isinstance(read, Number) and not isinstance(one, str):
            assert Fraction(read.value) == Fraction(int(one[0]), int(one[1])), text


def test_a_number_that_can_be_read_in_two_ways_is_mended(node: Node) -> None:
    """With both ways, as on the command line."""
    script = (
        f"{asset('exact.js')}\nanswer = ['1,250', '-410.500', '1.125'].map((one) => bayleafExact.read(one).problem);"
    )

    assert [
        "`1,250` can be read in two ways; write `1.25` if the comma stands before decimals, `1250` if it parts thousands",
        "`-410.500` can be read in two ways; write `-410.5` if the point stands before decimals, `-410500` if it parts thousands",
        "`1.125` can be read in two ways; write `1.1250` if the point stands before decimals, `1125` if it parts thousands",
    ] == node(script)


def test_exact_numbers_become_the_nearest_number(node: Node) -> None:
    """As a fraction of Python does."""
    fractions = [Fraction(n, d) for n in (1, -7, 10**25 + 1, 123456789) for d in (1, 3, 7, 10**9, 10**30, 48260)]
    texts = js_literal([str(one) for one in fractions])
    program = f"{asset('exact.js')}\nanswer = {texts}.map((one) => bayleafExact.number(bayleafExact.fraction(one)));"

    assert [float(one) for one in fractions] == [float(one) for one in node(program)]
