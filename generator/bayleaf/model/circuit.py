"""What holds energy in a vehicle, what feeds it, what it keeps, and where it is taken off."""

from dataclasses import dataclass
from typing import Literal

from ..diagnostics.place import Path
from ..quantities.limit import Limit
from ..quantities.quantity import Quantity
from .common import Conditions, Photo
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
