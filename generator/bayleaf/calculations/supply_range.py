"""Supply ranges: at which voltage a component has to work, and how long it bears more or less.

A system of 12 V or 24 V has a code letter for each component: its maker says which. A system of 48 V has one range
without limit of time, and times for the ranges beside it.

Source: 12 V and 24 V: ISO 16750-2:2012, tables 1 and 2, from memory, to be held against the standard. 48 V: ranges of
VDA 450 of 2023, which names ISO 21780:2020 as its base (restated).
"""

from math import inf

from .checked import known, not_negative
from .formula import Formula, Input, Output

#: 48 V: volts from and to without limit of time. VDA 450 (restated).
UNLIMITED_48 = (36.0, 52.0)
#: System, code, volts from and to, certainty. ISO 16750-2:2012, tables 1 and 2; VDA 450 in line with ISO 21780:2020.
RANGES = (
    ("12 V", "A", 6.0, 16.0, "from memory"),
    ("12 V", "B", 8.0, 16.0, "from memory"),
    ("12 V", "C", 9.0, 16.0, "from memory"),
    ("12 V", "D", 10.5, 16.0, "from memory"),
    ("24 V", "E", 10.0, 32.0, "from memory"),
    ("24 V", "F", 16.0, 32.0, "from memory"),
    ("24 V", "G", 22.0, 32.0, "from memory"),
    ("24 V", "H", 18.0, 32.0, "from memory"),
    ("48 V", "unlimited", UNLIMITED_48[0], UNLIMITED_48[1], "restated"),
)

#: 48 V: above the unlimited range, up to and with this voltage, for so many seconds. VDA 450 (restated).
ABOVE_48 = ((54.0, 120.0), (58.0, 0.640))
#: 48 V: above that, below this voltage, for so many seconds; from it on for none.
HIGHEST_48 = (70.0, 0.040)
#: 48 V: below the unlimited range, from this voltage on, for so many seconds; below it for `LOWEST_48` seconds.
BELOW_48 = (31.0, 2.0)
LOWEST_48 = 100e-6


def supply_range(system: str, code: str) -> tuple[float, float]:
    """Volts from and to in which a component of a system (12 V, 24 V, 48 V) with a code works."""
    row = _row(system, code)
    return row[2], row[3]


def certainty_of_range(system: str, code: str) -> str:
    """How sure the range is: `from memory` has to be held against the standard before anything rests on it."""
    return _row(system, code)[4]


def _row(system: str, code: str) -> tuple[str, str, float, float, str]:
    rows = [row for row in RANGES if row[0] == system and row[1] == code]
    if len(rows) == 0:
        known("system", system, ("12 V", "24 V", "48 V"))
        codes = [row[1] for row in RANGES if row[0] == system]
        raise ValueError(f"code {code} is none of a {system} system; its codes are {', '.join(codes)}")
    return rows[0]


def time_allowed_48(volts: float) -> float:
    """Seconds for which a 48 V component bears a supply voltage; endless from 36 V to 52 V, 0 from 70 V on."""
    not_negative("voltage", volts)
    if volts < UNLIMITED_48[0]:
        return BELOW_48[1] if volts >= BELOW_48[0] else LOWEST_48
    if volts <= UNLIMITED_48[1]:
        return inf
    for up_to, seconds in ABOVE_48:
        if volts <= up_to:
            return seconds
    return HIGHEST_48[1] if volts < HIGHEST_48[0] else 0.0


def _range(system: str, code: str) -> tuple[float, float, str]:
    low, high = supply_range(system, code)
    return low, high, certainty_of_range(system, code)


def _time(volts: float) -> tuple[float]:
    return (time_allowed_48(volts),)


FORMULAS = (
    Formula(
        "supply range",
        "Supply voltage in which a component works",
        (
            Input("system", "System", choices=("12 V", "24 V", "48 V")),
            Input("code", "Code of the component", choices=tuple([row[1] for row in RANGES])),
        ),
        (Output("From", "V"), Output("To", "V"), Output("Certainty of these figures")),
        _range,
        "read from a table",
        "The code is the one that the maker of the component states. At the component, not at the battery.",
        "ISO 16750-2:2012, tables 1 and 2 (from memory); VDA 450 of 2023 in line with ISO 21780:2020 (restated)",
        {"system": "12 V", "code": "C"},
    ),
    Formula(
        "48 V time allowed",
        "Time for which 48 V components bear a voltage",
        (Input("U", "Supply voltage", "V"),),
        (Output("Time", "s"),),
        _time,
        "read from a table",
        "Endless from 36 V to 52 V. For components, not for people: touch is judged by 60 V.",
        "VDA 450 of 2023 in line with ISO 21780:2020 (restated)",
        {"U": "53 V"},
    ),
)
