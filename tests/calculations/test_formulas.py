"""What holds for every formula that the command line and the manual offer."""

import pytest
from bayleaf.calculations.answer import compute
from bayleaf.calculations.asked import ask, example_of
from bayleaf.calculations.formula import Formula, all_formulas, formula_named
from bayleaf.quantities import QUANTITIES, Quantity, parse_quantity, unit


@pytest.mark.parametrize("formula", all_formulas(), ids=lambda formula: formula.slug)
def test_its_example_can_be_computed(formula: Formula) -> None:
    """Names, units and defaults of a formula fit its function: the example gives a value for every output."""
    names = {one.name for one in formula.inputs}
    assert set() == set(formula.example) - names
    assert names == set(formula.example) | {one.name for one in formula.inputs if one.default is not None}

    given = [value_of(one, formula.example.get(one.name, one.default)) for one in formula.inputs]

    assert len(formula.outputs) == len(formula.function(*given))
    if formula.curve is not None:
        assert len(formula.curve.points(*given)) > 10


@pytest.mark.parametrize("formula", all_formulas(), ids=lambda formula: formula.slug)
def test_it_is_the_same_in_whatever_units(formula: Formula) -> None:
    """Ohms or kilohms, metres or feet: every value of the example, written in every other unit of its quantity."""
    usual = example_of(formula)
    expected = [one.value for one in compute(usual)]
    for one in formula.inputs:
        text = formula.example.get(one.name, one.default)
        if not one.unit or one.several or text is None:
            continue
        read = parse_quantity(text, unit(one.unit).quantity)
        assert isinstance(read, Quantity)
        for other in QUANTITIES[read.quantity]:
            exact = read.to(other.symbol).decimal()
            if exact is not None:
                given = [(name, value) for name, value in formula.example.items() if name != one.name]
                found = compute(ask(formula, [*given, (one.name, str(exact))]))
                assert [_near(value) for value in expected] == [each.value for each in found], exact


def _near(value):
    return pytest.approx(value, rel=1e-9, abs=1e-300) if isinstance(value, float) else value


def value_of(one, text):
    """What the function is given for a text."""
    if one.several:
        return [_one_value(one, part) for part in text.split(",")]
    return _one_value(one, text)


def _one_value(one, text):
    if one.choices:
        assert text in one.choices
        return text
    if not one.unit:
        return float(text)
    read = parse_quantity(text, unit(one.unit).quantity)
    assert isinstance(read, Quantity), read
    return float(read.to(one.unit).value)


def test_names_are_told_apart() -> None:
    """No two formulas share a name, however it is typed."""
    slugs = [formula.slug for formula in all_formulas()]
    assert sorted(set(slugs)) == sorted(slugs)
    assert formula_named("Voltage left") is formula_named("voltage-left") is not None
    assert None is formula_named("nothing of the kind")
