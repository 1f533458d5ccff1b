"""Values that are computed from the readings of a record."""

from decimal import Decimal
from fractions import Fraction

import pytest
from bayleaf.quantities.quantity import Quantity
from bayleaf.quantities.units import unit
from bayleaf.records.computed import agrees, computed_from
from computed_kit import VOLTMETER, step, taken
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.parametrize(
    ("formula", "quantity", "readings", "more", "expected"),
    [
        ("difference", "voltage", {"a": "12.65 V", "b": "12.41 V"}, "", "0.24"),
        ("average", "resistance", {"a": "59.8 Ω", "b": "60.1 Ω", "c": "60.1 Ω"}, "", "60"),
        ("parallel", "resistance", {"a": "1 MΩ", "b": "1.5 MΩ"}, "", "600000"),
        ("parallel", "resistance", {"a": "1 MΩ, 2 MΩ", "b": "1.5 MΩ"}, "", "600000"),  # of two readings the lower
        ("parallel", "resistance", {"a": "1 MΩ", "b": "OL"}, "", "1000000"),  # an endless one leads nothing
        ("parallel", "resistance", {"a": "1 MΩ, OL", "b": "1.5 MΩ"}, "", "600000"),
        # 200 kΩ · 400 V · (1/219.2 V − 1/372.1 V), UN R100, annex 4A
        ("insulation by voltmeter", "voltage", {"a": "400 V", "b": "372.1 V", "c": "27.9 V", "d": "219.2 V"}, VOLTMETER,
         "149967.6"),
    ],
)  # fmt: skip
def test_a_formula(formula: str, quantity: str, readings: dict[str, str], more: str, expected: str) -> None:
    """By hand from the formulas of `calculations/`, in the coherent unit."""
    found = computed_from(step(formula, list(readings), quantity, more), taken(**readings))

    assert found.size is not None
    assert pytest.approx(float(expected), rel=1e-6) == float(found.size)


def test_the_highest_counts_where_the_step_says_so() -> None:
    """`take: highest` of the measuring step."""
    found = computed_from(step("difference", ["a", "b"], "voltage", take="highest"), taken(a="5 V, 7 V", b="1 V, 2 V"))

    assert Fraction(5) == found.size


@pytest.mark.parametrize(
    ("formula", "quantity", "readings", "why"),
    [
        ("difference", "voltage", {"a": "5 V"}, "no reading of the step `b`"),
        ("difference", "voltage", {"a": "5 V", "b": "OL"}, "one of the readings has no figure"),
        ("parallel", "resistance", {"a": "OL", "b": "OL"}, "none of the readings has a figure"),
        ("parallel", "resistance", {"a": "0 Ω", "b": "1 Ω"}, "it has to be above 0"),
        ("insulation by voltmeter", "voltage", {"a": "4 V", "b": "3 V"}, "four readings and a known resistor"),
    ],
)
def test_where_nothing_can_be_computed_it_is_said_why(
    formula: str, quantity: str, readings: dict[str, str], why: str
) -> None:
    """Never a figure from nothing, never a crash."""
    found = computed_from(step(formula, ["a", "b"], quantity), taken(**readings))

    assert found.size is None
    assert why in (found.why or "")


@given(st.fractions(-(10**6), 10**6), st.integers(0, 6), st.sampled_from(["Ω", "kΩ", "MΩ", "mΩ"]))
def test_a_rounded_value_agrees_and_two_digits_off_does_not(value: Fraction, places: int, symbol: str) -> None:
    """To however many places it was rounded; two of its last digits more is another value, up to the fifth figure."""
    rounded = Decimal(round(value * 10**places)).scaleb(-places)
    size = value * unit(symbol).factor
    off = Quantity(rounded + Decimal(2).scaleb(-places), unit(symbol))

    assert agrees(Quantity(rounded, unit(symbol)), size)
    assert (abs(off.si - size) <= abs(size) / 20000) == agrees(off, size)
