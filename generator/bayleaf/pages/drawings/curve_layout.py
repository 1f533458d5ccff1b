"""Where the parts of a curve stand: lines through points, and texts with places.

Like a calculation this is run in the browser as well, translated, while somebody types. So it uses numbers, texts and
lists, and nothing that only Python has; `curve` makes a drawing of it.
"""

from math import floor

from ...calculations.in_figures import Step, exponent_of, fitting, in_figures

#: The frame, in the units of a drawing 340 wide. Texts are 13 high, lines of them 17.
LEFT = 46.0
RIGHT = 330.0
TOP = 24.0
BOTTOM = 150.0
LINE = 17.0
#: About the width of a figure, to set a number below its mark. Measured from common screen fonts, rounded up.
FIGURE = 7.6
#: Ticks of an axis: at most so many spaces between them.
SPACES = 5

Points = list[list[float]]
#: What a curve is drawn of: wires with their look and points, texts with their place and width, and its height.
Layout = tuple[list[tuple[str, Points]], list[tuple[str, float, float, float]], float]


def x_at(value: float, low: float, high: float) -> float:
    """Where a value stands between the left and the right of the frame."""
    return LEFT + (RIGHT - LEFT) * (value - low) / (high - low)


def y_at(value: float, low: float, high: float) -> float:
    """Where a value stands between the bottom and the top of the frame."""
    return BOTTOM - (BOTTOM - TOP) * (value - low) / (high - low)


def ticks(low: float, high: float) -> list[float]:
    """Round numbers from low to high: 1, 2 or 5 times a power of ten apart."""
    span = high - low
    power = exponent_of(span / SPACES)
    unit = float(f"1e{power}") if power >= 0 else 1 / float(f"1e{-power}")
    step = unit
    for times in [1, 2, 5, 10]:
        if span / (unit * times) > SPACES:
            continue
        step = unit * times
        break
    first = floor(low / step)
    found = [number * step for number in range(first, first + SPACES + 3)]
    return [one for one in found if low - step / 1000 <= one <= high + step / 1000]


def formula_curve(
    points: list[tuple[float, float]], x_title: str, x_steps: list[Step], y_title: str, y_steps: list[Step]
) -> Layout | None:
    """A curve with both axes in units that fit; None where there is nothing to draw.

    The upright axis begins at 0 unless values lie below it. A title without steps is that of a plain number.
    """
    if len(points) < 2:
        return None
    x_unit = unit_of([point[0] for point in points], x_steps)
    y_unit = unit_of([point[1] for point in points], y_steps)
    scaled = [[point[0] / x_unit[1], point[1] / y_unit[1]] for point in points]
    x_low, x_high = min([one[0] for one in scaled]), max([one[0] for one in scaled])
    y_low, y_high = min(0.0, min([one[1] for one in scaled])), max(0.0, max([one[1] for one in scaled]))
    if not x_high > x_low or not y_high > y_low:
        return None
    wires: list[tuple[str, Points]] = []
    texts = [(in_unit(y_title, y_unit), 0.0, 0.0, RIGHT)]
    for value in ticks(y_low, y_high):
        height = y_at(value, y_low, y_high)
        wires.append(("level", [[LEFT, height], [RIGHT, height]]))
        texts.append((in_figures(value), 0.0, height - LINE / 2, LEFT))
    for value in ticks(x_low, x_high):
        place = x_at(value, x_low, x_high)
        words = in_figures(value)
        wires.append(("mark", [[place, BOTTOM], [place, BOTTOM + 4]]))
        texts.append((words, place - FIGURE * len(words) / 2, BOTTOM + 4, LEFT))
    wires.append(("off", [[LEFT, TOP - 4], [LEFT, BOTTOM], [RIGHT, BOTTOM]]))
    wires.append(("live", [[x_at(one[0], x_low, x_high), y_at(one[1], y_low, y_high)] for one in scaled]))
    texts.append((in_unit(x_title, x_unit), LEFT, BOTTOM + 4 + LINE, RIGHT - LEFT))
    return wires, texts, BOTTOM + 8 + 2 * LINE


def unit_of(values: list[float], steps: list[Step]) -> Step:
    """The unit that fits the greatest of these values."""
    if len(steps) == 0:
        return ("", 1.0, 1.0)
    return fitting(max([abs(one) for one in values]), steps)


def in_unit(title: str, unit: Step) -> str:
    """The title of an axis: "Voltage in V"."""
    return title + (" in " + unit[0] if unit[0] else "")
