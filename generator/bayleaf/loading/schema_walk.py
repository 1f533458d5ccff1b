"""The schema of one value, found by the value's path: what may stand there, and what it is called."""

from collections.abc import Iterable
from typing import Any

from ..diagnostics.place import Path
from ..quantities.quantity import article
from .schema import FileKind, schema, step_schema


def schema_at(kind: FileKind, path: Path) -> dict[str, Any]:
    """The schema of the value at a path, its references resolved; empty where the schema knows no such value.

    A title beside a reference makes a thing of its own: the description of the definition does not hold then.
    """
    node = resolved(schema(kind), kind)
    for key in path:
        if isinstance(key, int):
            node = node.get("items", {})
        else:
            known = node.get("properties", {})
            node = known[key] if key in known else node.get("additionalProperties", {})
        node = resolved(node, kind) if isinstance(node, dict) else {}
    return node


def resolved(node: dict[str, Any], kind: FileKind) -> dict[str, Any]:
    """A schema with the definition that it refers to; its own keywords win."""
    while "$ref" in node:
        name = node["$ref"].rsplit("/", 1)[-1]
        # names of definitions are unique over both files (a test holds it)
        base = schema(kind)["$defs"].get(name) or schema("common")["$defs"][name]
        if "title" in node:
            base = {key: value for key, value in base.items() if key != "description"}
        node = {**base, **{key: value for key, value in node.items() if key != "$ref"}}
    return node


def known_keys(kind: FileKind, path: Path, value: Any) -> Iterable[str]:
    """The keys that may stand in the map at a path; in a step, those that go with its action."""
    where = schema_at(kind, path)
    if where.get("x-name") == "step" and isinstance(value, dict):
        rules = step_schema()["dependentSchemas"]
        action = next((key for key in value if key in rules), None)
        return rules[action]["propertyNames"]["enum"] if action else step_schema()["x-modifiers"]
    return where.get("properties", {})


def is_named_by_author(kind: FileKind, path: Path) -> bool:
    """Whether the last key of a path is a name that the author chose, such as that of a circuit."""
    if not path or isinstance(path[-1], int):
        return False
    above = schema_at(kind, path[:-1])
    return path[-1] not in above.get("properties", {}) and isinstance(above.get("additionalProperties"), dict)


def subject(kind: FileKind, path: Path) -> str:
    """What stands at a path, in words: "step 4", "the circuit `traction`", "the procedure", "`people`"."""
    name = schema_at(kind, path).get("x-name")
    if not path:
        return f"the {name}"
    last = path[-1]
    if isinstance(last, int):
        if name == "step":  # a step of a group counts within it: 5.2
            return "step " + ".".join(str(key + 1) for key in path if isinstance(key, int))
        return f"{name} {last + 1}" if name else f"item {last + 1} of `{key_of(path)}`"
    return f"the {name} `{last}`" if name and is_named_by_author(kind, path) else f"`{last}`"


def one_such(kind: FileKind, path: Path) -> str:
    """What stands at a path, as one of its kind: "a step", "a circuit", "`people`"."""
    name = schema_at(kind, path).get("x-name")
    if name and (not path or isinstance(path[-1], int) or is_named_by_author(kind, path)):
        return article(name)
    return f"`{key_of(path)}`"


def key_of(path: Path) -> str:
    """The nearest key above the end of a path."""
    return next((key for key in reversed(path) if isinstance(key, str)), "file")
