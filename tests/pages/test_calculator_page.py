"""The pages of the calculators: complete without a script, and with every unit that may be typed."""

import re
from fractions import Fraction
from html import unescape

import pytest
from bayleaf.calculations.answer import compute, understood_text
from bayleaf.calculations.asked import example_of
from bayleaf.calculations.formula import Formula, Input, all_formulas, formula_named
from bayleaf.pages.calculator_fields import fields_of, units_of
from bayleaf.pages.calculator_page import calculator_body, calculator_pages, calculators_body, url_of
from bayleaf.quantities import QUANTITIES, parse_quantity, unit
from bayleaf.site.search_index import build
from js_kit import Node, calculators
from kit import check


def formula(name: str) -> Formula:
    found = formula_named(name)
    assert found is not None
    return found


def plain(html: str) -> str:
    return unescape(re.sub(r"<[^>]*>", "", html))


@pytest.mark.parametrize("one", all_formulas(), ids=lambda one: one.slug)
def test_a_page_tells_all_without_a_script(one: Formula) -> None:
    """Law, validity, source, and the example with results that Python computed."""
    text = plain(calculator_body(one).html).replace("\u00a0", " ").replace("−", "-")
    example = example_of(one)

    for wanted in (one.title, one.law, one.valid, one.source):
        assert wanted.replace("−", "-") in text
    for result in compute(example):
        assert result.output.title in text and result.text.replace("−", "-") in text
    for given in example.inputs:
        assert given.input.title in text and understood_text(given).replace("−", "-") in text


def test_fields_begin_empty_but_for_what_holds_by_default() -> None:
    """No value of the example can slip into somebody's result; the unit of the example is chosen beforehand."""
    fields = {field.input.name: field for field in fields_of(formula("discharge"))}

    assert ("", "kΩ") == fields["R"].before
    assert ("47", "kΩ") == fields["R"].example
    assert ("60", "V") == fields["to"].before
    assert ["R", "C", "", ""] == [field.symbol for field in fields.values()]


def test_several_values_stand_in_one_field() -> None:
    """With semicolons, in one unit."""
    fields = {field.input.name: field for field in fields_of(formula("parallel"))}

    assert ("1; 1.5", "MΩ") == fields["of"].example
    assert ("0", "Ω") == fields["u"].before
    assert "text" == fields["of"].keys


@pytest.mark.parametrize("symbol", sorted({one.unit for each in all_formulas() for one in each.inputs if one.unit}))
def test_units_lead_exactly_to_the_unit_of_the_formula(symbol: str) -> None:
    """Every unit of the table for that quantity can be chosen, with its exact factor and offset."""
    choices = units_of(Input("x", "X", symbol))

    assert [one.symbol for one in QUANTITIES[unit(symbol).quantity]] == [choice.symbol for choice in choices]
    for choice in choices:
        read = parse_quantity(f"12.5 {choice.symbol}", unit(symbol).quantity)
        assert read.to(symbol).value == Fraction("12.5") * Fraction(choice.factor) + Fraction(choice.offset)


@pytest.mark.parametrize(
    ("text", "symbol", "own", "several", "expected"),
    [
        ("1,1", "mF", "F", False, [0.0011]),
        ("300", "mΩ", "Ω", False, [0.3]),
        ("68", "°F", "°C", False, [20.0]),
        ("0; 25; -40", "°C", "°C", True, [0.0, 25.0, -40.0]),
        ("1,5; 2,5", "kΩ", "Ω", True, [1500.0, 2500.0]),
        ("1.5, 2.5", "kΩ", "Ω", True, [1500.0, 2500.0]),
    ],
)
def test_a_field_is_read_as_the_command_line_reads_it(
    node: Node, text: str, symbol: str, own: str, several: bool, expected: list[float]
) -> None:
    """The very number that Python takes, to the last figure."""
    choice = next(one for one in units_of(Input("x", "X", own)) if one.symbol == symbol)
    unit_data = f"{{factor: '{choice.factor}', offset: '{choice.offset}'}}"

    found = node(
        calculators() + f"answer = bayleafCalculators.numbers('{text}', {unit_data}, {str(several).lower()}).values;"
    )

    assert expected == found


def test_the_index_lists_every_calculator(tmp_path) -> None:
    """By family, each with what it gives."""
    html = calculators_body(check(tmp_path, {})).html

    assert [one.slug for one in all_formulas() if f'href="{url_of(one)}"' not in html] == []
    assert "<h2>Capacitors</h2>" in html


def test_every_calculator_is_found_by_name_and_by_words() -> None:
    """The record of a calculator has its name as what may be typed for it, and the titles of its values as words."""
    records = [record for page in calculator_pages() for record in page.make().search]

    assert [url_of(one) for one in all_formulas()] == [record.url for record in records]
    wanted = next(record for record in records if record.exact == ("discharge resistor",))
    assert "Power at the start" in wanted.words and "calculator" == wanted.kind
    assert build(records, {record.url: record.title for record in records})


def test_only_calculators_load_the_formulas() -> None:
    """In the order in which they need each other."""
    (names,) = {tuple(script.url for script in page.scripts) for page in calculator_pages()}

    assert ("assets/exact.js", "assets/python.js", "assets/formulas.js", "assets/calculators.js") == names
