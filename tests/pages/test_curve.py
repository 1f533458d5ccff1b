"""The curve of a formula: round ticks, units that fit, nothing that covers another thing."""

from itertools import pairwise

import pytest
from bayleaf.calculations.answer import curve_points
from bayleaf.calculations.asked import example_of
from bayleaf.calculations.formula import Curve, Formula, Output, all_formulas
from bayleaf.pages.drawings.curve import curve_words, drawn_curve
from bayleaf.pages.drawings.curve_layout import ticks
from hypothesis import given
from hypothesis import strategies as st

WITH_CURVE = [one for one in all_formulas() if one.curve is not None]
VOLTS = Curve(Output("Time", "s"), Output("Voltage", "V"), lambda: [])


@pytest.mark.parametrize("formula", WITH_CURVE, ids=lambda one: one.slug)
def test_the_curve_of_an_example(formula: Formula) -> None:
    """It lies in its frame, and no two texts overlap."""
    curve = formula.curve
    assert curve is not None

    drawing = drawn_curve(curve, curve_points(example_of(formula)))

    assert drawing is not None
    rects = [text.rect for text in drawing.texts]
    assert not any(a.overlaps(b) for index, a in enumerate(rects) for b in rects[index + 1 :])
    assert all(0 <= x <= drawing.width and 0 <= y <= drawing.height for wire in drawing.wires for x, y in wire.points)
    assert 10 < len(next(wire for wire in drawing.wires if wire.look == "live").points)


@pytest.mark.parametrize(
    ("low", "high", "found"),
    [
        (0, 410, [0, 100, 200, 300, 400]),
        (0, 149, [0, 50, 100]),
        (0, 1, [0, 0.2, 0.4, 0.6, 0.8, 1]),
        (-40, 125, [0, 50, 100]),
        (0, 0.003, [0, 0.001, 0.002, 0.003]),
        (97, 103, [98, 100, 102]),
        (0, 5000000, [0, 1000000, 2000000, 3000000, 4000000, 5000000]),
    ],
)
def test_ticks_are_round(low: float, high: float, found: list[float]) -> None:
    """1, 2 or 5 times a power of ten apart."""
    assert found == pytest.approx(ticks(low, high))


@given(st.floats(-1e6, 1e6), st.floats(1e-3, 1e6))
def test_ticks_lie_within_and_are_few(low: float, span: float) -> None:
    """At least two and at most six, evenly apart."""
    found = ticks(low, low + span)
    assert 2 <= len(found) <= 6
    assert all(low - span / 500 <= one <= low + span + span / 500 for one in found)
    steps = [b - a for a, b in pairwise(found)]
    assert steps == pytest.approx([steps[0]] * len(steps), rel=1e-3)


def test_axes_have_units_that_fit() -> None:
    """Milliseconds and kilovolts, not 0.002 s and 1500 V."""
    drawing = drawn_curve(VOLTS, [(0.0, 1500.0), (0.001, 900.0), (0.002, 100.0)])

    assert drawing is not None
    words = [line for text in drawing.texts for line in text.lines]
    assert "Voltage in kV" in words and "Time in ms" in words and "0.5" in words
    assert "Voltage over time: from 1.5 kV at 0 s to 100 V at 2 ms" == curve_words(
        VOLTS, [(0.0, 1500.0), (0.002, 100.0)]
    )


@pytest.mark.parametrize("points", [[], [(0.0, 1.0)], [(1.0, 1.0), (1.0, 2.0)], [(0.0, 0.0), (1.0, 0.0)]])
def test_nothing_is_drawn_of_nothing(points: list[tuple[float, float]]) -> None:
    """No point, one point, no width, no height."""
    assert None is drawn_curve(VOLTS, points)


def test_values_below_zero_are_drawn() -> None:
    """The upright axis reaches down to them."""
    drawing = drawn_curve(VOLTS, [(0.0, -10.0), (1.0, 5.0), (2.0, 10.0)])

    assert drawing is not None
    curve = next(wire for wire in drawing.wires if wire.look == "live")
    assert curve.points[0][1] == max(y for _, y in curve.points)
    assert "-10" in [line for text in drawing.texts for line in text.lines]
