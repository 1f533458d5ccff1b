"""Which procedures have a safety briefing, and where it lies."""

from markupsafe import Markup

from ..manual import Manual
from ..model.procedure import Procedure
from ..model.vehicle import Circuit
from ..safety.rig import category_of
from .states import StateBook, States
from .templating import link


def briefing_url(procedure: Procedure) -> str:
    """The address of a briefing, from the root of the site."""
    return f"{procedure.id}.briefing.html"


def briefing_link(procedure: Procedure, text: str) -> Markup:
    """A link to it from another page of the same vehicle."""
    return link(briefing_url(procedure).rpartition("/")[2], text)


def has_briefing(procedure: Procedure, manual: Manual, states: States) -> bool:
    """Whether a procedure meets a dangerous energy; while it is not proved, whether its vehicle has any."""
    book = states.of(procedure)
    if book is not None:
        return bool(dangerous_circuits(procedure.id, book))
    vehicle = manual.vehicles.get(procedure.folder)
    return vehicle is not None and any(category_of(one) != "low" for one in vehicle.circuits.values())


def dangerous_circuits(procedure: str, book: StateBook) -> tuple[Circuit, ...]:
    """The circuits of class B, of 48 V power and of other energies that a procedure asks something of."""
    key = "dangerous circuits", procedure
    if key not in book.shared:
        circuits = (book.vehicle.circuits[name] for name in book.circuits(procedure))
        book.shared[key] = tuple(one for one in circuits if category_of(one) != "low")
    found: tuple[Circuit, ...] = book.shared[key]
    return found
