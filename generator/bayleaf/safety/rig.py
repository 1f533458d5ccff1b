"""What the walk must know of a vehicle, drawn from its profile once: points and things by number, circuits by need."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from math import inf
from typing import Literal

from ..model.actions import FitTemporary, Pair
from ..model.common import MODE_OFF
from ..model.contact import Contact
from ..model.vehicle import Circuit, IsolationPoint, Vehicle
from .groups import Groups, group_of, merged
from .halves import Half, halves_of, pairs_of
from .other_energies import needs_parting
from .wait import LOW_UP_TO, required_wait

Category = Literal["class B", "power", "low", "other"]

CONTACTOR_STUCK = "contactor stuck"
NOT_DEAD = "not dead"

#: Stands among the points for "let it be isolated": set after a fault was reported that no point could mend.
ASSUMED = 1
#: The same among the pairs, for a circuit whose test points are not all written.
ASSUMED_PROOF = 1 << 64


def category_of(circuit: Circuit) -> Category:
    """By which column of the table of needs a circuit is handled. What is not known counts as the worse."""
    if circuit.energy != "electrical":
        return "other"
    if circuit.is_class_b:
        return "class B"
    assert circuit.voltage is not None and circuit.voltage.max is not None
    return "low" if circuit.fused and circuit.voltage.max.si <= LOW_UP_TO else "power"


def is_real_break(point: IsolationPoint | None) -> bool:
    """Whether a point parts a conductor; a control circuit or an interlock is no means of isolation.

    Source: 29 CFR 1910.333(b)(2)(ii), as restated in WAC 296-307-37811.
    """
    return point is not None and point.breaks in ("conductor", "middle of the battery") and point.kind != "contactor"


@dataclass(frozen=True)
class Known:
    """One circuit, as the walk sees it while a set of faults is present.

    `ways` holds for each source the sets of points (as bits) that take it off; a source that nothing takes off has
    none. `points` are all points that occur in them. `enough` is the waiting time asked for in seconds: endless where
    only a discharge helps. `pairs` are what has to be read, each with its bit, `halves` what lies on the other side of
    a connector at which it is read. `covers` are the parts that lay it bare when they are off, `closed` all that has to
    be in its place before it is made live, `housings` stand for those that were read, `things` is all that is followed.
    `mates`: it can be joined to another one.
    `stays_fed`: switching off alone takes nothing off, since a contactor may be stuck.
    """

    id: str
    number: int
    circuit: Circuit
    category: Category
    ways: tuple[tuple[int, ...], ...]
    points: int
    only_charging: int
    enough: float
    pairs: Mapping[object, int] = field(repr=False)
    pairs_complete: bool
    halves: tuple[Half, ...]
    covers: int
    closed: int
    things: int
    housings: int
    mates: bool
    stays_fed: bool

    @cached_property
    def whole_proof(self) -> int:
        """The bits of all pairs, and of the other halves."""
        return (1 << len(self.pairs) + len(self.halves)) - 1

    @cached_property
    def other_halves(self) -> int:
        """The bits of the other halves."""
        return union(half.bit for half in self.halves)

    @property
    def asks_lock(self) -> bool:
        """Whether its isolation has to be secured."""
        return self.category == "class B" or self.circuit.lock

    @property
    def is_dangerous(self) -> bool:
        """Whether bare conductors of it may only be touched when it is dead."""
        return self.category in ("class B", "power")


class Rig:
    """The vehicle with everything numbered. `temporaries` are what its procedures fit for the time being."""

    def __init__(self, vehicle: Vehicle, temporaries: Iterable[FitTemporary] = ()) -> None:
        self.vehicle = vehicle
        points = _bits((MODE_OFF, *vehicle.isolation_points))
        self.points: Mapping[str, int] = {name: bit << 1 for name, bit in points.items()}  # the first is ASSUMED
        self.temporaries = tuple(temporaries)  # one name may be fitted at several places
        names = (
            *vehicle.connectors,
            *vehicle.parts,
            *vehicle.fasteners,
            *map(housing_thing, vehicle.parts),
            *(temporary_thing(one.name) for one in self.temporaries),
        )
        self.things: Mapping[str, int] = _bits(dict.fromkeys(names))
        self.circuits: Mapping[str, int] = {name: number for number, name in enumerate(vehicle.circuits)}
        self._known: dict[tuple[str, bool], Known] = {}
        self._at: dict[Contact, tuple[str, ...]] = {}

    @property
    def mode_off(self) -> int:
        """The bit of the point that is open while the vehicle is off or asleep."""
        return self.points[MODE_OFF]

    @cached_property
    def soft_points(self) -> int:
        """The bits of the points that only take a control circuit away."""
        points = self.vehicle.isolation_points
        return union(bit for name, bit in self.points.items() if not is_real_break(points.get(name)))

    @cached_property
    def electrical_points(self) -> Mapping[str, int]:
        """For each electrical circuit the bits of its points."""
        circuits = self.vehicle.circuits.items()
        return {name: self.known(name).points for name, circuit in circuits if circuit.energy == "electrical"}

    @cached_property
    def dangerous(self) -> tuple[str, ...]:
        """The circuits of class B and of 48 V power."""
        return tuple(name for name in self.circuits if self.known(name).is_dangerous)

    def point(self, name: str) -> int:
        """The bit of a point; none for a name that the profile does not have."""
        return self.points.get(name, 0)

    def thing(self, name: str) -> int:
        """The bit of a connector, part, fastener or temporary; none for a name that is not known."""
        return self.things.get(name, 0)

    def known(self, name: str, stuck: bool = False) -> Known:
        """A circuit as the walk sees it; `stuck` where a contactor may be stuck closed."""
        found = self._known.get((name, stuck))
        if found is None:
            found = self._known[name, stuck] = self._make(self.vehicle.circuits[name], stuck)
        return found

    def joined_to(self, known: Known, joined: Groups) -> list[Known]:
        """The other circuits that one may have become one with."""
        group = group_of(joined, known.number) & ~(1 << known.number)
        return [self.known(name) for name, number in self.circuits.items() if group >> number & 1]

    def points_of(self, known: Known, joined: Groups) -> int:
        """The points of a circuit, and of those that it may have become one with."""
        return known.points | union(other.points for other in self.joined_to(known, joined)) if joined else known.points

    def circuits_at(self, contact: Contact) -> tuple[str, ...]:
        """The circuits that a contact belongs to: of its pin, on its side or on both."""
        found = self._at.get(contact)
        if found is None:
            found = self._at[contact] = tuple(dict.fromkeys(self._circuits_at(contact)))
        return found

    def covers_at(self, contact: Contact) -> tuple[str, ...]:
        """The covers that have to be off before a contact can be reached, by the test points of the profile."""
        points = (point for circuit in self.vehicle.circuits.values() for point in circuit.dead_at)
        return tuple(dict.fromkeys(point.access for point in points if contact in point.pair and point.access))

    def adapters_at(self, connector: str, used: Iterable[str]) -> int:
        """What is fitted at a connector, joins nothing, and is used by a reading: it is taken without hands there."""
        names = set(used)
        found = (one for one in self.temporaries if one.joins is None and one.name in names)
        return union(self.thing(temporary_thing(one.name)) for one in found if connector in places_of(one))

    def _circuits_at(self, contact: Contact) -> Iterator[str]:
        connector = self.vehicle.connectors.get(contact.connector)
        if connector is None:
            return
        pins = connector.pins.values() if contact.pin is None else filter(None, [connector.pins.get(contact.pin)])
        for pin in pins:
            for side, circuit in (("device", pin.device_circuit), ("cable", pin.cable_circuit)):
                if circuit is not None and circuit in self.circuits and contact.side in (None, side):
                    yield circuit

    def _make(self, circuit: Circuit, stuck: bool) -> Known:
        category = category_of(circuit)
        strict = category in ("class B", "power")
        sources = [source for source in circuit.sources if source.kind != "none"]
        sets = {source.name: tuple(map(self._set, source.taken_off_by)) for source in sources}
        pairs, complete = pairs_of(circuit, category)
        wait = required_wait(circuit).seconds
        temporaries = union(self.thing(temporary_thing(fitted.name)) for fitted in self.temporaries)
        closed = union(map(self.thing, self._things_of(circuit)))
        parts = [name for name, part in self.vehicle.parts.items() if circuit.id in part.circuits]
        housings = union(self.thing(housing_thing(name)) for name in parts) if category == "class B" else 0
        return Known(
            id=circuit.id,
            number=self.circuits[circuit.id],
            circuit=circuit,
            category=category,
            ways=self._ways(circuit, sets, strict, stuck),
            points=union(bits for ways in sets.values() for bits in ways),
            only_charging=union(sets.get("charging", ()))
            & ~union(bits for name, ways in sets.items() if name != "charging" for bits in ways),
            enough=inf if wait is None else float(wait),
            pairs=pairs,
            pairs_complete=complete,
            halves=halves_of(circuit, self.vehicle, self.things, 1 << len(pairs)) if category != "other" else (),
            covers=union(self.thing(name) for name, part in self.vehicle.parts.items() if circuit.id in part.exposes),
            closed=closed,
            things=closed | temporaries | housings,
            housings=housings,
            mates=group_of(self._mating, self.circuits[circuit.id]).bit_count() > 1,
            stays_fed=stuck and strict and any(name != "charging" for name in sets),
        )

    def _things_of(self, circuit: Circuit) -> Iterator[str]:
        """What has to be in its place before a circuit is made live: plugs, covers, parts, terminals, no bridges."""
        vehicle, own = self.vehicle, circuit.id
        for name, connector in vehicle.connectors.items():
            if any(own in (pin.device_circuit, pin.cable_circuit) for pin in connector.pins.values()):
                yield name
        covers = {name for name, part in vehicle.parts.items() if own in part.exposes}
        yield from covers
        yield from (name for name, part in vehicle.parts.items() if own in part.circuits and not part.sealed)
        for name, fastener in vehicle.fasteners.items():
            if fastener.part in covers or any(own in self.circuits_at(contact) for contact in fastener.terminal):
                yield name
        for fitted in self.temporaries:
            if any(own in self.circuits_at(contact) for contact in fitted.joins or ()):
                yield temporary_thing(fitted.name)

    @cached_property
    def _mating(self) -> Groups:
        """The circuits that plugs and bridges can make one."""
        pairs = [
            {pin.device_circuit, pin.cable_circuit}
            for connector in self.vehicle.connectors.values() for pin in connector.pins.values()
        ]  # fmt: skip
        for fitted in self.temporaries:
            pairs += [{one, other} for one, other in self.joins(fitted.joins)]
        circuits = self.circuits
        known = [
            union(bit for name, number in circuits.items() for bit in [1 << number] if name in pair) for pair in pairs
        ]
        return merged(bits for bits in known if bits.bit_count() > 1)

    def joins(self, pair: Pair | None) -> Iterator[tuple[str, str]]:
        """The circuits that a bridge between two contacts joins."""
        if pair is not None:
            one, other = map(self.circuits_at, pair)
            yield from ((here, there) for here in one for there in other if here != there)

    def _ways(
        self, circuit: Circuit, sets: Mapping[str, tuple[int, ...]], strict: bool, stuck: bool
    ) -> tuple[tuple[int, ...], ...]:
        """For each source the sets that count. None counts where no source is named, or of a squib only `none`."""
        if not circuit.sources or (circuit.energy == "pyrotechnic" and not sets):
            return ((),)
        parted = {name: needs_parting(circuit, name) for name in sets}
        return tuple(self._counting(ways, strict or parted[name], strict and stuck) for name, ways in sets.items())

    def _counting(self, ways: tuple[int, ...], strict: bool, stuck: bool) -> tuple[int, ...]:
        """The sets of points that take a source off: with a real break among them, and none that may be stuck."""
        soft = self.soft_points
        return tuple(way for way in ways if way and not (strict and (not way & ~soft or (stuck and way & soft))))

    def _set(self, way: tuple[str, ...]) -> int:
        """The bits of a set of points; nothing where a name of it is not known, so that it never counts."""
        bits = 0
        for name in way:
            if name not in self.points:
                return 0
            bits |= self.points[name]
        return bits


def union(masks: Iterable[int]) -> int:
    """The bits of all masks."""
    bits = 0
    for mask in masks:
        bits |= mask
    return bits


def places_of(fitted: FitTemporary) -> frozenset[str]:
    """The connectors at which something is fitted for the time being."""
    return frozenset(word.split("/")[0].split()[0] for word in fitted.where if word.strip())


def temporary_thing(name: str) -> str:
    """The name of a temporary among the things; it cannot be that of an element of the profile."""
    return f"temporary {name}"


def housing_thing(part: str) -> str:
    """The name of "this housing was read near nothing" among the things."""
    return f"housing {part}"


def _bits(names: Iterable[str]) -> dict[str, int]:
    return {name: 1 << number for number, name in enumerate(names)}
