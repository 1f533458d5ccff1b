"""What somebody answers before a procedure is drafted."""

import re
import unicodedata
from dataclasses import dataclass

from ..model.vehicle import Vehicle

#: The kinds of job, each as it is put to somebody who is asked.
KINDS = {
    "diagnosis": "find a fault",
    "replacement": "fit a new part",
    "repair": "put something right",
    "inspection": "look something over",
    "maintenance": "work that comes round again",
    "isolation": "switch off, lock and prove dead",
    "return to service": "switch on again after an isolation",
}


@dataclass(frozen=True, slots=True)
class Asked:
    """The answers. `touched` are parts and connectors of the profile, in the order in which they are come to."""

    name: str
    title: str
    kind: str
    system: str | None = None
    codes: tuple[str, ...] = ()
    symptoms: tuple[str, ...] = ()
    touched: tuple[str, ...] = ()


def name_from(title: str) -> str:
    """A name for the file of a procedure from its title; empty where the title has no letter that a name may hold."""
    folded = unicodedata.normalize("NFKD", title.casefold())  # accents become signs of their own, and are dropped
    folded = "".join(sign for sign in folded if not unicodedata.combining(sign))
    words = re.findall(r"[a-z0-9]+", folded)
    return "-".join(word for word in words if word not in ("the", "a", "an", "of"))[:60].strip("-")


def things_of(vehicle: Vehicle) -> dict[str, str]:
    """What can be touched, with how it is called: parts first, then connectors."""
    parts = {name: one.name for name, one in vehicle.parts.items()}
    return {**parts, **{name: one.name for name, one in vehicle.connectors.items()}}


def as_said(text: str) -> str:
    """An answer without what no file should hold: signs that cannot be seen, and spaces without need."""
    return " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())
