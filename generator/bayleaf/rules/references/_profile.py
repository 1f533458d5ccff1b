"""What a vehicle profile has, arranged for looking names up."""

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from ...diagnostics.place import Path
from ...model.common import MODE_OFF
from ...model.contact import CHASSIS, Contact
from ...model.vehicle import Vehicle
from ..case import Case
from ._meant import MEANT, SECTION_OF
from ._memo import of_last


class Found(NamedTuple):
    """An element of the profile; `at` is None for what is built in."""

    kind: str
    id: str
    at: Path | None


class Profile:
    """The names of one vehicle, by what may be meant. `pins` of a connector hold None for "all of a side".

    `hides_names` says that an entry may be there although it is not here: it could not be read.
    """

    __slots__ = ("elements", "hides_names", "known", "pins", "vehicle")

    def __init__(self, vehicle: Vehicle) -> None:
        self.vehicle = vehicle
        self.elements: Mapping[str, Mapping[str, Any]] = {
            kind: getattr(vehicle, section) for kind, section in SECTION_OF.items()
        }
        self.known: dict[str, frozenset[str]] = {
            name: frozenset(meant.also).union(
                *(self.elements[kind] for kind in meant.kinds), _contacts(vehicle) if meant.contacts else ()
            )
            for name, meant in MEANT.items()
        }
        self.pins: Mapping[str, frozenset[str | None]] = {
            connector.id: frozenset((None, *connector.pins)) for connector in vehicle.connectors.values()
        } | {CHASSIS: frozenset((None,))}
        self.hides_names = vehicle.broken and not any(
            getattr(element, "broken", False) for elements in self.elements.values() for element in elements.values()
        )

    def find(self, name: str) -> Found | None:
        """The element that has just this name, of whatever kind."""
        if name == MODE_OFF:
            return Found("isolation point", name, None)
        for kind, elements in self.elements.items():
            if name in elements:
                return Found(kind, name, (SECTION_OF[kind], name))
        return None

    def has(self, contact: Contact) -> bool:
        """Whether the vehicle has this contact, as far as can be told."""
        connector = self.vehicle.connectors.get(contact.connector)
        if connector is not None and connector.broken:
            return True
        return contact.pin in self.pins.get(contact.connector, ())

    def alike(self, name: str, kinds: tuple[str, ...]) -> str | None:
        """The name of one of these kinds that differs from this one in capital and small letters only."""
        folded = name.casefold()
        names = (other for kind in kinds for other in self.elements[kind])
        return next((other for other in names if other != name and other.casefold() == folded), None)


def _contacts(vehicle: Vehicle) -> Iterator[str]:
    """Every contact of a vehicle, as it is written."""
    yield CHASSIS
    for connector in vehicle.connectors.values():
        for side in ("", " device", " cable"):
            yield from (f"{connector.id}/{pin}{side}" for pin in connector.pins)
        yield from (f"{connector.id} device", f"{connector.id} cable")


@of_last
def profile_of(vehicle: Vehicle) -> Profile:
    """The names of a vehicle."""
    return Profile(vehicle)


def profile_in(case: Case) -> Profile | None:
    """The names of the vehicle that a file is about; None where there is no profile, or it cannot be read."""
    return None if case.vehicle is None else profile_of(case.vehicle)
