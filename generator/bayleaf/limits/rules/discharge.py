"""What is left in a circuit of the profile some time after its last source is off.

    U ≤ Umax · e^(−t / (R·C))        with `at` the time t, R and C at their worst tolerances

For readings that tell whether a circuit discharges as it should. It never proves a circuit dead: that is a
`prove_dead`, with the limit of the workshop.

Source: charge law of a capacitor with Ohm's law; the tolerances of the profile, else +20 % and +5 % (common practice).
"""

from ...model.cited import Computed
from ...quantities.figures import figure
from ...safety.wait import required_wait, voltage_after
from ..asked import circuits, condition
from ..limit_rule import Asked, Lack

NAME = "discharge"
FITS = ("voltage",)


def compute(asked: Asked) -> Computed | Lack:
    """An upper limit, in volts."""
    found = circuits(asked)
    if isinstance(found, Lack):
        return found
    if len(found) != 1:
        return Lack("the contacts belong to several circuits", f"name the one that is meant: `of: {found[0].id}`", "of")
    time = condition(asked, "time", "5 min")
    if isinstance(time, Lack):
        return time
    circuit, wait = found[0], required_wait(found[0])
    volts = voltage_after(circuit, time.si)
    if volts is None or wait.bleed is None or wait.capacitance is None or wait.start is None:
        mend = "write `capacitance`, `bleed` and the highest voltage of the circuit in the profile"
        return Lack(f"what `{circuit.id}` stores is not in the profile", mend, seen=(circuit.at, "the circuit"))
    most = figure(volts, "V", "down")
    charge = f"{figure(wait.bleed, 'Ω')}, {figure(wait.capacitance, 'F')}"
    words = f"from {wait.start:g} V, {time} later ({charge} at worst): {most}"
    return Computed(None, most, words, "charge law of a capacitor", "It does not prove the circuit dead.")
