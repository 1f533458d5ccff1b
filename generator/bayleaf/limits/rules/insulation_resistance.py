"""Insulation resistance of a circuit of voltage class B against the vehicle.

    Ri ≥ r · Umax        r = 100 Ω/V for a DC bus, 500 Ω/V for an AC bus and for AC and DC that are joined,
                         100 Ω/V for these where every AC part has double insulation or a robust enclosure

Umax is the highest working voltage of the profile, of all that is joined the highest. A DC bus of a vehicle that has AC
of class B counts as joined to it unless the profile says `joined_with: none`. It is a floor for the whole bus; a single
part, measured by itself, has to be far better, which is what an explicit limit beside the rule is for.

Source: UN R100, 5.1.3.
"""

from ...calculations.insulation import least_resistance, ohms_per_volt
from ...model.cited import Computed
from ...model.vehicle import Circuit, Vehicle
from ...quantities.figures import figure
from ...quantities.quantity import Quantity
from ..asked import circuits, highest_voltage
from ..limit_rule import Asked, Lack

NAME = "insulation resistance"
FITS = ("insulation resistance",)


def compute(asked: Asked) -> Computed | Lack:
    """A lower limit, in ohms."""
    found = circuits(asked)
    if isinstance(found, Lack):
        return found
    live = [one for one in found if one.is_class_b]
    if not live:
        return Lack(
            f"`{found[0].id}` is not of voltage class B",
            "leave the rule out, and write a limit with its source",
            because="UN R100 asks nothing of a circuit up to 60 V DC or 30 V AC",
        )
    bus, joined, remark = _bus(live, asked.vehicle)
    highest: Quantity | None = None
    for one in (*live, *joined):
        voltage = highest_voltage(one)
        if isinstance(voltage, Lack):
            return voltage
        highest = voltage if highest is None or voltage > highest else highest
    assert highest is not None
    least = figure(least_resistance(float(highest.si), bus), "Ω", "up")
    words = f"{ohms_per_volt(bus):g} Ω/V × {highest} = {least}"
    return Computed(least, None, words, "UN R100, 5.1.3", remark)


def _bus(live: list[Circuit], vehicle: Vehicle) -> tuple[str, tuple[Circuit, ...], str | None]:
    """What kind of bus is measured, the circuits joined to it, and what has to be told of that."""
    kinds = {one.voltage.kind for one in live if one.voltage is not None}
    own = {one.id for one in live}
    names = dict.fromkeys(name for one in live for name in one.joined_with)
    names |= dict.fromkeys(one.id for one in vehicle.circuits.values() if own.intersection(one.joined_with))
    joined = tuple(vehicle.circuits[name] for name in names if name in vehicle.circuits)
    kinds |= {one.voltage.kind for one in joined if one.voltage is not None}
    if kinds == {"ac"}:
        return "ac", joined, None
    if "ac" in kinds:
        protected = all(one.protected for one in live)
        return ("joined and protected" if protected else "joined"), joined, None
    unsaid = [one.id for one in live if "joined_with" not in one.says]
    others = tuple(one for one in vehicle.circuits.values() if _is_ac_class_b(one))
    if unsaid and others:
        text = (
            f"The profile does not say whether `{unsaid[0]}` is joined to AC (`joined_with`), so it counts as joined."
        )
        return "joined", others, text
    return "dc", (), None


def _is_ac_class_b(circuit: Circuit) -> bool:
    return circuit.is_class_b and circuit.voltage is not None and circuit.voltage.kind == "ac"
