"""Data buses: their levels, what a multimeter shows of them, the resistance of their termination.

    H = 2.5 V + d        L = 2.5 V − d        H − L = 2 · d          d = load · share
    1 / R = n / Rt + m / Rn

    d  share of the time in which the bus is dominant (3.5 V and 1.5 V; recessive both 2.5 V): times 1 V
    n  terminating resistors of Rt, m nodes of Rn, all in parallel          Ω

A multimeter for direct voltage shows the mean, which rests on the traffic: a fixed window of a few hundredths of a
volt would reject sound buses. Levels in between are seen with an oscilloscope only. The termination is measured on a
bus that is without supply.

Source: data sheets of transceivers to ISO 11898-2 (read); training pages of a maker of network tools (restated); page
of a maker of microcontrollers and data sheet of a transceiver for LIN (read). CAN FD with the same levels as CAN:
from memory.
"""

from math import inf

from .checked import above_zero, known, not_negative
from .formula import Formula, Input, Output

_CAN = (
    ("dominant", "high", 2.75, 3.5, 4.5),
    ("dominant", "low", 0.5, 1.5, 2.25),
    ("dominant", "between", 1.5, 2.0, 3.0),
    ("dominant, 45 to 70 Ω", "between", 1.4, None, 3.3),
    ("dominant, arbitration", "between", 1.5, None, 5.0),
    ("recessive", "high", 2.0, 2.5, 3.0),
    ("recessive", "low", 2.0, 2.5, 3.0),
    ("recessive", "between", -0.120, 0.0, 0.012),
    ("recessive, no load", "between", -0.050, 0.0, 0.050),
    ("asleep", "high", -0.1, 0.0, 0.1),
    ("asleep", "low", -0.1, 0.0, 0.1),
)
#: State, line, then volts: least, usual, most; None where none is printed. `high` and `low` are CAN_H and CAN_L
#: against ground, for FlexRay BP and BM; `between` is the first less the second. CAN, CAN FD and SIC: data sheets, 50
#: Ω to 65 Ω unless told (read; that CAN FD is the same: from memory). The others: training pages (restated).
LEVELS = {
    "CAN": _CAN,
    "CAN FD": _CAN,
    "CAN SIC": (
        ("dominant", "high", 3.0, None, 4.26),
        ("dominant", "low", 0.75, None, 2.01),
        ("recessive", "high", 2.256, None, 2.756),
        ("recessive", "low", 2.256, None, 2.756),
    ),
    "CAN low speed": (
        ("dominant", "high", None, 3.6, None),
        ("dominant", "low", None, 1.4, None),
        ("dominant", "between", 2.0, None, None),
        ("recessive", "high", None, 0.0, None),
        ("recessive", "low", None, 5.0, None),
        ("recessive", "between", None, -5.0, None),
    ),
    "FlexRay": (
        ("idle", "high", 1.8, 2.5, 3.2),
        ("idle", "low", 1.8, 2.5, 3.2),
        ("idle", "between", None, 0.0, None),
        ("asleep", "high", -0.2, 0.0, 0.2),
        ("asleep", "low", -0.2, 0.0, 0.2),
        ("data 1", "high", None, 3.5, None),
        ("data 1", "low", None, 1.5, None),
        ("data 1", "between", None, 2.0, None),
        ("data 0", "high", None, 1.5, None),
        ("data 0", "low", None, 3.5, None),
        ("data 0", "between", None, -2.0, None),
    ),
}
#: A receiver takes a difference above the first as dominant, below the second as recessive. Training page (restated).
CAN_RECEIVER = (0.9, 0.5)
#: (H + L) / 5 V lies from and to. Source: data sheets (read).
CAN_SYMMETRY = (0.9, 1.1)

#: Shares of the supply: received as recessive above, as dominant below (page of a maker of microcontrollers, read);
#: sent as recessive at least, as dominant at most (data sheet, read).
LIN_SHARES = (0.6, 0.4, 0.85, 0.2)
#: Volts of supply that these hold for. Source: page of a maker of microcontrollers (read).
LIN_SUPPLY = (7.0, 18.0)

#: The resistance of one terminating resistor, in ohms, that gives the 50 Ω to 65 Ω with which drivers are tested
#: (computed).
TERMINATOR = (100.0, 130.0)


def bus_level(bus: str, state: str, line: str) -> tuple[float | None, float | None, float | None]:
    """Least, usual and highest volts of a line in a state; None where none is printed."""
    known("bus", bus, list(LEVELS))
    rows = [row for row in LEVELS[bus] if row[0] == state and row[1] == line]
    if len(rows) == 0:
        raise ValueError(f"no level is known of {bus}, {state}, {line}")
    return rows[0][2], rows[0][3], rows[0][4]


def mean_voltages(load: float, dominant: float = 50.0) -> tuple[float, float, float]:
    """Volts that a multimeter shows on CAN_H, CAN_L and between them, at a bus load in per cent.

    `dominant`: how many per cent of the time of its frames the bus is dominant, about half.
    """
    for name, value in (("bus load", load), ("dominant share", dominant)):
        if not 0 <= value <= 100:
            raise ValueError(f"{name} is {value:g} %; it has to lie between 0 % and 100 %")
    share = load / 100 * dominant / 100
    return 2.5 + share, 2.5 - share, 2 * share


def dominant_share(high: float, low: float) -> float:
    """Per cent of the time in which the bus is dominant, from the mean voltages: 100 · (H − L) / 2 V."""
    return 100 * (high - low) / 2


def judged_means(high: float, low: float) -> str:
    """What the mean voltages of CAN_H and CAN_L say.

    Plausible: 2.5 V < H ≤ 3.0 V, 2.0 V ≤ L < 2.5 V, sum within 0.5 V of 5 V (symmetry of drivers 0.9 to 1.1, data
    sheets; the rest follows from the levels).
    """
    if not CAN_SYMMETRY[0] * 5 - 1e-9 <= high + low <= CAN_SYMMETRY[1] * 5 + 1e-9:
        return "not plausible: the two do not add up to 5 V ± 0.5 V"
    if high < low:
        return "not plausible: CAN_H is below CAN_L"
    if high == low:
        return "no traffic: both lines at the level of rest"
    if high <= 2.5 or low >= 2.5:
        return "not plausible: both lines on one side of 2.5 V"
    if high > 3.0 or low < 2.0:
        return "not plausible: the bus is dominant for more than half of the time"
    return "plausible"


def termination(resistors: float, ohms: float = 120.0, nodes: float = 0.0, node_ohms: float = 30e3) -> float:
    """Ohms between the lines of a bus without supply: resistors and nodes in parallel; endless with none of them.

    A node of about 30 kΩ is usual, not a limit.
    """
    above_zero("terminating resistor", ohms)
    above_zero("resistance of a node", node_ohms)
    not_negative("number of resistors", resistors)
    not_negative("number of nodes", nodes)
    through = resistors / ohms + nodes / node_ohms
    return 1 / through if through > 0 else inf


def termination_range(
    resistors: float, ohms: float, tolerance: float, nodes: float = 0.0, node_ohms: float = 30e3
) -> tuple[float, float]:
    """The same from and to, for resistors with a tolerance in per cent."""
    if not 0 <= tolerance < 100:
        raise ValueError(f"tolerance is {tolerance:g} %; it has to be 0 % or more and below 100 %")
    low = termination(resistors, ohms * (1 - tolerance / 100), nodes, node_ohms)
    return low, termination(resistors, ohms * (1 + tolerance / 100), nodes, node_ohms)


def judged_termination(ohms: float) -> str:
    """What a resistance between the lines of CAN says: how many resistors of 100 Ω to 130 Ω give it."""
    if not ohms >= 0:
        raise ValueError(f"resistance is {ohms:g}; it has to be 0 or more")
    for number, said in (
        (1, "one terminating resistor: one is missing"),
        (2, "two, as it should be"),
        (3, "three: one too many"),
    ):
        if TERMINATOR[0] / number <= ohms <= TERMINATOR[1] / number:
            return said
    if ohms > TERMINATOR[1]:
        return "no terminating resistor, or an open line"
    if ohms < 5:
        return "lines shorted to each other"
    return "no number of resistors of 100 Ω to 130 Ω"


def lin_thresholds(supply: float) -> tuple[float, float, float, float]:
    """Volts on LIN: received as recessive above, as dominant below; sent as recessive at least, as dominant at most."""
    if not LIN_SUPPLY[0] <= supply <= LIN_SUPPLY[1]:
        raise ValueError(f"a supply of {supply:g} V lies outside {LIN_SUPPLY[0]:g} V to {LIN_SUPPLY[1]:g} V")
    return LIN_SHARES[0] * supply, LIN_SHARES[1] * supply, LIN_SHARES[2] * supply, LIN_SHARES[3] * supply


def _level(bus: str, state: str, line: str) -> tuple[str]:
    least, usual, most = bus_level(bus, state, line)
    said = [] if usual is None else [f"usually {usual:g} V"]
    if least is not None:
        said.append(f"at least {least:g} V")
    if most is not None:
        said.append(f"at most {most:g} V")
    return (", ".join(said),)


def _means(high: float, low: float) -> tuple[str, float, float]:
    return judged_means(high, low), dominant_share(high, low), high + low


def _termination(
    resistors: float, ohms: float, tolerance: float, nodes: float, node_ohms: float
) -> tuple[float, float, float]:
    low, high = termination_range(resistors, ohms, tolerance, nodes, node_ohms)
    return termination(resistors, ohms, nodes, node_ohms), low, high


def _measured(ohms: float) -> tuple[str]:
    return (judged_termination(ohms),)


_STATES = (
    "dominant",
    "recessive",
    "asleep",
    "idle",
    "data 1",
    "data 0",
    "dominant, 45 to 70 Ω",
    "dominant, arbitration",
    "recessive, no load",
)

FORMULAS = (
    Formula(
        "bus levels",
        "Levels of a data bus",
        (
            Input("bus", "Bus", default="CAN", choices=tuple(LEVELS)),
            Input("state", "State", choices=_STATES),
            Input("line", "Line against ground, or between the lines", choices=("high", "low", "between")),
        ),
        (Output("Level"),),
        _level,
        "read from a table",
        "Read with an oscilloscope: a multimeter shows the mean of both states.",
        "Data sheets of transceivers to ISO 11898-2; training pages (CAN low speed, FlexRay)",
        {"state": "dominant", "line": "high"},
    ),
    Formula(
        "CAN mean voltages",
        "What a multimeter shows on CAN at a bus load",
        (Input("load", "Bus load", "%"), Input("dominant", "Dominant share of the time of its frames", "%", "50 %")),
        (Output("CAN_H", "V"), Output("CAN_L", "V"), Output("Between the lines", "V")),
        mean_voltages,
        "H = 2.5 V + d · 1 V;  L = 2.5 V − d · 1 V",
        "High-speed CAN with 3.5 V and 1.5 V dominant. Drivers differ: the sum may lie within 5 V ± 0.5 V.",
        "Mean of the usual levels of ISO 11898-2, computed",
        {"load": "20 %"},
    ),
    Formula(
        "CAN mean check",
        "Whether mean voltages of CAN are plausible",
        (Input("H", "CAN_H against ground", "V"), Input("L", "CAN_L against ground", "V")),
        (Output("Readings"), Output("Dominant for this share of the time", "%"), Output("Sum", "V")),
        _means,
        "2.5 V < H ≤ 3.0 V;  2.0 V ≤ L < 2.5 V;  |H + L − 5 V| ≤ 0.5 V",
        "High-speed CAN, awake. Plausible means proves nothing of the frames themselves.",
        "Symmetry of drivers: data sheets of transceivers; the rest computed from the usual levels",
        {"H": "2.6 V", "L": "2.4 V"},
    ),
    Formula(
        "CAN termination",
        "Resistance between the lines of a bus",
        (
            Input("n", "Terminating resistors", default="2"),
            Input("R", "Resistance of one", "Ω", "120 Ω"),
            Input("tolerance", "Tolerance of the resistors", "%", "1 %"),
            Input("nodes", "Other nodes", default="0"),
            Input("node", "Resistance of one node", "Ω", "30 kΩ"),
        ),
        (Output("Resistance", "Ω"), Output("At least", "Ω"), Output("At most", "Ω")),
        _termination,
        "1 / R = n / Rt + m / Rn",
        "Bus without supply, every node asleep. Without the error of the meter.",
        "Resistors in parallel; ISO 11898-2 (120 Ω)",
        {"nodes": "1"},
    ),
    Formula(
        "CAN termination check",
        "What the resistance between the lines says",
        (Input("R", "Resistance between CAN_H and CAN_L", "Ω"),),
        (Output("Terminating resistors"),),
        _measured,
        "100 Ω / n ≤ R ≤ 130 Ω / n",
        "Bus without supply. A resistor inside a control unit is told from one in the harness only by unplugging.",
        "Load with which drivers are tested, 50 Ω to 65 Ω: data sheets of transceivers to ISO 11898-2",
        {"R": "60.2 Ω"},
    ),
    Formula(
        "LIN thresholds",
        "Thresholds of LIN at a supply",
        (Input("supply", "Supply voltage at the node", "V"),),
        (
            Output("Received as recessive above", "V"),
            Output("Received as dominant below", "V"),
            Output("Sent as recessive, at least", "V"),
            Output("Sent as dominant, at most", "V"),
        ),
        lin_thresholds,
        "0.6 · U;  0.4 · U;  0.85 · U;  0.2 · U",
        "Supply of 7 V to 18 V, read behind the diode of the node.",
        "Page of a maker of microcontrollers; data sheet of a transceiver",
        {"supply": "12.6 V"},
    ),
)
