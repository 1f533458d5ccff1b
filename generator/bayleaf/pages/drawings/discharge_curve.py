"""The curve of a discharge: how the voltage falls while one waits, at the worst tolerances."""

from ...calculations.discharge import curve
from ...safety.wait import Wait
from .curve import time_words, waiting_curve
from .shapes import Drawing

__all__ = ["discharge_curve", "time_words"]


def discharge_curve(wait: Wait, marks: tuple[tuple[float, str], ...], levels: tuple[float, ...]) -> Drawing | None:
    """The curve with times marked (seconds and words) and voltages as level lines; nothing where no figure is known."""
    if wait.start is None or wait.capacitance is None or wait.bleed is None or wait.bleed == float("inf"):
        return None
    last = max([seconds for seconds, _ in marks], default=0) or wait.bleed * wait.capacitance * 3
    points = curve(wait.start, wait.bleed, wait.capacitance, last * 1.08)
    return waiting_curve([(one.seconds, one.volts) for one in points], "V", levels, marks)
