"""What the workshop has for a step: the first thing that does it, or nothing."""

from ..limits.wrench import setting_on, wrenches
from ..model.vehicle import Circuit, Fastener
from ..model.workshop import Instrument, Workshop
from ..safety.protection import Wanted, glove_class_named, voltage_kind_of

#: The function that reads each thing of which a profile says when it is safe.
_READ_BY = {
    "temperature": "temperature",
    "gauge_pressure": "pressure",
    "pressure": "pressure",
    "voltage": "dc voltage",
}
#: Made to tell live from dead; no meter for the signal of a sensor.
_TESTER = "two-pole voltage tester"


def tester_for(circuit: Circuit, workshop: Workshop) -> Instrument | None:
    """A two-pole voltage tester that stands the voltage of a circuit; else an instrument that reads it at all."""
    function = f"{voltage_kind_of(circuit)} voltage"
    highest = circuit.voltage.max if circuit.voltage is not None else None
    fitting = [
        one
        for one in workshop.instruments.values()
        if function in one.functions
        and (highest is None or one.highest_dc is None or one.highest_dc.si >= highest.si)
        and one.kind == _TESTER
    ]
    return fitting[0] if fitting else None


def proving_unit(workshop: Workshop) -> str | None:
    """The proving unit with the highest voltage."""
    units = [one for one in workshop.proving_units.values() if one.voltage is not None]
    return max(units, key=lambda one: one.voltage.si).id if units else None  # type: ignore[union-attr]


def reader_of(name: str, workshop: Workshop) -> str | None:
    """An instrument that reads a temperature, a pressure, or the signal of a sensor."""
    function = _READ_BY.get(name)
    fitting = (one for one in workshop.instruments.values() if function in one.functions)
    return next((one.id for one in fitting if one.kind != _TESTER), None)


def ohmmeter(workshop: Workshop) -> str | None:
    """An instrument that reads a resistance."""
    return next((one.id for one in workshop.instruments.values() if "resistance" in one.functions), None)


def clamp_for(kind: str, workshop: Workshop) -> str | None:
    """A current clamp for this kind of current."""
    fitting = (one for one in workshop.instruments.values() if f"{kind} current" in one.functions)
    return next((one.id for one in fitting if "clamp" in (one.kind or "")), None)


def wrench_for(fastener: Fastener, workshop: Workshop) -> str | None:
    """The smallest torque wrench whose range holds the torque of a fastener, not at its end if it can be."""
    torque = fastener.torque
    aim = None if torque is None else torque.nominal or torque.high or torque.low
    if aim is None:
        return None
    settings = (setting_on(one, float(aim.si), fastener.adapter) for one in wrenches(workshop))
    fitting = [one for one in settings if one.covers]
    at_its_end = {one.wrench.id for one in fitting if one.setting in (one.lowest, one.highest)}
    best = min(fitting, key=lambda one: (one.wrench.id in at_its_end, one.highest), default=None)
    return best.wrench.id if best is not None else None


def insulated_tools(workshop: Workshop) -> str | None:
    """Insulated spanners, where they are owned."""
    fitting = (one for one in workshop.tools.values() if one.insulated_to is not None)
    return next((one.id for one in fitting if "socket" in one.id or "spanner" in one.id), None)


def caps(workshop: Workshop) -> str:
    """Insulating caps, under the name that the workshop has for them."""
    return next((name for name in workshop.tools if {"cap", "caps"} & set(name.split("-"))), "insulating caps")


def worn_for(wanted: tuple[Wanted, ...], workshop: Workshop) -> list[str]:
    """What is owned of the protection that a step asks for, in its order; insulated tools are no clothing."""
    found: dict[str, None] = {}
    for one in wanted:
        for owned in workshop.protection.values():
            gloves = glove_class_named(owned.glove_class)
            if one.kind == "gloves" and gloves is not None:
                if gloves.stands(one.volts, one.voltage_kind):
                    found.setdefault(owned.id)
                    break
            elif one.kind == owned.kind and gloves is None:
                found.setdefault(owned.id)
                break
    return list(found)
