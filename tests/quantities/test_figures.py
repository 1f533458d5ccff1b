"""Computed sizes as figures: prefix, number of figures, rounding of limits inward."""

from fractions import Fraction

import pytest
from bayleaf.quantities.display import show
from bayleaf.quantities.figures import figure
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.parametrize(
    ("number", "unit", "how", "figures", "expected"),
    [
        (41000.0, "Ω", "half-even", 3, "41 kΩ"),
        (0.1, "Ω", "half-even", 3, "100 mΩ"),
        (59.400000000000006, "Ω", "up", 3, "59.4 Ω"),
        (59.41, "Ω", "up", 3, "59.5 Ω"),
        (59.49, "Ω", "down", 3, "59.4 Ω"),
        (0.000123, "F", "half-even", 3, "123 µF"),
        (999.96, "V", "up", 3, "1000 V"),
        (0.0, "V", "half-even", 3, "0 V"),
        (-2.5, "V", "half-even", 3, "−2.5 V"),
        (23.4567, "N·m", "half-even", 3, "23.5 N·m"),
        (25.0, "°C", "half-even", 3, "25 °C"),
        (90.0, "s", "half-even", 3, "90 s"),
    ],
)
def test_figure(number: float, unit: str, how, figures: int, expected: str) -> None:
    """The unit of a workshop, no zeros that say nothing, no noise of the machine taken for a digit."""
    assert expected == show(figure(number, unit, how, figures)).replace("\u00a0", " ")


@given(st.fractions(Fraction(1, 10**9), 10**9), st.integers(2, 6))
def test_a_limit_is_never_widened(size: Fraction, figures: int) -> None:
    """Up is not below, down is not above, and neither is further away than the last figure."""
    up, down = figure(size, "Ω", "up", figures).si, figure(size, "Ω", "down", figures).si

    assert down <= size <= up
    assert up - down <= size / 10 ** (figures - 1)
