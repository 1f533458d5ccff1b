"""A curve drawn with characters, for the console."""

from collections.abc import Sequence

from ...calculations.answer import steps_of
from ...calculations.formula import Curve, Output
from ...calculations.in_figures import in_figures
from .curve_layout import in_unit, ticks, unit_of

#: What stands for the lines of the frame on a console that lacks them.
_PLAIN = str.maketrans({"─": "-", "│": "|", "┤": "+", "┬": "+", **dict.fromkeys("┌┐└┘├┴┼", "+")})
WIDTH, HEIGHT = 76, 20


def curve_text(curve: Curve, points: Sequence[tuple[float, float]], all_signs: bool = True, width: int = WIDTH) -> str:
    """The curve with its axes. Without `all_signs` it holds letters of ASCII alone, save in the names of units."""
    import plotext

    x_values, x_title = _scaled([x for x, _ in points], curve.x)
    y_values, y_title = _scaled([y for _, y in points], curve.y)
    plotext.clear_figure()
    plotext.theme("clear")
    plotext.limit_size(False, False)
    plotext.plotsize(width, HEIGHT)
    plotext.plot(x_values, y_values, marker="braille" if all_signs else "*")
    low, high = min(0.0, *y_values), max(0.0, *y_values)
    plotext.ylim(low, high)
    for axis, marks in (
        (plotext.xticks, ticks(min(x_values), max(x_values))),
        (plotext.yticks, ticks(low, high)),
    ):
        axis(marks, [in_figures(one) for one in marks])
    lines = [line.rstrip() for line in plotext.uncolorize(plotext.build()).splitlines()]
    drawn = "\n".join([y_title, *(line for line in lines if line), x_title.rjust(width).rstrip()])
    return drawn if all_signs else drawn.translate(_PLAIN)


def _scaled(values: list[float], axis: Output) -> tuple[list[float], str]:
    """Values in the unit that fits, and the title of the axis."""
    unit = unit_of(values, list(steps_of(axis.unit)))
    return [value / unit[1] for value in values], in_unit(axis.title, unit)
