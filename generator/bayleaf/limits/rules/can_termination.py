"""Resistance between the two lines of a CAN bus that is without supply.

    R = 120 Ω / n        n resistors, those of the parts under `terminated_in` of the bus

Accepted is what transceivers are made to drive: 90 Ω to 140 Ω each, so 45 Ω to 70 Ω for the usual two. One that is
missing gives 120 Ω, a third one 40 Ω.

Source: ISO 11898-2, the loads of 45 Ω to 70 Ω for which data sheets of transceivers state the levels.
"""

from ...calculations.bus_levels import termination
from ...model.cited import Computed
from ...quantities.figures import figure
from ..asked import bus
from ..limit_rule import Asked, Lack

NAME = "CAN termination"
FITS = ("resistance",)


#: Ohms of one resistor: twice the loads of 45 Ω to 70 Ω. Source: data sheets of transceivers to ISO 11898-2.
_LEAST, _MOST = 90.0, 140.0
#: One resistor at each end of the bus. Source: ISO 11898-2.
_USUAL = 2


def compute(asked: Asked) -> Computed | Lack:
    """Both limits, in ohms."""
    found = bus(asked)
    if isinstance(found, Lack):
        return found
    if found.kind not in ("CAN", "CAN FD"):
        return Lack(f"`{found.id}` is {found.kind}, which is not terminated like CAN", "name a CAN bus: `of: …`", "of")
    count = len(found.terminated_in) or _USUAL
    remark = "Only on a bus without supply."
    if not found.terminated_in:
        remark += f" The profile does not say where `{found.id}` is terminated; two resistors are usual."
    low, high = figure(_LEAST / count, "Ω", "up"), figure(_MOST / count, "Ω", "down")
    nominal = figure(termination(count), "Ω")
    words = f"{count} × 120 Ω in parallel = {nominal}; {low} to {high}"
    return Computed(low, high, words, "ISO 11898-2", remark)
