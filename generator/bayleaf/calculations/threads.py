"""Standard threads: how they are named, their basic sizes and the area that carries the load.

    H  = √3/2 · P           d2 = d − 3/4·H           D1 = d − 5/4·H
    d3 = d − 17/12·H (metric), d − 11/8·H (inch)
    As = π/4 · ((d2 + d3)/2)² = π/4 · (d − 13/12·H)²  (metric);   π/4 · (d − 9/8·H)²  (inch)

    d  outer diameter, mm       d3  core diameter of the bolt, mm      P  pitch, mm: 25.4 / threads per inch
    d2 pitch diameter, mm       D1  core diameter of the nut, mm       As stress area, mm²

Valid for basic sizes, without tolerances and without a coating. The stress area of an inch thread does not rest on its
d3: the two series define it differently, and on one and the same thread they differ by more than one per cent.

Source: ISO 68-1 (profile), ISO 724 (basic sizes), ISO 898-1 (metric stress area), ASME B1.1 and FED-STD-H28/2B,
formula 1b (inch stress area); each as restated in open tables of suppliers and universities.
"""

import re
from math import pi, sqrt

from .formula import Formula, Input, Output

#: Diameter and pitch, mm; a name without a pitch is the coarse thread. Source: ISO 261 and ISO 262, restated in three
#: open tables. M7x0.75, M10x0.75, M12x1, M14x1.25, M14x1, M16x1, M18x1, M20x1, M22x1: ISO 261 from memory.
METRIC: dict[str, list[float]] = {
    "M3": [3, 0.5],
    "M3x0.35": [3, 0.35],
    "M3.5": [3.5, 0.6],
    "M4": [4, 0.7],
    "M4x0.5": [4, 0.5],
    "M5": [5, 0.8],
    "M5x0.5": [5, 0.5],
    "M6": [6, 1],
    "M6x0.75": [6, 0.75],
    "M7": [7, 1],
    "M7x0.75": [7, 0.75],
    "M8": [8, 1.25],
    "M8x1": [8, 1],
    "M8x0.75": [8, 0.75],
    "M10": [10, 1.5],
    "M10x1.25": [10, 1.25],
    "M10x1": [10, 1],
    "M10x0.75": [10, 0.75],
    "M12": [12, 1.75],
    "M12x1.5": [12, 1.5],
    "M12x1.25": [12, 1.25],
    "M12x1": [12, 1],
    "M14": [14, 2],
    "M14x1.5": [14, 1.5],
    "M14x1.25": [14, 1.25],
    "M14x1": [14, 1],
    "M16": [16, 2],
    "M16x1.5": [16, 1.5],
    "M16x1": [16, 1],
    "M18": [18, 2.5],
    "M18x2": [18, 2],
    "M18x1.5": [18, 1.5],
    "M18x1": [18, 1],
    "M20": [20, 2.5],
    "M20x2": [20, 2],
    "M20x1.5": [20, 1.5],
    "M20x1": [20, 1],
    "M22": [22, 2.5],
    "M22x2": [22, 2],
    "M22x1.5": [22, 1.5],
    "M22x1": [22, 1],
    "M24": [24, 3],
    "M24x2": [24, 2],
    "M24x1.5": [24, 1.5],
}
#: Diameter, in, and threads per inch. Source: ASME B1.1, restated in four open tables.
INCH: dict[str, list[float]] = {
    "4-40 UNC": [0.112, 40],
    "4-48 UNF": [0.112, 48],
    "6-32 UNC": [0.138, 32],
    "6-40 UNF": [0.138, 40],
    "8-32 UNC": [0.164, 32],
    "8-36 UNF": [0.164, 36],
    "10-24 UNC": [0.19, 24],
    "10-32 UNF": [0.19, 32],
    "1/4-20 UNC": [0.25, 20],
    "1/4-28 UNF": [0.25, 28],
    "5/16-18 UNC": [0.3125, 18],
    "5/16-24 UNF": [0.3125, 24],
    "3/8-16 UNC": [0.375, 16],
    "3/8-24 UNF": [0.375, 24],
    "7/16-14 UNC": [0.4375, 14],
    "7/16-20 UNF": [0.4375, 20],
    "1/2-13 UNC": [0.5, 13],
    "1/2-20 UNF": [0.5, 20],
    "9/16-12 UNC": [0.5625, 12],
    "9/16-18 UNF": [0.5625, 18],
    "5/8-11 UNC": [0.625, 11],
    "5/8-18 UNF": [0.625, 18],
    "3/4-10 UNC": [0.75, 10],
    "3/4-16 UNF": [0.75, 16],
    "7/8-9 UNC": [0.875, 9],
    "7/8-14 UNF": [0.875, 14],
    "1-8 UNC": [1, 8],
    "1-12 UNF": [1, 12],
}
#: Stress areas as ISO 898-1 prints them, mm². Source: coarse restated by three suppliers; fine from memory (the
#: formula gives each of them, rounded to three figures).
PRINTED_AREA: dict[str, float] = {
    "M3": 5.03,
    "M3.5": 6.78,
    "M4": 8.78,
    "M5": 14.2,
    "M6": 20.1,
    "M7": 28.9,
    "M8": 36.6,
    "M10": 58.0,
    "M12": 84.3,
    "M14": 115,
    "M16": 157,
    "M18": 192,
    "M20": 245,
    "M22": 303,
    "M24": 353,
    "M8x1": 39.2,
    "M10x1.25": 61.2,
    "M10x1": 64.5,
    "M12x1.25": 92.1,
    "M12x1.5": 88.1,
    "M14x1.5": 125,
    "M16x1.5": 167,
    "M20x1.5": 272,
    "M24x2": 384,
}
MM_PER_INCH = 25.4


def diameter_and_pitch(size: str) -> tuple[float, float]:
    """Outer diameter and pitch, mm, of a thread named as in the tables. A name that is not there is refused."""
    if size in METRIC:
        return METRIC[size][0], METRIC[size][1]
    if size not in INCH:
        raise ValueError(f"{size} is no thread of the table")
    return INCH[size][0] * MM_PER_INCH, MM_PER_INCH / INCH[size][1]


def pitch_diameter(size: str) -> float:
    """d2, mm: d − 3/4·H."""
    return _inward(size, 3 / 4)


def nut_core_diameter(size: str) -> float:
    """D1, mm: d − 5/4·H."""
    return _inward(size, 5 / 4)


def bolt_core_diameter(size: str) -> float:
    """d3, mm: d − 17/12·H for a metric thread, d − 11/8·H for an inch thread with rounded root (UNR)."""
    return _inward(size, 17 / 12 if size in METRIC else 11 / 8)


def stress_diameter(size: str) -> float:
    """The diameter of a round bar with the stress area, mm: d − 13/12·H (metric), d − 9/8·H (inch)."""
    return _inward(size, 13 / 12 if size in METRIC else 9 / 8)


def stress_area(size: str) -> float:
    """As, mm², from the formula of the series that the thread belongs to."""
    return pi / 4 * stress_diameter(size) ** 2


def stated_area(size: str) -> float:
    """As, mm², as ISO 898-1 prints it; where it prints none, from the formula."""
    return PRINTED_AREA[size] if size in PRINTED_AREA else stress_area(size)


def _inward(size: str, heights: float) -> float:
    """The diameter that lies so many heights H of the sharp profile below the outer one, mm."""
    outer, pitch = diameter_and_pitch(size)
    return outer - heights * sqrt(3) / 2 * pitch


_METRIC_TEXT = re.compile(r"M\s*(\d+(?:\.\d+)?)(?:\s*[X*-]\s*(\d*\.?\d+))?(?:\s*-\s*\d[GH](?:\d[GH])?)?(?:\s*-?\s*LH)?")
_INCH_TEXT = re.compile(
    r"(?:NO\.?\s*|#\s*)?(\d+(?:/\d+)?)\s*(?:IN|\")?\s*(?:-\s*(\d+))?\s*(UNR?C|UNR?F)?(?:\s*-\s*[123][AB])?(?:\s*-?\s*LH)?"
)


def read_thread(text: str) -> str | None:
    """The name in the tables for what people write: `M8 × 1.25`, `m8`, `M8x1,25-6g`, `3/8-16`, `1/4 UNF`, `#10-24`.

    A tolerance class and `LH` may follow. None for what is no standard thread: `M7.5`, `M8 x 1.75`, `3/8-18`, and for
    a bolt with its length.
    """
    plain = _plain(text)
    if found := _METRIC_TEXT.fullmatch(plain):
        return _metric_name(float(found[1]), float(found[2]) if found[2] else None)
    if found := _INCH_TEXT.fullmatch(plain):
        return _inch_name(found[1], found[2], found[3])
    return None


def _plain(text: str) -> str:
    return text.strip().upper().replace("×", "X").replace(",", ".").replace("–", "-").replace("″", '"')


def _metric_name(outer: float, pitch: float | None) -> str | None:
    coarse = f"M{outer:g}"
    if coarse not in METRIC or pitch is None or pitch == METRIC[coarse][1]:
        return coarse if coarse in METRIC else None
    fine = f"{coarse}x{pitch:g}"
    return fine if fine in METRIC else None


def _inch_name(outer: str, count: str | None, series: str | None) -> str | None:
    if count is None and series is None:
        return None
    coarse_or_fine = series.replace("R", "") if series else ""
    for name in INCH:
        size, _, named = name.partition(" ")
        bolt, _, threads = size.partition("-")
        if bolt == outer and count in (None, threads) and coarse_or_fine in ("", named):
            return name
    return None


def nearest_thread(text: str) -> str | None:
    """The standard thread to suggest for one that is none: of the nearest diameter, that of the nearest pitch.

    Without a pitch the coarse one; between two as near the larger. None where the text has no size in it, or one that
    is more than a quarter away from all.
    """
    plain = _plain(text)
    if found := re.match(r"M\s*(\d+(?:\.\d+)?)(?:\s*[X*-]\s*(\d*\.?\d+))?", plain):
        return _nearest(float(found[1]), float(found[2]) if found[2] else None, list(METRIC))
    if found := re.match(r"(\d+)/(\d+)(?:\s*-\s*(\d+))?", plain):
        if int(found[2]) == 0 or found[3] == "0":
            return None
        pitch = MM_PER_INCH / int(found[3]) if found[3] else None
        return _nearest(int(found[1]) / int(found[2]) * MM_PER_INCH, pitch, list(INCH))
    return None


def _nearest(outer: float, pitch: float | None, names: list[str]) -> str | None:
    sizes = {name: diameter_and_pitch(name) for name in names}
    gap = min(abs(one[0] - outer) for one in sizes.values())
    if gap > outer / 4:
        return None
    same = [name for name in names if abs(abs(sizes[name][0] - outer) - gap) < 1e-9]
    widest = max(sizes[name][0] for name in same)
    same = [name for name in same if sizes[name][0] == widest]
    return same[0] if pitch is None else min(same, key=lambda name: abs(sizes[name][1] - pitch))


def _sizes(size: str) -> tuple[float, float, float, float, float, float, float]:
    outer, pitch = diameter_and_pitch(size)
    cores = (bolt_core_diameter(size), nut_core_diameter(size))
    return outer, pitch, pitch_diameter(size), cores[0], cores[1], stress_area(size), stated_area(size)


FORMULAS = (
    Formula(
        "thread",
        "Sizes of a standard thread",
        (Input("size", "Thread", choices=(*METRIC, *INCH)),),
        (
            Output("Outer diameter, d", "mm"),
            Output("Pitch, P", "mm"),
            Output("Pitch diameter, d2", "mm"),
            Output("Core diameter of the bolt, d3", "mm"),
            Output("Core diameter of the nut, D1", "mm"),
            Output("Stress area, from the formula", "mm²"),
            Output("Stress area, as the standard prints it", "mm²"),
        ),
        _sizes,
        "d2 = d − 0.6495·P;  D1 = d − 1.0825·P;  As = π/4 · (d − 0.9382·P)² (metric), π/4 · (d − 0.9743·P)² (inch)",
        "Basic sizes, without tolerances and without a coating.",
        "ISO 68-1, ISO 261, ISO 724, ISO 898-1; ASME B1.1, FED-STD-H28/2B; as restated in open tables",
        {"size": "M8"},
    ),
)
