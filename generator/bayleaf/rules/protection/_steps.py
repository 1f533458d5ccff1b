"""The steps of a procedure at which voltage can be met, and what is asked for there."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from ...model import actions
from ...model.pins import contacts_of
from ...model.procedure import Procedure, Step
from ...model.vehicle import Circuit, Vehicle
from ...safety.protection import (
    FLOOR,
    TOP,
    VoltageKind,
    Wanted,
    circuits_met,
    protection_for,
    voltage_kind_of,
)
from ...safety.rig import category_of
from ..references._memo import of_last

#: Read with probes or in the course of a proof: the instrument is put to the voltage of the circuit.
_READINGS = ("voltage", "voltage drop")
_CURRENTS = ("current",)


@dataclass(frozen=True, slots=True)
class Reading:
    """An instrument put to a circuit, or a clamp round its cable."""

    step: Step
    action: Any
    circuit: Circuit
    using: str
    function: str

    @property
    def kind(self) -> VoltageKind:
        """Direct or alternating, as the circuit is."""
        return voltage_kind_of(self.circuit)


@of_last
def steps_with_protection(procedure: Procedure, vehicle: Vehicle) -> tuple[tuple[Step, tuple[Wanted, ...]], ...]:
    """The steps at which protection is asked for, each with what is asked. Circuits that could not be read are left out."""
    found = []
    for step in procedure.steps:
        if not step.broken:
            wanted = tuple(one for one in protection_for(step, vehicle) if not vehicle.circuits[one.circuit].broken)
            if wanted:
                found.append((step, wanted))
    return tuple(found)


@of_last
def glove_steps(procedure: Procedure, vehicle: Vehicle) -> tuple[tuple[Step, tuple[Circuit, ...]], ...]:
    """The steps at which insulating gloves are asked for, each with the circuits of class B because of which."""
    found = []
    for step, wanted in steps_with_protection(procedure, vehicle):
        circuits = tuple(vehicle.circuits[one.circuit] for one in wanted if one.kind == "gloves")
        if circuits:
            found.append((step, circuits))
    return tuple(found)


def energised(action: Any, vehicle: Vehicle) -> tuple[str, ...]:
    """The circuits of class B that an action makes live on purpose."""
    if isinstance(action, actions.Energise):
        names = action.circuits
    else:
        names = action.energises if isinstance(action, actions.Command) else ()
    return tuple(name for name in names if name in vehicle.circuits and vehicle.circuits[name].is_class_b)


def proofs(procedure: Procedure, vehicle: Vehicle | None) -> Iterator[tuple[Step, actions.ProveDead, Circuit]]:
    """The steps that prove an electrical circuit dead, with the circuit."""
    for step in procedure.steps if vehicle is not None else ():
        if isinstance(step.action, actions.ProveDead) and not step.broken:
            circuit = vehicle.circuits.get(step.action.circuit)  # type: ignore[union-attr]
            if circuit is not None and circuit.energy == "electrical" and not circuit.broken:
                yield step, step.action, circuit


@of_last
def readings(procedure: Procedure, vehicle: Vehicle) -> tuple[Reading, ...]:
    """Every use of an instrument at class B or 48 V power in which it has to stand the voltage."""
    return tuple(_readings(procedure, vehicle))


def _readings(procedure: Procedure, vehicle: Vehicle) -> Iterator[Reading]:
    for step in procedure.steps:
        action: Any = step.action
        if step.broken or not isinstance(action, actions.ProveDead | actions.Discharge | actions.Measure):
            continue
        if action.using is None:
            continue
        for circuit in _circuits_read(action, vehicle):
            if category_of(circuit) in ("class B", "power") and not circuit.broken:
                kind = getattr(action, "current_kind", None) or voltage_kind_of(circuit)
                of = "current" if getattr(action, "quantity", None) in _CURRENTS else "voltage"
                yield Reading(step, action, circuit, action.using, f"{kind} {of}")


def _circuits_read(action: Any, vehicle: Vehicle) -> tuple[Circuit, ...]:
    """The circuits to whose voltage an instrument is put."""
    if not isinstance(action, actions.Measure):
        return circuits_met(action, vehicle)
    if action.quantity in _CURRENTS and action.around is not None:
        cable = vehicle.cables.get(action.around)
        circuit = vehicle.circuits.get(cable.circuit) if cable is not None and cable.circuit else None
        return (circuit,) if circuit is not None and circuit.energy == "electrical" else ()
    return circuits_met(action, vehicle) if action.quantity in (*_READINGS, *_CURRENTS) else ()


def is_live_reading(step: Step) -> bool:
    """Whether a voltage is read with probes."""
    action = step.action
    return isinstance(action, actions.Measure) and action.quantity in _READINGS and any(contacts_of(action))


def highest(circuit: Circuit) -> tuple[Fraction, VoltageKind]:
    """The voltage that a circuit counts for, in volts."""
    kind = voltage_kind_of(circuit)
    known = circuit.voltage.max if circuit.voltage is not None else None
    return (Fraction(TOP[kind]) if known is None else known.si), kind


def has(circuit: Circuit) -> str:
    """What a message says of the voltage of a circuit: `traction` has up to 410 V DC."""
    kind = voltage_kind_of(circuit)
    known = circuit.voltage.max if circuit.voltage is not None else None
    if known is None:
        return f"`{circuit.id}` counts as {TOP[kind]} V {kind.upper()}, as its highest voltage is not known"
    return f"`{circuit.id}` has up to {known} {kind.upper()}"


def floor_of(circuit: Circuit) -> tuple[int, str]:
    """The voltage up to which a circuit counts as dead, as a number and in words."""
    kind = voltage_kind_of(circuit)
    return FLOOR[kind], f"{FLOOR[kind]} V {kind.upper()}"


def volts_of(number: Fraction) -> str:
    """Volts for a message."""
    return f"{float(number):g} V"
