"""A vehicle profile: what must be known of a vehicle, said once."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from ..diagnostics.place import Path
from ..quantities.limit import Limit
from ..quantities.quantity import Quantity
from .circuit import Circuit as Circuit
from .circuit import IsolationPoint as IsolationPoint
from .circuit import LivePlace as LivePlace
from .circuit import Rotation as Rotation
from .circuit import Source as Source
from .circuit import SourceKind as SourceKind
from .circuit import Stored as Stored
from .circuit import TestPoint as TestPoint
from .circuit import Voltage as Voltage
from .cited import Cited
from .common import Built, Photo, Waiver
from .contact import Contact


@dataclass(frozen=True, slots=True)
class Pin:
    """A pin; its circuit is given for each half, None where it belongs to none."""

    at: Path
    number: str
    signal: str
    device_circuit: str | None
    cable_circuit: str | None
    bus: str | None
    colour: str | None
    area: Quantity | None


@dataclass(frozen=True, slots=True)
class Connector:
    """A connector with its pins by number, and how they are arranged."""

    at: Path
    id: str
    name: str
    location: str | None
    halves: tuple[str, str] | None
    face: tuple[tuple[str, ...], ...]
    seen_from: str | None
    pins: Mapping[str, Pin]
    photo: Photo | None
    broken: bool = False


@dataclass(frozen=True, slots=True)
class CatalogueNumber:
    """A number under which a part is ordered."""

    at: Path
    number: str
    replaces: tuple[str, ...]
    price: str | None
    lead_time: str | None
    seen: date | None


@dataclass(frozen=True, slots=True)
class Sensor:
    """A temperature sensor: platinum by IEC 60751 (`accuracy_class`), or NTC by `at_25` and `beta`, or by its `points`.

    `points` are pairs of temperature and resistance; `tolerance` is a share of the resistance.
    """

    at: Path
    kind: Literal["Pt100", "Pt1000", "NTC"]
    accuracy_class: str | None
    at_25: Quantity | None
    beta: Quantity | None
    points: tuple[tuple[Quantity, Quantity], ...]
    tolerance: Quantity | None


@dataclass(frozen=True, slots=True)
class Part:
    """What is removed, refitted, tested or ordered; covers are parts."""

    at: Path
    id: str
    name: str
    circuits: tuple[str, ...]
    exposes: tuple[str, ...]
    connectors: tuple[str, ...]
    sealed: bool
    location: str | None
    mass: Quantity | None
    highest_test_voltage: Quantity | None
    numbers: tuple[CatalogueNumber, ...]
    photo: Photo | None
    broken: bool = False
    sensor: Sensor | None = None


@dataclass(frozen=True, slots=True)
class Cable:
    """A cable between two ends."""

    at: Path
    id: str
    name: str
    circuit: str | None
    between: tuple[Contact, Contact] | None
    area: Quantity | None
    length: Quantity | None
    joints: int | None
    location: str | None
    broken: bool = False


@dataclass(frozen=True, slots=True)
class Bus:
    """A data bus."""

    at: Path
    id: str
    name: str
    kind: str
    rate: Quantity | None
    terminated_in: tuple[str, ...]
    broken: bool = False


@dataclass(frozen=True, slots=True)
class Adapter:
    """What lengthens a torque wrench: from its square to the middle of the nut, and the angle between both."""

    at: Path
    length: Quantity | None
    angle: Quantity | None


@dataclass(frozen=True, slots=True)
class Fastener:
    """A screw or nut, or several of one kind, with its tightening torque; `torque_by` is the rule that computes it."""

    at: Path
    id: str
    name: str | None
    part: str | None
    terminal: tuple[Contact, ...]
    point: str | None
    size: str | None
    property_class: str | None
    material: str | None
    count: int
    into: str | None
    engagement: Quantity | None
    friction: str | None
    torque: Limit | None
    then_turn: Quantity | None
    yields: bool | None
    one_use: bool | None
    order: str | None
    passes: int | None
    location: str | None
    broken: bool = False
    adapter: Adapter | None = None
    torque_by: Cited | None = None


@dataclass(frozen=True, slots=True)
class CodeMeaning:
    """What a trouble code means on this vehicle, in the author's words, and the fault it announces."""

    at: Path
    code: str
    means: str
    fault: str | None


@dataclass(frozen=True, slots=True)
class Variant:
    """A version of the vehicle."""

    at: Path
    id: str
    name: str
    built: Built | None
    told_by: str | None


@dataclass(frozen=True, slots=True)
class Vehicle:
    """The profile as a whole. `file` is relative to the manual."""

    file: str
    id: str
    name: str
    built: Built | None = None
    about: str | None = None
    does_not_cover: tuple[str, ...] = ()
    photo: Photo | None = None
    variants: Mapping[str, Variant] = field(default_factory=dict)
    systems: Mapping[str, str] = field(default_factory=dict)
    codes: Mapping[str, CodeMeaning] = field(default_factory=dict)
    circuits: Mapping[str, Circuit] = field(default_factory=dict)
    isolation_points: Mapping[str, IsolationPoint] = field(default_factory=dict)
    connectors: Mapping[str, Connector] = field(default_factory=dict)
    parts: Mapping[str, Part] = field(default_factory=dict)
    cables: Mapping[str, Cable] = field(default_factory=dict)
    buses: Mapping[str, Bus] = field(default_factory=dict)
    fasteners: Mapping[str, Fastener] = field(default_factory=dict)
    broken: bool = False
    waivers: tuple[Waiver, ...] = ()

    @property
    def folder(self) -> str:
        """The folder below `procedures` in which the profile lies."""
        return self.file.split("/")[-2]

    @property
    def photos(self) -> tuple[Photo, ...]:
        """The photos of the vehicle and of its elements that could be read."""
        own = [self.photo]
        own += [point.photo for point in self.isolation_points.values() if not point.broken]
        own += [connector.photo for connector in self.connectors.values() if not connector.broken]
        own += [part.photo for part in self.parts.values() if not part.broken]
        return tuple(photo for photo in own if photo is not None)
