"""How long a circuit has to wait after its last source is off, worked out a second time for the oracle."""

from math import inf, log

from bayleaf.model.vehicle import Circuit, Stored
from bayleaf.quantities.limit import Limit

#: Against the reader, where the profile gives no tolerance (from memory: common tolerances of such parts).
CAPACITANCE_MORE, BLEED_MORE = 1.2, 1.05


def required_wait(circuit: Circuit) -> float:
    """Seconds until what is left is down to a safe voltage; infinite where waiting alone never shows it.

    The longer of what the maker states (UK HSE: it is never replaced by a computed time) and of
    t = R·C·ln(Umax/Usafe), Usafe = 60 V DC or 30 V AC for class B (UN R100), else 5 V. What is not written counts as
    the worst; what is written as `not known` leaves the time that is stated.
    """
    stored = circuit.stored
    if stored is None:
        return 0 if "stored" in circuit.says or circuit.energy != "electrical" else inf
    if stored.stated_wait is None and "stated_wait" not in stored.none:
        return inf
    stated = float(stored.stated_wait.si) if stored.stated_wait is not None else None
    if circuit.energy != "electrical":
        return stated if stated is not None else inf
    if stored.not_known:
        known_to_bleed = stored.bleed is not None or "bleed" in stored.not_known
        return stated if stated is not None and known_to_bleed else inf
    return max(_computed(circuit, stored), stated or 0)


def _computed(circuit: Circuit, stored: Stored) -> float:
    capacitance, bleed = _most(stored.capacitance, CAPACITANCE_MORE), _most(stored.bleed, BLEED_MORE)
    if capacitance is None or bleed is None or circuit.voltage is None or circuit.voltage.max is None:
        return inf
    highest = float(circuit.voltage.max.si)
    safe = (60 if circuit.voltage.kind == "dc" else 30) if circuit.is_class_b else 5
    return bleed * capacitance * log(highest / safe) if highest > safe else 0.0


def _most(value: Limit | None, more: float) -> float | None:
    if value is None:
        return None
    if value.high is not None:
        return float(value.high.si)
    return float(value.nominal.si) * more if value.nominal is not None else None
