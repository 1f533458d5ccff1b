"""Nut factor: the short form of the tightening torque, with one factor for all friction, and how far it scatters.

    T = K · d · F          ± = (α − 1) / (α + 1), α = K_high / K_low

    T  torque, N·m        K  nut factor        d  outer diameter, mm        F  preload, kN

A nut factor means nothing without the surface that it was measured on, and nothing without its range: two sources give
0.20 and 0.30 for the same dry, black bolt. So there is no single value here.

Valid as a rough form: K also holds the pitch and the size of the head, which the table averages over.

Source: ranges measured, as a fastener maker's engineering page prints them; the form itself restated in a textbook of
machine design and in ASME PCC-1, appendix O.
"""

from math import cos, pi, radians

from .checked import above_zero, known, not_negative
from .formula import Formula, Input, Output
from .threads import INCH, METRIC, diameter_and_pitch, pitch_diameter
from .tightening_factor import scatter

#: Lowest and highest K measured. Source: one fastener maker's engineering page, restated. Single values printed
#: elsewhere lie within these ranges, but for 0.30 of a black oxide bolt (textbook), which is above that of dry steel.
RANGES = {
    "steel, dry": [0.18, 0.27],
    "machine oil": [0.10, 0.26],
    "cadmium plated": [0.15, 0.19],
    "phosphate and oil": [0.15, 0.22],
    "zinc plated": [0.17, 0.35],
    "zinc flake": [0.16, 0.32],
    "stainless steel on stainless steel": [0.30, 0.50],
}


def torque_by_nut_factor(factor: float, diameter: float, preload: float) -> float:
    """T, N·m: K · d (mm) · F (kN)."""
    above_zero("nut factor", factor)
    above_zero("diameter", diameter)
    not_negative("preload", preload)
    return factor * diameter * preload


def preload_by_nut_factor(factor: float, diameter: float, torque: float) -> float:
    """F, kN: T (N·m) / (K · d (mm))."""
    above_zero("nut factor", factor)
    above_zero("diameter", diameter)
    not_negative("torque", torque)
    return torque / (factor * diameter)


def nut_factor_of_friction(size: str, friction: float, bearing: float) -> float:
    """K of a bolt whose friction is known, with its mean bearing diameter (mm): T / (d · F) of VDI 2230."""
    not_negative("friction", friction)
    above_zero("mean bearing diameter", bearing)
    outer, pitch = diameter_and_pitch(size)
    rubbing = pitch_diameter(size) / 2 / cos(radians(30)) + bearing / 2
    return (pitch / (2 * pi) + friction * rubbing) / outer


def factor_range(surface: str) -> tuple[float, float]:
    """Lowest and highest K of a surface of the table."""
    known("surface", surface, list(RANGES))
    return RANGES[surface][0], RANGES[surface][1]


def half_scatter(low: float, high: float) -> float:
    """By how much the preload of one torque may be above or below its middle, as a share: (α − 1) / (α + 1)."""
    above_zero("lowest value", low)
    if low > high:
        raise ValueError(f"the lowest value, {low:g}, is above the highest, {high:g}")
    return scatter(high / low)


def _range(size: str, surface: str, torque: float) -> tuple[str, float, float, float]:
    low, high = factor_range(surface)
    outer = diameter_and_pitch(size)[0]
    least = preload_by_nut_factor(high, outer, torque)
    most = preload_by_nut_factor(low, outer, torque)
    return f"{low:.2f} to {high:.2f}", least, most, 100 * half_scatter(low, high)


FORMULAS = (
    Formula(
        "nut factor",
        "Preload of a torque by the surface of the bolt",
        (
            Input("size", "Thread", choices=(*METRIC, *INCH)),
            Input("surface", "Surface", choices=tuple(RANGES)),
            Input("torque", "Tightening torque", "N·m"),
        ),
        (
            Output("Nut factor"),
            Output("Preload, at least", "kN"),
            Output("Preload, at most", "kN"),
            Output("Scatter, above and below", "%"),
        ),
        _range,
        "F = T / (K · d)",
        "A rough form for estimates, without the scatter of the tool; `preload` counts with the head and the pitch.",
        "Ranges measured, as a fastener maker's engineering page prints them",
        {"size": "3/8-16 UNC", "surface": "zinc plated", "torque": "41.9 N·m"},
    ),
)
