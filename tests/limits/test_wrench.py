"""Torque wrenches: what is set on them, with an adapter and without, and whether that lies in their range."""

import pytest
from bayleaf.limits.wrench import setting_on, wrenches
from bayleaf.loading.load import load
from bayleaf.model.vehicle import Adapter
from bayleaf.model.workshop import Workshop
from bayleaf.quantities import Quantity, parse_quantity

WORKSHOP = """\
format: 1
instruments:
  small: {name: Small, kind: torque wrench, range: 5 N·m to 25 N·m, length: 210 mm}
  large: {name: Large, kind: torque wrench, range: 20 N·m to 100 N·m, accuracy: 3 %, length: 400 mm}
  bare: {name: No length, kind: torque wrench, range: 1 N·m to 6 N·m}
  angle: {name: Angle gauge, kind: angle gauge, range: 1° to 360°}
  no-range: {name: No range, kind: torque wrench}
"""


def workshop() -> Workshop:
    """Three wrenches whose range is known."""
    found = load("procedures/workshop.yml", WORKSHOP.encode(), "workshop")
    assert isinstance(found.model, Workshop)
    assert [] == [one.message for one in found.findings]
    return found.model


def quantity(text: str) -> Quantity:
    """As an author writes it."""
    found = parse_quantity(text)
    assert isinstance(found, Quantity)
    return found


def adapter(length: str, angle: str | None = None) -> Adapter:
    """A crow foot."""
    return Adapter((), quantity(length), None if angle is None else quantity(angle))


def test_only_wrenches_with_a_range_count() -> None:
    """Neither an angle gauge, nor one that nobody described."""
    assert ["small", "large", "bare"] == [one.id for one in wrenches(workshop())]


@pytest.mark.parametrize(
    ("torque", "foot", "setting"),
    [
        # T · L / (L + E · cos θ), L = 400 mm; page of a calculator prints 71.1 N·m for the first (restated)
        (80, adapter("50 mm"), 71.11),
        (80, adapter("50 mm", "90°"), 80.0),
        (80, None, 80.0),
    ],
)
def test_setting(torque: float, foot: Adapter | None, setting: float) -> None:
    """Less than the torque at the nut, the more the adapter lengthens the wrench."""
    found = setting_on(workshop().instruments["large"], torque, foot)

    assert found.setting is not None
    assert setting == pytest.approx(found.setting, abs=0.005)
    assert (setting != torque) == found.is_corrected


def test_the_setting_has_to_lie_in_the_range() -> None:
    """21 N·m at the nut is in the range of the large wrench, but with a crow foot it is set to 18.7 N·m, which is not."""
    large = workshop().instruments["large"]

    assert setting_on(large, 21, None).covers
    assert not setting_on(large, 21, adapter("50 mm")).covers


def test_without_a_length_nothing_is_set_with_an_adapter() -> None:
    """The correction hangs on it."""
    found = setting_on(workshop().instruments["bare"], 3, adapter("50 mm"))

    assert (None, False) == (found.setting, found.covers)


def test_deviation_is_that_of_the_tool_or_of_iso_6789() -> None:
    """±6 % for a tool up to 10 N·m, ±4 % above (ISO 6789-1, tool maker's extract), unless its maker states less."""
    shop = workshop().instruments

    assert [4.0, 3.0, 6.0] == [setting_on(shop[name], 5, None).deviation for name in ("small", "large", "bare")]
