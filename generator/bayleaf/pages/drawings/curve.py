"""A curve: how one quantity follows another. One drawing for the safety briefing and for the calculators.

In the briefing it shows what waiting is for, and that it is not proof: below the limit there is still something left.
"""

from collections.abc import Sequence
from math import ceil

from markupsafe import Markup

from ...calculations.answer import Result, steps_of
from ...calculations.formula import Curve
from .curve_layout import BOTTOM, LEFT, LINE, RIGHT, TOP, Layout, formula_curve, x_at, y_at
from .shapes import WIDTH, Drawing, Sheet, svg

#: How a curve looks where no style sheet of a page is at hand.
_STYLE = (
    "svg{background:#fff;font-family:sans-serif}.bl-map-text{font-size:13px}.bl-map-wire{fill:none;stroke:#000;"
    "stroke-width:1.4}.bl-map-live{stroke-width:4}.bl-map-level{stroke-width:1;stroke-dasharray:2 3}"
    ".bl-map-mark{stroke-width:1}"
)


def waiting_curve(
    points: Sequence[tuple[float, float]],
    unit: str,
    levels: Sequence[float] = (),
    marks: Sequence[tuple[float, str]] = (),
) -> Drawing:
    """A curve over the seconds from 0 on, with values as level lines and times marked; what is marked stands below."""
    until, top = points[-1][0], max(y for _, y in points)
    sheet = Sheet()
    sheet.wire("off", (LEFT, TOP - 8), (LEFT, BOTTOM), (RIGHT, BOTTOM))
    sheet.wire("live", *((x_at(x, 0, until), y_at(y, 0, top)) for x, y in points))
    sheet.write("axis:start", f"{top:g}\u00a0{unit}", 0, y_at(top, 0, top) - LINE / 2, LEFT)
    low = BOTTOM + 2
    for value in sorted(one for one in levels if one < top):
        height = y_at(value, 0, top)
        sheet.wire("level", (LEFT, height), (RIGHT, height))
        low = min(height - LINE / 2, low - LINE)
        sheet.write(f"axis:{value:g}", f"{value:g}\u00a0{unit}", 0, low, LEFT)
    bottom = BOTTOM + 4
    for seconds, words in sorted(marks):
        sheet.wire("mark", (x_at(seconds, 0, until), TOP), (x_at(seconds, 0, until), BOTTOM))
        told = f"{time_words(seconds)}: {words}"
        bottom = sheet.write(f"mark:{ceil(seconds)}", told, LEFT, bottom, WIDTH - LEFT)
    return sheet.done(WIDTH, bottom + 4)


def time_words(seconds: float) -> str:
    """A time on the curve: "125 s", "5 min"."""
    whole = round(seconds)
    return f"{whole // 60}\u00a0min" if whole >= 120 and whole % 60 == 0 else f"{whole}\u00a0s"


def layout_of(curve: Curve, points: Sequence[tuple[float, float]]) -> Layout | None:
    """Where the parts of a formula's curve stand; None where nothing can be drawn."""
    x, y = curve.x, curve.y
    return formula_curve(list(points), x.title, list(steps_of(x.unit)), y.title, list(steps_of(y.unit)))


def drawn_curve(curve: Curve, points: Sequence[tuple[float, float]]) -> Drawing | None:
    """A formula's curve with its axes; None where nothing can be drawn."""
    layout = layout_of(curve, points)
    if layout is None:
        return None
    wires, texts, height = layout
    sheet = Sheet()
    for look, places in wires:
        sheet.wire(look, *((x, y) for x, y in places))
    for number, (text, x_place, y_place, width) in enumerate(texts):
        sheet.write(f"text:{number}", text, x_place, y_place, width)
    return sheet.done(WIDTH, height)


def curve_words(curve: Curve, points: Sequence[tuple[float, float]]) -> str:
    """The curve for whoever does not see it: from where to where."""
    ends = (points[0], points[-1])
    told = [f"{Result(curve.y, y).text} at {Result(curve.x, x).text}" for x, y in ends]
    return f"{curve.y.title} over {curve.x.title.lower()}: from {told[0]} to {told[1]}"


def svg_file(drawing: Drawing, title: str, text: str) -> str:
    """The drawing as a file of its own, which brings its style along."""
    inner = str(svg(drawing, "curve", title, text))
    head = Markup('<svg xmlns="http://www.w3.org/2000/svg" width="{}" height="{}" ').format(
        *(round(2 * side) for side in (drawing.width, drawing.height))
    )
    styled = inner.replace("<svg ", head, 1).replace("><title", f"><style>{_STYLE}</style><title", 1)
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{styled}\n'
