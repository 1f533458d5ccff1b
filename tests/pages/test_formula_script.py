"""The calculators compute in JavaScript what the same functions compute in Python."""

import importlib
import inspect
import pkgutil
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from math import inf
from typing import Any

import data.calculations
import pytest
from bayleaf.calculations import discharge
from bayleaf.calculations.asked import Asked, Understood, example_of
from bayleaf.calculations.formula import Formula, all_formulas, formula_named
from bayleaf.pages import formula_script as module
from bayleaf.pages.formula_script import formula_script, name_in_script, translate
from bayleaf.pages.js_literal import js_literal
from bayleaf.quantities import unit
from js_kit import Node, alike, calculators, differences, in_javascript, in_python

#: By these an input of an example is multiplied, and these stand in its place: limits, signs, and beyond all measure.
FACTORS = (0.5, 0.97, 1.3, 3, 50)
VALUES = (0.0, -1.0, 1e-9, 1e12)


def test_every_formula_is_translated() -> None:
    """None is left out; the reason would stand here."""
    assert {} == formula_script().missing


def variations(formula: Formula) -> Iterator[Asked]:
    """The example, and the example with one input changed."""
    example = example_of(formula)
    yield example
    for index, one in enumerate(example.inputs):
        for values in _other_values(one):
            inputs = list(example.inputs)
            inputs[index] = replace(one, values=values)
            yield Asked(formula, tuple(inputs))


def _other_values(one: Understood) -> Iterator[tuple[Any, ...]]:
    if one.input.choices:
        yield from ((choice,) for choice in one.input.choices)
        return
    numbers = one.argument if isinstance(one.argument, list) else [one.argument]
    for factor in FACTORS:
        yield tuple(_value(number * factor, one) for number in numbers)
    for value in VALUES:
        yield (_value(value, one), *(_value(number, one) for number in numbers[1:]))
    if one.input.several:
        yield tuple(_value(number, one) for number in numbers[:1])


def _value(number: float, one: Understood) -> Any:
    """A number as it is given: plain, or of the unit of the input."""
    if not one.input.unit:
        return Fraction(number)
    from decimal import Decimal

    from bayleaf.quantities import Quantity

    return Quantity(Decimal(number), unit(one.input.unit))


def test_examples_and_what_lies_around_them(node: Node) -> None:
    """Results, texts, refusals and curves are the same, for every formula, every choice, and values beyond its range."""
    calls = [(formula, asked) for formula in all_formulas() for asked in variations(formula)]

    found = in_javascript(node, [asked for _, asked in calls])

    wrong = [
        line
        for (formula, asked), actual in zip(calls, found, strict=True)
        for line in differences(formula, asked, in_python(asked), actual)
    ]
    assert [] == wrong
    assert len(calls) > 10 * len(all_formulas())
    assert sum(bool(one.refused) for one in found) > 20


def rows() -> list[tuple[str, Any, str]]:
    """Every row of the tests of the calculations whose function was translated: its name in the script, too."""
    found = []
    for family in (one.name for one in pkgutil.iter_modules(data.calculations.__path__)):
        source = importlib.import_module(f"bayleaf.calculations.{family}")
        for row in importlib.import_module(f"data.calculations.{family}").ROWS:
            function = inspect.unwrap(getattr(source, row.function))
            name = name_in_script(function)
            if name is not None:
                found.append((name, row, function(*row.given)))
    return found


def test_published_figures(node: Node) -> None:
    """What the rows hold Python to, JavaScript gives as well."""
    held = rows()
    program = f"answer = {js_literal([[name, list(row.given)] for name, row, _ in held])}"
    program += ".map(([name, given]) => bayleafFormulas.functions[name](...given));"

    found = node(calculators() + program)

    wrong = [
        (row, actual) for (_, row, value), actual in zip(held, found, strict=True) if not alike(_plain(value), actual)
    ]
    assert [] == wrong
    assert len(held) > 100


def _plain(value: Any) -> Any:
    return [_plain(one) for one in value] if isinstance(value, tuple | list) else value


def test_a_wrong_constant_is_found(node: Node) -> None:
    """The comparison is not blind: one figure changed in the script, and the results differ."""
    formula = formula_named("discharge")
    assert formula is not None
    script = formula_script().script
    planted = script.replace("op_mult(0.5, capacitance)", "op_mult(0.501, capacitance)")
    assert planted != script
    asked = example_of(formula)

    (actual,) = in_javascript(node, [asked], planted)

    assert [": results", ": texts"] == [
        name
        for name in (": results", ": texts", ": refused", ": curve")
        if any(name in line for line in differences(formula, asked, in_python(asked), actual))
    ]


def test_a_wrong_text_is_found(node: Node) -> None:
    """Another rounding of what is shown differs as well."""
    script = formula_script().script.replace("in_figures__FIGURES = 4", "in_figures__FIGURES = 5")
    formula = formula_named("discharge")
    assert formula is not None
    asked = example_of(formula)

    (actual,) = in_javascript(node, [asked], script)

    assert any(": texts" in line for line in differences(formula, asked, in_python(asked), actual))


def _by_set(volts: float) -> tuple[float]:
    return (float(len({volts, 2 * volts} | frozenset({1.0}))) + hash("x"),)


def test_what_cannot_be_translated_is_named_and_left_out(node: Node) -> None:
    """The other formulas work on; the reason names function and obstacle."""
    good = formula_named("stored-energy")
    assert good is not None
    bad = replace(good, name="by set", function=_by_set)

    made = translate((bad, good))

    assert ["by-set"] == list(made.missing)
    assert "_by_set" in made.missing["by-set"] and "`frozenset`" in made.missing["by-set"]
    assert [40.0] == node(
        calculators(made.script) + "answer = bayleafFormulas.formulas['stored-energy'].compute(5e-4, 400)"
    )


def test_a_page_says_that_its_formula_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing breaks: the page has law, source and example, and names the command."""
    from bayleaf.pages import calculator_page

    good = formula_named("stored-energy")
    assert good is not None
    made = translate(())._replace(missing={"stored-energy": "why"})
    monkeypatch.setattr(calculator_page, "formula_script", lambda: made)

    html = calculator_page.calculator_body(good).html

    assert "<form" not in html
    assert "bayleaf compute stored-energy" in html and "40\u00a0J" in html


def test_only_what_formulas_reach_is_in_the_script() -> None:
    """A function that no formula calls is not sent to the browser."""
    assert name_in_script(discharge.stored_energy) == "discharge__stored_energy"
    assert name_in_script(discharge.voltage_of_energy) is None


def test_the_script_is_the_same_every_time() -> None:
    """Neither order nor names depend on the run."""
    module.formula_script.cache_clear()
    first = formula_script().script
    module.formula_script.cache_clear()

    assert first == formula_script().script


@pytest.mark.parametrize(
    ("value", "literal"),
    [
        (None, "null"), (True, "true"), (3, "3"), (2.5, "2.5"), (1e-9, "1e-09"), (inf, "Infinity"), (-inf, "-Infinity"),
        ("Ω \"a\" </script>", '"Ω \\"a\\" <\\/script>"'), ((1, [2.0]), "[1, [2.0]]"), ({"a": (1,)}, '{"a": [1]}'),
    ],
)  # fmt: skip
def test_values_as_javascript(value: Any, literal: str) -> None:
    """Tables stand in the script as plain values."""
    assert literal == js_literal(value)
