"""Property classes: what a bolt of a class or grade holds at least.

    F_p = S_p · As        F_y = R_y · As        F_m = R_m · As

    R_m  tensile strength, MPa                            S_p  stress under proof load, MPa
    R_y  yield strength or 0.2 % limit, MPa               As   stress area, mm²

These are the minimum values of the tables, not what the digits of the mark say: 10.9 names 1000 and 900 MPa, and has to
hold 1040 and 940. For class 8.8 and for the inch grades 2 and 5 they hang on the diameter as well.

Valid at room temperature, for a bolt that is not hot-dip galvanised with an undersized thread (ISO 10684).

Source: ISO 898-1:2013, ISO 3506-1 and SAE J429, each as restated by two or more suppliers or universities.
"""

import re

from .formula import Formula, Input, Output
from .threads import INCH, METRIC, diameter_and_pitch, stated_area

#: Rows of: up to which diameter, mm; R_m, R_y and S_p, MPa. Source: ISO 898-1:2013, restated by two suppliers; the R_y
#: of 4.8 is marked there as still being looked into.
STEEL: dict[str, list[list[float]]] = {
    "4.6": [[39, 400, 240, 225]],
    "4.8": [[39, 420, 340, 310]],
    "5.6": [[39, 500, 300, 280]],
    "5.8": [[39, 520, 420, 380]],
    "6.8": [[39, 600, 480, 440]],
    "8.8": [[16, 800, 640, 580], [39, 830, 660, 600]],
    "9.8": [[16, 900, 720, 650]],
    "10.9": [[39, 1040, 940, 830]],
    "12.9": [[39, 1220, 1100, 970]],
}
#: R_m and R_y, MPa; the standard has no S_p. Source: ISO 3506-1, restated by two suppliers; up to M24.
STAINLESS = {
    "A2-50": [500, 210],
    "A4-50": [500, 210],
    "A2-70": [700, 450],
    "A4-70": [700, 450],
    "A2-80": [800, 600],
    "A4-80": [800, 600],
}
#: Rows of: up to which diameter, in; R_m, R_y and S_p, psi. Source: SAE J429, restated by a summary of standards, a
#: university and a chart of fasteners.
SAE: dict[str, list[list[float]]] = {
    "grade 1": [[1.5, 60000, 36000, 33000]],
    "grade 2": [[0.75, 74000, 57000, 55000], [1.5, 60000, 36000, 33000]],
    "grade 5": [[1, 120000, 92000, 85000], [1.5, 105000, 81000, 74000]],
    "grade 8": [[1.5, 150000, 130000, 120000]],
}
MPA_PER_PSI = 0.006894757293168361


def tensile_strength(strength_class: str, diameter: float) -> float:
    """R_m, MPa, that a bolt of this class and outer diameter (mm) has at least."""
    return _strengths(strength_class, diameter)[0]


def yield_strength(strength_class: str, diameter: float) -> float:
    """R_eL, R_p0.2 or, for 4.8, 5.8 and 6.8, R_pf, MPa, that a bolt of this class and diameter (mm) has at least."""
    return _strengths(strength_class, diameter)[1]


def proof_stress(strength_class: str, diameter: float) -> float:
    """S_p, MPa. Refused for stainless steel, for which ISO 3506-1 knows none."""
    if strength_class in STAINLESS:
        raise ValueError(f"{strength_class} has no proof load in its standard; compare with the 0.2 % limit")
    return _strengths(strength_class, diameter)[2]


def proof_load(size: str, strength_class: str) -> float:
    """F_p, kN: what a bolt bears without staying longer. ISO 898-1 rounds each entry of its table, by up to 0.6 %."""
    return proof_stress(strength_class, fitting_diameter(size, strength_class)) * stated_area(size) / 1000


def yield_load(size: str, strength_class: str) -> float:
    """F_y, kN: from here on a bolt that is only pulled, not twisted, stays longer."""
    return yield_strength(strength_class, fitting_diameter(size, strength_class)) * stated_area(size) / 1000


def breaking_load(size: str, strength_class: str) -> float:
    """F_m, kN: what a bolt bears at least before it breaks."""
    return tensile_strength(strength_class, fitting_diameter(size, strength_class)) * stated_area(size) / 1000


def fitting_diameter(size: str, strength_class: str) -> float:
    """The outer diameter, mm, of a thread, where bolts of this class have such threads.

    Refuses an inch grade on a metric thread, and a metric class on an inch thread.
    """
    outer = diameter_and_pitch(size)[0]
    if size in METRIC and strength_class in SAE:
        raise ValueError(f"{strength_class} is for inch threads; a bolt {size} has a class such as 8.8")
    if size in INCH and strength_class not in SAE:
        raise ValueError(f"{strength_class} is for metric threads; a bolt {size} has a grade such as grade 5")
    return outer


def _strengths(strength_class: str, diameter: float) -> list[float]:
    """R_m, R_y and S_p, MPa; the first two for stainless steel."""
    if not diameter > 0:
        raise ValueError("a bolt has a diameter above 0 mm")
    if strength_class in STAINLESS:
        if diameter > 24:
            raise ValueError(f"{strength_class} is stated up to M24")
        return [float(one) for one in STAINLESS[strength_class]]
    if strength_class in STEEL:
        rows, length, stress = STEEL[strength_class], 1.0, 1.0
    elif strength_class in SAE:
        rows, length, stress = SAE[strength_class], 25.4, MPA_PER_PSI
    else:
        raise ValueError(f"{strength_class} is no property class or grade of the table")
    for row in rows:
        if diameter <= row[0] * length:
            return [row[1] * stress, row[2] * stress, row[3] * stress]
    raise ValueError(f"{strength_class} is not made so large: it ends at {rows[-1][0] * length:.1f} mm")


_STEEL_TEXT = re.compile(r"(?:(?:PROPERTY )?CLASS )?(\d{1,2}[.,]\d)")
_STAINLESS_TEXT = re.compile(r"(?:(?:PROPERTY )?CLASS )?(A[24]) ?[-/ ]? ?(50|70|80)")
_SAE_TEXT = re.compile(r"(?:SAE )?(?:J ?429 )?(?:GRADE|GR\.?) ?([1258])")


def read_class(text: str) -> str | None:
    """The name in the tables for what people write: `8.8`, `class 10.9`, `A2-70`, `SAE grade 8`, `Gr. 5`; else None.

    A bare `5` or `8` is none: nuts are marked so.
    """
    plain = " ".join(text.upper().replace("–", "-").split())
    if found := _STEEL_TEXT.fullmatch(plain):
        name = found[1].replace(",", ".")
        return name if name in STEEL else None
    if found := _STAINLESS_TEXT.fullmatch(plain):
        return f"{found[1]}-{found[2]}"
    if found := _SAE_TEXT.fullmatch(plain):
        return f"grade {found[1]}"
    return None


def _class(strength_class: str, diameter: float) -> tuple[float, float, str]:
    strengths = _strengths(strength_class, diameter)
    proof = f"{strengths[2]:.1f} MPa" if len(strengths) > 2 else "none in the standard of stainless steel"
    return strengths[0], strengths[1], proof


def _loads(size: str, strength_class: str) -> tuple[float, float, str]:
    proof = "none in the standard of stainless steel"
    if strength_class not in STAINLESS:
        proof = f"{proof_load(size, strength_class):.2f} kN"
    return breaking_load(size, strength_class), yield_load(size, strength_class), proof


_CLASS = Input("class", "Property class or grade", choices=(*STEEL, *STAINLESS, *SAE))
_VALID = "Room temperature. Minimum values; not for hot-dip galvanised bolts with an undersized thread (ISO 10684)."
_SOURCE = "ISO 898-1:2013, ISO 3506-1, SAE J429, as restated by suppliers and universities"

FORMULAS = (
    Formula(
        "property class",
        "Strength of a property class or grade",
        (_CLASS, Input("diameter", "Outer diameter of the thread", "mm")),
        (
            Output("Tensile strength, at least", "MPa"),
            Output("Yield strength, at least", "MPa"),
            Output("Stress under proof load"),
        ),
        _class,
        "Table; the digits of the mark give nominal values, which may be lower than the minimum ones",
        _VALID,
        _SOURCE,
        {"class": "10.9", "diameter": "8 mm"},
    ),
    Formula(
        "bolt loads",
        "Loads that a bolt bears",
        (Input("size", "Thread", choices=(*METRIC, *INCH)), _CLASS),
        (Output("Breaks, not below", "kN"), Output("Yields, not below", "kN"), Output("Proof load")),
        _loads,
        "F = R · As",
        _VALID,
        _SOURCE,
        {"size": "M8", "class": "8.8"},
    ),
)
