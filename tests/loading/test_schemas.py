"""The schemas themselves: what keeps two validators and an editor at one, and the words in them complete."""

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest
from bayleaf import folders
from bayleaf.quantities import QUANTITIES

KINDS = ("vehicle", "procedure", "workshop", "record")
SCHEMAS: dict[str, Any] = {
    name: json.loads((folders.schema() / f"{name}.schema.json").read_text(encoding="utf-8"))
    for name in ("common", *KINDS)
}

#: Keywords of JSON Schema (draft 2020-12) that are used here, with what each holds.
PLAIN = {"$schema", "$id", "$ref", "title", "description", "examples", "type", "enum", "required", "minLength",
         "minItems", "maxItems", "minProperties", "minimum", "pattern", "dependentRequired"}  # fmt: skip
HOLDS_SCHEMAS_BY_NAME = {"$defs", "properties", "dependentSchemas"}
HOLDS_A_SCHEMA = {"items", "additionalProperties", "propertyNames", "if", "else"}
#: Of editors, and our own: words for messages, and what a value is.
FOR_EDITORS = {"patternErrorMessage", "errorMessage"}
OUR_OWN = {"x-name", "x-say", "x-parsed", "x-quantity", "x-group", "x-actions", "x-modifiers", "x-offers"}


def parts(schema: Any, path: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every schema within a schema, with the way to it."""
    yield path, schema
    for key, value in schema.items():
        if key in HOLDS_SCHEMAS_BY_NAME:
            for name, inner in value.items():
                yield from parts(inner, f"{path}/{key}/{name}")
        elif key in HOLDS_A_SCHEMA and isinstance(value, dict):
            yield from parts(value, f"{path}/{key}")
        elif key == "anyOf":
            for number, inner in enumerate(value):
                yield from parts(inner, f"{path}/{key}/{number}")


ALL = [part for name, schema in SCHEMAS.items() for part in parts(schema, name)]
PROPERTIES = [(path, part) for path, part in ALL if re.search("/properties/[^/]+$", path) and "dependent" not in path]


def resolved(part: dict[str, Any], path: str) -> dict[str, Any]:
    """A schema with what it refers to merged in."""
    while "$ref" in part:
        file, _, name = part["$ref"].partition("#/$defs/")
        holder = file.removesuffix(".schema.json") or path.split("/", 1)[0]
        part = {**SCHEMAS[holder]["$defs"][name], **{key: value for key, value in part.items() if key != "$ref"}}
    return part


def test_only_known_keywords_are_used() -> None:
    """A word that no validator knows is passed over in silence, such as half a sentence behind a comma."""
    known = PLAIN | HOLDS_SCHEMAS_BY_NAME | HOLDS_A_SCHEMA | FOR_EDITORS | OUR_OWN | {"anyOf"}

    assert [] == [(path, key) for path, part in ALL for key in part if key not in known]


def test_patterns_use_explicit_classes_only() -> None:
    """Validators and editors differ in what `\\d`, `\\w`, `\\s` and `\\p` mean for letters of other scripts."""
    patterns = [(path, part["pattern"]) for path, part in ALL if "pattern" in part]

    assert 10 <= len(patterns)
    assert [] == [found for found in patterns if re.search(r"\\[dDwWsSpPbB]|\(\?", found[1])]


@pytest.mark.parametrize("keyword", ["format", "multipleOf", "unevaluatedProperties", "oneOf"])
def test_keywords_on_which_validators_differ_are_not_used(keyword: str) -> None:
    """`format` is a mere remark to one, `multipleOf` counts in binary; the other two explain a fault badly."""
    assert [] == [path for path, part in ALL if keyword in part]


@pytest.mark.parametrize("kind", KINDS)
def test_names_of_definitions_are_unique(kind: str) -> None:
    """The way that a validator reports begins at a definition and does not say in which file."""
    assert set() == SCHEMAS["common"]["$defs"].keys() & SCHEMAS[kind].get("$defs", {}).keys()


def test_every_reference_leads_somewhere() -> None:
    """Only to definitions of the same file or of the common one."""
    for path, part in ALL:
        if "$ref" in part:
            assert re.fullmatch(r"(common\.schema\.json)?#/\$defs/[a-z_]+", part["$ref"])
            assert resolved(part, path)


def test_every_key_has_a_title() -> None:
    """Of its own or of what it refers to: an editor shows it, and the page of the format does."""
    assert len(PROPERTIES) > 300
    assert [] == [path for path, part in PROPERTIES if not resolved(part, path).get("title")]


def test_every_key_tells_what_it_is_for() -> None:
    """In its own words; those of what it refers to count only where it has no title of its own."""
    told = {
        path: part.get("description") or (None if "title" in part else resolved(part, path).get("description"))
        for path, part in PROPERTIES
    }

    assert [] == [(path, own) for path, own in told.items() if not own or own[-1] in ",:;"]


def test_every_map_of_known_keys_has_a_name_for_messages() -> None:
    """ "`x` is no key of a circuit" needs the word."""
    assert [] == [path for path, part in ALL if part.get("additionalProperties") is False and "x-name" not in part]


def test_quantities_named_in_the_schemas_exist() -> None:
    """The example in a help is made of them; `any` stands for a value of whatever kind."""
    named = {part["x-quantity"] for _, part in ALL if "x-quantity" in part}

    assert set() == named - QUANTITIES.keys() - {"any"}


def test_every_pattern_says_what_to_write() -> None:
    """An editor shows `patternErrorMessage`, and so does a finding."""
    assert [] == [path for path, part in ALL if "pattern" in part and "patternErrorMessage" not in part]


def test_the_actions_of_a_step_are_listed_once_and_alike() -> None:
    """In `x-actions`, as alternatives of which one is required, and each with the keys that go with it."""
    step = SCHEMAS["procedure"]["$defs"]["step"]
    actions = step["x-actions"]

    assert len(set(actions)) == len(actions)
    assert [[name] for name in actions] == [part["required"] for part in step["anyOf"]]
    assert [[name] for name in actions if name != "do"] == [part["required"] for part in step["if"]["anyOf"]]
    assert step["x-modifiers"] == step["else"]["propertyNames"]["enum"]
    assert set(actions) - {"do"} == step["dependentSchemas"].keys()
    for name, rule in step["dependentSchemas"].items():
        keys = rule["propertyNames"]["enum"]
        assert {name, *step["x-modifiers"]} <= set(keys) <= step["properties"].keys()
