"""A mend: what to write in place of what was found, where only one thing can have been meant."""

from dataclasses import dataclass

from .place import Place


@dataclass(frozen=True, slots=True)
class Edit:
    """The text of a place on one line, replaced by another; an empty place takes the new text in."""

    place: Place
    new: str


@dataclass(frozen=True, slots=True)
class Mend:
    """The edits of one file, or the encoding that it was saved in, or the name that it is to have."""

    edits: tuple[Edit, ...] = ()
    encoding: str | None = None
    rename: str | None = None
