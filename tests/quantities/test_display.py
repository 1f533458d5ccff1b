"""How values look on a page, in one system of units and in both."""

import pytest
from bayleaf.quantities import (
    UNITS,
    aliases,
    dual,
    other_system,
    parse_limit,
    parse_quantity,
    show,
    show_limit,
)
from bayleaf.quantities.display import OTHER_UNIT
from data.units_check_values import ROUNDED_INWARD, ROUNDED_PLAIN

NO_BREAK = "\u00a0"


def spaced(text: str) -> str:
    """A shown text with plain spaces, to compare it with what is written in a table."""
    return text.replace(NO_BREAK, " ")


def test_a_value_does_not_break_and_has_a_true_minus() -> None:
    """The number keeps its unit and its written figures."""
    assert f"−40{NO_BREAK}°C" == show(parse_quantity("-40 degC"))
    assert f"12.50{NO_BREAK}V" == show(parse_quantity("12,50 V"))
    assert show(parse_quantity("30 deg")) == "30°"
    assert f"1.125{NO_BREAK}in" == show(parse_quantity("1.125 in", decimals=3))


def test_a_limit_breaks_only_between_its_values() -> None:
    """Words stay words."""
    assert f"−10{NO_BREAK}°C to 40{NO_BREAK}°C" == show_limit(parse_limit("-10 to 40 °C"))
    assert f"60{NO_BREAK}Ω ±{NO_BREAK}5{NO_BREAK}%" == show_limit(parse_limit("60 ohm +- 5 %"))
    assert f"49{NO_BREAK}V +1{NO_BREAK}V −3{NO_BREAK}V" == show_limit(parse_limit("49 V +1 V -3 V"))


@pytest.mark.parametrize("row", ROUNDED_PLAIN, ids=lambda row: row.written)
def test_plain_values_are_rounded_as_finely_as_they_were_written(row) -> None:
    """The rounding error is no greater than that of the written figure; three figures at least."""
    assert f"{row.written} ({row.beside})" == spaced(dual(parse_quantity(row.written)))


@pytest.mark.parametrize("row", ROUNDED_INWARD, ids=lambda row: row.written)
def test_limits_are_rounded_inward(row) -> None:
    """The lower end up, the upper end down: no reading passes in one system and fails in the other."""
    assert f"{row.written} ({row.beside})" == spaced(dual(parse_limit(row.written))).replace("5 K", "5 °C")


def test_what_has_no_second_system_stands_alone() -> None:
    """Volts are volts everywhere; a limit of one point has no inside to round into."""
    assert f"400{NO_BREAK}V" == dual(parse_quantity("400 V"))
    assert other_system(parse_limit("at least 500 kΩ")) is None
    assert other_system(parse_limit("25 N·m to 25 N·m")) is None


def test_the_other_unit_measures_the_same() -> None:
    """The table of pairs is sound."""
    for one, other in OTHER_UNIT.items():
        assert UNITS[one].quantity == UNITS[other].quantity
        assert one != other


def test_a_search_finds_a_value_by_any_common_spelling() -> None:
    """Canonical, from the keyboard, closed up, and as a fraction of an inch."""
    assert {"45 N·m", "45 Nm", "45Nm", "45 N.m"} <= set(aliases(parse_quantity("45 Nm")))
    assert {"18 lbf·ft", "18 ft lb", "18 lb ft"} <= set(aliases(parse_quantity("18 lbf·ft")))
    assert {"0.375 in", "3/8 in"} <= set(aliases(parse_quantity("3/8 in")))
    assert {"12.50 V", "12.5 V"} <= set(aliases(parse_quantity("12.50 V")))
    assert {"47 kΩ", "47 kohm"} <= set(aliases(parse_quantity("47 kΩ")))
