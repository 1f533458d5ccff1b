"""Which protection a step asks for, by what it touches: derived, so that no author has to remember it.

A service plug in the middle of a battery leaves only halves of the voltage at its socket. Protection is for the
undivided voltage all the same: what is being opened is not yet known to be apart.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from ..model import actions
from ..model.actions import Action
from ..model.contact import Contact
from ..model.pins import circuits_at, contacts_of
from ..model.procedure import Step
from ..model.vehicle import Circuit, IsolationPoint, Vehicle
from ..quantities.quantity import Quantity
from .rig import category_of

VoltageKind = Literal["dc", "ac"]
WantedKind = Literal["gloves", "over-gloves", "face shield", "eye protection", "insulated tools"]

#: The top of voltage class B; more is refused, so a voltage that is not known counts as this much.
#: Source: UN R100, ISO 6469-3 (limits of class B).
TOP: dict[VoltageKind, int] = {"dc": 1500, "ac": 1000}
#: The voltages up to which a person may touch. Source: UN R100 (definition of high voltage), FMVSS 305.
FLOOR: dict[VoltageKind, int] = {"dc": 60, "ac": 30}

#: What is worn where bare conductors of class B may be met. Source: EN 50110-1 (work near live parts); common practice.
_FOR_CLASS_B: tuple[WantedKind, ...] = ("gloves", "over-gloves", "face shield", "insulated tools")
#: 48 V gives no dangerous shock, but an arc and molten metal. Source: common practice.
_FOR_POWER: tuple[WantedKind, ...] = ("eye protection", "insulated tools")

#: Opened without a bare contact that could be reached, or by a command. Source: common practice.
_NOT_TOUCHED_WHEN_OPENED = frozenset({"charge lead", "contactor", "valve", "stand", "blocked wheels"})
#: Measured on a circuit that is dead already and stays so.
_ON_WHAT_IS_DEAD = frozenset({"resistance", "continuity", "diode", "capacitance", "bonding resistance"})


@dataclass(frozen=True, slots=True)
class GloveClass:
    """A class of insulating gloves with the highest voltages of use, in volts."""

    name: str
    ac: int
    dc: int

    def stands(self, volts: Fraction | int, kind: VoltageKind) -> bool:
        """Whether gloves of this class may be used at this voltage."""
        return volts <= (self.dc if kind == "dc" else self.ac)


#: IEC 60903 and ASTM D120, as restated by training pages for 29 CFR 1910.137; the DC figures are 1.5 times the AC ones
#: (ASTM practice: the edition of 2014 of IEC 60903 leaves DC to an informative annex).
GLOVE_CLASSES = (
    GloveClass("00", 500, 750),
    GloveClass("0", 1_000, 1_500),
    GloveClass("1", 7_500, 11_250),
    GloveClass("2", 17_000, 25_500),
    GloveClass("3", 26_500, 39_750),
    GloveClass("4", 36_000, 54_000),
)


@dataclass(frozen=True, slots=True)
class Wanted:
    """One piece of protection, and the circuit because of which it is asked for.

    `voltage` is the highest of that circuit, None where the profile does not know it.
    """

    kind: WantedKind
    voltage: Quantity | None
    voltage_kind: VoltageKind
    circuit: str

    @property
    def volts(self) -> Fraction:
        """The voltage that counts, in volts: one that is not known counts as the top of its class."""
        return Fraction(TOP[self.voltage_kind]) if self.voltage is None else self.voltage.si


def glove_class_for(voltage: Quantity | Fraction | int, kind: VoltageKind) -> GloveClass | None:
    """The lowest class of gloves for a voltage; None where there is none."""
    volts = voltage.si if isinstance(voltage, Quantity) else voltage
    return next((one for one in GLOVE_CLASSES if one.stands(volts, kind)), None)


def glove_class_named(name: str | None) -> GloveClass | None:
    """The class with this name (`00`, `0`, `1` to `4`)."""
    return next((one for one in GLOVE_CLASSES if one.name == name), None)


def voltage_kind_of(circuit: Circuit) -> VoltageKind:
    """Direct or alternating; direct where nothing is said, since its range is the wider one."""
    return circuit.voltage.kind if circuit.voltage is not None else "dc"


def protection_for(step: Step, vehicle: Vehicle, dead: frozenset[str] = frozenset()) -> tuple[Wanted, ...]:
    """What has to be worn and used at a step, in the order of the circuits that are met there.

    `dead` names the circuits that are proved dead on every path to the step: what is only touched there asks for
    nothing. What is proved, measured live, or opened and closed as a point of isolation asks for it all the same.
    """
    action = step.action
    wanted: list[Wanted] = []
    for circuit in circuits_met(action, vehicle):
        if circuit.id not in dead or not _is_done_dead(action):
            category = category_of(circuit)
            kinds = _FOR_CLASS_B if category == "class B" else _FOR_POWER if category == "power" else ()
            voltage = circuit.voltage.max if circuit.voltage is not None else None
            wanted += (Wanted(kind, voltage, voltage_kind_of(circuit), circuit.id) for kind in kinds)
    return tuple(wanted)


def circuits_met(action: Action, vehicle: Vehicle) -> tuple[Circuit, ...]:
    """The electrical circuits of which bare conductors may be met at a step that does this."""
    found = dict.fromkeys(_met(action, vehicle))
    circuits = (vehicle.circuits.get(name) for name in found)
    return tuple(one for one in circuits if one is not None and one.energy == "electrical")


def circuits_opened_at(point: IsolationPoint, vehicle: Vehicle) -> Iterator[Circuit]:
    """The circuits whose own conductors a point parts.

    A pole of the 12 V battery takes the coils of the contactors off the traction system too, yet what is met there is
    12 V.
    """
    if point.kind in _NOT_TOUCHED_WHEN_OPENED or point.breaks in ("coil supply only", "flow", "movement"):
        return
    served = [one for one in vehicle.circuits.values() if one.energy == "electrical" and _takes_off(point.id, one)]
    low_side = [one for one in served if not one.is_class_b and _takes_off(point.id, one, ("battery", "external"))]
    high = any(live.voltage is not None and live.voltage.si > FLOOR["dc"] for live in point.leaves_live)
    through = point.breaks == "middle of the battery" or high or not low_side
    yield from served if through else low_side


def _met(action: Action, vehicle: Vehicle) -> Iterator[str]:
    """The names of the circuits that an action meets."""
    if isinstance(action, actions.Disconnect | actions.Reconnect):
        yield from _at_points(action.points, vehicle)
    elif isinstance(action, actions.Remove):
        for name in action.parts:
            part = vehicle.parts.get(name)
            yield from part.exposes if part is not None else ()
    elif isinstance(action, actions.ProveDead | actions.Discharge):
        yield action.circuit
        yield from circuits_at((contact for pair in action.pairs for contact in pair), vehicle)
    elif isinstance(action, actions.Measure):
        yield from circuits_at(contacts_of(action), vehicle)
    elif isinstance(action, actions.Unplug):
        yield from circuits_at((Contact(name) for name in action.connectors), vehicle)
    elif isinstance(action, actions.Loosen | actions.Tighten):
        for name in action.fasteners:
            fastener = vehicle.fasteners.get(name)
            if fastener is not None:
                yield from circuits_at(fastener.terminal, vehicle)
                yield from _at_points((fastener.point,) if fastener.point else (), vehicle)


def _at_points(names: Iterable[str], vehicle: Vehicle) -> Iterator[str]:
    for name in names:
        point = vehicle.isolation_points.get(name)
        if point is not None:
            yield from (circuit.id for circuit in circuits_opened_at(point, vehicle))


def _takes_off(point: str, circuit: Circuit, sources: tuple[str, ...] = ()) -> bool:
    """Whether a point is among those that take a source of the circuit off; `sources` are the keys that count."""
    return any(
        point in way
        for source in circuit.sources
        if not sources or source.at[-1] in sources
        for way in source.taken_off_by
    )


def _is_done_dead(action: Action) -> bool:
    """Whether an action asks for nothing more where the circuit has been proved dead."""
    if isinstance(action, actions.Measure):
        return action.quantity in _ON_WHAT_IS_DEAD
    return isinstance(action, actions.Remove | actions.Unplug | actions.Loosen | actions.Tighten)
