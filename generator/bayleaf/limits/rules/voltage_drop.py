"""Voltage drop under load, along a cable of the profile or along a usual path.

    U ≤ I · R20 · l        with `of` a cable of the profile and `at` the current
    U ≤ guide value        with `of` a path: ground path, feed, switch, starter total …

The resistance is the highest that IEC 60228 allows for flexible copper (class 5) of this cross-section at 20 °C.
Joints, fuses and switches of the path add to it, by amounts that nobody publishes for all of them, and are not in it:
so a reading just above the limit may be theirs, and each of them is read by itself. A drop is only worth reading while
the current flows.

Source: Ohm's law with IEC 60228:2004, table 3; the guide values from pages of vocational training.
"""

from dataclasses import replace

from ...calculations.conductor import cable_resistance
from ...calculations.voltage_drop import USUAL_DROPS
from ...model.cited import Computed
from ...model.vehicle import Cable
from ...quantities.figures import figure
from ..asked import cable, condition
from ..limit_rule import Asked, Lack

NAME = "voltage drop"
FITS = ("voltage drop", "voltage")


def compute(asked: Asked) -> Computed | Lack:
    """An upper limit, in volts."""
    paths = [path for path, (volts, _, certainty) in USUAL_DROPS.items() if volts > 0 and certainty == "restated"]
    names = asked.cited.of
    if len(names) == 1 and names[0] in paths:
        most = figure(USUAL_DROPS[names[0]][0], "V", "down")
        text = f"guide value for a {names[0]}: {most}"
        return Computed(None, most, text, "vocational training", "Only while the load runs.")
    found = cable(asked)
    if isinstance(found, Lack):
        if found.help.startswith("did you"):
            return found
        return replace(found, help=f"{found.help}, or a path: {', '.join(paths)}")
    current = condition(asked, "current", "20 A")
    if isinstance(current, Lack):
        return current
    assert found.length is not None and found.area is not None
    area = float(found.area.to("mm²").value)
    ohms = cable_resistance(float(found.length.si), area)
    most = figure(float(current.si) * ohms, "V", "down")
    words = f"{current} × {figure(ohms, 'Ω')} ({found.length} of {found.area}) = {most}"
    return Computed(
        None, most, words, "IEC 60228:2004, class 5, 20 °C", f"Only while the current flows. {_not_in_it(found)}"
    )


def _not_in_it(found: Cable) -> str:
    joints = f"its {found.joints} joint{'s' * (found.joints > 1)}" if found.joints else "joints"
    return f"Nothing is in it for {joints}, for a fuse or for a switch on the way."
