"""The names that an editor offers: those of a vehicle, of the workshop and of the whole manual."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from ..manual import Manual
from ..model.contact import CHASSIS
from ..model.vehicle import Connector, Vehicle
from ..model.workshop import Workshop
from ..rules.rule import all_rules


class Offer(NamedTuple):
    """A text that an editor offers, and what it stands for."""

    text: str
    about: str


#: By the kind of thing that is meant, as `x-offers` in the schemas names it.
Names = Mapping[str, tuple[Offer, ...]]

_SECTIONS = {
    "circuit": "circuits",
    "isolation point": "isolation_points",
    "connector": "connectors",
    "part": "parts",
    "cable": "cables",
    "fastener": "fasteners",
    "bus": "buses",
    "variant": "variants",
}
_OWNED = {"instrument": "instruments", "tool": "tools", "protection": "protection", "proving unit": "proving_units"}


def names_of(vehicle: Vehicle, manual: Manual) -> Names:
    """What may be named in the procedures of this vehicle."""
    own = sorted(name for name in manual.procedures if name.startswith(f"{vehicle.id}/"))
    return {
        **{kind: _named(getattr(vehicle, section)) for kind, section in _SECTIONS.items()},
        "system": tuple(Offer(name, about) for name, about in vehicle.systems.items()),
        "trouble code": tuple(Offer(code.code, code.means) for code in vehicle.codes.values()),
        "contact": (*_contacts(vehicle.connectors.values()), Offer(CHASSIS, "Chassis")),
        "procedure": tuple(Offer(name, manual.procedures[name].title) for name in own),
        **workshop_names(manual.workshop),
        "rule": tuple(Offer(rule.name, rule.title) for rule in all_rules() if rule.kind == "practice"),
    }


def workshop_names(workshop: Workshop) -> Names:
    """What the workshop owns."""
    return {kind: _named(getattr(workshop, section)) for kind, section in _OWNED.items()}


def _named(elements: Mapping[str, Any]) -> tuple[Offer, ...]:
    return tuple(Offer(name, one.name or name) for name, one in elements.items())


def _contacts(connectors: Iterable[Connector]) -> Iterator[Offer]:
    """Each pin mated, and on both sides of the unplugged connector."""
    for connector in connectors:
        for pin in connector.pins.values():
            contact = f"{connector.id}/{pin.number}"
            for side in ("", " device", " cable"):
                yield Offer(contact + side, f"{connector.name}: {pin.signal}")
