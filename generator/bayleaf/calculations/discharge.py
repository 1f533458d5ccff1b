"""Capacitors: how they are discharged by a resistor.

    U(t) = U0 · e^(−t / (R·C))          t = R·C · ln(U0 / U)          E = ½ · C · U²

    U0  voltage at the start        V        R  resistance        Ω        t  time      s
    U   voltage after the time t    V        C  capacitance       F        E  energy    J

Valid for one resistance and one capacitance that do not change, and nothing that charges it again. A real
capacitor recovers some volts after a discharge (dielectric absorption), and a real bleed resistor may be broken: a
computed time never replaces the reading.

Source: the charge law of a capacitor, C = Q/U, with Ohm's law, solved for the voltage; any textbook of circuit theory.
"""

from math import exp, inf, log
from typing import NamedTuple

from .formula import Curve, Formula, Input, Output


class Point(NamedTuple):
    """A point of a curve of discharge: seconds and volts."""

    seconds: float
    volts: float


def time_to_fall(start: float, end: float, resistance: float, capacitance: float) -> float:
    """Seconds until `start` volts have fallen to `end` volts: R·C·ln(U0/U).

    0 where the start is not above the end; endless for an end of 0 V, which is never reached. A resistance that is
    endless (no bleed) gives an endless time.
    """
    _positive(resistance=resistance, capacitance=capacitance)
    if start <= end:
        return 0.0
    return resistance * capacitance * log(start / end) if end > 0 else inf


def voltage_after(seconds: float, start: float, resistance: float, capacitance: float) -> float:
    """Volts that are left after a time: U0·e^(−t/RC)."""
    _positive(resistance=resistance, capacitance=capacitance)
    if seconds < 0:
        raise ValueError(f"a time of {seconds} s lies before the start")
    return start if resistance == inf else start * exp(-seconds / (resistance * capacitance))


def resistance_for(seconds: float, start: float, end: float, capacitance: float) -> float:
    """The highest resistance, in ohms, that lets `start` fall to `end` within a time: t / (C·ln(U0/U)).

    Endless where the start is not above the end: nothing has to be discharged.
    """
    _positive(seconds=seconds, end=end, capacitance=capacitance)
    return inf if start <= end else seconds / (capacitance * log(start / end))


def stored_energy(volts: float, capacitance: float) -> float:
    """Joules in a capacitor: ½·C·U²."""
    _positive(capacitance=capacitance)
    return 0.5 * capacitance * volts**2


def energy_above(volts: float, base: float, capacitance: float) -> float:
    """Joules that go as the voltage falls to `base`: ½·C·(U² − base²). 0 where it is not above.

    With a base of 60 V this is the energy of UN R94, annex 9 (from memory), which counts nothing below 60 V.
    """
    return max(0.0, stored_energy(volts, capacitance) - stored_energy(base, capacitance))


def voltage_of_energy(joules: float, capacitance: float) -> float:
    """Volts at which a capacitor holds this energy: √(2·E/C)."""
    _positive(capacitance=capacitance)
    return (2 * joules / capacitance) ** 0.5


def capacitance_of_energy(joules: float, volts: float) -> float:
    """The capacitance, in farads, that holds this energy at this voltage: 2·E/U²."""
    _positive(volts=volts)
    return 2 * joules / volts**2


def curve(start: float, resistance: float, capacitance: float, until: float, points: int = 50) -> tuple[Point, ...]:
    """Points of the curve at equal distances in time, the first at 0 s and the last at `until`."""
    if points < 2:
        raise ValueError("a curve has at least two points")
    times = (until * index / (points - 1) for index in range(points))
    return tuple(Point(time, voltage_after(time, start, resistance, capacitance)) for time in times)


def _positive(**values: float) -> None:
    for name, value in values.items():
        if not value > 0:
            raise ValueError(f"{name.replace('_', ' ')} is {value}; it has to be above 0")


def _fall(resistance: float, capacitance: float, start: float, end: float) -> tuple[float, float, float]:
    """Seconds, joules at the start, joules that are left."""
    seconds = time_to_fall(start, end, resistance, capacitance)
    return seconds, stored_energy(start, capacitance), stored_energy(min(start, end), capacitance)


def _fall_points(resistance: float, capacitance: float, start: float, end: float) -> list[tuple[float, float]]:
    """Half as long again as the fall to the end takes."""
    until = 1.5 * time_to_fall(start, end, resistance, capacitance)
    times = [until * index / 60 for index in range(61)]
    return [(time, voltage_after(time, start, resistance, capacitance)) for time in times]


def _left(resistance: float, capacitance: float, start: float, after: float) -> tuple[float, float]:
    volts = voltage_after(after, start, resistance, capacitance)
    return volts, stored_energy(volts, capacitance)


def _needed(capacitance: float, start: float, end: float, within: float) -> tuple[float, float, float]:
    """Ohms at most, watts at the start, joules that the resistor takes up."""
    ohms = resistance_for(within, start, end, capacitance)
    return ohms, start**2 / ohms, energy_above(start, end, capacitance)


def _stored(capacitance: float, volts: float) -> tuple[float]:
    return (stored_energy(volts, capacitance),)


_R = Input("R", "Resistance that discharges", "Ω")
_C = Input("C", "Capacitance", "F")
_FROM = Input("from", "Voltage at the start", "V")
_TO = Input("to", "Voltage at the end", "V", "60 V")
_VALID = (
    "One resistance and one capacitance that do not change, and nothing that charges again. Never replaces a reading."
)
_SOURCE = "Charge law of a capacitor with Ohm's law; any textbook of circuit theory"

FORMULAS = (
    Formula(
        "discharge",
        "Time in which a capacitor discharges",
        (_R, _C, _FROM, _TO),
        (Output("Time", "s"), Output("Energy at the start", "J"), Output("Energy that is left", "J")),
        _fall,
        "t = R · C · ln(U₀ / U)",
        _VALID,
        _SOURCE,
        {"R": "47 kΩ", "C": "1.1 mF", "from": "410 V", "to": "60 V"},
        Curve(Output("Time", "s"), Output("Voltage", "V"), _fall_points),
    ),
    Formula(
        "voltage left",
        "Voltage that is left after a time",
        (_R, _C, _FROM, Input("after", "Time", "s")),
        (Output("Voltage", "V"), Output("Energy that is left", "J")),
        _left,
        "U = U₀ · e^(−t / (R · C))",
        _VALID,
        _SOURCE,
        {"R": "47 kΩ", "C": "1.1 mF", "from": "410 V", "after": "5 min"},
    ),
    Formula(
        "discharge resistor",
        "Resistor that discharges within a time",
        (_C, _FROM, _TO, Input("within", "Time", "s")),
        (Output("Resistance, at most", "Ω"), Output("Power at the start", "W"), Output("Energy taken up", "J")),
        _needed,
        "R = t / (C · ln(U₀ / U))",
        _VALID,
        _SOURCE,
        {"C": "600 µF", "from": "450 V", "to": "60 V", "within": "2 s"},
    ),
    Formula(
        "stored energy",
        "Energy in a capacitor",
        (_C, Input("at", "Voltage", "V")),
        (Output("Energy", "J"),),
        _stored,
        "E = ½ · C · U²",
        "A capacitance that does not change with the voltage.",
        _SOURCE,
        {"C": "500 µF", "at": "400 V"},
    ),
)
