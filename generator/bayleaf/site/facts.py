"""What is known of pages beyond their text: for the filters of the search, the printed sheets and the version."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Set
from dataclasses import dataclass
from datetime import date
from functools import cache

from ..manual import Manual
from ..model.procedure import Procedure
from ..model.vehicle import Circuit, Vehicle
from ..pages.briefing_link import briefing_url
from ..pages.states import StateBook, States
from ..safety.rig import Category, category_of

#: The words of the filter by voltage class, the most dangerous first.
CLASS_B = "Class B, high voltage"
POWER = "48 V power"
LOW = "12 V and 24 V"
_WORDS = {"class B": CLASS_B, "power": POWER, "low": LOW}


@dataclass(frozen=True, slots=True)
class PageFacts:
    """What is known of a page, or of one thing on it.

    `number` and `revision` stand on every printed sheet of a procedure; an empty text is not known.
    """

    system: str = ""
    voltage_class: str = ""
    number: str = ""
    revision: str = ""


@dataclass(frozen=True, slots=True)
class ManualFacts:
    """The facts by address; vehicles by folder; the newest revision.

    `things` gives those of the things of a vehicle, whose addresses have an anchor: few pages ask for them.
    """

    by_url: Mapping[str, PageFacts]
    vehicles: Mapping[str, str]
    newest: date | None = None
    things: Callable[[str], Mapping[str, PageFacts]] = lambda _: {}

    def of(self, url: str) -> PageFacts:
        """The facts of a page or of a thing on it; nothing where nothing is known."""
        found = self.by_url.get(url)
        if found is None and "#" in url:
            found = self.things(url.partition("/")[0]).get(url)
        return found or _NOTHING

    def vehicle(self, url: str) -> str:
        """The vehicle in whose folder a page lies, or an empty text."""
        return self.vehicles.get(url.partition("/")[0], "") if "/" in url else ""


_NOTHING = PageFacts()
NO_FACTS = ManualFacts({}, {})


def facts_of(manual: Manual, states: States | None = None) -> ManualFacts:
    """The facts of a manual that was loaded. `states` are what is proved of it, where somebody has them already."""
    states = states or States(manual)
    by_url: dict[str, PageFacts] = {}
    dates: list[date] = []
    for procedure in manual.procedures.values():
        found = _of_procedure(procedure, manual, states)
        by_url[f"{procedure.id}.html"] = by_url[briefing_url(procedure)] = found
        dates += [revision.date for revision in procedure.revisions if revision.date is not None]
    vehicles = {folder: vehicle.name for folder, vehicle in manual.vehicles.items()}
    things = cache(lambda folder: dict(_things(folder, manual.vehicles[folder])) if folder in manual.vehicles else {})
    return ManualFacts(by_url, vehicles, max(dates, default=None), things)


def _of_procedure(procedure: Procedure, manual: Manual, states: States) -> PageFacts:
    vehicle = manual.vehicles.get(procedure.folder)
    system = vehicle.systems.get(procedure.system or "", "") if vehicle else ""
    book = states.of(procedure)
    newest = procedure.revisions[0] if procedure.revisions else None
    revision = "" if newest is None else f"{newest.number}" + (f" of {newest.date}" if newest.date else "")
    return PageFacts(system, "" if book is None else _class_of(procedure.id, book), procedure.id, revision)


def _class_of(procedure: str, book: StateBook) -> str:
    """The class of the worst circuit of which a procedure asks something."""
    key = "class words", procedure
    if key not in book.shared:
        book.shared[key] = class_words(book.vehicle.circuits[name] for name in book.circuits(procedure))
    return str(book.shared[key])


def _things(folder: str, vehicle: Vehicle) -> Iterator[tuple[str, PageFacts]]:
    """The circuits, connectors and parts of a profile: the class of the worst circuit that each carries."""
    categories = {name: category_of(one) for name, one in vehicle.circuits.items()}
    carried = {name: {name} for name in vehicle.circuits}
    for name, connector in vehicle.connectors.items():
        pins = connector.pins.values()
        carried[name] = {one for pin in pins for one in (pin.device_circuit, pin.cable_circuit) if one}
    for name, part in vehicle.parts.items():
        carried[name] = set(part.circuits)
    for name, circuits in carried.items():
        known = {categories[one] for one in circuits if one in categories}
        yield f"{folder}/vehicle.html#{name}", PageFacts(voltage_class=_worst(known))


def class_words(circuits: Iterable[Circuit]) -> str:
    """The worst voltage class among circuits, in the words of the filter; empty where none is electrical."""
    return _worst({category_of(one) for one in circuits})


def _worst(categories: Set[Category]) -> str:
    return next((words for category, words in _WORDS.items() if category in categories), "")
