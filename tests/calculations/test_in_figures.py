"""Results are shown in four figures, in the unit that fits."""

from math import inf

import pytest
from bayleaf.calculations.answer import steps_of
from bayleaf.calculations.in_figures import in_figures, shown
from bayleaf.quantities import Quantity, parse_quantity, unit
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.parametrize(
    ("value", "symbol", "text"),
    [
        (99.35771128952227, "s", "99.36 s"),
        (92.45500000000001, "J", "92.46 J"),
        (92.455, "J", "92.46 J"),  # half up, whatever the noise of the machine behind it
        (92.45499999999999, "J", "92.46 J"),
        (92.4549, "J", "92.45 J"),
        (1.98, "J", "1.98 J"),
        (47000, "Ω", "47 kΩ"),
        (0.0011, "F", "1.1 mF"),
        (999.96, "Ω", "1 kΩ"),
        (999.94, "Ω", "999.9 Ω"),
        (-0.0594, "V", "-59.4 mV"),
        (2.5e12, "Ω", "2500 GΩ"),
        (2.5e-9, "V", "0.0025 µV"),
        (0, "V", "0 V"),
        (299, "s", "299 s"),
        (300, "s", "5 min"),
        (7200, "s", "120 min"),
        (18000, "s", "5 h"),
        (0.0125, "s", "12.5 ms"),
        (12345, "mm²", "12350 mm²"),
        (60, "°", "60°"),
        (-12.345, "°C", "-12.35 °C"),
        (7.98, "Ω/km", "7.98 Ω/km"),
        (0.02275013, "", "0.02275"),
        (9.8659e-10, "", "9.866 × 10^-10"),
        (4.2e11, "", "4.2 × 10^11"),
        (inf, "s", "endless"),
        (-inf, "", "endless, negative"),
    ],
)
def test_a_number(value: float, symbol: str, text: str) -> None:
    """One to three figures before the point where the unit takes prefixes; times in seconds, minutes, hours."""
    assert text == shown(value, list(steps_of(symbol)))


def test_what_is_no_number() -> None:
    """Texts stay, truths become words."""
    assert ("plausible", "yes", "no") == (shown("plausible", []), shown(True, []), shown(False, []))


@given(st.floats(1e-9, 1e9), st.sampled_from(("V", "Ω", "s", "mm²", "N·m")))
def test_what_is_shown_is_the_value_but_for_rounding(value: float, symbol: str) -> None:
    """Read again, it is off by half of its fourth figure at most."""
    read = parse_quantity(shown(value, list(steps_of(symbol))).replace(" × 10^", "e"), decimals=3)
    if not isinstance(read, Quantity):
        return  # so small or so large that it is written with its power of ten
    assert float(read.to(symbol).value) == pytest.approx(value, rel=5.1e-4)


@given(st.floats(1e-6, 1e9), st.integers(1, 10))
def test_more_figures_are_nearer(value: float, figures: int) -> None:
    """Half of the last figure at most."""
    text = in_figures(value, figures)
    number = float(text.replace(" × 10^", "e"))
    assert abs(number - value) <= 0.51 * value * 10.0 ** (1 - figures)


def test_every_unit_of_an_output_has_its_own_step() -> None:
    """Among the units that may be shown is the one that is computed in."""
    for symbol in ("V", "s", "MPa", "kN", "mm", "N·m", "W"):
        assert [symbol] == [name for name, size, _ in steps_of(symbol) if size == 1]
        assert unit(symbol).quantity == unit(steps_of(symbol)[0][0]).quantity
