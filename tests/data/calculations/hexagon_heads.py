"""Hexagon heads: wrench, bearing face and hole."""

from data.row import Row

_FACE = "ISO 4014 and ISO 273, restated by suppliers"
_FLATS = "open set of data of fasteners; a supplier's table of ISO 4014 prints the same, with DIN 931 beside it"

#: Thread, across flats of ISO 4014, of DIN 931, d_w, hole.
HEADS = (
    ("M3", 5.5, 5.5, 4.57, 3.4),
    ("M4", 7, 7, 5.88, 4.5),
    ("M5", 8, 8, 6.88, 5.5),
    ("M6", 10, 10, 8.88, 6.6),
    ("M8", 13, 13, 11.63, 9),
    ("M10", 16, 17, 14.63, 11),
    ("M12", 18, 19, 16.63, 13.5),
    ("M14", 21, 22, 19.37, 15.5),
    ("M16", 24, 24, 22.49, 17.5),
    ("M20", 30, 30, 28.19, 22),
    ("M24", 36, 36, 33.61, 26),
)

ROWS = (
    *(Row("across_flats", (size,), (iso, din), _FLATS, "restated") for size, iso, din, _, _ in HEADS),
    *(Row("clearance_hole", (size,), hole, _FACE, "restated") for size, _, _, _, hole in HEADS),
    *(Row("bearing_diameter", (size,), (face + hole) / 2, _FACE, "restated") for size, _, _, face, hole in HEADS),
    Row("across_flats", ("M22",), (34, 32), "open set of data of fasteners", "restated"),
    Row("across_flats", ("M18",), (27, 27), "ISO 4014", "from memory"),
    Row("clearance_hole", ("M18",), 20, "ISO 273", "from memory"),
    Row("clearance_hole", ("M22",), 24, "ISO 273", "from memory"),
    Row("bearing_diameter", ("M18",), 22.67, "d_w 25.34 of ISO 4014 and hole 20", "from memory"),
    Row("bearing_diameter", ("M22",), 27.855, "d_w 31.71 of ISO 4014 and hole 24", "from memory"),
    Row("bearing_diameter", ("M8x1",), 10.315, "ISO 8765: the head of the coarse thread", "restated"),
)
