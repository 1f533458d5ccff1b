"""The JSON Schemas, read once, and the validator that runs them."""

import json
from functools import cache
from typing import Any, Literal

import jsonschema_rs

from ..folders import schema as schema_folder

FileKind = Literal["vehicle", "procedure", "workshop", "record"]

#: The one place from which schemas refer to each other; any absolute address would do.
_BASE = "json-schema:///"


@cache
def schema(name: str) -> dict[str, Any]:
    """One schema by its short name: vehicle, procedure, workshop, record, common."""
    text = (schema_folder() / f"{name}.schema.json").read_text(encoding="utf-8")
    return json.loads(text)


@cache
def validator(kind: FileKind) -> Any:
    """The validator of one kind of file."""
    registry = jsonschema_rs.Registry([(f"{_BASE}{name}.schema.json", schema(name)) for name in ("common", kind)])
    return jsonschema_rs.validator_for({"$ref": f"{_BASE}{kind}.schema.json"}, registry=registry)


@cache
def step_schema() -> dict[str, Any]:
    """The part of the procedure's schema that describes a step."""
    return schema("procedure")["$defs"]["step"]


@cache
def action_keys() -> frozenset[str]:
    """The keys that name an action, `do` excepted, which may stand beside another as detail."""
    return frozenset(step_schema()["x-actions"]) - {"do"}


@cache
def every_key() -> frozenset[str]:
    """Every key that the format has, in whatever kind of file."""
    exits = [
        exit
        for rule in step_schema()["dependentSchemas"].values()
        for exit in rule.get("properties", {}).get("outcomes", {}).get("propertyNames", {}).get("enum", ())
    ]
    return frozenset((*(key for properties in _all_properties() for key in properties), *exits))


@cache
def list_of(key: str) -> str | None:
    """The key of the lists whose entries have this one, such as `answers` for `answer`; None if there are several."""
    found = {
        name
        for properties in _all_properties()
        for name, value in properties.items()
        if isinstance(value, dict) and key in value.get("items", {}).get("properties", ())
    }
    return found.pop() if len(found) == 1 else None


@cache
def _all_properties() -> tuple[dict[str, Any], ...]:
    """What stands under `properties` anywhere in a schema."""
    rest: list[Any] = [schema(name) for name in ("vehicle", "procedure", "workshop", "record", "common")]
    found: list[dict[str, Any]] = []
    while rest:
        part = rest.pop()
        if isinstance(part, dict):
            if isinstance(part.get("properties"), dict):
                found.append(part["properties"])
            rest += part.values()
        elif isinstance(part, list):
            rest += part
    return tuple(found)
