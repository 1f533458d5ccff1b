"""The flow cut into parts that fit on paper, two beside each other on a sheet of A4 or Letter.

A part begins above a step and ends below the exits of one, so that nothing is cut but lines; they go on at the same
place of the next part.
"""

from itertools import pairwise
from typing import NamedTuple

from .flow import GAP
from .shapes import Drawing

#: The height of a part, in units of the drawing: 88 mm wide, 13 units are 9.5 points, and 207 mm are left for it.
MOST = 800.0


class FlowPart(NamedTuple):
    """What of the drawing is shown, and the indexes of its first and its last step."""

    top: float
    height: float
    first: int
    last: int


def flow_parts(drawing: Drawing, most: float = MOST) -> tuple[FlowPart, ...]:
    """The parts in their order, each at most so high, save where one step with its exits is higher."""
    steps = [box.rect for box in drawing.boxes if box.of.startswith("step:")]
    edges = [0.0, *(rect.y - GAP + 1 for rect in steps[1:]), drawing.height]
    parts: list[FlowPart] = []
    for index, (top, bottom) in enumerate(pairwise(edges)):
        if parts and bottom - parts[-1].top <= most:
            parts[-1] = parts[-1]._replace(height=bottom - parts[-1].top, last=index)
        else:
            parts.append(FlowPart(top, bottom - top, index, index))
    return tuple(parts)
