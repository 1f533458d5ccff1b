"""Errors of the validator that come from one mistake of the author: which of them is told."""

from typing import Any, NamedTuple

from ..diagnostics.place import Path
from .schema import FileKind
from .schema_walk import is_named_by_author, schema_at
from .shape_words import home_of, nearest


class Error(NamedTuple):
    """An error of the validator, and the true path to what it is about."""

    path: Path
    kind: str
    raw: Any


def told_with_list(error: Error, told: set[tuple[Path, str]]) -> bool:
    """Whether an item of the same list has the same fault: who writes `[yes, no]` makes one mistake."""
    value = error.raw.instance
    if error.kind != "Type" or not error.path or isinstance(error.path[-1], str) or value is None:
        return False
    mark = error.path[:-1], type(value).__name__
    if mark in told:
        return True
    told.add(mark)
    return False


def is_stranger(error: Error, kind: FileKind) -> bool:
    """Whether an entry is of another kind than those around it."""
    if error.kind != "AdditionalProperties" or not error.path:
        return False
    entry, unknown = error.raw.instance, error.raw.kind.unexpected
    needed = schema_at(kind, error.path).get("required", ())
    if is_named_by_author(kind, error.path):
        home = home_of(entry, kind)
        return len(unknown) > 1 and home not in (None, error.path[0]) and len(error.path) == 2
    if not isinstance(error.path[-1], int):
        return False
    if not needed:
        return len(entry) == len(unknown) > 1
    return entry.keys().isdisjoint(needed) and not any(nearest(key, needed) for key in unknown)


def told_with_map(error: Error, told: set[tuple[Path, str]]) -> bool:
    """Whether another key of the same map has the same fault: its own names them all."""
    if error.kind != "PropertyNames":
        return False
    mark = error.path, error.kind
    if mark in told:
        return True
    told.add(mark)
    return False


def names_beside(error: Error, errors: list[Error]) -> list[str]:
    """The other keys of the same map that do not belong there."""
    if error.kind != "PropertyNames":
        return []
    same = [one for one in errors if one.kind == error.kind and one.path == error.path and one is not error]
    return list(dict.fromkeys(one.raw.kind.error.instance for one in same))
