"""What is read to prove a circuit, and the other half of its connector: apart, a reading says nothing of that.

The capacitors may lie on the one side and the points that the profile names on the other. So every pair of the profile
brings with it what is read on the other side of its connector. That is shown by the same reading where the connector is
plugged, and by a reading of its own where it may be apart.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import combinations
from typing import NamedTuple

from ..model.contact import CHASSIS, Contact, Side
from ..model.vehicle import Circuit, Vehicle
from .other_energies import UNREADABLE

#: A pair of contacts, in no order.
PairKey = frozenset[str]
_OTHER: Mapping[Side, Side] = {"device": "cable", "cable": "device"}


class Half(NamedTuple):
    """What a reading of a pair leaves open while its connector is apart.

    `bit` stands among the proofs, `pair` is that of the profile, `side` the side that it names, `plug` the bit of the
    connector among the things. `others` are the pairs that have to be read for it.
    """

    bit: int
    pair: PairKey
    connector: str
    side: Side | None
    plug: int
    others: tuple[PairKey, ...]


def halves_of(circuit: Circuit, vehicle: Vehicle, things: Mapping[str, int], first: int) -> tuple[Half, ...]:
    """The other halves of what the profile reads of a circuit; their bits begin with `first`."""
    found: list[Half] = []
    for point in circuit.dead_at:
        for name in dict.fromkeys(contact.connector for contact in point.pair if _parts(contact, circuit, vehicle)):
            side = next(contact.side for contact in point.pair if contact.connector == name)
            sides: tuple[Side, ...] = ("device", "cable") if side is None else (_OTHER[side],)
            others = tuple(dict.fromkeys(key_of(_at(point.pair, name, one)) for one in sides))
            bit = first << len(found)
            found.append(Half(bit, key_of(point.pair), name, side, things.get(name, 0), others))
    return tuple(found)


def pairs_of(circuit: Circuit, category: str) -> tuple[dict[object, int], bool]:
    """What has to be read of a circuit, and whether that is enough: every two poles, and every pole to chassis."""
    if category == "other":
        return _bits(name for name, _ in circuit.safe), bool(circuit.safe) or circuit.energy in UNREADABLE
    read = [key_of(point.pair) for point in circuit.dead_at]
    if category != "class B":
        return _bits(read), bool(read)
    poles = {contact for pair in read for contact in pair} - {CHASSIS}
    needed = {frozenset(pair) for pair in combinations((*sorted(poles), CHASSIS), 2)}
    return _bits(read), len(poles) > 1 and needed <= set(read)


def _bits(keys: Iterable[object]) -> dict[object, int]:
    return {key: 1 << number for number, key in enumerate(dict.fromkeys(keys))}


def key_of(pair: Iterable[Contact]) -> PairKey:
    """A pair without regard to its order."""
    return frozenset(map(str, pair))


def shown(halves: Iterable[Half], read: Collection[object], plugged: int) -> Iterator[int]:
    """The bits of the other halves that a reading of these pairs shows, with these things surely in their place."""
    for half in halves:
        if (half.plug & plugged and half.pair in read) or all(other in read for other in half.others):
            yield half.bit


def beyond(contact: Contact, halves: Iterable[Half]) -> Iterator[int]:
    """The bits of the halves that do not concern whoever touches a contact: it lies on the side that is read."""
    for half in halves:
        if contact.side is not None and contact.connector == half.connector and contact.side == half.side:
            yield half.bit


def untouched(halves: Iterable[Half], tested: Iterable[Contact], out: int) -> Iterator[int]:
    """The bits of the halves that a test leaves alone: the connector is surely out, and its other side is tested."""
    contacts = {(contact.connector, contact.side) for contact in tested}
    return (half.bit for half in halves if half.plug & out and contacts == {(half.connector, half.side)})


def _parts(contact: Contact, circuit: Circuit, vehicle: Vehicle) -> bool:
    """Whether a connector parts the circuit at a contact: both of its sides belong to it."""
    connector = vehicle.connectors.get(contact.connector)
    if connector is None:
        return False
    pins = connector.pins.values() if contact.pin is None else filter(None, [connector.pins.get(contact.pin)])
    return any(pin.device_circuit == pin.cable_circuit == circuit.id for pin in pins)


def _at(pair: Iterable[Contact], connector: str, side: Side) -> Iterator[Contact]:
    return (replace(one, side=side) if one.connector == connector else one for one in pair)
