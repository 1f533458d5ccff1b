"""What of a profile the rules of procedures get, and what the walks get. All else may change without judging anew.

A rule or a walk cannot rest on what it does not get. So what is kept of a procedure is kept as long as its view of the
profile is the same, and nobody has to say what it rests on. A fact that one of them needs is taken out of a list here.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, NamedTuple, TypeVar

from .model.vehicle import Circuit, Connector, Fastener, Part, Vehicle
from .safety.premises import HEAVY

T = TypeVar("T")


class Views(NamedTuple):
    """A profile for the rules of procedures and for the walks; the latter is part of the former."""

    rules: Vehicle
    walks: Vehicle


class Profiles:
    """Gives the views of profiles: the very same ones as before while nothing that stands in them has changed."""

    def __init__(self) -> None:
        self._kept: dict[str, tuple[Vehicle, Views]] = {}
        #: What was compared last, written out: a profile is mostly saved again and again.
        self._written: tuple[Vehicle | None, str] = None, ""

    def __len__(self) -> int:
        return len(self._kept)

    def of(self, vehicle: Vehicle) -> Views:
        """The views of a profile, which goes by its file."""
        kept = self._kept.get(vehicle.file)
        if kept is None or kept[0] is not vehicle:
            rules = _for_rules(vehicle)
            if kept is not None and self._are_alike(kept[1].rules, rules):
                views = kept[1]
            else:
                walks = _for_walks(rules)
                is_walked_alike = kept is not None and self._are_alike(kept[1].walks, walks)
                views = Views(rules, kept[1].walks if kept is not None and is_walked_alike else walks)
            kept = self._kept[vehicle.file] = vehicle, views
        return kept[1]

    def _are_alike(self, kept: Vehicle, new: Vehicle) -> bool:
        """Whether two profiles say the same, in the same order and with the same digits.

        Equality is not enough: maps are equal in any order and 5.0 V is 5.00 V, but messages are not.
        """
        if kept != new:
            return False
        if self._written[0] is not kept:
            self._written = kept, repr(kept)
        return self._written[1] == repr(new)

    def forget(self, files: Mapping[str, Any]) -> None:
        """What belongs to none of these files."""
        for file in self._kept.keys() - files.keys():
            del self._kept[file]


def _for_rules(vehicle: Vehicle) -> Vehicle:
    """Without what is only shown: texts, places, photos, names (not of circuits), catalogue numbers, small weights."""
    return replace(
        vehicle,
        name="", built=None, about=None, does_not_cover=(), photo=None, waivers=(),
        variants=_each(vehicle.variants, name="", built=None, told_by=None),
        systems=dict.fromkeys(vehicle.systems, ""),
        codes=_each(vehicle.codes, means=""),
        circuits=_each(vehicle.circuits, location=None),
        isolation_points=_each(vehicle.isolation_points, name="", location=None, photo=None),
        connectors={name: _connector(one) for name, one in vehicle.connectors.items()},
        parts={name: _part(one) for name, one in vehicle.parts.items()},
        cables=_each(vehicle.cables, name="", location=None),
        buses=_each(vehicle.buses, name=""),
        fasteners=_each(vehicle.fasteners, name=None, location=None),
    )  # fmt: skip


def _connector(connector: Connector) -> Connector:
    pins = {number: replace(pin, signal="", colour=None) for number, pin in connector.pins.items()}
    return replace(connector, name="", location=None, halves=None, seen_from=None, pins=pins, photo=None)


def _part(part: Part) -> Part:
    """A weight matters from where it moves the balance of a raised vehicle."""
    mass = part.mass if part.mass is not None and part.mass.si >= HEAVY else None
    return replace(part, name="", location=None, numbers=(), photo=None, mass=mass)


def _for_walks(vehicle: Vehicle) -> Vehicle:
    """Of what the rules get, without names, data buses, and what only torques and limits are worked out from."""
    return replace(
        vehicle,
        systems={},
        circuits={name: _circuit(one) for name, one in vehicle.circuits.items()},
        connectors={name: _bare_connector(one) for name, one in vehicle.connectors.items()},
        parts=_each(vehicle.parts, sensor=None),
        cables=_each(vehicle.cables, between=None, area=None, length=None, joints=None),
        buses={},
        fasteners={name: _fastener(one) for name, one in vehicle.fasteners.items()},
    )


def _circuit(circuit: Circuit) -> Circuit:
    return replace(circuit, name="")


def _bare_connector(connector: Connector) -> Connector:
    pins = {number: replace(pin, bus=None, area=None) for number, pin in connector.pins.items()}
    return replace(connector, face=(), pins=pins)


def _fastener(one: Fastener) -> Fastener:
    """What it holds and where."""
    return Fastener(
        at=one.at, id=one.id, name=None, part=one.part, terminal=one.terminal, point=one.point,
        size=None, property_class=None, material=None, count=1, into=None, engagement=None, friction=None, torque=None,
        then_turn=None, yields=None, one_use=None, order=None, passes=None, location=None, broken=one.broken,
    )  # fmt: skip


def _each(entries: Mapping[str, T], **without: Any) -> dict[str, T]:
    """The entries of a section without some of what they say."""
    return {name: replace(one, **without) for name, one in entries.items()}  # type: ignore[type-var]
