"""What a rule may look at beside the file itself."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from functools import cached_property
from typing import Any, NamedTuple

from ..graph.graph import Graph
from ..model.facts import Facts
from ..model.procedure import Procedure
from ..model.vehicle import Vehicle
from ..model.workshop import Workshop
from ..safety.breaches import Breach
from ..safety.proof_holds import holds_in
from .outlook import Outlook


class Named(NamedTuple):
    """An element of the profile: which kind it is, its name as written there, and the element."""

    kind: str
    id: str
    element: Any


@dataclass(frozen=True)
class Case:
    """The surroundings of one file.

    `vehicle` is None where there is no profile or it cannot be read: then nothing is said about what it would
    hold. `graph` is None where a step could not be read: then nothing is said about the flow. `walked` are the
    needs that the walk found not met in the procedure; none where it could not be walked. `outlook` is the rest of the
    manual; what a rule looks at there is noted.
    """

    outlook: Outlook
    vehicle: Vehicle | None
    workshop: Workshop | None
    today: date
    graph: Graph | None = None
    walked: tuple[Breach, ...] = ()

    @property
    def facts(self) -> Mapping[str, Facts]:
        """What may be known of every procedure, by id."""
        return self.outlook.facts

    @property
    def procedures(self) -> Mapping[str, Procedure]:
        """All procedures that could be read, by id, with their limits: a record needs more of one than its facts."""
        return self.outlook.procedures

    @property
    def vehicles(self) -> Mapping[str, Vehicle]:
        """All profiles that could be read, by folder: a free page belongs to no vehicle."""
        return self.outlook.vehicles

    @property
    def proof_holds(self) -> Fraction:
        """The seconds that a proof holds in this workshop."""
        return holds_in(self.workshop)

    @cached_property
    def names(self) -> Mapping[str, Named]:
        """The name space of the vehicle, by the name without regard to case."""
        return {} if self.vehicle is None else names_of(self.vehicle)

    def named(self, name: str) -> Named | None:
        """The element of the profile that has this name, written just so."""
        found = self.names.get(name.casefold())
        return found if found is not None and found.id == name else None


#: The sections of a profile that share one name space, with the word for one of their elements.
SECTIONS = {
    "circuits": "circuit",
    "isolation_points": "isolation point",
    "connectors": "connector",
    "parts": "part",
    "cables": "cable",
    "fasteners": "fastener",
}


def names_of(vehicle: Vehicle) -> dict[str, Named]:
    """The name space of a vehicle; of two equal names the first one stands."""
    found: dict[str, Named] = {}
    for section, kind in SECTIONS.items():
        for name, element in getattr(vehicle, section).items():
            found.setdefault(name.casefold(), Named(kind, name, element))
    return found
