"""What the energy map says of a circuit in words: the same in the drawing and in the list beside it.

A missing fact counts as unsafe, and is said.
"""

from math import ceil

from ..model.common import MODE_OFF
from ..model.vehicle import Circuit, Connector, IsolationPoint, LivePlace, Part, Rotation, Source, Stored, Vehicle
from .show import capital, plain

#: Groups of circuits, the most dangerous first: key, heading.
GROUPS = (
    ("class-b", "Voltage class B"),
    ("power", "Electrical power below voltage class B"),
    ("other", "Other energies"),
    ("low", "Fused low voltage"),
)
#: Above this a fused circuit still counts as power. 24 V systems reach 32 V at most: ISO 16750-2, from memory.
LOW_VOLTAGE = 32
#: The sources that an electrical circuit must state.
_ELECTRICAL_SOURCES = ("battery", "charging", "converter", "external")


def group_of(circuit: Circuit) -> str:
    """The key of the group to which a circuit belongs."""
    if circuit.energy != "electrical":
        return "other"
    if circuit.is_class_b:
        return "class-b"
    low = circuit.voltage is not None and circuit.voltage.max is not None and circuit.voltage.max.si <= LOW_VOLTAGE
    return "low" if circuit.fused and low else "power"


def by_danger(vehicle: Vehicle) -> list[Circuit]:
    """The circuits of a vehicle, the most dangerous group first."""
    order = {key: index for index, (key, _) in enumerate(GROUPS)}
    return sorted(vehicle.circuits.values(), key=lambda one: order[group_of(one)])


def fed_by(circuit: Circuit) -> tuple[Source, ...]:
    """The sources that exist."""
    return tuple(source for source in circuit.sources if source.kind != "none")


def is_fixed(source: Source) -> bool:
    """Whether nothing takes it off: stated so, or no isolation point is named."""
    return source.kind == "never" or (source.kind == "points" and not any(source.taken_off_by))


def source_words(source: Source) -> str:
    """What a source is called: its name, or its key in words."""
    name = source.called or source.name
    return capital(name.replace("-", " ") if name == name.lower() else name)


def absent_sources(circuit: Circuit) -> tuple[str, ...]:
    """The sources that do not exist, as the profile states."""
    return tuple(source_words(source).lower() for source in circuit.sources if source.kind == "none")


def unstated_sources(circuit: Circuit) -> tuple[str, ...]:
    """The sources of which an electrical circuit says nothing. Asked no more where one stays on anyhow."""
    if circuit.energy != "electrical" or any(source.kind == "never" for source in circuit.sources):
        return ()
    stated = {str(source.at[-1] if source.at else source.name) for source in circuit.sources}
    return tuple(name for name in _ELECTRICAL_SOURCES if name not in stated)


def energy_words(circuit: Circuit) -> str:
    """Kind of energy and voltage: "DC, 355 V nominal, 410 V at most"."""
    if circuit.energy != "electrical":
        return capital(circuit.energy)
    if circuit.voltage is None:
        return "Electrical, voltage not stated"
    words = [circuit.voltage.kind.upper()]
    if circuit.voltage.nominal:
        words.append(f"{plain(circuit.voltage.nominal)} nominal")
    words.append(f"{plain(circuit.voltage.max)} at most" if circuit.voltage.max else "highest not stated")
    return ", ".join(words)


def class_words(circuit: Circuit) -> str:
    """What class a circuit is of, and what a missing fact does to that; empty for other energies."""
    if circuit.energy != "electrical":
        return ""
    if circuit.is_class_b:
        known = circuit.voltage is not None and circuit.voltage.max is not None
        return "Voltage class B" if known else "Highest voltage not known: treated as voltage class B"
    fused = {True: "every wire fused", False: "not fused: nothing limits a short"}
    said = fused.get(circuit.fused, "fuse not stated: counts as not fused")  # type: ignore[arg-type]
    return f"Not class B, {said}"


def stored_words(circuit: Circuit) -> tuple[str, ...]:
    """What an electrical circuit keeps, and how long is waited."""
    if circuit.energy != "electrical":
        return ()
    stored = circuit.stored
    if stored is None:
        known = "stored" in circuit.says and not circuit.broken
        return ("Stores nothing",) if known else ("What it stores is not known: counts as charged",)
    wait = _WAIT[_why_missing(stored, "stated_wait")]
    if stored.stated_wait:
        wait = f"Wait {plain(stored.stated_wait)}, then measure"
    return f"Stored: {capacitance_words(stored)}, {bleed_words(stored)}", wait


_WAIT = {
    "none": "The maker states no waiting time: measure", "not known": "The maker states no waiting time: measure",
    "cannot be read": "Waiting time cannot be read: measure", "not stated": "Waiting time not stated: measure",
}  # fmt: skip


def capacitance_words(stored: Stored) -> str:
    """The capacitance, or why there is none: not published by the maker is another thing than not asked for."""
    if stored.capacitance:
        return plain(stored.capacitance)
    why = _why_missing(stored, "capacitance")
    return {"not known": "capacitance not published by the maker", "none": "no capacitance"}.get(
        why, f"capacitance {why}"
    )


def bleed_words(stored: Stored) -> str:
    """What discharges it, or why that is not said."""
    if stored.bleed:
        return f"bled through {plain(stored.bleed)}"
    why = _why_missing(stored, "bleed")
    return {
        "not known": "bleed resistance not published by the maker", "none": "nothing bleeds it: it stays charged",
    }.get(why, f"bleed resistance {why}")  # fmt: skip


def _why_missing(stored: Stored, key: str) -> str:
    """Why a value is not there: `none`, `not known`, written but unreadable, or not written at all."""
    if key in stored.none:
        return "none"
    if key in stored.not_known:
        return "not known"
    return "cannot be read" if key in stored.says else "not stated"


def safe_words(circuit: Circuit) -> str:
    """When a circuit of another energy may be opened; empty for electrical ones that say nothing."""
    if circuit.safe:
        return "; ".join(f"{key.replace('_', ' ')} {plain(limit)}" for key, limit in circuit.safe)
    return "" if circuit.energy == "electrical" else "not stated, so counts as dangerous"


def turning_words(rotation: Rotation) -> tuple[str, ...]:
    """What a turning machine makes."""
    if rotation.constant is None:
        return ("voltage not stated: any turning counts as live",)
    made = f"makes {plain(rotation.constant)}"
    if rotation.at_most is None:
        return (made, "highest speed not stated: any turning counts as live")
    volts = rotation.constant.si * rotation.at_most.si
    figure = ceil(volts) if volts >= 10 else ceil(volts * 10) / 10
    return made, f"at most {plain(rotation.at_most)} here, which is {figure:g}\u00a0V"


def point_words(vehicle: Vehicle, name: str) -> str:
    """What an isolation point is called."""
    if name == MODE_OFF:
        return "Vehicle switched off"
    point = vehicle.isolation_points.get(name)
    return point.name if point else name


#: What a point parts that is no conductor: what stays at it has no voltage, and this is how it stays.
_NOT_ELECTRICAL = {"flow": "stays under pressure", "movement": "still holds energy"}


def stays(point: IsolationPoint) -> str:
    """How what is left at an open point stays, by what the point parts; where that is not said, it counts as live."""
    return _NOT_ELECTRICAL.get(point.breaks or "", "stays live")


def live_words(place: LivePlace, point: IsolationPoint) -> str:
    """A place that stays live, with its voltage; a place under pressure has none."""
    if place.voltage is None and point.breaks in _NOT_ELECTRICAL:
        return place.place
    return f"{place.place}, {plain(place.voltage) if place.voltage else 'voltage not known'}"


def point_notes(vehicle: Vehicle, name: str) -> list[tuple[str, str]]:
    """What must be known at an isolation point: a sign (`live`, `stop` or none) and its words."""
    if name == MODE_OFF:
        return []
    point: IsolationPoint | None = vehicle.isolation_points.get(name)
    if point is None:
        return [("stop", "not in the profile: counts as no isolation point")]
    how = stays(point)
    notes = [("live", f"{how}: {live_words(place, point)}") for place in point.leaves_live]
    if not notes:
        notes.append(("live", f"what {how} is not known") if point.broken else ("", f"nothing {how} at it"))
    if point.breaks == "coil supply only":
        notes.append(("stop", "takes only the supply of a coil: counts for nothing if a contactor may be stuck"))
    if not point.secure_with:
        notes.append(("stop", "cannot be secured"))
    return notes


def connectors_on(vehicle: Vehicle, circuit: Circuit) -> tuple[Connector, ...]:
    """The connectors that carry the circuit in either half."""
    return tuple(
        connector
        for connector in vehicle.connectors.values()
        if any(circuit.id in (pin.device_circuit, pin.cable_circuit) for pin in connector.pins.values())
    )


def parts_on(vehicle: Vehicle, circuit: Circuit) -> tuple[Part, ...]:
    """The parts in which the circuit runs, save the one that seals it in."""
    return tuple(
        part for part in vehicle.parts.values() if circuit.id in part.circuits and part.id != circuit.sealed_in
    )


def covers_of(vehicle: Vehicle, circuit: Circuit) -> tuple[Part, ...]:
    """The parts that lay the circuit bare when they are off, without carrying it."""
    return tuple(
        part for part in vehicle.parts.values() if circuit.id in part.exposes and circuit.id not in part.circuits
    )
