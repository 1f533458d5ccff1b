"""Engagement of a bolt in a tapped hole."""

from data.row import Row

_LIBRARY = "FED-STD-H28/2B, formulas 14 and 16, open code with the limits of size of ASME B1.13M and B1.1"
_TABLE = "suppliers' table after trials on M6 to M16, two copies"
#: Tensile strength of class 8.8, of an aluminium casting, and of the inch example (120 and 58 ksi), MPa.
CLASS_8_8, ALUMINIUM = 800, 260
KSI = 6.894757293168361

#: Thread, shear areas of 2A and 2B for a length of one diameter, in²: bolt, hole.
STRIP_AREAS = (
    ("10-24 UNC", 0.050, 0.076),
    ("10-32 UNF", 0.052, 0.074),
    ("1/4-20 UNC", 0.092, 0.135),
    ("1/4-28 UNF", 0.093, 0.130),
    ("5/16-18 UNC", 0.147, 0.213),
    ("3/8-16 UNC", 0.216, 0.310),
    ("3/8-24 UNF", 0.217, 0.299),
    ("7/16-14 UNC", 0.296, 0.428),
    ("1/2-13 UNC", 0.389, 0.562),
    ("1/2-20 UNF", 0.400, 0.541),
    ("9/16-12 UNC", 0.503, 0.717),
    ("5/8-11 UNC", 0.624, 0.891),
    ("5/8-18 UNF", 0.624, 0.853),
    ("3/4-10 UNC", 0.910, 1.29),
    ("3/4-16 UNF", 0.924, 1.24),
    ("7/8-9 UNC", 1.24, 1.77),
    ("7/8-14 UNF", 1.26, 1.71),
    ("1-8 UNC", 1.66, 2.33),
)
#: Outer diameter, in, of the same threads.
INCHES = {name: size for name, size in (
    ("10-24 UNC", 0.19), ("10-32 UNF", 0.19), ("1/4-20 UNC", 0.25), ("1/4-28 UNF", 0.25), ("5/16-18 UNC", 0.3125),
    ("3/8-16 UNC", 0.375), ("3/8-24 UNF", 0.375), ("7/16-14 UNC", 0.4375), ("1/2-13 UNC", 0.5), ("1/2-20 UNF", 0.5),
    ("9/16-12 UNC", 0.5625), ("5/8-11 UNC", 0.625), ("5/8-18 UNF", 0.625), ("3/4-10 UNC", 0.75), ("3/4-16 UNF", 0.75),
    ("7/8-9 UNC", 0.875), ("7/8-14 UNF", 0.875), ("1-8 UNC", 1.0),
)}  # fmt: skip
#: Least engagement in diameters.
USUAL = (
    ("steel above 360 MPa", 1.0, 1.25, 1.4),
    ("steel above 500 MPa", 0.9, 1.0, 1.2),
    ("steel above 800 MPa", 0.8, 0.9, 1.0),
    ("grey iron above 220 MPa", 1.0, 1.25, 1.4),
)
#: 6g and 6H as printed: d and d2 smallest; D1 and D2 largest, mm. None where no print was seen.
LIMITS = (
    ("M3", 2.874, 2.580, None, 2.675 + 0.100),
    ("M3.5", 3.354, 3.004, None, 3.110 + 0.112),
    ("M4", 3.838, 3.433, None, 3.545 + 0.118),
    ("M5", 4.826, 4.361, None, 4.480 + 0.125),
    ("M6", 5.794, 5.212, None, 5.350 + 0.150),
    ("M8", None, None, None, 7.188 + 0.160),
)


def _strips() -> list[Row]:
    source = "table of thread stress and shear areas of an engineering site, 2A with 2B"
    rows = []
    for size, bolt, hole in STRIP_AREAS:
        per_mm = 25.4**2 / (INCHES[size] * 25.4)
        rows.append(Row("shear_area_of_bolt", (size,), bolt * per_mm, source, "restated", share=0.015))
        rows.append(Row("shear_area_of_hole", (size,), hole * per_mm, source, "restated", share=0.003))
    return rows


ROWS = (
    Row("length_for_bolt", ("M8",), 5.94, _LIBRARY, "computed", share=0.02),
    Row("length_for_hole", ("M8", CLASS_8_8, ALUMINIUM), 13.2, _LIBRARY, "computed", share=0.02),
    Row("length_for_bolt", ("M12",), 8.80, _LIBRARY, "computed", share=0.02),
    Row("length_for_hole", ("M12", CLASS_8_8, ALUMINIUM), 19.6, _LIBRARY, "computed", share=0.02),
    Row("length_for_bolt", ("1/4-20 UNC",), 0.173 * 25.4, _LIBRARY, "computed", share=0.01),
    Row("length_for_bolt", ("1/2-13 UNC",), 0.364 * 25.4, _LIBRARY, "computed", share=0.01),
    Row("length_for_hole", ("1/4-20 UNC", 120 * KSI, 58 * KSI), 0.244 * 25.4, _LIBRARY, "computed", share=0.01),
    Row("length_for_hole", ("1/2-13 UNC", 120 * KSI, 58 * KSI), 0.523 * 25.4, _LIBRARY, "computed", share=0.01),
    *_strips(),
    *(
        Row("recommended_length", (material, name), times, _TABLE, "restated")
        for material, *all_times in USUAL
        for name, times in zip(("8.8", "10.9", "12.9"), all_times, strict=True)
    ),
)
