"""A reading judged by the page is judged as Python judges it: the error at the reading, its band, the verdict."""

from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import product
from typing import Any, NamedTuple

import pytest
from bayleaf.limits.instrument import ranges_for
from bayleaf.limits.reading import OVERLOADS, Judged, is_overload, judge_reading
from bayleaf.model.workshop import Range
from bayleaf.pages.js_literal import js_literal
from bayleaf.pages.working_readings import _range, spellings_typed
from bayleaf.quantities import Limit, Problem, Quantity, parse_quantity, unit
from bayleaf.quantities.numbers import plain
from instrument_kit import limit, measure, workshop
from js_kit import Node, asset

#: Instrument, what is measured, unit of the reading, the last place shown there, limits.
INSTRUMENTS: tuple[tuple[str, str, str, str, tuple[str, ...]], ...] = (
    ("coarse", "voltage", "V", "0.1", ("at most 60 V", "11.5 V to 14.8 V", "at least 5 V", "-20 V to -5 V", "at most 300 V")),
    ("fine", "voltage", "V", "0.01", ("at most 5 V", "12.60 V ± 0.15 V", "at least 5.9 V", "5.99 V to 6.01 V")),
    ("fine", "voltage", "mV", "1", ("at most 0.5 V", "5990 mV to 6100 mV")),
    ("coarse", "resistance", "Ω", "0.1", ("at most 5 Ω", "60 Ω ± 5 %", "at least 590 Ω")),
    ("coarse", "temperature", "°C", "0.1", ("at most 60 °C", "18 °C to 25 °C", "at least -10 °C")),
    ("", "voltage", "V", "0.1", ("at most 60 V", "11.5 V to 14.8 V")),
)  # fmt: skip
GUARDS = (None, "1", "0.5")


class Case(NamedTuple):
    """A reading with all that judges it."""

    text: str
    unit: str
    limit: Limit
    ranges: tuple[Range, ...]
    guard: str | None

    @property
    def of_python(self) -> Judged | Problem:
        return judge_reading(f"{self.text} {self.unit}", self.limit, self.ranges, self.guard and Fraction(self.guard))


def edges(bound: Quantity, sign: int, case: Case, step: Fraction) -> list[Fraction]:
    """The readings on both sides of where the verdict turns, found by asking Python, and the limit itself."""
    of = unit(case.unit)
    middle = round((bound.si - of.offset) / of.factor / step)

    def verdict(count: int) -> Any:
        found = case._replace(text=written(count * step)).of_python
        assert isinstance(found, Judged)
        return found.judgement

    counts = [middle - 1, middle, middle + 1]
    for way in (sign, -sign):
        at = middle
        while verdict(at + way) == verdict(middle) and abs(at - middle) < 400:
            at += way
        counts += [at, at + way]
    return [count * step for count in counts]


def written(value: Fraction) -> str:
    """A number as a display shows it, not to be read in two ways."""
    found = parse_quantity(f"{float(value):.2f} V")
    assert isinstance(found, Quantity)
    return plain(found.value)


def at_edges(case: Case, step: Fraction) -> list[Case]:
    """Readings at both ends of a limit."""
    return [
        case._replace(text=written(one))
        for bound, sign in ((case.limit.low, 1), (case.limit.high, -1)) if bound is not None
        for one in edges(bound, sign, case, step)
    ]  # fmt: skip


@cache
def all_cases() -> list[Case]:
    cases: list[Case] = []
    for (name, what, symbol, step, limits), guard in product(INSTRUMENTS, GUARDS):
        ranges = ranges_for(measure(what), workshop().instruments[name], None) if name else ()
        for words in limits:
            case = Case("0", symbol, limit(words), ranges, guard)
            cases += at_edges(case, Fraction(step))
            if name == "coarse":  # a last place that is not stated, and an error that is not
                cases += at_edges(
                    case._replace(ranges=tuple(replace(one, resolution=None) for one in ranges)), Fraction(step)
                )
                cases += at_edges(
                    case._replace(ranges=tuple(replace(one, accuracy=None) for one in ranges)), Fraction(step)
                )
    return list(dict.fromkeys(cases))


def field(case: Case) -> dict[str, Any]:
    """The field as the page holds it."""
    ends = {"low": case.limit.low, "high": case.limit.high}
    return {
        "unit": case.unit,
        "ladder": [case.unit],
        "places": {},
        "ranges": [_range(one) for one in case.ranges],
        "guard": case.guard,
        "limit": {name: None if end is None else str(end.si) for name, end in ends.items()},
    }


def in_javascript(node: Node, cases: list[Case], script: str | None = None) -> list[Any]:
    """What the page says: exit, error and band."""
    units = {
        one: {"factor": str(unit(one).factor), "offset": str(unit(one).offset), "spellings": spellings_typed(unit(one))}
        for one in {case.unit for case in cases}
    }
    calls = js_literal([[case.text, field(case)] for case in cases])
    program = asset("exact.js") + asset("verdict.js") + (script or asset("reading.js"))
    return node(f"""{program}
    const units = {js_literal(units)};
    const text = (one) => one && one.map(String);
    answer = {calls}.map(([typed, field]) => {{
      const found = bayleafReading.judge(typed, field, units);
      return found.problem ?? [found.exit, text(found.error), text(found.band)];
    }});""")


def differences(found: list[Any], cases: list[Case]) -> list[Any]:
    wrong = []
    for case, one in zip(cases, found, strict=True):
        expected = case.of_python
        assert isinstance(expected, Judged)
        actual = one
        if not isinstance(one, str):
            error, band = (None if part is None else Fraction(int(part[0]), int(part[1])) for part in one[1:])
            actual = (one[0], error, band)
        if (expected.judgement.exit, expected.error, expected.band) != actual:
            wrong.append((case, actual))
    return wrong


def test_the_table_holds_both_sides_of_every_edge() -> None:
    """At least 300 readings; every verdict many times, and readings one digit apart whose verdicts differ."""
    exits = [case.of_python.judgement.exit for case in all_cases() if isinstance(case.of_python, Judged)]

    assert len(all_cases()) >= 300
    assert {"within", "below", "above", "not_decided"} == set(exits)
    assert min(exits.count(one) for one in set(exits)) >= 30


def test_the_page_judges_as_python_does(node: Node) -> None:
    """Exit, error and band, exactly."""
    assert [] == differences(in_javascript(node, all_cases()), all_cases())


@pytest.mark.parametrize(
    ("right", "planted"),
    [
        ('fraction("1.154701")', 'fraction("1.1547")'),
        ("greater(fraction(range.digits), HALF)", "fraction(range.digits)"),
        ("isBelow(top, size(minus(value, fraction(one.offset))))", "isBelow(top, size(value))"),
        ("const shown = size(minus(value, fraction(range.offset)))", "const shown = size(value)"),
        ("range.resolution === null ? times(fraction(range.top), HUNDREDTH)", "range.resolution === null ? fraction(range.top)"),
        ("if (range.percent === null) return null;", "if (range.percent === null) return fraction(range.top);"),
        ("isBelow(top, fraction(found.top))", "isBelow(fraction(found.top), top)"),
        ("greater(error, times(times(fraction(guard), error), EXPANDED))", "times(times(fraction(guard), error), EXPANDED)"),
        ("band === null ? null : text(band)", "null"),
    ],
)  # fmt: skip
def test_a_planted_fault_is_found(node: Node, right: str, planted: str) -> None:
    """The table is not blind."""
    script = asset("reading.js")
    assert right in script

    assert [] != differences(in_javascript(node, all_cases(), script.replace(right, planted)), all_cases())


def test_an_overload_is_known_by_both(node: Node) -> None:
    """The words of displays, and figures that are none of them."""
    typed = [*OVERLOADS, "O.L", " ol ", "1.", "1 .", "1", "10.", "12.6", ""]
    program = f"{asset('exact.js')}{asset('verdict.js')}{asset('reading.js')}"

    expected = [is_overload(one) for one in typed]
    assert expected == node(f"{program}\nanswer = {js_literal(typed)}.map(bayleafReading.isOverload);")


@pytest.mark.parametrize(
    ("typed", "recorded"),
    [
        ("12,6", "12.6 V"), ("12.6 V", "12.6 V"), ("12,6V", "12.6 V"), ("-3 V", "-3 V"), ("−3,50", "-3.50 V"),
        ("12600 mV", "12600 mV"), ("1.1250 kV", "1.1250 kV"), ("0,125", "0.125 V"), ("12 345.6", "12345.6 V"),
        ("3 volts", "3 V"), ("007", "007 V"),
    ],
)  # fmt: skip
def test_a_typed_reading_becomes_text_that_a_record_may_hold(node: Node, typed: str, recorded: str) -> None:
    """Comma or point, with its unit or without; what is recorded is read by Python as what was meant."""
    units = {
        one: {"factor": str(unit(one).factor), "offset": "0", "spellings": spellings_typed(unit(one))}
        for one in ("mV", "V", "kV")
    }
    given = {"unit": "V", "ladder": ["mV", "V", "kV"], "places": {}, "ranges": []}
    program = f"{asset('exact.js')}{asset('verdict.js')}{asset('reading.js')}"
    call = f"bayleafReading.judge({js_literal(typed)}, {js_literal(given)}, {js_literal(units)})"
    found = node(f"{program}\nconst found = {call}; answer = [found.text, found.value.map(String)];")
    parsed = parse_quantity(recorded)

    assert recorded == found[0]
    assert isinstance(parsed, Quantity)
    assert parsed.si == Fraction(int(found[1][0]), int(found[1][1]))


def test_three_decimals_are_taken_where_the_display_has_them(node: Node) -> None:
    """And written so that a file takes them too; elsewhere they can be read in two ways and are refused."""
    units = {"V": {"factor": "1", "offset": "0", "spellings": ["V"]}}
    shown = {"unit": "V", "ladder": ["V"], "places": {"V": 3}, "ranges": []}
    program = f"{asset('exact.js')}{asset('verdict.js')}{asset('reading.js')}"
    calls = f"[{js_literal(shown)}, {js_literal({**shown, 'places': {}})}]"
    found = node(f"""{program}
    answer = {calls}.map((field) => bayleafReading.judge("1,125", field, {js_literal(units)}));
    answer = answer.map((one) => one.problem ?? one.text);""")

    assert "1.1250 V" == found[0]
    assert found[1].startswith("`1,125` can be read in two ways")


def test_reversed_leads_prove_nothing_dead(node: Node) -> None:
    """Minus 400 V is below "at most 5 V" as a number; where only the size counts it is not dead."""
    units = {"V": {"factor": "1", "offset": "0", "spellings": ["V"]}}
    proof = {
        "unit": "V", "ladder": ["V"], "places": {}, "ranges": [], "sizeOnly": True, "limit": {"low": None, "high": "5"},
    }  # fmt: skip
    program = f"{asset('exact.js')}{asset('verdict.js')}{asset('reading.js')}"
    call = (
        f'["-400", "−400 V", "-0.4"].map((one) => bayleafReading.judge(one, {js_literal(proof)}, {js_literal(units)}))'
    )

    found = node(f"{program}\nanswer = {call}.map((one) => [one.exit, one.text]);")
    assert [["above", "-400 V"], ["above", "-400 V"], ["within", "-0.4 V"]] == found
