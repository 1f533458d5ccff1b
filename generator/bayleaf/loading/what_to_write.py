"""What to write instead of a faulty value, taken from the schema of the value.

In the order of what tells most: the list of words, an example of the quantity, `x-say` (words for the one
who writes in a file), `patternErrorMessage` (which also serves editors), or else the kind of value.
"""

from typing import Any

from ..quantities.quantity import article, such_as
from ..quantities.units import QUANTITIES

_LONGEST = 60


def purpose(key: str, where: dict[str, Any]) -> str | None:
    """What a key is for, as the schema describes it."""
    told = where.get("description")
    return None if told is None else f"`{key}`: {told[0].lower()}{told[1:].rstrip('.')}"


def example(key: str, where: dict[str, Any]) -> str:
    """A key with what is to be written under it."""
    words = choices(where)
    if len(words) == 1:
        return f"`{key}: {words[0]}`"
    if words:
        return f"`{key}: …`, with one of: {', '.join(words)}"
    types = types_of(where)
    if types == {"array"}:
        items = where.get("items", {})
        if "properties" in items:
            keys = ", ".join(items.get("required", items["properties"]))
            return f"`{key}:` and below it a list; each item begins with a dash, and its keys are: {keys}"
        return f"`{key}:` and below it a list, each item behind a dash"
    return f"`{key}:` and below it {_keys(where)}" if types == {"object"} else f"`{key}: …`"


def instead_of(value: Any, key: str, where: dict[str, Any], types: set[str]) -> str:
    """What to write instead of a value of another kind."""
    if isinstance(value, list) and types.isdisjoint({"array", "object"}):
        texts = ", ".join(short(item) for item in value)
        return f"write it as one text: `{key}: {texts}`"
    if isinstance(value, str) and "array" in types and "," in value:
        return f"write several in brackets: `{key}: [{short(value)}]`"
    if "x-say" in where:
        no_list = (
            "take the dashes or the brackets away, and " if isinstance(value, list) and "array" not in types else ""
        )
        return f"{no_list}write {where['x-say']}"
    if types == {"array"}:
        if isinstance(value, dict):
            return f"begin each item with a dash: `- {next(iter(value), 'key')}: …`"
        if "properties" in where.get("items", {}):
            keys = list(where["items"]["properties"])
            return f"write a list; each item begins with a dash, and its keys are: {', '.join(keys)}"
        return f"write each item on a line of its own behind a dash, or in brackets: `{key}: [{short(value)}]`"
    if types == {"object"}:
        if isinstance(value, list) and "properties" in where:
            return f"take the dash or the brackets away; its keys are: {', '.join(where['properties'])}"
        return f"write {_keys(where)}"
    if isinstance(value, dict):
        return f"write {wanted(where)}; one that begins with a brace stands in quotes"
    return f"write {wanted(where)}"


def wanted(where: dict[str, Any]) -> str:
    """What may be written, as the object of "write"."""
    words = choices(where)
    if words:
        return f"one of: {', '.join(words)}" if len(words) > 1 else f"`{words[0]}`"
    quantity = where.get("x-quantity")
    if quantity in QUANTITIES and "array" not in types_of(where):
        return f"{article(quantity)}, {such_as(quantity)}"
    for key in ("x-say", "patternErrorMessage"):
        if key in where:
            return where[key]
    return _keys(where) if types_of(where) == {"object"} else takes(types_of(where))


def _keys(where: dict[str, Any]) -> str:
    """What is to be written under a key that holds others."""
    if "properties" in where:
        return f"its keys, each on a line of its own and indented deeper: {', '.join(where['properties'])}"
    return "each name on a line of its own, a colon, and below it, indented, what belongs to it"


def choices(where: dict[str, Any]) -> list[str]:
    """The words of a closed list; what an editor may make of them (true, 0) is left out."""
    return [option for option in where.get("enum", ()) if isinstance(option, str)]


def types_of(where: dict[str, Any]) -> set[str]:
    """The kinds of value that may stand there, as the schema names them."""
    types = where.get("type", "string")
    return {types} if isinstance(types, str) else set(types)


def takes(types: set[str]) -> str:
    """The kinds of value in plain words."""
    words = []
    if {"string", "number", "integer", "boolean"} & types:
        words.append("a text")
    if "array" in types:
        words.append("a list")
    if "object" in types:
        words.append("keys with values")
    return " or ".join(words)


def kind_of(value: Any) -> str:
    """What a value is, in plain words; a text is quoted."""
    if isinstance(value, dict):
        return "keys with values"
    return "a list" if isinstance(value, list) else f"the text `{short(value)}`"


def short(value: Any) -> str:
    """A value on one line, not too long."""
    text = kind_of(value) if isinstance(value, dict | list) else " ".join(str(value).split())
    return text if len(text) <= _LONGEST else text[: _LONGEST - 1].rstrip() + "…"
