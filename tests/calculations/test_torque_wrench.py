"""Torque wrenches: laws. The figures stand in data/calculations/torque_wrench.py."""

from math import isclose

import pytest
from bayleaf.calculations import torque_wrench
from hypothesis import given
from hypothesis import strategies as st

TORQUE = st.floats(0.1, 2000)
LENGTH = st.floats(50, 2000)
ADAPTER = st.floats(0, 49)
ANGLE = st.floats(0, 180)


@given(TORQUE, LENGTH, ADAPTER, ANGLE)
def test_setting_and_torque_are_inverse(torque: float, length: float, adapter: float, angle: float) -> None:
    """With the setting for a torque, that torque is at the nut."""
    setting = torque_wrench.setting_for(torque, length, adapter, angle)

    assert isclose(torque, torque_wrench.torque_at_nut(setting, length, adapter, angle), rel_tol=1e-9)


@given(TORQUE, LENGTH, ADAPTER, ANGLE)
def test_an_adapter_in_front_is_set_lower_and_one_behind_higher(
    torque: float, length: float, adapter: float, angle: float
) -> None:
    """Across, and without an adapter, nothing changes."""
    setting = torque_wrench.setting_for(torque, length, adapter, angle)

    assert setting <= torque * (1 + 1e-12) if angle <= 90 else setting >= torque * (1 - 1e-12)
    assert isclose(torque, torque_wrench.setting_for(torque, length, adapter, 90), rel_tol=1e-9)
    assert torque == torque_wrench.setting_for(torque, length, 0, 0)


@given(st.floats(0.01, 1000), st.floats(1.01, 100))
def test_the_ends_of_the_range_belong_to_it(lowest: float, times: float) -> None:
    """And so do all test points."""
    maximum = lowest * times

    assert torque_wrench.in_range(lowest, lowest, maximum)
    assert torque_wrench.in_range(maximum, lowest, maximum)
    assert not torque_wrench.in_range(lowest * 0.999, lowest, maximum)
    assert not torque_wrench.in_range(maximum * 1.001, lowest, maximum)


def test_the_range_is_judged_on_the_setting() -> None:
    """150 N·m at the nut lie above a wrench up to 140 N·m; with an adapter of 100 mm on 400 mm it is set to 120."""
    setting, said, off, low, high = torque_wrench.FORMULAS[0].function(150, 400, 100, 0, 20, 140)

    assert pytest.approx(120) == setting
    assert "within the range of the tool" == said
    assert 4 == off
    assert (144, 156) == pytest.approx((low, high))


@pytest.mark.parametrize(
    ("torque", "said"),
    [(19, "below the lowest marked value"), (20, "within the range of the tool"), (101, "above the maximum")],
)
def test_a_setting_outside_the_range_is_called_so(torque: float, said: str) -> None:
    """A wrench from 20 to 100 N·m, without an adapter."""
    assert said == torque_wrench.FORMULAS[0].function(torque, 400, 0, 0, 20, 100)[1]


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: torque_wrench.permitted_deviation(0), "maximum of the tool is 0"),
        (lambda: torque_wrench.test_points(0, 100), "lowest marked value is 0"),
        (lambda: torque_wrench.in_range(50, 100, 10), "is not above its lowest"),
        (lambda: torque_wrench.setting_for(-1, 400, 50, 0), "torque is -1"),
        (lambda: torque_wrench.torque_at_nut(-1, 400, 50, 0), "setting is -1"),
        (lambda: torque_wrench.setting_for(80, 0, 50, 0), "length of the wrench is 0"),
        (lambda: torque_wrench.setting_for(80, 400, -50, 0), "length of the adapter is -50"),
        (lambda: torque_wrench.setting_for(80, 400, 50, 181), "0° to 180°"),
        (lambda: torque_wrench.setting_for(80, 400, 400, 180), "gives no torque"),
        (lambda: torque_wrench.coarsest_step(-1, 100), "reading is -1"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """No wrench without a length and a range."""
    with pytest.raises(ValueError, match=named):
        call()
