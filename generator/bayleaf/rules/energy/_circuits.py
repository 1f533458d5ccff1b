"""The electrical circuits of a profile, and why so much is asked of them."""

from collections.abc import Iterable, Iterator

from ...model.vehicle import Circuit, Vehicle
from ...safety.rig import category_of
from ...safety.wait import LOW_UP_TO


def electrical(vehicle: Vehicle) -> Iterator[Circuit]:
    """The electrical circuits, but those of which something could not be read: what they would need is not known."""
    for circuit in vehicle.circuits.values():
        if circuit.energy == "electrical" and not circuit.broken and not _is_unread(circuit):
            yield circuit


def class_b(vehicle: Vehicle) -> Iterator[Circuit]:
    """Those of voltage class B."""
    return (circuit for circuit in electrical(vehicle) if circuit.is_class_b)


def dangerous(vehicle: Vehicle) -> Iterator[Circuit]:
    """Those of voltage class B and of 48 V power."""
    return (circuit for circuit in electrical(vehicle) if category_of(circuit) in ("class B", "power"))


def squibs(vehicle: Vehicle) -> Iterator[Circuit]:
    """Those that can be fired."""
    every = vehicle.circuits.values()
    return (circuit for circuit in every if circuit.energy == "pyrotechnic" and not circuit.broken)


def stays_live(circuit: Circuit) -> bool:
    """Whether nothing takes one of its sources off: then it is never touched, whatever else is known of it."""
    return any(source.kind == "never" for source in circuit.sources)


def why_dangerous(circuit: Circuit) -> str:
    """What makes a circuit one that is handled with care, as the end of a sentence."""
    highest = circuit.voltage.max if circuit.voltage is not None else None
    if circuit.energy == "pyrotechnic":
        return "a squib that is fed can fire at any time"
    if circuit.is_class_b:
        if highest is None:
            return "its highest voltage is not written, so it counts as voltage class B"
        bound = "60 V DC" if circuit.voltage and circuit.voltage.kind == "dc" else "30 V AC"
        return f"at up to {highest} it is of voltage class B, which begins above {bound}"
    if highest is not None and highest.si > LOW_UP_TO:
        return f"at up to {highest} it feeds an arc that burns on"
    fuse = "it is not fused" if circuit.fused is False else "it does not say `fused: yes`"
    return f"{fuse}, so nothing limits what a short of it can do"


def listed(words: Iterable[str], last: str = "and") -> str:
    """Words in a sentence: "a", "a and b", "a, b and c"."""
    every = list(words)
    return every[0] if len(every) == 1 else f"{', '.join(every[:-1])} {last} {every[-1]}"


def _is_unread(circuit: Circuit) -> bool:
    """Whether its voltage was written in a way that could not be read: then its class is not known."""
    voltage = circuit.voltage
    if voltage is None:
        return "voltage" in circuit.says
    return any(key in voltage.says and getattr(voltage, key) is None for key in ("nominal", "max"))
