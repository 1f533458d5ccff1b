"""Published and computed figures of capacitors that discharge.

Each row carries its source and how certain it is:

published  a worked example that is printed, computed again here
computed   from the formula alone, to hold the digits
"""

from typing import NamedTuple


class Fall(NamedTuple):
    """Ohms and farads, from one voltage to another, seconds, and by how much they may differ."""

    resistance: float
    capacitance: float
    start: float
    end: float
    seconds: float
    within: float
    source: str
    certainty: str


FALLS = (
    Fall(150e3, 300e-6, 600, 50, 111.821, 0.001, "drive maker's document, four times 150 kΩ", "published"),
    Fall(10e3, 470e-6, 400, 50, 9.773, 0.005, "page of a calculator, which prints 9.8 s", "published"),
    Fall(20e3, 500e-6, 400, 60, 18.971, 0.001, "formula", "computed"),
    Fall(20e3 * 1.05, 500e-6 * 1.2, 400, 60, 23.904, 0.001, "formula, +5 % and +20 %", "computed"),
    Fall(10e3, 1000e-6, 800, 60, 25.903, 0.001, "formula", "computed"),
    Fall(47e3 * 1.05, 1.1e-3 * 1.2, 410, 60, 125, 0.5, "formula, +5 % and +20 %, whole seconds", "computed"),
    Fall(47e3 * 1.05, 1.1e-3 * 1.2, 410, 5, 287, 0.5, "formula, +5 % and +20 %, whole seconds", "computed"),
    Fall(1.0, 1.0, 400, 60, 1.897120, 1e-6, "ln(400/60)", "computed"),
    Fall(1.0, 1.0, 800, 60, 2.590267, 1e-6, "ln(800/60)", "computed"),
)


class Left(NamedTuple):
    """Ohms and farads, volts at the start, seconds, volts that are left, and by how much they may differ."""

    resistance: float
    capacitance: float
    start: float
    seconds: float
    volts: float
    within: float
    source: str
    certainty: str


LEFT = (
    Left(150e3, 300e-6, 600, 300, 0.7636, 0.001, "drive maker's document, which rounds to 1 V", "published"),
    Left(1e3, 1e-3, 800, 5, 5.39, 0.005, "five time constants leave 0.674 %", "computed"),
)


class Needed(NamedTuple):
    """Farads, from one voltage to another, seconds, ohms at most, and by how much they may differ."""

    capacitance: float
    start: float
    end: float
    seconds: float
    resistance: float
    within: float
    source: str
    certainty: str


NEEDED = (
    Needed(600e-6, 450, 60, 2, 1654.3, 0.1, "data of a reference design: 450 V to 60 V in 2 s", "computed"),
    Needed(500e-6, 400, 60, 5, 5271.1, 0.1, "formula", "computed"),
    Needed(500e-6, 400, 60, 120, 126.51e3, 10, "formula", "computed"),
    Needed(500e-6, 800, 60, 5, 3860.6, 0.1, "formula", "computed"),
    Needed(500e-6, 800, 60, 120, 92.65e3, 10, "formula", "computed"),
)


class Energy(NamedTuple):
    """Farads, volts, joules, and by how much they may differ."""

    capacitance: float
    volts: float
    joules: float
    within: float
    source: str
    certainty: str


ENERGIES = (
    Energy(10e-6, 200, 0.2, 1e-9, "question of a physics course", "published"),
    Energy(470e-6, 400, 37.6, 1e-9, "page of a calculator", "published"),
    Energy(500e-6, 400, 40.0, 1e-9, "formula", "computed"),
    Energy(500e-6, 800, 160.0, 1e-9, "formula", "computed"),
    Energy(500e-6, 60, 0.9, 1e-9, "formula", "computed"),
    Energy(1000e-6, 60, 1.8, 1e-9, "formula", "computed"),
    Energy(500e-6, 28.28, 0.2, 1e-4, "formula", "computed"),
    Energy(1000e-6, 20.0, 0.2, 1e-9, "formula", "computed"),
    Energy(111.1e-6, 60, 0.2, 2e-4, "formula; the curve of 0.2 J is printed in an article", "computed"),
    Energy(2.5e-6, 400, 0.2, 1e-9, "formula; the curve of 0.2 J is printed in an article", "computed"),
    Energy(0.625e-6, 800, 0.2, 1e-9, "formula; the curve of 0.2 J is printed in an article", "computed"),
)

#: Energy above 60 V: farads, volts, joules. Computed from the formula of UN R94 (formula from memory).
ABOVE_60 = ((500e-6, 400, 39.10), (500e-6, 800, 159.10), (500e-6, 60, 0.0), (500e-6, 12, 0.0))
