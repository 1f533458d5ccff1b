"""Joints that carry current: their tightening torques.

Table values. They are chosen for the contact and for the softest part of the joint, not for the strength of the bolt,
and they lie far below what a steel bolt of the same size takes: brass stud M8 6 N·m, copper busbar with a steel bolt M8
20 N·m, steel in steel M8 8.8 about 24 N·m. A stud of brass or copper has no property class, and is never tightened, or
judged, by the table of one.

Valid dry, with the washers that the maker prescribes. The maker's figure goes before these.

Source: beside each table.
"""

from .checked import known
from .formula import Formula, Input, Output

STUD = "brass or copper stud"
BUSBAR = "copper lug or bar, steel bolt 8.8"
TERMINAL = "screw terminal"
INCH_BOLT = "lug or bar, inch bolt"
NEWTON_METRES_PER_POUND_INCH = 0.1129848290276167

#: N·m by joint and thread.
TORQUES: dict[str, dict[str, float]] = {
    # The stud itself carries the current: brass M4 to M20, copper M10 to M24x2.
    STUD: {
        "M4": 1.2,
        "M5": 2.0,
        "M6": 3.0,
        "M8": 6.0,
        "M10": 10.0,
        "M12": 15.5,
        "M16": 30.0,
        "M20": 52.0,
        "M24x2": 80.0,
    },
    # Zinc-plated steel bolts of 8.8 or better, dry.
    BUSBAR: {"M6": 8.0, "M8": 20.0, "M10": 40.0, "M12": 70.0, "M16": 120.0},
    # Test torque of column III. A drive maker's table of ring lugs prints 2.5 for M6.
    TERMINAL: {"M4": 1.2, "M5": 2.0, "M6": 3.0, "M8": 6.0, "M10": 10.0, "M12": 14.0},
    # Printed in lbf·in. Silicon bronze, galvanised or stainless steel.
    INCH_BOLT: {
        "1/4": 80 * NEWTON_METRES_PER_POUND_INCH,
        "5/16": 180 * NEWTON_METRES_PER_POUND_INCH,
        "3/8": 240 * NEWTON_METRES_PER_POUND_INCH,
        "1/2": 480 * NEWTON_METRES_PER_POUND_INCH,
        "5/8": 660 * NEWTON_METRES_PER_POUND_INCH,
    },
}
#: Where each table is printed, and how sure it is.
SOURCES = {
    STUD: ("terminal-board maker's table", "restated"),
    BUSBAR: ("DIN 43673 and VDE 0220-2, as a technician's note sums them up", "restated"),
    TERMINAL: ("IEC 60947-1, table 4, column III", "from memory"),
    INCH_BOLT: ("NEMA CC 1-2009, as a connector maker's catalogue prints it", "restated"),
}
#: Torque to check a tightened joint with, N·m: about 80 %. Source: the technician's note on DIN 43673.
CHECK_TORQUES: dict[str, float] = {"M6": 6.0, "M8": 16.0, "M10": 32.0, "M12": 55.0, "M16": 96.0}
#: Hole in the bar, mm. Source: DIN 43673, in a leaflet on busbars.
HOLES: dict[str, float] = {"M5": 5.5, "M6": 6.6, "M8": 9.0, "M10": 11.0, "M12": 13.5}
#: M10 of class 8.8 on the bar of a circuit breaker, N·m, by washer. Source: switchgear maker's catalogue.
BREAKER_BAR: dict[str, float] = {"flat washer": 37.5, "contact washer": 50.0}


def joint_torque(joint: str, size: str) -> float:
    """N·m from the table of this kind of joint. A size that is not in it is refused, never taken from another."""
    known("joint", joint, list(TORQUES))
    if size not in TORQUES[joint]:
        raise ValueError(f"for {joint} the table has {', '.join(list(TORQUES[joint]))}, not {size}")
    return TORQUES[joint][size]


def stud_torque(size: str) -> float:
    """N·m for a stud of brass or copper that carries the current."""
    return joint_torque(STUD, size)


def busbar_torque(size: str) -> float:
    """N·m for a copper lug or bar with a steel bolt of 8.8 or better, dry."""
    return joint_torque(BUSBAR, size)


def check_torque(size: str) -> float:
    """N·m at which a bolt of a busbar must not turn on: about 80 % of its torque."""
    joint_torque(BUSBAR, size)
    return CHECK_TORQUES[size]


def breaker_torque(washer: str) -> float:
    """N·m for M10 of class 8.8 on the bar of a circuit breaker."""
    known("washer", washer, list(BREAKER_BAR))
    return BREAKER_BAR[washer]


def busbar_hole(size: str) -> float:
    """Hole in the bar, mm."""
    known("thread", size, list(HOLES))
    return HOLES[size]


def may_be_limit(joint: str) -> bool:
    """Whether the table was seen in print, so that a check may rest on it."""
    known("joint", joint, list(SOURCES))
    return SOURCES[joint][1] == "restated"


def _torque(joint: str, size: str) -> tuple[float, str]:
    torque = joint_torque(joint, size)
    return torque, f"{SOURCES[joint][1]}: {SOURCES[joint][0]}"


def _busbar(size: str) -> tuple[float, float, str]:
    hole = f"{HOLES[size]:.1f} mm" if size in HOLES else "not printed"
    return busbar_torque(size), check_torque(size), hole


def _breaker(washer: str) -> tuple[float]:
    return (breaker_torque(washer),)


_VALID = "Dry, with the washers prescribed. The maker's figure goes before this one. Not by the table of steel bolts."

FORMULAS = (
    Formula(
        "stud torque",
        "Tightening torque of a joint that carries current",
        (
            Input("joint", "Joint", choices=tuple(TORQUES), default=STUD),
            Input("size", "Thread", choices=(*TORQUES[STUD], *TORQUES[INCH_BOLT])),
        ),
        (Output("Torque", "N·m"), Output("Figure")),
        _torque,
        "Table",
        _VALID,
        "Beside the result",
        {"size": "M8"},
    ),
    Formula(
        "busbar torque",
        "Tightening and check torque of a copper busbar",
        (Input("size", "Thread", choices=tuple(TORQUES[BUSBAR])),),
        (Output("Torque", "N·m"), Output("Check torque", "N·m"), Output("Hole in the bar")),
        _busbar,
        "Table; check torque about 80 %",
        "Copper lug or bar, zinc-plated steel bolt of 8.8 or better, dry. The maker's figure goes before this one.",
        "DIN 43673 and VDE 0220-2, as restated",
        {"size": "M8"},
    ),
    Formula(
        "breaker bar torque",
        "Tightening torque on the bar of a circuit breaker, M10",
        (Input("washer", "Washer", choices=tuple(BREAKER_BAR)),),
        (Output("Torque", "N·m"),),
        _breaker,
        "Table",
        "One maker's breakers, M10 of class 8.8. The maker's figure goes before this one.",
        "Switchgear maker's catalogue",
        {"washer": "contact washer"},
    ),
)
