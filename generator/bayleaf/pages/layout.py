"""Parts that several kinds of page are put together from."""

from dataclasses import dataclass, field
from typing import NamedTuple

from markupsafe import Markup

Cell = Markup | str


class Row(NamedTuple):
    """A row of a table; `anchor` where it can be linked to."""

    cells: tuple[Cell, ...]
    anchor: str | None = None


class Table(NamedTuple):
    """A table with its head."""

    head: tuple[str, ...]
    rows: tuple[Row, ...]


class Entry(NamedTuple):
    """A link in a list: address relative to the page, title, and a note behind it."""

    url: str
    title: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Section:
    """A heading with sentences, links or a table under it; one of level 3 belongs to that of level 2 before it."""

    heading: str
    anchor: str
    links: tuple[Entry, ...] = ()
    table: Table | None = None
    notes: tuple[str, ...] = ()
    level: int = 2


@dataclass(frozen=True, slots=True)
class Card:
    """One element of the profile: rows of facts, a photo, a drawing, a table; `short` in a list of them."""

    anchor: str
    title: str
    rows: tuple[tuple[str, Cell], ...] = ()
    drawing: Markup = field(default=Markup(""))
    table: Table | None = None
    photo: Markup = field(default=Markup(""))
    short: str = ""


@dataclass(frozen=True, slots=True)
class Group:
    """A part of a vehicle's page."""

    heading: str
    anchor: str
    links: tuple[Entry, ...] = ()
    table: Table | None = None
    cards: tuple[Card, ...] = ()
