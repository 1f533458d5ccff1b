"""What is missing so that the waiting time of a circuit cannot be known."""

from collections.abc import Iterator

from ...model.vehicle import Circuit, Vehicle
from ...safety.rig import Category, category_of
from ...safety.wait import required_wait
from ..fault import Fault
from ._circuits import electrical, listed, stays_live, why_dangerous

_NAMES = {"capacitance": "capacitance", "bleed": "bleed resistance", "stated_wait": "waiting time of the maker"}
_OTHERWISE = {
    "capacitance": "`capacitance: not known` where the maker publishes none",
    "bleed": "`bleed: not known` where the maker publishes none, `bleed: none` where nothing discharges it",
    "stated_wait": "`stated_wait: none` where the maker states none",
}


def missing(circuit: Circuit) -> tuple[str, ...]:
    """What is missing; nothing of a circuit that is never waited for."""
    if circuit.sealed_in is not None or stays_live(circuit):
        return ()
    return required_wait(circuit).lacks


def faults(vehicle: Vehicle, category: Category) -> Iterator[Fault]:
    """The circuits of one category whose waiting time cannot be known."""
    for circuit in electrical(vehicle):
        if category_of(circuit) == category and (lacks := missing(circuit)):
            yield _fault(circuit, lacks)


def _fault(circuit: Circuit, lacks: tuple[str, ...]) -> Fault:
    no_waiting = "without it no waiting settles the circuit, only a discharge and a reading"
    if "stored" in lacks:
        because = f"{why_dangerous(circuit)}, and it may stay charged when its sources are off; {no_waiting}"
        help_ = "add `stored: none`, or `stored:` with `capacitance`, `bleed` and `stated_wait`"
        return Fault(circuit.at, f"`{circuit.id}` does not say what it stores", because, help_, key=True)
    figures = [key for key in lacks if key in _NAMES]
    if not figures:
        message = f"the waiting time of `{circuit.id}` cannot be reckoned: its highest voltage is not written"
        help_ = "add `max: …` to `voltage`, the highest voltage in service"
        at = circuit.at if circuit.voltage is None else (*circuit.at, "voltage")
        return Fault(at, message, f"{no_waiting}, and the circuit counts as voltage class B", help_, key=True)
    assert circuit.stored is not None
    open_ended = [key for key in figures if key in circuit.stored.says]
    if open_ended:
        key = open_ended[0]
        limit = getattr(circuit.stored, key)
        message = f"`{key}: {limit}` tells only the least {_NAMES[key]}"
        because = "the waiting time is reckoned from the most that it may be"
        return Fault((*circuit.stored.at, key), message, because, "write the value with its tolerance, or `at most …`")
    message = f"`stored` of `{circuit.id}` has no {listed(f'`{key}`' for key in figures)}"
    because = f"what is missing counts as the worst: {no_waiting}"
    adding = listed(f"`{key}: …`" for key in figures)
    help_ = f"add {adding}; {'; '.join(_OTHERWISE[key] for key in figures)}"
    return Fault(circuit.stored.at, message, because, help_, key=True)
