"""The mean voltage that a multimeter shows on the lines of a CAN bus that is in use.

    H = 2.5 V + d ± 0.25 V,  L = 2.5 V − d ± 0.25 V,  H − L = 2·d        d = 0 V (nobody sends) to 0.5 V (always)

`line: high` and `line: low` are read against ground, `line: between` from one to the other. The mean rests on the
traffic, so that the window is as wide as the traffic may be; it finds a line that is broken or shorted, not a wrong
level. For the levels themselves take an oscilloscope.

Source: levels of ISO 11898-2 (dominant 3.5 V and 1.5 V, recessive 2.5 V); the mean of them by computation.
"""

from ...calculations.bus_levels import mean_voltages
from ...model.cited import Computed
from ...model.pins import contacts_of, pins_at
from ...quantities.figures import figure
from ..asked import bus
from ..limit_rule import Asked, Lack

NAME = "CAN levels"
FITS = ("voltage",)

_LINES = {"high": (0, "CAN high"), "low": (1, "CAN low"), "between": (2, "between the lines")}


#: How far both lines of a sound bus may lie from 2.5 V: the symmetry of drivers, (H + L) / 5 V from 0.9 to 1.1, is
#: ±0.25 V for each. Source: data sheets of transceivers to ISO 11898-2.
_OFFSET = 0.25


def compute(asked: Asked) -> Computed | Lack:
    """Both limits, in volts."""
    found = bus(asked)
    if isinstance(found, Lack):
        return found
    if found.kind not in ("CAN", "CAN FD"):
        return Lack(f"`{found.id}` is {found.kind}, which has other levels", "name a CAN bus: `of: …`", "of")
    if asked.cited.line is None:
        mend = "write `line: high`, `line: low` or `line: between`"
        return Lack("it is not said which line is read", mend, "line")
    count = len({pin.number for _, pin in pins_at(contacts_of(asked.action), asked.vehicle) if pin.bus == found.id})
    wanted = 2 if asked.cited.line == "between" else 1
    if count not in (0, wanted):
        lines = "both lines" if wanted == 2 else "one line and ground"
        return Lack(f"`line: {asked.cited.line}` is read between {lines}", "mend `line` or `between`", "line")
    index, words = _LINES[asked.cited.line]
    idle, busy = mean_voltages(0.0)[index], mean_voltages(100.0)[index]
    apart = 0.0 if asked.cited.line == "between" else _OFFSET
    low, high = figure(min(idle, busy) - apart, "V", "up"), figure(max(idle, busy) + apart, "V", "down")
    text = f"{words}, mean at a bus load of 0 to 100 %: {low} to {high}"
    return Computed(low, high, text, "ISO 11898-2, levels; mean computed", "Only while the bus is awake.")
