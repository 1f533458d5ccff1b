"""Rested 12 V battery: what its voltage says of its charge, as a range, since what is published disagrees.

Each published set gives volts for some charges; between them it is straight. The sets differ by up to 0.15 V at a
quarter of charge, flooded, absorbent and enhanced types differ, and 10 % of charge are only some 80 mV. So no single
figure is given, and no set is taken as the true one: the range reaches over all sets and over the error of the meter.

Valid at about 25 °C after a rest of 6 h to 8 h at least, better 24 h, without load, and without the charge at the
surface that follows charging. The voltage says nothing of the health of the battery.

Source: a rule of thumb of several pages and the answer of a magazine (restated), a common table (from memory).
"""

from .checked import above_zero, known, not_negative
from .formula import Formula, Input, Output

#: Charge in per cent and volts, falling. Two are restated, the common table is from memory; it can only widen the
#: range.
SETS = {
    "rule of thumb": ((100.0, 12.6), (75.0, 12.4), (50.0, 12.2), (25.0, 12.0), (0.0, 11.6)),
    "magazine": ((100.0, 12.66), (75.0, 12.45), (50.0, 12.30), (25.0, 12.15)),
    "common table": ((100.0, 12.65), (75.0, 12.45), (50.0, 12.24), (25.0, 12.06), (0.0, 11.89)),
}
#: From here on a battery is not at rest: absorbent types are full at 12.8 V to 12.9 V (from memory), charging begins
#: at 13 V (restated).
NOT_RESTED = 13.0


def charge_in_set(volts: float, name: str) -> tuple[float, float]:
    """Charge from and to, in per cent, that one published set gives for a voltage.

    Both are the same within the set; below its last row it says only that the charge is below that row's.
    """
    above_zero("voltage", volts)
    known("set", name, list(SETS))
    rows = SETS[name]
    if volts >= rows[0][1]:
        return rows[0][0], rows[0][0]
    for number in range(1, len(rows)):
        higher, lower = rows[number - 1], rows[number]
        if volts >= lower[1]:
            charge = lower[0] + (higher[0] - lower[0]) * (volts - lower[1]) / (higher[1] - lower[1])
            return charge, charge
    return 0.0, rows[-1][0]


def charge_range(volts: float, error: float = 0.0) -> tuple[float, float]:
    """Charge from and to, in per cent: over all published sets, and over the error of the meter in V."""
    above_zero("voltage", volts)
    not_negative("error of the meter", error)
    if volts >= NOT_RESTED:
        raise ValueError(f"{volts:g} V is more than a rested battery has; it is being charged, or has not rested")
    if error >= volts:
        raise ValueError("the error of the meter is as large as the reading")
    lowest = [charge_in_set(volts - error, name)[0] for name in SETS]
    highest = [charge_in_set(volts + error, name)[1] for name in SETS]
    return min(lowest), max(highest)


FORMULAS = (
    Formula(
        "rested battery",
        "Charge of a rested 12 V lead-acid battery",
        (
            Input("U", "Voltage without load, after the rest", "V"),
            Input("error", "Greatest error of the meter; 0.5 % and 2 counts of 10 mV give 0.083 V", "V", "0.083 V"),
        ),
        (Output("Charge, at least", "%"), Output("Charge, at most", "%")),
        charge_range,
        "range over three published sets and the error of the meter",
        "About 25 °C, rested 6 h to 8 h, better 24 h, without load or surface charge. Says nothing of its health.",
        "Rule of thumb of several pages, answer of a magazine; a common table (from memory)",
        {"U": "12.4 V"},
    ),
)
