"""Hexagon heads: what wrench a bolt takes, how far its head bears, and what hole it stands on.

    D_Km = (d_w + d_h) / 2

    D_Km  mean diameter at which the head rubs, mm      d_w  face under the head, mm      d_h  through hole, mm

ISO and DIN give M10, M12, M14 and M22 different heads: a bolt M10 of ISO 4014 or 4017 takes a 16 mm wrench, one of DIN
931 or 933 a 17 mm wrench. The torque for the same preload differs with it, by about 2 %.

Valid for hexagon heads of product grade A without a flange, on a hole of the medium series.

Source: ISO 4014 and ISO 4017, ISO 273, as restated by suppliers; DIN 931 and DIN 933, as restated in an open set of
data of fasteners.
"""

from .formula import Formula, Input, Output

#: By thread: width across flats of ISO 4014 and ISO 4017, of DIN 931 and DIN 933, mm; smallest d_w of ISO 4014, mm;
#: medium hole of ISO 273, mm. Source: restated by suppliers; M18 and M22: d_w from memory, which reproduces the
#: published torques of M18x1.5 and M22x1.5.
HEADS: dict[str, list[float]] = {
    "M3": [5.5, 5.5, 4.57, 3.4],
    "M4": [7, 7, 5.88, 4.5],
    "M5": [8, 8, 6.88, 5.5],
    "M6": [10, 10, 8.88, 6.6],
    "M8": [13, 13, 11.63, 9],
    "M10": [16, 17, 14.63, 11],
    "M12": [18, 19, 16.63, 13.5],
    "M14": [21, 22, 19.37, 15.5],
    "M16": [24, 24, 22.49, 17.5],
    "M18": [27, 27, 25.34, 20],
    "M20": [30, 30, 28.19, 22],
    "M22": [34, 32, 31.71, 24],
    "M24": [36, 36, 33.61, 26],
}


def across_flats(size: str) -> tuple[float, float]:
    """The wrench, mm: of ISO 4014 and 4017, and of DIN 931 and 933. A fine thread has the head of the coarse one."""
    head = _head(size)
    return head[0], head[1]


def clearance_hole(size: str) -> float:
    """d_h, mm: the through hole of the medium series of ISO 273."""
    return _head(size)[3]


def mean_bearing_diameter(face: float, hole: float) -> float:
    """D_Km, mm: (d_w + d_h) / 2. Refuses a hole into which the head falls."""
    if not face > hole or not hole > 0:
        raise ValueError(f"a head of {face:.2f} mm does not bear on a hole of {hole:.2f} mm")
    return (face + hole) / 2


def bearing_diameter(size: str) -> float:
    """D_Km, mm, of a hexagon head of ISO 4014 on a medium hole."""
    head = _head(size)
    return mean_bearing_diameter(head[2], head[3])


def _head(size: str) -> list[float]:
    coarse = size.split("x")[0]
    if coarse not in HEADS:
        raise ValueError(f"for {size} no hexagon head is in the table")
    return HEADS[coarse]


def _wrench(size: str) -> tuple[float, float, float, float]:
    flats = across_flats(size)
    return flats[0], flats[1], clearance_hole(size), bearing_diameter(size)


FORMULAS = (
    Formula(
        "hexagon head",
        "Wrench and hole of a hexagon bolt",
        (Input("size", "Thread", choices=tuple(HEADS)),),
        (
            Output("Wrench, ISO 4014 and 4017", "mm"),
            Output("Wrench, DIN 931 and 933", "mm"),
            Output("Through hole, medium", "mm"),
            Output("Mean bearing diameter", "mm"),
        ),
        _wrench,
        "D_Km = (d_w + d_h) / 2",
        "Hexagon heads without a flange, product grade A.",
        "ISO 4014, ISO 273, DIN 931, as restated by suppliers",
        {"size": "M10"},
    ),
)
