"""Tightening torque and preload: what a torque gives a hexagon bolt, and how near to yield it brings it.

    σ_M = ν · R_y / √(1 + 3·[3/2 · d2/d0 · (P/(π·d2) + µ_G/cos 30°)]²)       F = σ_M · π/4 · d0²
    M   = F · (P/(2·π) + d2/2 · µ_G/cos 30° + D_Km/2 · µ_K)

    F  preload             kN         µ_G  friction in the thread       d2, d0  pitch and stress diameter   mm
    M  tightening torque   N·m        µ_K  friction under the head      D_Km    mean bearing diameter       mm
    ν  share of yield used up         R_y  yield strength, MPa          P       pitch                       mm

A torque is chosen for the lowest friction that can occur: there the preload is highest, and the bolt nearest to yield.
What it gives at the highest friction is what the joint can count on. Only the friction of the very pair of surfaces
makes a torque right; the figures by surface are ranges for choosing, not measurements.

Valid for a headed bolt with a full shank, in the elastic range, on a hole of the medium series. Whether the part under
the head bears the pressure, and whether a tapped hole holds, is not looked at here. This is the form since 2001, with
the plastic torsion modulus; the edition of 1986 gives preloads that are some 8 % lower and does not mix with it.

Source: VDI 2230:2001 and later, as restated by fastener suppliers whose table of fine threads it gives back within
0.34 % (preload) and 1.0 % (torque).
"""

from math import cos, pi, radians, sqrt

from .checked import above_zero, known, not_negative
from .formula import Formula, Input, Output
from .hexagon_heads import HEADS, bearing_diameter
from .property_classes import STAINLESS, STEEL, yield_strength
from .threads import METRIC, diameter_and_pitch, pitch_diameter, stress_area, stress_diameter

#: Friction in the thread and under the head, lowest and highest, by friction class. Source: VDI 2230, restated by two
#: suppliers and a page of calculators. Class E (dry stainless steel, dry aluminium) has no upper end: no torque for it.
FRICTION = {"A": [0.04, 0.10], "B": [0.08, 0.16], "C": [0.14, 0.24], "D": [0.20, 0.35]}
#: Examples of each class. Dry zinc is named in C and in D, and with iron or nickel in E too.
SURFACES = {
    "A": "solid lubricant or wax, as a top coat, in a lacquer or in a paste",
    "B": "oil, grease or wax; a coat with its own lubricant; stainless steel with solid lubricant",
    "C": "bare or phosphated, slightly oiled as delivered; zinc plated or zinc flake, dry; stainless steel with paste",
    "D": "zinc plated or hot-dip galvanised, dry; stainless steel with oil",
}


def torsion_share(size: str, friction: float) -> float:
    """Torsional over tensile stress while a bolt is tightened: 3/2 · d2/d0 · (P/(π·d2) + µ_G/cos 30°)."""
    not_negative("friction in the thread", friction)
    pitch, middle = diameter_and_pitch(size)[1], pitch_diameter(size)
    return 1.5 * middle / stress_diameter(size) * (pitch / (pi * middle) + friction / cos(radians(30)))


def assembly_preload(size: str, strength: float, friction: float, utilisation: float) -> float:
    """F, kN, at which the equivalent stress is the share `utilisation` of the yield strength (MPa)."""
    above_zero("yield strength", strength)
    if not 0 < utilisation <= 1:
        raise ValueError(
            f"a bolt is tightened to more than 0 and at most 100 % of yield, not to {100 * utilisation:g} %"
        )
    return utilisation * strength * stress_area(size) / sqrt(1 + 3 * torsion_share(size, friction) ** 2) / 1000


def torque_of_preload(size: str, preload: float, thread: float, head: float, bearing: float) -> float:
    """M, N·m, for a preload (kN) with the friction in the thread and under the head, and D_Km (mm)."""
    not_negative("preload", preload)
    return preload * _lever(size, thread, head, bearing)


def preload_of_torque(size: str, torque: float, thread: float, head: float, bearing: float) -> float:
    """F, kN, that a torque (N·m) gives with the friction in the thread and under the head, and D_Km (mm)."""
    not_negative("torque", torque)
    return torque / _lever(size, thread, head, bearing)


def _lever(size: str, thread: float, head: float, bearing: float) -> float:
    """The torque for one unit of preload, mm."""
    not_negative("friction in the thread", thread)
    not_negative("friction under the head", head)
    above_zero("mean bearing diameter", bearing)
    pitch, middle = diameter_and_pitch(size)[1], pitch_diameter(size)
    return pitch / (2 * pi) + middle / 2 * thread / cos(radians(30)) + bearing / 2 * head


def equivalent_stress(size: str, preload: float, friction: float) -> float:
    """Tension and torsion together while the bolt is tightened, MPa: F/As · √(1 + 3·share²)."""
    not_negative("preload", preload)
    return 1000 * preload / stress_area(size) * sqrt(1 + 3 * torsion_share(size, friction) ** 2)


def class_preload(size: str, strength_class: str, friction: float, utilisation: float) -> float:
    """F, kN, for a bolt of a class, with its minimum yield strength."""
    return assembly_preload(size, _yield(size, strength_class), friction, utilisation)


def class_torque(size: str, strength_class: str, friction: float, utilisation: float) -> float:
    """M, N·m, for a hexagon bolt of a class on a medium hole, one friction in the thread and under the head."""
    preload = class_preload(size, strength_class, friction, utilisation)
    return torque_of_preload(size, preload, friction, friction, bearing_diameter(size))


def preloads_of_torque(size: str, torque: float, low: float, high: float) -> tuple[float, float]:
    """F, kN, that a torque gives a hexagon bolt on a medium hole: at the highest friction, and at the lowest."""
    _check_range(low, high)
    bearing = bearing_diameter(size)
    least = preload_of_torque(size, torque, high, high, bearing)
    return least, preload_of_torque(size, torque, low, low, bearing)


def highest_utilisation(size: str, strength_class: str, torque: float, low: float) -> float:
    """The share of yield that a torque uses up where the friction is lowest; above 1 the bolt yields.

    At one torque both the preload and the torque in the shank fall as the friction rises, so that this is the most.
    """
    preload = preload_of_torque(size, torque, low, low, bearing_diameter(size))
    return equivalent_stress(size, preload, low) / _yield(size, strength_class)


def friction_range(friction_class: str) -> tuple[float, float]:
    """Lowest and highest friction of a friction class."""
    known("friction class", friction_class, list(FRICTION))
    return FRICTION[friction_class][0], FRICTION[friction_class][1]


def _yield(size: str, strength_class: str) -> float:
    if size not in METRIC or (strength_class not in STEEL and strength_class not in STAINLESS):
        raise ValueError(f"a bolt {size} with {strength_class} is not in the tables: metric threads and classes only")
    return yield_strength(strength_class, diameter_and_pitch(size)[0])


def _check_range(low: float, high: float) -> None:
    above_zero("lowest friction", low)
    if low > high:
        raise ValueError(f"the lowest friction, {low:g}, is above the highest, {high:g}")


def _tighten(
    size: str, strength_class: str, low: float, high: float, percent: float
) -> tuple[float, float, float, float]:
    _check_range(low, high)
    torque = class_torque(size, strength_class, low, percent / 100)
    least, most = preloads_of_torque(size, torque, low, high)
    return torque, most, least, most / least


def _check_torque(
    size: str, strength_class: str, torque: float, low: float, high: float
) -> tuple[float, float, float, str]:
    least, most = preloads_of_torque(size, torque, low, high)
    used = highest_utilisation(size, strength_class, torque, low)
    said = "beyond yield where the friction is lowest" if used > 1 else "not beyond yield"
    return least, most, 100 * used, said


def _friction(friction_class: str) -> tuple[float, float, str]:
    low, high = friction_range(friction_class)
    return low, high, SURFACES[friction_class]


_SIZE = Input("size", "Thread", choices=tuple(one for one in METRIC if one.split("x")[0] in HEADS))
_CLASS = Input("class", "Property class", choices=(*STEEL, *STAINLESS))
_LOW = Input("low", "Lowest friction that can occur, such as 0.10")
_HIGH = Input("high", "Highest friction that can occur, such as 0.14")
_VALID = (
    "Hexagon head of ISO 4014 on a medium hole, full shank, elastic; neither the pressure under the head nor a tapped "
    "hole is checked. The torque that the maker of the vehicle states goes before this one."
)
_SOURCE = "VDI 2230:2001 and later, as restated by fastener suppliers"

FORMULAS = (
    Formula(
        "tightening torque",
        "Tightening torque and preload of a bolt",
        (_SIZE, _CLASS, _LOW, _HIGH, Input("used", "Share of the yield strength to use", "%", "90 %")),
        (
            Output("Torque, for the lowest friction", "N·m"),
            Output("Preload at the lowest friction", "kN"),
            Output("Preload of this torque at the highest friction", "kN"),
            Output("Highest preload over lowest"),
        ),
        _tighten,
        "F = ν · R · As / √(1 + 3·[3/2 · d2/d0 · (P/(π·d2) + 1.155·µ)]²);  M = F · (0.159·P + 0.577·d2·µ + D_Km/2 · µ)",
        _VALID,
        _SOURCE,
        {"size": "M8", "class": "8.8", "low": "0.12", "high": "0.16"},
    ),
    Formula(
        "preload",
        "Preload that a torque gives, and whether the bolt yields",
        (_SIZE, _CLASS, Input("torque", "Tightening torque", "N·m"), _LOW, _HIGH),
        (
            Output("Preload at the highest friction", "kN"),
            Output("Preload at the lowest friction", "kN"),
            Output("Yield strength used at the lowest friction", "%"),
            Output("The bolt is"),
        ),
        _check_torque,
        "F = M / (0.159·P + 0.577·d2·µ + D_Km/2 · µ)",
        _VALID,
        _SOURCE,
        {"size": "M8", "class": "8.8", "torque": "24 N·m", "low": "0.10", "high": "0.14"},
    ),
    Formula(
        "friction range",
        "Friction of a bolt by its surface",
        (Input("class", "Friction class", choices=tuple(FRICTION)),),
        (Output("Lowest"), Output("Highest"), Output("Such as")),
        _friction,
        "Table",
        "Room temperature. For choosing a range; the friction of a pair of surfaces is measured, not looked up.",
        _SOURCE,
        {"class": "B"},
    ),
)
