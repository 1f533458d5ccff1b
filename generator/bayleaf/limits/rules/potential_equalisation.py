"""Resistance between an exposed conductive part and the chassis.

    R ≤ 0.1 Ω, read with at least 0.2 A

A multimeter cannot show it: its ohm ranges send a few milliamperes, and its leads alone have more than 0.1 Ω. The rule
is for a four-wire instrument.

Source: UN R100, 5.1.2.2 (below 0.1 Ω at 0.2 A or more).
"""

from ...calculations.bonding import LEAST_CURRENT, LIMIT
from ...model.cited import Computed
from ...quantities.figures import figure
from ..limit_rule import Asked, Lack

NAME = "potential equalisation"
FITS = ("bonding resistance",)


def compute(asked: Asked) -> Computed | Lack:
    """An upper limit, in ohms."""
    most = figure(LIMIT, "Ω", "down")
    return Computed(None, most, f"{most} at {LEAST_CURRENT:g} A or more", "UN R100, 5.1.2.2")
