"""Torque and angle: laws, and a worked example as a whole. The figures stand in data/calculations/torque_angle.py."""

from math import isclose

import pytest
from bayleaf.calculations import nut_factor, torque_angle
from data.calculations.torque_angle import LBF, MM, STIFFNESS
from hypothesis import given
from hypothesis import strategies as st

PITCH = st.floats(0.25, 5)
ANGLE = st.floats(0.01, 720)
STIFF = st.floats(1, 5000)


@given(PITCH, ANGLE, STIFF, STIFF)
def test_springs_in_a_row_and_the_share_of_the_way_are_one(
    pitch: float, angle: float, bolt: float, parts: float
) -> None:
    """The share that stretches the bolt is k_c / (k_b + k_c)."""
    share = parts / (bolt + parts)

    assert isclose(
        torque_angle.preload_gain(pitch, angle, bolt, parts),
        torque_angle.shared_gain(pitch, angle, bolt, share),
        rel_tol=1e-9,
        abs_tol=1e-12,
    )


@given(PITCH, ANGLE, STIFF, STIFF)
def test_the_gain_is_less_than_that_of_the_softer_one(pitch: float, angle: float, bolt: float, parts: float) -> None:
    """And goes with the angle: none for none, twice for twice."""
    gain = torque_angle.preload_gain(pitch, angle, bolt, parts)

    assert gain <= torque_angle.way_of_nut(pitch, angle) * min(bolt, parts)
    assert 0 == torque_angle.preload_gain(pitch, 0, bolt, parts)
    assert isclose(2 * gain, torque_angle.preload_gain(pitch, 2 * angle, bolt, parts), rel_tol=1e-9)


def test_a_tool_makers_example_as_a_whole() -> None:
    """30 lbf·ft and 60° on 1/2 in with K 0.20: 3600 lbf and 3889 lbf, together as by 62.4 lbf·ft."""
    snug = nut_factor.preload_by_nut_factor(0.2, 0.5 * MM, 30 * 12 * MM * LBF)
    gain = torque_angle.shared_gain(MM / 30, 60, STIFFNESS, 0.65)

    assert pytest.approx(3600, abs=0.5) == snug / LBF
    assert pytest.approx(7489, abs=1) == (snug + gain) / LBF
    torque = nut_factor.torque_by_nut_factor(0.2, 0.5 * MM, snug + gain)
    assert pytest.approx(62.4, abs=0.05) == torque / LBF / MM / 12


@given(st.floats(0, 1000), st.floats(0, 1000))
def test_a_joint_gets_softer_with_the_angle(one: float, other: float) -> None:
    """Hard, medium, soft: never back."""
    kinds = ["hard", "medium", "soft"]
    low, high = min(one, other), max(one, other)

    assert kinds.index(torque_angle.joint_kind(low)) <= kinds.index(torque_angle.joint_kind(high))


def test_an_angle_that_passes_yield_is_called_so() -> None:
    """M10 10.9, 30 N·m snug, 60 mm: 45° stays elastic, 90° does not; the preload at yield is that of a full share."""
    by_angle = torque_angle.FORMULAS[0].function

    snug, gain, both, limit, said = by_angle("M10", "10.9", 30, 0.12, 45, 60, 65)

    assert "stays elastic" == said
    assert isclose(snug + gain, both)
    assert pytest.approx(43.48 / 0.9, rel=0.001) == limit
    assert "goes beyond yield: the sum is not reached" == by_angle("M10", "10.9", 30, 0.12, 90, 60, 65)[4]


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: torque_angle.way_of_nut(0, 60), "pitch is 0"),
        (lambda: torque_angle.way_of_nut(1, -60), "angle is -60"),
        (lambda: torque_angle.bolt_stiffness(0, 60, 205000), "area is 0"),
        (lambda: torque_angle.bolt_stiffness(58, 0, 205000), "length is 0"),
        (lambda: torque_angle.bolt_stiffness(58, 60, 0), "modulus is 0"),
        (lambda: torque_angle.preload_gain(1, 60, 0, 100), "stiffness of the bolt is 0"),
        (lambda: torque_angle.preload_gain(1, 60, 100, 0), "stiffness of the parts is 0"),
        (lambda: torque_angle.shared_gain(1, 60, 100, 0), "above 0 and up to 100 %"),
        (lambda: torque_angle.shared_gain(1, 60, 100, 1.1), "above 0 and up to 100 %"),
        (lambda: torque_angle.joint_kind(-1), "angle is -1"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """No stiffness, no gain."""
    with pytest.raises(ValueError, match=named):
        call()
