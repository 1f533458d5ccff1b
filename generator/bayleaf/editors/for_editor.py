"""A schema as an editor needs it: whole in itself, with the names of a manual, and with words for what is wrong.

An editor reads `5` as a number where the checker reads text. What the checker may accept must not be marked, so a
text may be a number or a truth value here, save where a unit belongs behind the number. Names are offered and never
demanded: only the checker knows what else may stand there.
"""

from collections.abc import Mapping, Sequence
from typing import Any, Literal

from ..loading.schema import FileKind, schema
from ..loading.schema_walk import resolved
from ..quantities.patterns import schema_pattern
from ..quantities.quantity import article, such_as
from .names import Names, Offer
from .snippets import step_snippets

_STEP = "#/$defs/step"
_BY_NAME = ("properties", "dependentSchemas")
_ONE = ("items", "additionalProperties", "propertyNames", "if", "else")

#: How a value with units may be written, by what it is; any other is a number and a unit.
_FORMS: Mapping[str, tuple[Literal["quantity", "limit"], ...]] = {"limit": ("limit",), "value": ("quantity", "limit")}
#: Behind this, the pattern of a value with a unit has words that may stand in its place, such as none.
_DIGIT_OR = "[0-9]|"

Node = dict[str, Any]


def for_editor(kind: FileKind, names: Names) -> Node:
    """The schema of one kind of file, with what `names` offers; refers to nothing outside of itself."""
    whole = schema(kind)
    made = _made({key: value for key, value in whole.items() if key not in ("$defs", "$id")}, kind, names)
    made["$schema"] = whole["$schema"]
    if kind == "procedure":
        step = _made(whole["$defs"]["step"], kind, names)
        _tell_keys_of_actions(step)
        made["$defs"] = {"step": {**step, "defaultSnippets": step_snippets()}}
    return made


def _made(node: Node, kind: FileKind, names: Names) -> Node:
    """A part of a schema with its references filled in; a step within a step stays a reference, or it had no end."""
    if node.get("$ref") == _STEP:
        return {"$ref": _STEP}
    node = resolved(node, kind)
    made = {key: value for key, value in node.items() if not key.startswith("x-")}
    for key in _BY_NAME:
        if key in node:
            made[key] = {name: _made(inner, kind, names) for name, inner in node[key].items()}
    for key in _ONE:
        if isinstance(node.get(key), dict):
            made[key] = _made(node[key], kind, names)
    _widen(made, node)
    _tell(made, node)
    offers = tuple(offer for each in node.get("x-offers", ()) for offer in names.get(each, ()))
    if offers:
        _offer(made, offers)
    return made


def _widen(made: Node, node: Node) -> None:
    """Numbers and truth values where a text may stand; for a value with a unit the pattern that asks for one."""
    types = _types(node)
    if "string" not in types or "integer" in types:
        return
    if not node.get("x-parsed"):
        made["type"] = [*types, *(one for one in ("number", "boolean") if one not in types)]
        return
    patterns = [schema_pattern(form) for form in _FORMS.get(node.get("x-name", ""), ("quantity",))]
    if node["pattern"].startswith(_DIGIT_OR):
        patterns.append(node["pattern"].removeprefix(_DIGIT_OR))
    made["pattern"] = "|".join(patterns)


def _types(node: Node) -> list[str]:
    types = node.get("type", [])
    return [types] if isinstance(types, str) else list(types)


def _tell(made: Node, node: Node) -> None:
    """Words for what is wrong; an editor shows them for a value of another kind, a strange key and a missing one."""
    quantity = node.get("x-quantity")
    if node.get("x-parsed"):
        said = node["patternErrorMessage"]
        if quantity not in (None, "any") and _types(node) == ["string"]:
            said = f"a number and a unit, {such_as(quantity)}"
        made["patternErrorMessage"] = made["errorMessage"] = f"Write {said}: the unit belongs to the value."
    elif "pattern" in node:
        made["patternErrorMessage"] = made["errorMessage"] = f"Write {node['patternErrorMessage']}."
    elif "properties" in node:
        made["errorMessage"] = _about_keys(node)
    elif "enum" in node:
        words = ", ".join(dict.fromkeys(str(one) for one in node["enum"] if isinstance(one, str)))
        made["errorMessage"] = f"Write one of: {words}."
    elif "x-say" in node:
        made["errorMessage"] = f"Write {node['x-say']}."


def _about_keys(node: Node) -> str:
    name = node.get("x-name", "entry")
    if name == "step":
        return "This is no key of a step, or the step has no action. Every action is offered behind a new dash."
    needed = node.get("required", ())
    also = f" It needs {', '.join(needed)}." if needed else ""
    keys = ", ".join(node["properties"])
    begin = article(name)
    return f"{begin[0].upper()}{begin[1:]} has these keys: {keys}.{also}"


def _tell_keys_of_actions(step: Node) -> None:
    """A key that goes with another action is told as such."""
    for action, rule in step["dependentSchemas"].items():
        rule.get("propertyNames", {})["errorMessage"] = f"This key does not go with `{action}`."
        exits = rule.get("properties", {}).get("outcomes", {}).get("propertyNames")
        if exits:
            exits["errorMessage"] = f"The results of `{action}` are: {', '.join(exits['enum'])}."
    step["else"]["propertyNames"]["errorMessage"] = "This key belongs to an action that the step does not have."


def _offer(made: Node, offers: Sequence[Offer]) -> None:
    """Offers names for a text, for the items of a list, for those of lists in it, and for the keys of a map."""
    types = _types(made)
    if "object" in types:
        inner: Mapping[str, Any] = made["additionalProperties"]
        made["properties"] = {offer.text: {**inner, "description": offer.about} for offer in offers}
        return
    if "string" in types:
        made["defaultSnippets"] = [
            {"label": offer.text, "description": offer.about, "body": offer.text} for offer in offers
        ]
    if "array" in types and isinstance(made.get("items"), dict):
        _offer(made["items"], offers)
