"""A vehicle profile: what must be known of a vehicle, said once."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from ..diagnostics.place import Path
from ..quantities.limit import Limit
from ..quantities.quantity import Quantity
from .cited import Cited
from .common import Built, Conditions, Photo, Waiver
from .contact import Contact

SourceKind = Literal["none", "never", "points"]


@dataclass(frozen=True, slots=True)
class Source:
    """What can feed a circuit. `none`: does not exist. `never`: nothing takes it off.

    `points`: taken off by all points of any one of the sets in `taken_off_by`. `name` is the key of the profile
    (battery, charging …), `called` how it is called on this vehicle, where that is said.
    """

    at: Path
    name: str
    kind: SourceKind
    taken_off_by: tuple[tuple[str, ...], ...] = ()
    called: str | None = None


@dataclass(frozen=True, slots=True)
class Voltage:
    """Kind of voltage; `max` None means that the highest voltage is not known.

    `says` holds the keys that are written: one that stands there without a value could not be read.
    """

    kind: Literal["dc", "ac"]
    nominal: Quantity | None
    max: Quantity | None
    says: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Stored:
    """What a circuit keeps after its sources are off.

    A value is None where nothing is written, where `none` or `not known` is, and where it could not be read. `says`
    holds the keys that are written, `none` those written as none (nothing bleeds it, the maker states no time),
    `not_known` those of which the maker publishes nothing.
    """

    at: Path
    capacitance: Limit | None
    bleed: Limit | None
    stated_wait: Quantity | None
    to_chassis: Limit | None
    says: frozenset[str] = frozenset()
    none: frozenset[str] = frozenset()
    not_known: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Rotation:
    """Voltage that a turning machine makes."""

    at: Path
    turns_with: str
    constant: Quantity | None
    at_most: Quantity | None


@dataclass(frozen=True, slots=True)
class TestPoint:
    """A pair at which a circuit is proved dead, and the cover that comes off for it.

    `access` is None where none comes off and where nothing is said; `says` holds the keys that are written.
    """

    at: Path
    pair: tuple[Contact, Contact]
    access: str | None
    says: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Circuit:
    """A piece that holds energy and is verified by itself.

    `joined_with` are the circuits of the other kind of voltage that no insulation parts from it; `protected` tells
    whether all AC parts of these have double insulation or a robust enclosure. `monitor` and `stored` are None both
    where the profile says none and where it says nothing;
    `says` holds the keys that are written, since a missing fact counts as unsafe.
    """

    at: Path
    id: str
    name: str
    energy: str
    voltage: Voltage | None
    sources: tuple[Source, ...]
    fused: bool | None
    lock: bool
    rotation: Rotation | None
    monitor: Source | None
    stored: Stored | None
    dead_at: tuple[TestPoint, ...]
    sealed_in: str | None
    safe: tuple[tuple[str, Limit], ...]
    location: str | None
    says: frozenset[str] = frozenset()
    broken: bool = False
    joined_with: tuple[str, ...] = ()
    protected: bool | None = None
    is_gas: bool = False

    @property
    def is_class_b(self) -> bool:
        """Voltage class B: above 60 V DC or 30 V AC by its highest voltage, or that voltage not known.

        Source: UN R100 (definition of high voltage), ISO 6469-3.
        """
        if self.energy != "electrical":
            return False
        if self.voltage is None or self.voltage.max is None:
            return True
        return self.voltage.max.si > (60 if self.voltage.kind == "dc" else 30)


@dataclass(frozen=True, slots=True)
class LivePlace:
    """What stays live at an isolation point that is open."""

    place: str
    voltage: Quantity | None


@dataclass(frozen=True, slots=True)
class IsolationPoint:
    """Where energy is taken off. `secure_with` None: it cannot be secured."""

    at: Path
    id: str
    name: str
    kind: str
    breaks: str | None
    leaves_live: tuple[LivePlace, ...]
    location: str | None
    first: tuple[str, ...]
    only_when: Conditions | None
    secure_with: str | None
    photo: Photo | None
    broken: bool = False


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
