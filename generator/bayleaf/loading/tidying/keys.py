"""The order of the keys of a map, as the schema has it."""

from collections.abc import Iterable

from ...diagnostics.place import Path
from ..schema import FileKind
from ..schema_walk import schema_at


def in_schema_order(kind: FileKind, path: Path, keys: Iterable[str]) -> list[str]:
    """The keys of the map at a path in the order of the schema.

    Keys that the author named keep their order, and so do those of a map that has a key the schema does not know.
    """
    given = list(keys)
    known = {key: place for place, key in enumerate(schema_at(kind, path).get("properties", ()))}
    if not all(key in known for key in given):
        return given
    return sorted(given, key=known.__getitem__)


def is_value(kind: FileKind, path: Path) -> bool:
    """Whether a number with a unit, or limits, are written at a path."""
    return bool(schema_at(kind, path).get("x-parsed"))
