"""Thread engagement: how far a bolt has to be screwed in so that it breaks before a thread strips.

    A_s = π · D1 · (P/2 + (d2 − D1)/√3) / P       L_bolt = 2 · As / A_s
    A_n = π · d  · (P/2 + (d − D2)/√3) / P        L_hole = 2 · As · R_bolt / (A_n · R_hole)
    F   = R_hole · A_n · L / 2

    A_s  shear area of the bolt's thread per mm of length, mm²/mm        As  stress area, mm²      L  length, mm
    A_n  shear area of the tapped thread per mm of length, mm²/mm        R   tensile strength, MPa

Shear strength is taken as half the tensile strength, and the shear areas at the limits of size that leave the least
metal: d and d2 smallest, D1 and D2 largest, for 6g with 6H and 2A with 2B. On basic sizes the lengths would come out a
fifth too short.

Valid for whole, clean threads without an insert: the chamfer, the run-out and the first thread that is damaged do not
count. Not for a thread that is cut anew in a soft part again and again.

Source: FED-STD-H28/2B, formulas 2a, 4a, 14 and 16, as open code of a university gives them; limits of size from the
formulas of ISO 965-1 and ASME B1.1 (from memory), which give every printed length within 2 %. For metric threads the
stress area is that of ISO 898-1, 1.3 % larger than that of the inch formula.
"""

from math import pi, sqrt

from .checked import above_zero, known
from .formula import Formula, Input, Output
from .property_classes import SAE, STAINLESS, STEEL, breaking_load, fitting_diameter, tensile_strength
from .threads import INCH, METRIC, diameter_and_pitch, nut_core_diameter, pitch_diameter, stress_area

#: Shear strength over tensile strength. Source: the factor 2 in FED-STD-H28/2B, formulas 14 and 16.
SHEAR = 0.5
#: Least length in outer diameters, coarse thread, by what is tapped (tensile strength above, MPa) and by class.
#: Source: suppliers' table after trials on M6 to M16, restated twice.
RECOMMENDED = {
    "steel above 360 MPa": {"8.8": 1.0, "10.9": 1.25, "12.9": 1.4},
    "steel above 500 MPa": {"8.8": 0.9, "10.9": 1.0, "12.9": 1.2},
    "steel above 800 MPa": {"8.8": 0.8, "10.9": 0.9, "12.9": 1.0},
    "grey iron above 220 MPa": {"8.8": 1.0, "10.9": 1.25, "12.9": 1.4},
}
#: The same for aluminium above 180 MPa. Which column of the printed table is which class is uncertain: conflicting, so
#: that no check may rest on it. A handbook prints 2 d for M8 10.9 in 250 to 270 MPa, and 1.5 d with a wire insert.
ALUMINIUM = {"8.8": 2.0, "10.9": 2.5}


def shear_area_of_bolt(size: str) -> float:
    """A_s, mm² per mm, at the limits of size that leave the least metal (formula 4a)."""
    pitch, limits = diameter_and_pitch(size)[1], least_metal(size)
    return pi * limits[2] * (pitch / 2 + (limits[1] - limits[2]) / sqrt(3)) / pitch


def shear_area_of_hole(size: str) -> float:
    """A_n, mm² per mm, at the limits of size that leave the least metal (formula 2a)."""
    pitch, limits = diameter_and_pitch(size)[1], least_metal(size)
    return pi * limits[0] * (pitch / 2 + (limits[0] - limits[3]) / sqrt(3)) / pitch


def length_for_bolt(size: str) -> float:
    """mm so that the bolt breaks before its own thread strips (formula 14)."""
    return stress_area(size) / (SHEAR * shear_area_of_bolt(size))


def length_for_hole(size: str, bolt: float, hole: float) -> float:
    """mm so that the bolt breaks before the tapped thread strips (formula 16), with both tensile strengths, MPa."""
    above_zero("tensile strength of the bolt", bolt)
    above_zero("tensile strength of the tapped part", hole)
    return stress_area(size) * bolt / (SHEAR * shear_area_of_hole(size) * hole)


def needed_length(size: str, bolt: float, hole: float) -> float:
    """The longer of both, mm."""
    return max(length_for_bolt(size), length_for_hole(size, bolt, hole))


def stripping_load(size: str, length: float, hole: float) -> float:
    """F, kN, at which a tapped thread of this length (mm) and tensile strength (MPa) strips."""
    above_zero("length", length)
    above_zero("tensile strength of the tapped part", hole)
    return SHEAR * hole * shear_area_of_hole(size) * length / 1000


def recommended_length(material: str, strength_class: str) -> float:
    """The least length in outer diameters that suppliers print for a coarse thread; without aluminium."""
    known("material", material, list(RECOMMENDED))
    known("property class", strength_class, list(RECOMMENDED[material]))
    return RECOMMENDED[material][strength_class]


def least_metal(size: str) -> tuple[float, float, float, float]:
    """d and d2 smallest, D1 and D2 largest, mm: 6g with 6H for a metric thread, 2A with 2B for an inch thread."""
    outer, pitch = diameter_and_pitch(size)
    if size in INCH:
        tolerances = [25.4 * one for one in _inch_tolerances(outer / 25.4, pitch / 25.4)]
    else:
        tolerances = [one / 1000 for one in _metric_tolerances(outer, pitch)]
    gap, of_outer, of_middle, of_core, of_nut = tolerances
    middle = pitch_diameter(size)
    return outer - gap - of_outer, middle - gap - of_middle, nut_core_diameter(size) + of_core, middle + of_nut


def _metric_tolerances(outer: float, pitch: float) -> list[float]:
    """Gap g, tolerances of d, d2, D1 and D2, grade 6, µm. Source: formulas of ISO 965-1, from memory; not rounded."""
    of_middle = 90 * pitch**0.4 * outer**0.1
    of_core = 230 * pitch**0.7 if pitch >= 1 else 433 * pitch - 190 * pitch**1.22
    of_outer = 180 * pitch ** (2 / 3) - 3.15 / sqrt(pitch)
    return [15 + 11 * pitch, of_outer, of_middle, of_core, 1.32 * of_middle]


def _inch_tolerances(outer: float, pitch: float) -> list[float]:
    """Allowance, tolerances of d, d2, D1 and D2, class 2, in. Source: formulas of ASME B1.1, from memory."""
    of_middle = 0.0015 * outer ** (1 / 3) + 0.0015 * sqrt(outer) + 0.015 * pitch ** (2 / 3)
    of_core = 0.25 * pitch - 0.4 * pitch**2
    if outer < 0.25:
        of_core = min(0.394 * pitch, max(of_core, 0.05 * pitch ** (2 / 3) + 0.03 * pitch / outer - 0.002))
    return [0.3 * of_middle, 0.06 * pitch ** (2 / 3), of_middle, of_core, 1.3 * of_middle]


def _engagement(size: str, strength_class: str, hole: float) -> tuple[float, float, float, float]:
    outer = diameter_and_pitch(size)[0]
    bolt = tensile_strength(strength_class, fitting_diameter(size, strength_class))
    length = needed_length(size, bolt, hole)
    return length_for_bolt(size), length_for_hole(size, bolt, hole), length, length / outer


def _stripping(size: str, strength_class: str, length: float, hole: float) -> tuple[float, float, str]:
    strips, breaks = stripping_load(size, length, hole), breaking_load(size, strength_class)
    return strips, breaks, "the tapped thread" if strips < breaks else "the bolt, not the tapped thread"


def _recommended(size: str, material: str, strength_class: str) -> tuple[float, float]:
    times = recommended_length(material, strength_class)
    return times, times * diameter_and_pitch(size)[0]


_SIZE = Input("size", "Thread", choices=(*METRIC, *INCH))
_CLASS = Input("class", "Property class or grade of the bolt", choices=(*STEEL, *STAINLESS, *SAE))
_HOLE = Input("strength", "Tensile strength of the tapped part", "MPa")
_COARSE = tuple(one for one in METRIC if "x" not in one and 6 <= METRIC[one][0] <= 16)
_VALID = "Whole threads without an insert; chamfer and run-out do not count. Tolerances 6g with 6H, 2A with 2B."
_SOURCE = "FED-STD-H28/2B, formulas 14 and 16, as open code of a university gives them"

FORMULAS = (
    Formula(
        "thread engagement",
        "Length that a bolt has to be screwed in",
        (_SIZE, _CLASS, _HOLE),
        (
            Output("For the thread of the bolt", "mm"),
            Output("For the tapped thread", "mm"),
            Output("Needed", "mm"),
            Output("Needed, in diameters"),
        ),
        _engagement,
        "L = max(2 · As / A_s, 2 · As · R_bolt / (A_n · R_hole))",
        _VALID,
        _SOURCE,
        {"size": "M8", "class": "8.8", "strength": "260 MPa"},
    ),
    Formula(
        "stripping load",
        "Load at which a tapped thread strips",
        (_SIZE, _CLASS, Input("length", "Length that is screwed in", "mm"), _HOLE),
        (Output("The tapped thread strips at", "kN"), Output("The bolt bears", "kN"), Output("What gives way first")),
        _stripping,
        "F = R_hole · A_n · L / 2",
        _VALID,
        _SOURCE,
        {"size": "M8", "class": "8.8", "length": "12 mm", "strength": "260 MPa"},
    ),
    Formula(
        "usual engagement",
        "Length of engagement that is usual",
        (
            Input("size", "Thread, coarse", choices=_COARSE),
            Input("material", "What is tapped", choices=tuple(RECOMMENDED)),
            Input("class", "Property class of the bolt", choices=("8.8", "10.9", "12.9")),
        ),
        (Output("Least length, in diameters"), Output("Least length", "mm")),
        _recommended,
        "Table",
        "Coarse threads M6 to M16. Aluminium is not in it: its columns are printed unclearly; compute it instead.",
        "Suppliers' table after trials, restated twice",
        {"size": "M10", "material": "steel above 500 MPa", "class": "10.9"},
    ),
)
