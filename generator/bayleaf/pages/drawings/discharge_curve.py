"""The curve of a discharge: how the voltage falls while one waits, at the worst tolerances.

It shows what waiting is for, and that it is not proof: below the limit there is still something left.
"""

from math import ceil

from ...calculations.discharge import curve
from ...safety.wait import Wait
from .shapes import LINE, WIDTH, Drawing, Sheet

_LEFT, _RIGHT, _TOP, _BOTTOM = 46.0, WIDTH - 10.0, 24.0, 150.0


def discharge_curve(wait: Wait, marks: tuple[tuple[float, str], ...], levels: tuple[float, ...]) -> Drawing | None:
    """The curve with times marked (seconds and words) and voltages as level lines; nothing where no figure is known."""
    if wait.start is None or wait.capacitance is None or wait.bleed is None or wait.bleed == float("inf"):
        return None
    last = max([seconds for seconds, _ in marks], default=0) or wait.bleed * wait.capacitance * 3
    until = last * 1.08
    sheet = Sheet()

    def x(seconds: float) -> float:
        return _LEFT + (_RIGHT - _LEFT) * seconds / until

    def y(volts: float) -> float:
        return _BOTTOM - (_BOTTOM - _TOP) * volts / (wait.start or 1)

    sheet.wire("off", (_LEFT, _TOP - 8), (_LEFT, _BOTTOM), (_RIGHT, _BOTTOM))
    points = curve(wait.start, wait.bleed, wait.capacitance, until)
    sheet.wire("live", *((x(one.seconds), y(one.volts)) for one in points))
    sheet.write("axis:start", f"{wait.start:g}\u00a0V", 0, y(wait.start) - LINE / 2, _LEFT)
    low = _BOTTOM + 2
    for volts in sorted(levels):
        if volts < wait.start:
            sheet.wire("level", (_LEFT, y(volts)), (_RIGHT, y(volts)))
            place = min(y(volts) - LINE / 2, low - LINE)
            sheet.write(f"axis:{volts:g}", f"{volts:g}\u00a0V", 0, place, _LEFT)
            low = place
    bottom = _BOTTOM + 4
    for seconds, words in sorted(marks):
        sheet.wire("mark", (x(seconds), _TOP), (x(seconds), _BOTTOM))
        bottom = sheet.write(f"mark:{ceil(seconds)}", f"{time_words(seconds)}: {words}", _LEFT, bottom, WIDTH - _LEFT)
    return sheet.done(WIDTH, bottom + 4)


def time_words(seconds: float) -> str:
    """A time on the curve: "125 s", "5 min"."""
    whole = round(seconds)
    return f"{whole // 60}\u00a0min" if whole >= 120 and whole % 60 == 0 else f"{whole}\u00a0s"
