"""The page computes from readings as Python does, and takes a value that somebody typed where Python does."""

from fractions import Fraction
from typing import Any

import pytest
from bayleaf.model.record import Entry
from bayleaf.pages.js_literal import js_literal
from bayleaf.pages.working_readings import spellings_typed
from bayleaf.quantities import Quantity, parse_quantity, unit
from bayleaf.records.computed import agrees, computed_from
from computed_kit import VOLTMETER, step, taken
from js_kit import Node, asset

UNITS = {
    "voltage": ("mV", "V", "kV"), "resistance": ("Ω", "kΩ", "MΩ"), "temperature": ("°C", "°F"), "pressure": ("mbar", "bar"),
}  # fmt: skip

#: Formula, what is measured, the readings of each step, values typed for the result.
CASES: list[tuple[str, str, dict[str, str], list[str]]] = [
    ("difference", "voltage", {"a": "12.65 V", "b": "12.41 V"},
     ["0.24 V", "0.2 V", "0.3 V", "240 mV", "-0.24 V", "0.2450 V", "0.2460 V", "1 V", "0 V"]),
    ("difference", "pressure", {"a": "1.3 bar", "b": "800 mbar"}, ["0.5 bar", "0.01 bar", "500 mbar", "1 bar", "0.4 bar"]),
    ("average", "resistance", {"a": "59.8 Ω", "b": "60.1 Ω", "c": "60.1 Ω"}, ["60 Ω", "60.0 Ω", "60.1 Ω", "61 Ω"]),
    ("average", "resistance", {"a": "1 Ω", "b": "1 Ω", "c": "2 Ω"}, ["1.33330 Ω", "1.33350 Ω", "1.3 Ω"]),
    ("parallel", "resistance", {"a": "1 MΩ", "b": "1.5 MΩ"}, ["600 kΩ", "0.6 MΩ", "0.60 MΩ", "0.61 MΩ", "601 kΩ"]),
    ("parallel", "resistance", {"a": "1 MΩ, 2 MΩ", "b": "1.5 MΩ"}, ["0.6 MΩ", "0.86 MΩ"]),
    ("parallel", "resistance", {"a": "1 MΩ", "b": "OL"}, ["1 MΩ", "2 MΩ"]),
    ("parallel", "resistance", {"a": "1 MΩ, OL", "b": "1.5 MΩ"}, ["0.6 MΩ", "1.5 MΩ"]),
    ("parallel", "resistance", {"a": "OL", "b": "OL"}, ["5 MΩ"]),
    ("parallel", "resistance", {"a": "0 Ω", "b": "1 Ω"}, ["1 Ω"]),
    ("difference", "voltage", {"a": "5 V", "b": "OL"}, ["5 V"]),
    ("insulation by voltmeter", "voltage", {"a": "400 V", "b": "372.1 V", "c": "27.9 V", "d": "219.2 V"},
     ["150 kΩ", "149.97 kΩ", "149.96 kΩ", "151 kΩ", "0.15 MΩ", "15 kΩ"]),
    ("insulation by voltmeter", "voltage", {"a": "400 V", "b": "27.9 V", "c": "372.1 V", "d": "219.2 V"}, ["150 kΩ", "15 kΩ"]),
    ("insulation by voltmeter", "voltage", {"a": "400 V", "b": "300 V", "c": "200 V", "d": "219 V"}, ["150 kΩ"]),
    ("insulation by voltmeter", "voltage", {"a": "400 V", "b": "372 V", "c": "30 V", "d": "219 V"}, ["150 kΩ"]),
    ("insulation by voltmeter", "voltage", {"a": "400 V", "b": "300 V", "c": "28 V", "d": "300 V"}, ["150 kΩ"]),
    ("insulation by voltmeter", "voltage", {"a": "400 V", "b": "400 V", "c": "0 V", "d": "400 V"}, ["0 kΩ", "150 kΩ"]),
    ("insulation by voltmeter", "voltage", {"a": "400 V", "b": "399 V", "c": "0 V", "d": "399.5 V"}, ["150 kΩ"]),
    ("insulation by voltmeter", "voltage", {"a": "400 V", "b": "0 V", "c": "0 V", "d": "1 V"}, ["150 kΩ"]),
    ("insulation by voltmeter", "voltage", {"a": "400 V", "b": "300 V", "c": "28 V", "d": "310 V"}, ["150 kΩ"]),
    ("insulation by voltmeter", "voltage", {"a": "400 V", "b": "300 V", "c": "28 V", "d": "0 V"}, ["150 kΩ"]),
]  # fmt: skip

_PROGRAM = """
answer = CASES.map(({ formula, resistor, readings, result, typed }) => {
  const steps = Object.entries(readings).map(([path, entries]) => ({ path, entries, readings: entries.map(() => FIELD(entries)) }));
  const way = { byPath: new Map(steps.map((one) => [one.path, one])), state: (one) => ({ readings: one.entries }) };
  const step = { formula, resistor, of: Object.keys(readings) };
  const desk = { way, data: { units: UNITS } };
  const value = bayleafJobComputed.computed(step, desk);
  const judged = (one) => bayleafReading.judge(one, { unit: result[0], ladder: result, places: Object.fromEntries(result.map((one) => [one, 3])), ranges: [] }, UNITS);
  return [value && value.map(String), typed.map((one) => bayleafJobComputed.agrees(judged(one), step, desk))];
});
"""


def _entry(one: Entry) -> dict[str, Any]:
    return {"reading": "no reading" if one.no_reading else str(one.reading), "verdict": one.verdict}


def in_javascript(node: Node, script: str) -> list[Any]:
    """The computed value of each case, and which of its typed values the page takes."""
    symbols = [symbol for all_symbols in UNITS.values() for symbol in all_symbols]
    units = {
        one: {"factor": str(unit(one).factor), "offset": str(unit(one).offset), "spellings": spellings_typed(unit(one))}
        for one in symbols
    }
    cases = [
        {
            "formula": formula,
            "resistor": "200000" if formula == "insulation by voltmeter" else None,
            "readings": {name: [_entry(one) for one in found] for name, found in taken(**readings).items()},
            "result": UNITS["resistance" if formula == "insulation by voltmeter" else quantity],
            "typed": typed,
        }
        for formula, quantity, readings, typed in CASES
    ]
    field = f"""const FIELD = (entries) => {{
      const symbol = entries.map((one) => one.reading.split(" ")[1]).find((one) => one in UNITS) ?? "MΩ";
      const ladder = Object.values({js_literal({name: list(all_) for name, all_ in UNITS.items()})}).find((one) => one.includes(symbol));
      return {{ unit: symbol, ladder, places: {{}}, ranges: [] }};
    }};"""
    modules = "".join(asset(name) for name in ("exact.js", "verdict.js", "reading.js")) + script
    return node(f"{modules}\nconst UNITS = {js_literal(units)};\n{field}\nconst CASES = {js_literal(cases)};{_PROGRAM}")


def differences(found: list[Any]) -> list[Any]:
    wrong = []
    for (formula, quantity, readings, typed), (value, takes) in zip(CASES, found, strict=True):
        more = VOLTMETER if formula == "insulation by voltmeter" else ""
        size = computed_from(step(formula, list(readings), quantity, more), taken(**readings)).size
        actual = None if value is None else float(Fraction(int(value[0]), int(value[1])))
        if (None if size is None else pytest.approx(float(size), rel=1e-9)) != actual:
            wrong.append((readings, actual))
        for one, is_taken in zip(typed, takes, strict=True):
            entered = parse_quantity(one)
            assert isinstance(entered, Quantity), one
            if (size is None or agrees(entered, size)) != is_taken:
                wrong.append((readings, one, is_taken))
    return wrong


def test_the_page_takes_what_python_takes(node: Node) -> None:
    """For every formula, where nothing can be computed, and on both sides of half a last digit."""
    found = in_javascript(node, asset("job_computed.js"))

    assert [] == differences(found)
    takes = [one for _, all_taken in found for one in all_taken]
    assert min(takes.count(True), takes.count(False)) >= 15


@pytest.mark.parametrize(
    ("right", "planted"),
    [
        ("[1n, 2n * 10n **", "[1n, 1n * 10n **"),
        ('fraction("5/100000")', 'fraction("5/1000")'),
        ("if (isBelow(most, loaded) ||", "if ("),
        ("higher(v1, v2)", "v1"),
        ('fraction("0.5/100")', 'fraction("0")'),
        ("minus(values[0], values[1])", "minus(values[1], values[0])"),
    ],
)
def test_a_planted_fault_is_found(node: Node, right: str, planted: str) -> None:
    """The table is not blind."""
    script = asset("job_computed.js")
    assert right in script

    assert [] != differences(in_javascript(node, script.replace(right, planted)))
