"""The reference of the file format, made from the schemas, which alone say what is right."""

from collections.abc import Iterator
from typing import Any

from markupsafe import Markup

from ..loading.schema import FileKind, schema
from .body import Body, SearchRecord
from .indexes import index_body
from .layout import Cell, Row, Section, Table

_FILES: tuple[FileKind, ...] = ("vehicle", "procedure", "workshop", "record")
_HEAD = ("Key", "What it is", "Value")


def format_body() -> Body:
    """Every key of every kind of file."""
    sections: list[Section] = []
    for kind in _FILES:
        whole = schema(kind)
        sections += _sections(whole, kind, whole["title"])
        for name, part in whole.get("$defs", {}).items():
            sections += _sections(part, f"{kind}-{name}", f"{whole['title']}: {part['title'].lower()}")
        if kind == "procedure":
            sections.append(_actions(whole["$defs"]["step"]))
    sections += _values()
    lead = "Format 1. Every file begins with format: 1. Every value is text until this page says what it is."
    search = SearchRecord("format.html", "The file format", "reference", ("format",), "keys schema yaml reference")
    return index_body("The file format", lead, sections, "", (search,))


def _sections(part: dict[str, Any], anchor: str, heading: str) -> Iterator[Section]:
    """The keys of a map, then those of the maps written out within it; what it refers to has its own place."""
    if "properties" in part:
        yield _section(part, anchor, heading, part.get("description"))
    for key, inner in part.get("properties", {}).items():
        yield from _sections(inner, f"{anchor}.{key}.keys", f"{heading}: {key}")
    for within in ("items", "additionalProperties"):
        if isinstance(part.get(within), dict):
            yield from _sections(part[within], f"{anchor}.each", f"{heading}: each {part[within].get('x-name', 'one')}")


def _values() -> Iterator[Section]:
    """The kinds of value that keys of every file take."""
    common = schema("common")["$defs"]
    rows = tuple(
        Row(
            (Markup("<strong>{}</strong>").format(part["title"]), part.get("description", ""), _value(part)),
            f"common-{name}",
        )
        for name, part in common.items()
    )
    yield Section("Values", "common", table=Table(("Value", "What it is", "How it is written"), rows))
    for name, part in common.items():
        yield from _sections(part, f"common-keys-{name}", part["title"])


def _section(part: dict[str, Any], anchor: str, heading: str, note: str | None) -> Section:
    required = set(part.get("required", ()))
    rows = tuple(
        Row((_key(key, key in required), _about(inner), _value(inner)), f"{anchor}.{key}")
        for key, inner in part["properties"].items()
    )
    return Section(heading, anchor, table=Table(_HEAD, rows), notes=(note,) if note else ())


def _key(key: str, required: bool) -> Cell:
    return Markup("<code>{}</code>{}").format(key, Markup("<br><em>needed</em>") if required else "")


def _resolved(part: dict[str, Any]) -> dict[str, Any]:
    """A property with what it refers to; its own title and description win."""
    reference = part.get("$ref")
    if reference is None:
        return part
    name = reference.rsplit("/", 1)[-1]
    for kind in ("common", *_FILES):
        found = schema(kind).get("$defs", {}).get(name)
        if found is not None:
            return {**found, **part}
    return part


def _about(part: dict[str, Any]) -> Cell:
    whole = _resolved(part)
    text = Markup("<strong>{}.</strong> {}").format(whole.get("title", ""), whole.get("description", ""))
    examples = ", ".join(str(example) for example in part.get("examples", ()) if not isinstance(example, (dict, list)))
    return text + (Markup(" Such as <code>{}</code>.").format(examples) if examples else "")


def _value(part: dict[str, Any]) -> Cell:
    whole = _resolved(part)
    if "enum" in whole:
        words = [str(word) for word in whole["enum"] if not isinstance(word, (bool, int))]
        return "one of: " + ", ".join(words)
    words = list(_kinds(whole))
    if "x-quantity" in part:
        words.append(f"in a unit of {part['x-quantity']}")
    return ", ".join(words)


def _kinds(whole: dict[str, Any]) -> Iterator[str]:
    if whole.get("x-parsed"):
        yield whole["patternErrorMessage"]
        return
    types = whole.get("type", [])
    types = [types] if isinstance(types, str) else types
    if "string" in types:
        yield whole.get("patternErrorMessage", "text")
    if "array" in types:
        yield "list"
    if "object" in types:
        yield "keys with values"


def _actions(step: dict[str, Any]) -> Section:
    """Which keys go with which action."""
    modifiers = set(step["x-modifiers"])
    rows = []
    for action in step["x-actions"]:
        inner = step["properties"][action]
        allowed = step["dependentSchemas"].get(action, {}).get("propertyNames", {}).get("enum", ())
        own = [key for key in allowed if key != action and key not in modifiers]
        exits = (
            step["dependentSchemas"]
            .get(action, {})
            .get("properties", {})
            .get("outcomes", {})
            .get("propertyNames", {})
            .get("enum", ())
        )
        beside = Markup(", ").join(Markup("<code>{}</code>").format(key) for key in own)
        rows.append(
            Row(
                (Markup("<code>{}</code>").format(action), _about(inner), beside, ", ".join(exits)),
                f"action.{action}",
            )
        )
    note = "A step has one of these. Beside it may stand: " + ", ".join(step["x-modifiers"]) + "."
    return Section(
        "Actions of a step",
        "actions",
        table=Table(("Action", "What it is", "Keys of its own", "Exits"), tuple(rows)),
        notes=(note,),
    )
