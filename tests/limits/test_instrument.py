"""What an instrument decides of a limit: range, error, band, ratio, and which one of the workshop does better."""

from fractions import Fraction

import pytest
from bayleaf.limits.instrument import Sharpness, better, function_for, ranges_for, sharpness
from hypothesis import given
from hypothesis import strategies as st
from instrument_kit import limit, measure, workshop


def sharp(instrument: str, text: str, guard_band: str | None = None, quantity: str = "voltage") -> Sharpness:
    """What an instrument of the workshop decides of a limit."""
    ranges = ranges_for(measure(quantity), workshop().instruments[instrument], None)
    found = sharpness(limit(text), ranges, None if guard_band is None else Fraction(guard_band))
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("instrument", "text", "quantity", "errors"),
    [
        # 60.0 V, 0.5 % + 2 digits of 0.1 V: 0.5 V (GUM 4.3.7, computed)
        ("coarse", "at most 60 V", "voltage", ("0.5",)),
        # 400 V on the range of 600 V: 2 V + 2 digits of 1 V
        ("coarse", "at most 400 V", "voltage", ("4",)),
        # each end on its own range: 5 V by 1 mV, 12 V by 10 mV
        ("fine", "5 V to 12 V", "voltage", ("0.007", "0.032")),
        # an accuracy without digits: half of the last place is the least, a display rounds
        ("coarse", "at least 100 Ω", "resistance", ("1.05",)),
        # per cent of what the display shows, not of kelvin: 0.2 K + 0.5 K
        ("coarse", "at most 20 °C", "temperature", ("0.7",)),
    ],
)
def test_error_at_each_end(instrument: str, text: str, quantity: str, errors: tuple[str, ...]) -> None:
    """Percent of the reading and digits of the range that shows it."""
    found = sharp(instrument, text, quantity=quantity)

    assert [Fraction(error) for error in errors] == [end.error for end in found.ends]


def test_the_ratio_is_that_of_z540() -> None:
    """(high − low) / 2U, U = 2a/√3 at the worse end. 11.5 V to 14.8 V with 0.274 V: 3.3 / (2 · 0.3164) = 5.2."""
    ratio = sharp("coarse", "11.5 V to 14.8 V").ratio

    assert ratio is not None
    assert 5.2 == pytest.approx(float(ratio), abs=0.02)


def test_one_end_has_a_ratio_only_with_a_nominal_value() -> None:
    """|limit − nominal| / U; without a nominal value none is given."""
    assert None is sharp("coarse", "at most 60 V").ratio


@pytest.mark.parametrize(
    ("text", "decides", "well"),
    [
        ("at most 60 V", True, True),
        ("at most 0.1 V", False, False),  # 0.2 V of digits: not even nothing could be accepted
        ("11.5 V to 14.8 V", True, True),
        ("12.0 V to 13.0 V", True, False),
        ("12.0 V to 12.3 V", False, False),
    ],
)
def test_what_it_decides(text: str, decides: bool, well: bool) -> None:
    """Below 1:1 it decides nothing, below 4:1 not well (ANSI/NCSL Z540.3)."""
    found = sharp("coarse", text)

    assert (decides, well) == (found.decides, found.decides_well)


def test_a_guard_band_draws_in_what_is_accepted() -> None:
    """max(a, r·U): r = 0 leaves the error itself, r = 1 widens it to 1.155 times."""
    assert (None, Fraction("59.5")) == sharp("coarse", "at most 60 V").accepts
    assert (None, Fraction("59.5")) == sharp("coarse", "at most 60 V", "0").accepts
    high = sharp("coarse", "at most 60 V", "1").accepts[1]
    assert high is not None
    assert 60 - 0.5 * 2 / 3**0.5 == pytest.approx(float(high), abs=1e-6)


def test_a_value_beyond_every_range_has_no_error() -> None:
    """700 V on a meter that ends at 600 V."""
    found = sharp("coarse", "at most 700 V")
    assert found.high is not None
    assert (None, None) == (found.high.range, found.high.error)


def test_ranges_are_those_of_the_test_voltage() -> None:
    """An insulation tester reads each test voltage on ranges of its own."""
    tester = workshop().instruments["tester"]
    volts = limit("at most 500 V").high

    found = ranges_for(measure("insulation resistance", test_voltage=volts), tester, None)

    assert ["500 V"] == [str(one.test_voltage) for one in found]


@pytest.mark.parametrize(
    ("quantity", "kind", "function"),
    [
        ("voltage", None, "dc voltage"), ("voltage", "ac", "ac voltage"), ("current", None, "dc current"),
        ("bonding resistance", None, "low resistance"), ("resistance", None, "resistance"),
        ("continuity", None, "resistance"), ("mass", None, "mass"), ("length", None, "length"), ("level", None, None),
        ("duty cycle", None, "duty cycle"), ("speed", None, "speed"), ("charge", None, None),
    ],
)  # fmt: skip
def test_function(quantity: str, kind: str | None, function: str | None) -> None:
    """A bond needs a function of its own, continuity is shown by an ohmmeter, a level by none."""
    assert function == function_for(measure(quantity, current_kind=kind), workshop().instruments["coarse"], None)


def test_a_level_in_millimetres_is_read_as_a_length() -> None:
    """With a rule; one in per cent by no instrument."""
    rule = workshop().instruments["coarse"]

    assert "length" == function_for(measure("level", limit=limit("at most 25 mm")), rule, None)
    assert None is function_for(measure("level", limit=limit("at least 50 %")), rule, None)


def test_the_better_instrument_is_named() -> None:
    """Where the coarse meter does not decide, the fine one does; there is none better than that."""
    shop, step, narrow = workshop(), measure(), limit("12.0 V to 12.3 V")
    coarse = sharp("coarse", "12.0 V to 12.3 V")
    fine = sharp("fine", "12.0 V to 12.3 V")

    assert ["fine"] == [one.id for one in better(step, narrow, shop.instruments, None, None, coarse)]
    assert [] == [one.id for one in better(step, narrow, shop.instruments, None, None, fine)]


@given(st.integers(1, 5900), st.integers(0, 40))
def test_a_wider_guard_band_never_accepts_more(volts: int, tenths: int) -> None:
    """Policy can only be stricter."""
    text = f"at most {volts / 100} V"
    plain, wide = sharp("fine", text).accepts[1], sharp("fine", text, str(Fraction(tenths, 10))).accepts[1]

    assert plain is not None and wide is not None
    assert wide <= plain
