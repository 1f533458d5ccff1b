"""Cables: their resistance by cross-section, length and temperature.

    R = r · l / 1000 · (1 + α · (t − 20)) + n · Rj            r = ρ · 1000 / A

    r  resistance per length at 20 °C   Ω/km     α  temperature coefficient   1/K     n   joints
    l  length                           m        t  temperature               °C      Rj  resistance of a joint   Ω
    A  cross-section                    mm²      ρ  resistivity               Ω·mm²/m

Valid for direct current, and for what the standard allows at most at 20 °C: a real cable has a little less.

An area between two of the table is computed from the resistivity, times the worst ratio of the table to it (class 5:
1.157), and never above the next smaller area of the table. So the estimate is not below what the standard allows at
most for that kind, a larger area never has more resistance, and a drop of voltage is not computed too small. Outside
the table there is no figure.

Source: the tables stand in `conductor_tables`; IEC 60028:1925 and a handbook citing it (copper), IEC 60889 (aluminium);
ASTM B258 for the diameters of AWG.
"""

from math import pi

from .checked import above_zero, known, not_negative
from .conductor_tables import CLASS_5, KINDS
from .formula import Formula, Input, Output

#: Resistivity at 20 °C in Ω·mm²/m. Source: IEC 60028:1925, exact (restated); IEC 60889 (restated).
COPPER = 1 / 58
ALUMINIUM = 0.028264
#: Temperature coefficient at 20 °C in 1/K. Source: handbook citing IEC 60028; handbook, commercial purity (restated).
COPPER_PER_KELVIN = 0.00393
ALUMINIUM_PER_KELVIN = 0.00403
#: The coefficient behind the correction table of IEC 60228, which is not the one of copper (restated, 13 points
#: computed).
IEC_60228_PER_KELVIN = 0.004

#: Below this area (mm²) a table holds makers' sizes only, whose ratios say nothing of the larger ones.
_SMALLEST_OF_STANDARD = 0.5

#: The sizes of AWG: 4/0 is three sizes above 1/0, which is size 0.
GAUGES = ("4/0", "3/0", "2/0", "1/0", *[str(number) for number in range(1, 41)])

#: What a cable can be said to be: the tables, and the metal alone.
CABLES = (*KINDS, "pure copper", "pure aluminium")


def is_aluminium(kind: str) -> bool:
    """Whether a kind of cable is of aluminium."""
    return kind in ("aluminium", "pure aluminium")


def resistivity(kind: str) -> float:
    """Resistivity at 20 °C of the metal of a cable, in Ω·mm²/m."""
    known("cable", kind, CABLES)
    return ALUMINIUM if is_aluminium(kind) else COPPER


def temperature_factor(celsius: float, kind: str = "pure copper") -> float:
    """How many times the resistance at 20 °C a cable has at a temperature: 1 + α·(t − 20)."""
    known("cable", kind, CABLES)
    if not -200 <= celsius <= 300:
        raise ValueError(f"{celsius:g} °C lies outside the range of the linear law, taken as -200 °C to 300 °C")
    return 1 + (ALUMINIUM_PER_KELVIN if is_aluminium(kind) else COPPER_PER_KELVIN) * (celsius - 20)


def factor_to_20(celsius: float) -> float:
    """By what IEC 60228 multiplies a resistance to refer it to 20 °C: 1 / (1 + 0.004·(t − 20))."""
    if not -200 <= celsius <= 300:
        raise ValueError(f"{celsius:g} °C lies outside the range of the linear law, taken as -200 °C to 300 °C")
    return 1 / (1 + IEC_60228_PER_KELVIN * (celsius - 20))


def worst_ratio(kind: str, area: float) -> float:
    """The highest ratio of a table to the pure metal: of the sizes of the standard, or of all for less than 0.5 mm²."""
    rows = [row for row in KINDS[kind] if area < _SMALLEST_OF_STANDARD or row[0] >= _SMALLEST_OF_STANDARD]
    return max([row[0] * row[1] for row in rows]) / (resistivity(kind) * 1000)


def ohms_per_km(area: float, kind: str = "class 5") -> float:
    """Ω/km at 20 °C of a cross-section in mm²: from the table, between its rows the estimate that is told above."""
    above_zero("cross-section", area)
    known("cable", kind, CABLES)
    pure = resistivity(kind) * 1000 / area
    if kind not in KINDS:
        return pure
    table = KINDS[kind]
    if area < table[0][0] or area > table[-1][0]:
        raise ValueError(f"{area:g} mm² lies outside the table, {table[0][0]:g} mm² to {table[-1][0]:g} mm²")
    smaller = [row for row in table if row[0] <= area]
    nearest = smaller[-1]
    return nearest[1] if nearest[0] == area else min(pure * worst_ratio(kind, area), nearest[1])


def cable_resistance(
    length: float,
    area: float,
    kind: str = "class 5",
    celsius: float = 20.0,
    joints: float = 0.0,
    ohms_a_joint: float = 0.0,
) -> float:
    """Ohms of a conductor of `length` m and `area` mm², with its joints, which are the same at every temperature."""
    not_negative("length", length)
    not_negative("number of joints", joints)
    not_negative("resistance of a joint", ohms_a_joint)
    return ohms_per_km(area, kind) * length / 1000 * temperature_factor(celsius, kind) + joints * ohms_a_joint


def gauge_diameter(gauge: str) -> float:
    """Diameter in mm of a solid wire of an American gauge: 0.127 · 92^((36 − n) / 39); ASTM B258, 1/0 is n = 0."""
    known("gauge", gauge, GAUGES)
    return 0.127 * 92 ** ((36 - (GAUGES.index(gauge) - 3)) / 39)


def gauge_area(gauge: str) -> float:
    """Cross-section in mm² of a gauge: π/4 · d²."""
    return pi / 4 * gauge_diameter(gauge) ** 2


def gauge_ohms_per_km(gauge: str) -> float:
    """Ω/km at 20 °C of a solid wire of pure copper of a gauge. A stranded cable has more."""
    return ohms_per_km(gauge_area(gauge), "pure copper")


def next_size(area: float) -> float:
    """The smallest standard area, in mm², that is not below this one: the sizes of IEC 60228, class 5."""
    above_zero("cross-section", area)
    enough = [row[0] for row in CLASS_5 if row[0] >= area and row[0] >= _SMALLEST_OF_STANDARD]
    if len(enough) == 0:
        raise ValueError(f"{area:g} mm² is more than the largest size listed, {CLASS_5[-1][0]:g} mm²")
    return min(enough)


def _cable(
    length: float, area: float, kind: str, celsius: float, joints: float, ohms_a_joint: float
) -> tuple[float, float]:
    return cable_resistance(length, area, kind, celsius, joints, ohms_a_joint), ohms_per_km(area, kind)


def _gauge(gauge: str) -> tuple[float, float, float, float]:
    area = gauge_area(gauge)
    return gauge_diameter(gauge), area, gauge_ohms_per_km(gauge), next_size(area)


CABLE_INPUT = Input("cable", "Kind of cable", default="class 5", choices=CABLES)
TEMPERATURE_INPUT = Input("t", "Temperature of the conductor", "°C", "20 °C")
JOINTS_INPUT = Input("joints", "Joints in the path", default="0")
JOINT_INPUT = Input("joint", "Resistance of one joint", "Ω", "0 Ω")

FORMULAS = (
    Formula(
        "cable resistance",
        "Resistance of a cable",
        (
            Input("length", "Length of the conductor", "m"),
            Input("area", "Cross-section", "mm²"),
            CABLE_INPUT,
            TEMPERATURE_INPUT,
            JOINTS_INPUT,
            JOINT_INPUT,
        ),
        (Output("Resistance", "Ω"), Output("Per length at 20 °C", "Ω/km")),
        _cable,
        "R = r · l · (1 + α · (t − 20 °C)) + n · Rj",
        "Direct current; the most that the standard allows. Road vehicles: table from memory, but for 1.5 mm².",
        "IEC 60228:2004 (restated by five references); IEC 60028:1925; IEC 60889; ISO 6722-1 (from memory)",
        {"length": "5 m", "area": "2.5 mm²"},
    ),
    Formula(
        "wire gauge",
        "American wire gauge in millimetres",
        (Input("gauge", "Gauge (AWG)", choices=GAUGES),),
        (
            Output("Diameter", "mm"),
            Output("Cross-section", "mm²"),
            Output("Pure copper at 20 °C", "Ω/km"),
            Output("Next standard cross-section", "mm²"),
        ),
        _gauge,
        "d = 0.127 mm · 92^((36 − n) / 39)",
        "Solid round wire. A stranded cable of the same area is thicker and has a few per cent more resistance.",
        "ASTM B258; IEC 60028:1925",
        {"gauge": "10"},
    ),
)
