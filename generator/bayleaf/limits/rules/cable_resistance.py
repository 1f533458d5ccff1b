"""Resistance of a cable of the profile from end to end.

    R ≤ R20 · l · (1 + α·(t − 20 °C))        with `at` the temperature t; 20 °C where none is said

The highest resistance that IEC 60228 allows for flexible copper (class 5) of this cross-section. Joints and fuses are
not in it. Some milliohms are below what two leads can show: it takes a four-wire instrument.

Source: IEC 60228:2004, table 3; α = 0.00393/K (IEC 60028).
"""

from ...calculations.conductor import cable_resistance
from ...model.cited import Computed
from ...quantities.figures import figure
from ..asked import cable, condition
from ..limit_rule import Asked, Lack

NAME = "cable resistance"
FITS = ("resistance", "bonding resistance", "continuity")


def compute(asked: Asked) -> Computed | Lack:
    """An upper limit, in ohms."""
    found = cable(asked)
    if isinstance(found, Lack):
        return found
    assert found.length is not None and found.area is not None
    celsius = 20.0
    if asked.cited.at is not None:
        warmth = condition(asked, "temperature", "20 °C")
        if isinstance(warmth, Lack):
            return warmth
        celsius = float(warmth.to("°C").value)
    ohms = cable_resistance(float(found.length.si), float(found.area.to("mm²").value), celsius=celsius)
    most = figure(ohms, "Ω", "down")
    words = f"{found.length} of {found.area} copper at {celsius:g} °C: {most}"
    joints = f"its {found.joints} joint{'s' * (found.joints > 1)}" if found.joints else "joints"
    return Computed(None, most, words, "IEC 60228:2004, class 5", f"Nothing is in it for {joints} or for a fuse.")
