"""Standard threads."""

from data.row import Row

#: Size, d2, d3, D1, As from the formula, As as printed in ISO 898-1 (None where no print was seen).
METRIC = (
    ("M4", 3.545, 3.141, 3.242, 8.78, 8.78),
    ("M5", 4.480, 4.019, 4.134, 14.18, 14.2),
    ("M6", 5.350, 4.773, 4.917, 20.12, 20.1),
    ("M8", 7.188, 6.466, 6.647, 36.61, 36.6),
    ("M10", 9.026, 8.160, 8.376, 57.99, 58.0),
    ("M12", 10.863, 9.853, 10.106, 84.27, 84.3),
    ("M14", 12.701, 11.546, 11.835, 115.44, 115),
    ("M16", 14.701, 13.546, 13.835, 156.67, 157),
    ("M18", 16.376, 14.933, 15.294, 192.47, 192),
    ("M20", 18.376, 16.933, 17.294, 244.79, 245),
    ("M22", 20.376, 18.933, 19.294, 303.40, 303),
    ("M24", 22.051, 20.319, 20.752, 352.50, 353),
    ("M8x1", 7.350, 6.773, 6.917, 39.17, None),
    ("M10x1.25", 9.188, 8.466, 8.647, 61.20, None),
    ("M10x1", 9.350, 8.773, 8.917, 64.49, None),
    ("M12x1.25", 11.188, 10.466, 10.647, 92.07, None),
    ("M12x1.5", 11.026, 10.160, 10.376, 88.13, None),
    ("M14x1.5", 13.026, 12.160, 12.376, 124.55, None),
    ("M16x1.5", 15.026, 14.160, 14.376, 167.25, None),
    ("M18x1.5", 17.026, 16.160, 16.376, 216.23, None),
    ("M20x1.5", 19.026, 18.160, 18.376, 271.50, None),
    ("M22x1.5", 21.026, 20.160, 20.376, 333.06, None),
    ("M24x2", 22.701, 21.546, 21.835, 384.42, None),
)
_PROFILE = "ISO 68-1 and ISO 724; M8 also on a page of a calculator, the constants in a CAD vendor's help"
_AREA = "ISO 898-1, reproduced by three suppliers"

#: Printed by three suppliers beside the loads of ISO 898-1.
SMALL = (("M3", 5.03), ("M3.5", 6.78), ("M7", 28.9))

#: From memory, as the fine table of ISO 898-1 prints them.
FINE_AREA = (
    ("M8x1", 39.2),
    ("M10x1.25", 61.2),
    ("M10x1", 64.5),
    ("M12x1.25", 92.1),
    ("M12x1.5", 88.1),
    ("M14x1.5", 125),
    ("M16x1.5", 167),
    ("M20x1.5", 272),
    ("M24x2", 384),
)

#: Size and As in mm², from ASME B1.1 by open code.
INCH_MM2 = (
    ("10-24 UNC", 11.31),
    ("10-32 UNF", 12.90),
    ("1/4-20 UNC", 20.53),
    ("1/4-28 UNF", 23.47),
    ("5/16-18 UNC", 33.83),
    ("5/16-24 UNF", 37.46),
    ("3/8-16 UNC", 49.99),
    ("3/8-24 UNF", 56.66),
    ("1/2-13 UNC", 91.55),
    ("1/2-20 UNF", 103.20),
    ("5/8-11 UNC", 145.81),
    ("3/4-10 UNC", 215.78),
    ("1-8 UNC", 390.80),
)
#: Size and As in in², printed by four open tables.
INCH_IN2 = (
    ("4-40 UNC", 0.00604),
    ("4-48 UNF", 0.00661),
    ("6-32 UNC", 0.00909),
    ("6-40 UNF", 0.01015),
    ("8-32 UNC", 0.0140),
    ("8-36 UNF", 0.01474),
    ("10-24 UNC", 0.0175),
    ("10-32 UNF", 0.0200),
    ("1/4-20 UNC", 0.0318),
    ("1/4-28 UNF", 0.0364),
    ("5/16-18 UNC", 0.0524),
    ("5/16-24 UNF", 0.0581),
    ("3/8-16 UNC", 0.0775),
    ("3/8-24 UNF", 0.0878),
    ("7/16-14 UNC", 0.1063),
    ("7/16-20 UNF", 0.1187),
    ("1/2-13 UNC", 0.1419),
    ("1/2-20 UNF", 0.1600),
    ("9/16-12 UNC", 0.182),
    ("9/16-18 UNF", 0.203),
    ("5/8-11 UNC", 0.2260),
    ("5/8-18 UNF", 0.256),
    ("3/4-10 UNC", 0.3345),
    ("3/4-16 UNF", 0.373),
    ("7/8-9 UNC", 0.462),
    ("7/8-14 UNF", 0.509),
    ("1-8 UNC", 0.6057),
    ("1-12 UNF", 0.663),
)
#: UNF: d2, d3 of the rounded root and D1, in, as a fastener page prints them.
INCH_DIAMETERS = (
    ("10-32 UNF", 0.1697, 0.1528, 0.1562),
    ("1/4-28 UNF", 0.2268, 0.2074, 0.2113),
    ("5/16-24 UNF", 0.2854, 0.2629, 0.2674),
    ("3/8-24 UNF", 0.3479, 0.3254, 0.3299),
    ("7/16-20 UNF", 0.4050, 0.3780, 0.3834),
    ("1/2-20 UNF", 0.4675, 0.4405, 0.4459),
    ("9/16-18 UNF", 0.5264, 0.4964, 0.5024),
    ("5/8-18 UNF", 0.5889, 0.5589, 0.5649),
    ("7/8-14 UNF", 0.8286, 0.7900, 0.7977),
)


def _metric() -> list[Row]:
    rows = []
    for size, middle, core, nut, area, printed in METRIC:
        rows += [
            Row("pitch_diameter", (size,), middle, _PROFILE, "restated", 0.001),
            Row("bolt_core_diameter", (size,), core, _PROFILE, "restated", 0.001),
            Row("nut_core_diameter", (size,), nut, _PROFILE, "restated", 0.001),
            Row("stress_area", (size,), area, _PROFILE, "restated", 0.01),
        ]
        if printed is not None:
            rows.append(Row("stated_area", (size,), printed, _AREA, "restated"))
    return rows


def _inch() -> list[Row]:
    rows = [
        Row("stress_area", (size,), area, "ASME B1.1 and FED-STD-H28/2B, open code", "restated", share=0.005)
        for size, area in INCH_MM2
    ]
    rows += [
        Row("stress_area", (size,), area * 645.16, "four open tables of UNC and UNF", "restated", share=0.005)
        for size, area in INCH_IN2
    ]
    for size, middle, core, nut in INCH_DIAMETERS:
        page = "page of a fastener site, which rounds to 0.0001 in"
        rows += [
            Row("pitch_diameter", (size,), middle * 25.4, page, "restated", 0.003),
            Row("bolt_core_diameter", (size,), core * 25.4, page, "restated", 0.003),
            Row("nut_core_diameter", (size,), nut * 25.4, page, "restated", 0.003),
        ]
    return rows


ROWS = (
    *_metric(),
    *(Row("stated_area", (size,), area, _AREA, "restated") for size, area in SMALL),
    *(Row("stress_area", (size,), area, _AREA, "restated", share=0.003) for size, area in SMALL),
    *(Row("stated_area", (size,), area, "ISO 898-1, fine threads", "from memory") for size, area in FINE_AREA),
    *(Row("stress_area", (size,), area, "ISO 898-1, fine threads", "from memory", 0.5) for size, area in FINE_AREA),
    *_inch(),
    Row(
        "bolt_core_diameter",
        ("3/4-16 UNF",),
        0.6763 * 25.4,
        "the same page; by its own rule 0.6756",
        "conflicting",
        0.02,
    ),
    Row(
        "bolt_core_diameter", ("1-12 UNF",), 0.9001 * 25.4, "the same page; by its own rule 0.9008", "conflicting", 0.02
    ),
    Row("read_thread", ("M8 × 1.25",), "M8", "ISO 965-1: the coarse pitch may be left out", "restated"),
    Row("read_thread", ("M8x1",), "M8x1", "ISO 965-1: a fine pitch is written", "restated"),
)
