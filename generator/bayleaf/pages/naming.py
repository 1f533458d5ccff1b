"""Names for the reader: what a name of the profile is called, and where it stands on the vehicle's page."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from markupsafe import Markup

from ..model.contact import Contact, read_contact
from ..model.vehicle import IsolationPoint, Vehicle
from ..model.workshop import Workshop
from ..rules.case import Named, names_of
from .templating import link

#: What is done to an isolation point of each kind, to open it and to close it.
VERBS: Mapping[str, tuple[str, str]] = {
    "plug": ("Pull out", "Insert"),
    "pole": ("Disconnect", "Reconnect"),
    "switch": ("Switch off", "Switch on"),
    "contactor": ("Open", "Close"),
    "fuse": ("Take out", "Insert"),
    "valve": ("Shut", "Open"),
    "clamp": ("Take off", "Fit"),
    "stand": ("Set up", "Take away"),
    "blocked wheels": ("Put in place:", "Take away:"),
    "charge lead": ("Unplug", "Plug in"),
    "external supply": ("Disconnect", "Connect"),
}

#: A clamp on a conductor is taken off to open it; one on a hose is put on.
_CLAMP_ON_HOSE = ("Put on", "Take off")

_NO_VERB = ("Disconnect", "Reconnect")


@dataclass(frozen=True)
class Naming:
    """Turns the names of one vehicle and of the workshop into words and links.

    `here` is how the vehicle's page is reached from the page in hand: `vehicle.html`, or empty on that page itself.
    """

    vehicle: Vehicle | None
    workshop: Workshop
    here: str = "vehicle.html"
    #: Links that were made already: the same few names stand in step after step.
    _links: dict[str, Markup | str] = field(default_factory=dict, compare=False, repr=False)
    _contacts: dict[Contact, Markup | str] = field(default_factory=dict, compare=False, repr=False)

    @cached_property
    def _names(self) -> Mapping[str, Named]:
        return {} if self.vehicle is None else names_of(self.vehicle)

    def find(self, name: str) -> Named | None:
        """The element of the profile with this name."""
        return self._names.get(name.casefold())

    def plain(self, name: str) -> str:
        """What a name is called: connectors keep their number, everything else its words."""
        contact = read_contact(name)
        if contact is not None and contact.connector != name:
            return self.contact_words(contact)
        found = self.find(name)
        if found is None:
            return {"chassis": "chassis", "mode-off": "the vehicle switched off"}.get(name, name)
        if found.kind == "connector":
            return f"{found.id} {found.element.name}"
        return found.element.name or name.replace("-", " ")

    def link(self, name: str) -> Markup | str:
        """The same as a link to where it is described."""
        if name not in self._links:
            self._links[name] = self._link(name)
        return self._links[name]

    def _link(self, name: str) -> Markup | str:
        contact = read_contact(name)
        if contact is not None and contact.connector != name:
            return self.contact(contact)
        found = self.find(name)
        text = self.plain(name)
        return text if found is None else link(f"{self.here}#{found.id}", text)

    def links(self, names: tuple[str, ...]) -> Markup:
        """Several names as links, with "and" before the last."""
        parts = [self.link(name) for name in names]
        if len(parts) < 2:
            return Markup("").join(parts)
        return Markup(", ").join(parts[:-1]) + Markup(" and ") + parts[-1]

    def words(self, names: tuple[str, ...]) -> str:
        """Several names in words, with "and" before the last; only the first may begin a sentence."""
        parts = [self.plain(name) if index == 0 else lower(self.plain(name)) for index, name in enumerate(names)]
        return parts[0] if len(parts) == 1 else ", ".join(parts[:-1]) + " and " + parts[-1] if parts else ""

    def contact_words(self, contact: Contact) -> str:
        """A contact with the signal of its pin: "X7/1 (HV+), device side"."""
        if contact.is_chassis:
            return "chassis"
        text = contact.connector + (f"/{contact.pin}" if contact.pin is not None else ", all pins")
        connector = self.vehicle.connectors.get(contact.connector) if self.vehicle else None
        pin = connector.pins.get(contact.pin) if connector and contact.pin is not None else None
        if pin is not None:
            text += f" ({pin.signal}{', ' + pin.colour if pin.colour else ''})"
        if contact.side is not None:
            halves = connector.halves if connector else None
            side = contact.side if halves is None else halves[0 if contact.side == "device" else 1]
            text += f", {side} side" if halves is None else f", {side}"
        return text

    def places(self, names: tuple[str, ...]) -> str:
        """Where something is fitted, in words: of a whole side only the half, "X50, pins of the sensor"."""
        return self.words(names).replace(", all pins,", ",")

    def contact(self, contact: Contact) -> Markup | str:
        """A contact as a link to its connector."""
        if contact not in self._contacts:
            text = self.contact_words(contact)
            made = text if contact.is_chassis else link(f"{self.here}#{contact.connector}", text)
            self._contacts[contact] = made
        return self._contacts[contact]

    def pair(self, pair: tuple[Contact, Contact]) -> Markup:
        """Two contacts."""
        return Markup(" and ").join((self.contact(pair[0]), self.contact(pair[1])))

    def pairs(self, pairs: tuple[tuple[Contact, Contact], ...]) -> list[Markup]:
        """Each pair of contacts."""
        return [self.pair(pair) for pair in pairs]

    def verb(self, name: str, closing: bool) -> str:
        """What is done to an isolation point, by its kind and by what it breaks."""
        found = self.find(name)
        point = found.element if found and isinstance(found.element, IsolationPoint) else None
        if point is not None and (point.kind, point.breaks) == ("clamp", "flow"):
            return _CLAMP_ON_HOSE[closing]
        return VERBS.get(point.kind if point else "", _NO_VERB)[closing]

    def operate(self, names: tuple[str, ...], closing: bool) -> str:
        """What is done to several isolation points, one verb for neighbours that share it."""
        parts: list[tuple[str, list[str]]] = []
        for name in names:
            verb = self.verb(name, closing)
            if parts and parts[-1][0] == verb:
                parts[-1][1].append(name)
            else:
                parts.append((verb, [name]))
        text = "; ".join(f"{verb} {_the(self.words(tuple(group)))}" for verb, group in parts)
        return text[:1].upper() + text[1:]

    def tool(self, name: str | None) -> str:
        """An instrument, proving unit, tool or piece of protection of the workshop, by its words."""
        if name is None:
            return ""
        shop = self.workshop
        for group in (shop.instruments, shop.proving_units, shop.tools, shop.protection):
            if name in group:
                return str(group[name].name)
        return self.plain(name)


def _the(words: str) -> str:
    """The words with an article, unless they begin with a connector's number or with "both"."""
    if words[:2].isalnum() and words[:1].isupper() and words[1:2].isdigit():
        return words
    return lower(words) if words.startswith(("Both ", "both ")) else f"the {lower(words)}"


def lower(words: str) -> str:
    """A name within a sentence: small at its start unless it begins with an abbreviation or a number."""
    first = words.split(" ", 1)[0]
    return words if len(first) > 1 and not first[1:].islower() else words[:1].lower() + words[1:]


def the(words: str) -> str:
    """A name within a sentence, with its article."""
    return _the(words)
