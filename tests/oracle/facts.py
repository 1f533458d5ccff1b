"""What the oracle reads in a vehicle profile and in a step. Looked up, never walked."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import combinations
from typing import NamedTuple

from bayleaf.model import actions
from bayleaf.model.common import MODE_OFF
from bayleaf.model.contact import Contact, read_contact
from bayleaf.model.procedure import Procedure, Step
from bayleaf.model.vehicle import Circuit, Vehicle

Names = frozenset[str]
NOTHING: Names = frozenset()

STUCK = "contactor stuck"
REAL_BREAKS = ("conductor", "middle of the battery")
#: Quantities for which the instrument sends its own current or voltage, so that a live circuit hurts it and the reader.
PROBED = frozenset({"resistance", "continuity", "diode", "capacitance", "insulation resistance", "bonding resistance"})
#: Actions that put hands or tools on something.
HANDS_ON = (
    actions.Disconnect, actions.Reconnect, actions.Secure, actions.Release, actions.Unplug, actions.Plug,
    actions.Remove, actions.Refit, actions.Loosen, actions.Tighten, actions.Drain, actions.Fill, actions.OpenValve,
    actions.CloseValve, actions.FitTemporary, actions.RemoveTemporary, actions.ProveDead, actions.Discharge,
)  # fmt: skip


class OtherHalf(NamedTuple):
    """What has to be read as well as a pair of the profile where its connector is apart."""

    pair: frozenset[Contact]
    connector: str
    side: str | None
    mirrored: frozenset[frozenset[Contact]]


@dataclass(frozen=True, slots=True)
class Touch:
    """What a step touches: `bare` always, `opened` only while the thing named is off; `covers` it opens or shuts.

    `sides` are the contacts that are touched, for circuits of which nothing else is. `let_out` is gas that leaves by its own vent, or is let in again: nobody can read it as safe before.
    """

    bare: Names
    opened: tuple[tuple[str, Names], ...]
    covers: Names
    probes: Names
    hands_on: bool
    let_out: Names
    sides: Mapping[str, frozenset[Contact]]


class Facts:
    """A vehicle, and the procedures that are done on it, as the oracle sees them."""

    def __init__(self, vehicle: Vehicle, procedures: Mapping[str, Procedure]) -> None:
        self.vehicle = vehicle
        steps = [step.action for one in procedures.values() for step in one.steps]
        self.fitted = [action for action in steps if isinstance(action, actions.FitTemporary)]
        self.temporaries = self._temporaries(procedures)
        self._items: dict[str, Names] = {}
        self._touches: dict[tuple[str, str], Touch] = {}

    # Circuits

    def category(self, circuit: Circuit) -> str:
        """B, power, low or other."""
        if circuit.energy != "electrical":
            return "other"
        if circuit.is_class_b:
            return "B"
        known = circuit.voltage is not None and circuit.voltage.max is not None
        return "low" if circuit.fused and known and circuit.voltage.max.si <= 32 else "power"

    def points(self, names: Iterable[str]) -> Names:
        """The isolation points of the sources of these circuits."""
        circuits = (self.vehicle.circuits[name] for name in names)
        return frozenset(
            point for one in circuits for source in one.sources for some in source.taken_off_by for point in some
        )

    def is_real_break(self, point: str) -> bool:
        """Whether a point parts conductors; a contactor only does what its coil is told."""
        known = self.vehicle.isolation_points.get(point)
        return known is not None and known.breaks in REAL_BREAKS and known.kind != "contactor"

    def ways_off(self, circuit: Circuit, group: Names, faults: Names) -> list[list[Names]]:
        """For each source of a circuit and of those joined to it, the sets of points that take it off.

        An empty list of ways stands for a source, or for a circuit of unknown sources, that nothing takes off.
        """
        strict = self.category(circuit) in ("B", "power")
        found: list[list[Names]] = []
        for name in sorted(group):
            sources = self.vehicle.circuits[name].sources
            if not sources:
                found.append([])
            for source in sources:
                if source.kind != "none":
                    sets = [frozenset(some) for some in source.taken_off_by] if source.kind == "points" else []
                    if self._waits_for_its_battery(name, source.name):
                        found.append([some for some in sets if any(map(self.is_real_break, some))])
                        continue
                    found.append([some for some in sets if self._counts(some, strict, faults)])
            if self._is_squib(name) and all(source.kind == "none" for source in sources):
                found.append([])  # something fires it, whatever is said
        return found

    def _is_squib(self, name: str) -> bool:
        return self.vehicle.circuits[name].energy == "pyrotechnic"

    def _waits_for_its_battery(self, name: str, source: str) -> bool:
        """A squib is not safe because the key is out: the battery, or what supports it, is parted."""
        return self._is_squib(name) and source in ("battery", "external")

    def _counts(self, points: Names, strict: bool, faults: Names) -> bool:
        if not points:
            return False
        if not strict:
            return True
        if not any(map(self.is_real_break, points)):
            return False
        return STUCK not in faults or not any(map(self._may_be_stuck, points))

    def _may_be_stuck(self, point: str) -> bool:
        known = self.vehicle.isolation_points.get(point)
        return known is None or known.breaks in (None, "coil supply only") or known.kind == "contactor"

    def pairs(self, circuit: Circuit) -> frozenset[frozenset[Contact]]:
        """The pairs at which a circuit is proved, each in no order."""
        return frozenset(frozenset(point.pair) for point in circuit.dead_at)

    def poles(self, circuit: Circuit) -> frozenset[Contact]:
        """The contacts of those pairs, chassis left out."""
        return frozenset(one for point in circuit.dead_at for one in point.pair if not one.is_chassis)

    def pairs_are_enough(self, circuit: Circuit) -> bool:
        """Whether proving all pairs shows the circuit dead: for class B every pole to every other and to chassis."""
        pairs = self.pairs(circuit)
        if self.category(circuit) != "B":
            return bool(pairs)
        poles = self.poles(circuit)
        wanted = {frozenset(two) for two in combinations(poles, 2)}
        wanted |= {frozenset({pole, Contact("chassis")}) for pole in poles}
        return len(poles) >= 2 and wanted <= pairs

    def other_halves(self, circuit: Circuit) -> tuple[OtherHalf, ...]:
        """A plug that both of its halves belong to parts the circuit; a reading at one says nothing of the other."""
        found = []
        for point in circuit.dead_at:
            for name in sorted({one.connector for one in point.pair if self._is_parted_by(one, circuit)}):
                side = next(one.side for one in point.pair if one.connector == name)
                sides = [one for one in ("device", "cable") if one != side]
                mirrored = [
                    frozenset(replace(one, side=other) if one.connector == name else one for one in point.pair)
                    for other in sides
                ]
                found.append(OtherHalf(frozenset(point.pair), name, side, frozenset(mirrored)))
        return tuple(found)

    def _is_parted_by(self, contact: Contact, circuit: Circuit) -> bool:
        pins = self.vehicle.connectors[contact.connector].pins if contact.connector in self.vehicle.connectors else {}
        known = [one for number, one in pins.items() if contact.pin in (None, number)]
        return any(one.device_circuit == circuit.id and one.cable_circuit == circuit.id for one in known)

    def circuits_at(self, contact: Contact) -> Names:
        """The circuits of a contact: of both halves where no side is named, of every pin where no pin is."""
        connector = self.vehicle.connectors.get(contact.connector)
        if connector is None:
            return NOTHING
        pins = connector.pins.values() if contact.pin is None else [connector.pins.get(contact.pin)]
        halves = []
        for pin in pins:
            if pin is not None:
                halves += [pin.device_circuit] if contact.side != "cable" else []
                halves += [pin.cable_circuit] if contact.side != "device" else []
        return frozenset(name for name in halves if name is not None)

    def items(self, circuit: str) -> Names:
        """What must be on before a circuit is made live: what lies on it, and what covers it."""
        if circuit not in self._items:
            vehicle = self.vehicle
            covers = {part.id for part in vehicle.parts.values() if circuit in part.exposes}
            found = set(covers)
            found |= {one for one in vehicle.connectors if circuit in self.circuits_at(Contact(one))}
            found |= {part.id for part in vehicle.parts.values() if circuit in part.circuits and not part.sealed}
            for fastener in vehicle.fasteners.values():
                if fastener.part in covers or any(circuit in self.circuits_at(one) for one in fastener.terminal):
                    found.add(fastener.id)
            found |= {temporary(name) for name, (_, joined) in self.temporaries.items() if circuit in joined}
            self._items[circuit] = frozenset(found)
        return self._items[circuit]

    def _temporaries(self, procedures: Mapping[str, Procedure]) -> dict[str, tuple[Names, Names]]:
        """By name: the circuits where it is fitted anywhere in the procedures, and those whose contacts it joins."""
        found: dict[str, tuple[Names, Names]] = {}
        for procedure in procedures.values():
            for step in procedure.steps:
                action = step.action
                if isinstance(action, actions.FitTemporary):
                    where, joined = found.get(action.name, (NOTHING, NOTHING))
                    now = frozenset().union(*map(self.circuits_at, action.joins or ()))
                    where = where.union(now, *map(self.circuits_at, self._fitted_at(action)))
                    found[action.name] = where, joined | now
        return found

    def adapters(self, measured: actions.Measure, tools: tuple[str, ...]) -> Names:
        """What the reading uses of what is fitted at its connectors: through it a live voltage is read."""
        connectors = {contact.connector for pair in measured.pairs for contact in pair}
        return frozenset(
            temporary(one.name) for one in self.fitted
            if one.joins is None and one.name in {*tools, *measured.where} and any(text.split("/")[0].split()[0] in connectors for text in one.where)
        )  # fmt: skip

    def _fitted_at(self, fitted: actions.FitTemporary) -> list[Contact]:
        places = [read_contact(text) or Contact(text) for text in fitted.where]
        return [*(fitted.joins or ()), *places]

    # Steps

    def touch(self, owner: str, step: Step) -> Touch:
        """What a step touches; `owner` is the procedure it stands in."""
        key = owner, step.number
        if key not in self._touches:
            self._touches[key] = self._touch(step)
        return self._touches[key]

    def _touch(self, step: Step) -> Touch:
        vehicle, action = self.vehicle, step.action
        bare: set[str] = set()
        covers: set[str] = set()
        probes: set[str] = set()
        opened: list[tuple[str, Names]] = []
        at: list[Contact] = []
        let_out = NOTHING
        for text in step.on:
            contact = read_contact(text)
            if text in vehicle.circuits:
                bare.add(text)
            elif text in vehicle.fasteners:
                at += vehicle.fasteners[text].terminal
            elif text in vehicle.parts:
                opened.append((text, frozenset(vehicle.parts[text].exposes)))
            elif text in vehicle.connectors:
                opened.append((text, self.circuits_at(Contact(text))))
            elif contact is not None:
                at.append(contact)
        match action:
            case actions.Unplug() | actions.Plug():
                bare.update(*(self.circuits_at(Contact(name)) for name in action.connectors))
            case actions.Loosen() | actions.Tighten():
                for name in action.fasteners:
                    fastener = vehicle.fasteners.get(name)
                    if fastener is not None:
                        at += fastener.terminal
                        if isinstance(action, actions.Loosen) and fastener.part in vehicle.parts:
                            covers.update(vehicle.parts[fastener.part].exposes)
            case actions.Remove() | actions.Refit():
                for name in action.parts:
                    part = vehicle.parts.get(name)
                    if part is not None:
                        covers.update(part.exposes)
                        bare |= {one for one in part.circuits if not self._is_sealed(part.id, part.sealed, one)}
            case actions.FitTemporary():
                at += self._fitted_at(action)
            case actions.RemoveTemporary():
                at += [one for fitted in self.fitted if fitted.name == action.name for one in self._fitted_at(fitted)]
            case actions.Drain(circuit) | actions.Fill(circuit) if (
                circuit in vehicle.circuits and vehicle.circuits[circuit].is_gas
            ):
                let_out = frozenset({circuit})
            case actions.Fill(circuit, amount) if amount is not None and amount.quantity == "pressure":
                let_out = frozenset({circuit})
            case actions.Drain() | actions.Fill():
                bare.add(action.circuit)
            case actions.OpenValve(what):
                parts = [vehicle.parts[name] for name in what if name in vehicle.parts]
                named = {*what, *(one for part in parts for one in (*part.circuits, *part.exposes))}
                bare |= {one for one in named if one in vehicle.circuits and self._is_other(one)}
            case actions.Measure():
                probes.update(*(self.circuits_at(contact) for pair in action.pairs for contact in pair))
                if action.quantity in PROBED:
                    at += [contact for pair in action.pairs for contact in pair]
        # What is under pressure, hot or loaded is open as soon as its cover is.
        bare |= {one for one in covers if one in vehicle.circuits and self._is_other(one)}
        sides = {name: frozenset(one for one in at if name in self.circuits_at(one)) for name in vehicle.circuits}
        sides = {name: found for name, found in sides.items() if found and name not in bare}
        bare.update(*map(self.circuits_at, at))
        return Touch(
            frozenset(bare), tuple(opened), frozenset(covers), frozenset(probes), self._hands_on(step), let_out, sides
        )

    def _is_other(self, circuit: str) -> bool:
        return self.category(self.vehicle.circuits[circuit]) == "other"

    def _is_sealed(self, part: str, sealed: bool, circuit: str) -> bool:
        known = self.vehicle.circuits.get(circuit)
        return sealed and known is not None and known.sealed_in == part

    def _hands_on(self, step: Step) -> bool:
        if any(text != "nothing" for text in step.on):
            return True
        action = step.action
        if isinstance(action, actions.Measure):
            return bool(action.pairs or action.around or action.where)
        if isinstance(action, actions.Tighten) and action.described:
            return False
        return isinstance(action, HANDS_ON)


def temporary(name: str) -> str:
    """How a bridge or an adapter stands among the things that are off: it is owed until it is off again."""
    return f"temporary {name}"


def is_securable(vehicle: Vehicle, point: str) -> bool:
    """Whether a point has something to lock it with."""
    known = vehicle.isolation_points.get(point)
    return point != MODE_OFF and known is not None and known.secure_with is not None
