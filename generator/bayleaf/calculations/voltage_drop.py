"""Voltage drop: what is lost along a circuit while current flows.

    U = I · R          share = 100 · U / Us          A = ρ · l · I / U (pure metal)

    U   voltage drop   V      I  current                        A        l  length that the current runs   m
    Us  supply         V      R  resistance of the path, joints included   Ω

Valid for direct current that really flows: a path without current shows no drop, however bad it is. The usual drops are
guide values of training pages, not limits of a standard; the maker's figure takes their place. A fuse or a switch of
the path is in it only where it is counted among the joints, with the resistance that its maker states.

Source: Ohm's law; the resistances of `conductor`.
"""

from .checked import above_zero, known, not_negative
from .conductor import (
    CABLE_INPUT,
    JOINT_INPUT,
    JOINTS_INPUT,
    TEMPERATURE_INPUT,
    cable_resistance,
    resistivity,
    temperature_factor,
)
from .conductor_tables import KINDS
from .formula import Formula, Input, Output

#: How often the current runs the length that is given.
WAYS = {"one way": 1.0, "there and back": 2.0}

_PAGES = "page of a vocational training course, and an encyclopedic page"
_ANOTHER = "another training page"
_PRACTICE = "common practice"
_RESTATED = "restated"
_MEMORY = "from memory"
#: Guide values: volts at most under load, where they are printed, how sure that is. The lower one where pages differ.
USUAL_DROPS = {
    "connection": (0.0, _PAGES, _RESTATED),
    "ground path": (0.1, _PAGES, _RESTATED),
    "feed": (0.2, _PAGES, _RESTATED),
    "switch": (0.3, _PAGES, _RESTATED),
    "starter total": (0.5, _PAGES, _RESTATED),
    "starter feed": (0.6, _ANOTHER, _RESTATED),
    "starter ground": (0.3, _ANOTHER, _RESTATED),
    "charging feed": (0.5, _PAGES, _RESTATED),
    "charging ground": (0.2, _PAGES, _RESTATED),
    "any path": (1.0, _PRACTICE, _MEMORY),
    "design of a 12 V circuit": (0.36, "3 % of 12 V; " + _PRACTICE, _MEMORY),
}


def run_length(length: float, way: str) -> float:
    """Metres of conductor of a circuit: its length once, or there and back."""
    above_zero("length", length)
    known("way", way, list(WAYS))
    return length * WAYS[way]


def voltage_drop(
    amperes: float,
    length: float,
    area: float,
    way: str = "one way",
    kind: str = "class 5",
    celsius: float = 20.0,
    joints: float = 0.0,
    ohms_a_joint: float = 0.0,
) -> float:
    """Volts lost along the conductor, run once or there and back, and at the joints of the path: I · R."""
    above_zero("current", amperes)
    return amperes * cable_resistance(run_length(length, way), area, kind, celsius, joints, ohms_a_joint)


def share_of_supply(drop: float, supply: float) -> float:
    """The drop in per cent of the supply."""
    not_negative("voltage drop", drop)
    above_zero("supply", supply)
    return 100 * drop / supply


def area_of_pure_metal(
    amperes: float,
    length: float,
    drop: float,
    way: str = "one way",
    kind: str = "pure copper",
    celsius: float = 20.0,
) -> float:
    """The cross-section in mm² of pure metal that loses just `drop` volts: ρ·l·I/U. No cable is that good."""
    above_zero("current", amperes)
    above_zero("voltage drop", drop)
    return resistivity(kind) * temperature_factor(celsius, kind) * run_length(length, way) * amperes / drop


def smallest_area(
    amperes: float,
    length: float,
    drop: float,
    way: str = "one way",
    kind: str = "class 5",
    celsius: float = 20.0,
    joints: float = 0.0,
    ohms_a_joint: float = 0.0,
) -> float:
    """The smallest cross-section of the table of a kind, in mm², that loses no more than `drop` volts.

    For the drop alone: whether the cable gets too warm, and what the fuse asks for, is not looked at.
    """
    above_zero("voltage drop", drop)
    known("cable", kind, list(KINDS))
    enough = [
        row[0]
        for row in KINDS[kind]
        if voltage_drop(amperes, length, row[0], way, kind, celsius, joints, ohms_a_joint) <= drop
    ]
    if len(enough) == 0:
        raise ValueError(f"no cable up to {KINDS[kind][-1][0]:g} mm² loses as little as {drop:g} V")
    return min(enough)


def usual_drop(path: str) -> float:
    """The guide value of a path under load, in volts: a key of `USUAL_DROPS`."""
    known("path", path, list(USUAL_DROPS))
    return USUAL_DROPS[path][0]


def _drop(
    amperes: float,
    length: float,
    area: float,
    way: str,
    supply: float,
    kind: str,
    celsius: float,
    joints: float,
    ohms: float,
) -> tuple[float, float, float]:
    volts = voltage_drop(amperes, length, area, way, kind, celsius, joints, ohms)
    if volts > supply:
        raise ValueError(
            f"the path would lose {volts:g} V, more than the supply of {supply:g} V: such a current cannot flow"
        )
    return volts, share_of_supply(volts, supply), volts / amperes


def _conductor(
    amperes: float, length: float, drop: float, way: str, kind: str, celsius: float, joints: float, ohms: float
) -> tuple[float, float]:
    area = smallest_area(amperes, length, drop, way, kind, celsius, joints, ohms)
    return area, voltage_drop(amperes, length, area, way, kind, celsius, joints, ohms)


def _usual(path: str) -> tuple[float, str, str]:
    volts = usual_drop(path)
    return volts, USUAL_DROPS[path][1], USUAL_DROPS[path][2]


_CURRENT = Input("I", "Current", "A")
_LENGTH = Input("length", "Length", "m")
_WAY = Input("way", "The current runs this length", default="one way", choices=tuple(WAYS))
_SOURCE = "Ohm's law; IEC 60228:2004 (restated)"

FORMULAS = (
    Formula(
        "voltage drop",
        "Voltage drop of a circuit",
        (
            _CURRENT,
            _LENGTH,
            Input("area", "Cross-section", "mm²"),
            _WAY,
            Input("supply", "Supply voltage", "V", "12 V"),
            CABLE_INPUT,
            TEMPERATURE_INPUT,
            JOINTS_INPUT,
            JOINT_INPUT,
        ),
        (Output("Voltage drop", "V"), Output("Share of the supply", "%"), Output("Resistance of the path", "Ω")),
        _drop,
        "U = I · (r · l · (1 + α · (t − 20 °C)) + n · Rj)",
        "Direct current that flows while it is measured. The most that the standard of the cable allows. "
        "A fuse or a switch is in it only where it is counted as a joint.",
        _SOURCE,
        {"I": "10 A", "length": "5 m", "area": "2.5 mm²", "way": "there and back"},
    ),
    Formula(
        "conductor for drop",
        "Smallest cross-section for a voltage drop",
        (
            _CURRENT,
            _LENGTH,
            Input("drop", "Voltage drop, at most", "V"),
            _WAY,
            Input("cable", "Kind of cable", default="class 5", choices=tuple(KINDS)),
            TEMPERATURE_INPUT,
            JOINTS_INPUT,
            JOINT_INPUT,
        ),
        (Output("Cross-section", "mm²"), Output("Voltage drop with it", "V")),
        _conductor,
        "smallest A of the table with I · R(A) ≤ U",
        "For the drop alone: warming of the cable and its fuse are another question.",
        _SOURCE,
        {"I": "20 A", "length": "4 m", "drop": "0.3 V"},
    ),
    Formula(
        "usual voltage drop",
        "Voltage drop that is usual for a path",
        (Input("path", "Path", choices=tuple(USUAL_DROPS)),),
        (Output("Voltage drop, at most", "V"), Output("Source"), Output("Certainty")),
        _usual,
        "guide values",
        "Under load, with the current flowing. Guide values for 12 V; the maker's figure takes their place.",
        "Training pages, see the source of each",
        {"path": "ground path"},
    ),
)
