"""How long is waited after the last source of a circuit is off, before it is touched or read.

The longest of the time that the maker states and t = R·C·ln(Umax/Usafe), with the tolerances against the reader.
Usafe is 60 V DC or 30 V AC for voltage class B (UN R100, definition of high voltage; ISO 6469-3), else 5 V, the
limit of the reading that follows (from memory: common practice). For alternating voltage both are effective values;
their peaks stand in the same ratio, so the time is the same.

A fact that is missing counts as unsafe: no waiting settles such a circuit, only a discharge with a reading does.
It is another thing where the author has asked, and writes that the maker publishes none: then the stated time stands
alone. Active discharge never counts: it may have failed, and nothing tells.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, inf

from ..calculations import discharge
from ..model.vehicle import Circuit, Stored
from ..quantities.limit import Limit

#: What is added where the profile gives no tolerance (from memory: common tolerances of such parts).
CAPACITANCE_MORE, BLEED_MORE = Fraction(120, 100), Fraction(105, 100)
#: UN R100, definition of high voltage.
SAFE_DC, SAFE_AC = Fraction(60), Fraction(30)
#: The limit of a reading at a circuit below class B, and at a housing: neither arc nor shock is to be feared (from
#: memory: common practice; it lies on the safe side of both limits above).
SAFE_READING = Fraction(5)
#: Fused and at most this, a circuit is taken for a 12 V or 24 V supply, of which nothing is asked.
#: 32 V is the highest supply of a 24 V system (ISO 16750-2, codes E to H; from memory).
LOW_UP_TO = 32


@dataclass(frozen=True, slots=True)
class Wait:
    """The required wait of a circuit.

    `seconds` None: no waiting settles it, only a discharge with a reading. `stated` is the maker's time, `computed` the
    one by the formula, `capacitance` and `bleed` the worst values that it reckons with (farads, ohms; a bleed that
    does not exist is endless), `start` and `end` its voltages. `assumed` tells whose tolerance was assumed, `lacks`
    what is not written though it decides: `stored`, `voltage`, `max`, `stated_wait`, `capacitance`, `bleed`.
    """

    seconds: Fraction | None
    stated: Fraction | None = None
    computed: float | None = None
    capacitance: float | None = None
    bleed: float | None = None
    start: float | None = None
    end: float = float(SAFE_READING)
    assumed: tuple[str, ...] = ()
    lacks: tuple[str, ...] = ()

    @property
    def has_curve(self) -> bool:
        """Whether enough is known to reckon how the voltage falls."""
        return None not in (self.start, self.capacitance, self.bleed) and self.bleed != inf


def required_wait(circuit: Circuit) -> Wait:
    """How long a circuit is waited for, and what that was reckoned from."""
    if circuit.energy != "electrical":
        return _not_electrical(circuit)
    end = float(safe_voltage(circuit))
    if circuit.stored is None:
        if "stored" in circuit.says or _is_fused_low(circuit):
            return Wait(Fraction(0), end=end)
        return Wait(None, end=end, lacks=("stored",))
    return _electrical(circuit, circuit.stored, end)


def safe_voltage(circuit: Circuit) -> Fraction:
    """The voltage to which a circuit has to fall."""
    if not circuit.is_class_b:
        return SAFE_READING
    return SAFE_DC if circuit.voltage is not None and circuit.voltage.kind == "dc" else SAFE_AC


def voltage_after(circuit: Circuit, seconds: Fraction | float) -> float | None:
    """The highest voltage that is still to be expected after a wait; None where that cannot be known."""
    if circuit.energy == "electrical" and circuit.stored is None and "stored" in circuit.says:
        return 0.0
    wait = required_wait(circuit)
    if wait.capacitance is None or wait.bleed is None or wait.start is None:
        return None
    return discharge.voltage_after(float(seconds), wait.start, wait.bleed, wait.capacitance)


def time_to(circuit: Circuit, limit_volts: Fraction | float) -> float | None:
    """Seconds until a circuit is at most at a voltage, at worst; None where that cannot be known or never comes."""
    if circuit.energy == "electrical" and circuit.stored is None and "stored" in circuit.says:
        return 0.0
    wait = required_wait(circuit)
    if wait.capacitance is None or wait.bleed is None or wait.start is None:
        return None
    seconds = discharge.time_to_fall(wait.start, float(limit_volts), wait.bleed, wait.capacitance)
    return None if seconds == inf else seconds


def _electrical(circuit: Circuit, stored: Stored, end: float) -> Wait:
    lacks = list(_missing_voltage(circuit))
    lacks += [key for key in ("stated_wait", "capacitance", "bleed") if key not in stored.says]
    worst, assumed = {}, []
    for key, more in (("capacitance", CAPACITANCE_MORE), ("bleed", BLEED_MORE)):
        limit: Limit | None = getattr(stored, key)
        if limit is None:
            continue
        if limit.high is not None:
            worst[key] = float(limit.high.si)
        elif limit.nominal is not None:
            worst[key] = float(limit.nominal.si * more)
            assumed.append(key)
        else:
            lacks.append(key)  # a least value alone says nothing of the worst
    if "bleed" in stored.none:
        worst["bleed"] = inf
    capacitance, bleed = (_above_zero(worst.get(key)) for key in ("capacitance", "bleed"))
    highest = circuit.voltage.max if circuit.voltage is not None else None
    start = None if highest is None else float(highest.si)
    computed = _computed(start, end, capacitance, bleed)
    stated = None if stored.stated_wait is None else stored.stated_wait.si
    return Wait(
        seconds=None if lacks else _longest(stated, computed, nothing_bleeds="bleed" in stored.none),
        stated=stated,
        computed=computed,
        capacitance=capacitance,
        bleed=bleed,
        start=start,
        end=end,
        assumed=tuple(assumed),
        lacks=tuple(lacks),
    )


def _computed(start: float | None, end: float, capacitance: float | None, bleed: float | None) -> float | None:
    """The time by the formula; None where a figure is not known or nothing ever discharges it."""
    if start is None:
        return None
    if start <= end:
        return 0.0
    if capacitance is None or bleed is None or bleed == inf:
        return None
    return discharge.time_to_fall(start, end, bleed, capacitance)


def _longest(stated: Fraction | None, computed: float | None, nothing_bleeds: bool) -> Fraction | None:
    """The longer of the two times, the computed one rounded up to a whole second."""
    if computed is None and (stated is None or nothing_bleeds):
        return None
    return max(stated or Fraction(0), Fraction(ceil(computed or 0)))


def _not_electrical(circuit: Circuit) -> Wait:
    """Of other energies only the time counts that the maker states, such as that of restraints.

    Those stay able to fire for minutes after their supply is off (NHTSA interim guidance: up to 5 min), so that a time
    has to be written for them, or that there is none.
    """
    if circuit.stored is None:
        if circuit.energy == "pyrotechnic" and "stored" not in circuit.says:
            return Wait(None, end=0.0, lacks=("stored",))
        return Wait(Fraction(0), end=0.0)
    stated = circuit.stored.stated_wait
    lacks = () if "stated_wait" in circuit.stored.says else ("stated_wait",)
    seconds = None if stated is None else stated.si
    return Wait(seconds, stated=seconds, end=0.0, lacks=lacks)


def _missing_voltage(circuit: Circuit) -> tuple[str, ...]:
    """What is not written of the voltage. What is written and could not be read is told where it was read."""
    if circuit.voltage is None:
        return () if "voltage" in circuit.says else ("voltage",)
    return ("max",) if circuit.voltage.max is None and "max" not in circuit.voltage.says else ()


def _is_fused_low(circuit: Circuit) -> bool:
    voltage = circuit.voltage
    if voltage is None or voltage.max is None or voltage.kind != "dc":
        return False
    return bool(circuit.fused) and voltage.max.si <= LOW_UP_TO


def _above_zero(value: float | None) -> float | None:
    return value if value is not None and value > 0 else None
