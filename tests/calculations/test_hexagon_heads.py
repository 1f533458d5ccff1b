"""Hexagon heads: laws. The figures stand in data/calculations/hexagon_heads.py."""

import pytest
from bayleaf.calculations import hexagon_heads
from bayleaf.calculations.hexagon_heads import HEADS
from bayleaf.calculations.threads import METRIC
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.parametrize("size", HEADS)
def test_a_head_covers_its_hole(size: str) -> None:
    """The bolt goes through the hole, the head does not, and the face under it lies within the flats."""
    assert METRIC[size][0] < hexagon_heads.clearance_hole(size) < HEADS[size][2] < min(HEADS[size][:2])


@given(st.floats(1, 50), st.floats(0.01, 20))
def test_the_mean_diameter_lies_between_hole_and_face(hole: float, more: float) -> None:
    """It is the middle of both."""
    assert hole < hexagon_heads.mean_bearing_diameter(hole + more, hole) < hole + more


def test_a_fine_thread_has_the_head_of_the_coarse_one() -> None:
    """ISO 8765 takes the heads of ISO 4014."""
    assert hexagon_heads.across_flats("M10") == hexagon_heads.across_flats("M10x1.25")
    assert hexagon_heads.bearing_diameter("M10") == hexagon_heads.bearing_diameter("M10x1")


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: hexagon_heads.across_flats("M7"), "for M7 no hexagon head"),
        (lambda: hexagon_heads.bearing_diameter("3/8-16 UNC"), "for 3/8-16 UNC no hexagon head"),
        (lambda: hexagon_heads.mean_bearing_diameter(9, 9), "does not bear"),
        (lambda: hexagon_heads.mean_bearing_diameter(9, 0), "does not bear"),
    ],
)
def test_a_head_that_is_not_known_is_refused(call, named: str) -> None:
    """No size is guessed."""
    with pytest.raises(ValueError, match=named):
        call()
