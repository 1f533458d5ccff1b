"""The words for faults of shape: from the validator's kind of error to a rule and a sentence.

The validator's own sentences are never shown. What to write instead comes from the schema: its list of
words, `patternErrorMessage`, `x-say`, or else the kind of value.
"""

import difflib
import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, NamedTuple

from ..diagnostics.place import Path
from .other_forms import in_form
from .schema import FileKind, schema, step_schema
from .schema_walk import key_of, known_keys, one_such, schema_at, subject
from .what_to_write import choices, example, instead_of, kind_of, purpose, short, takes, types_of, wanted


class Shape(NamedTuple):
    """A fault of shape, before its place is known."""

    rule: str
    path: Path
    message: str
    because: str | None = None
    help: str | None = None
    at_key: bool = False


#: Keys where a missing fact counts as unsafe, so that "none" must be written.
_OR_NONE = frozenset({"leaves_live", "first", "only_when", "circuit", "circuits", "exposes"})
_CONTACTS = "write the two points of the measurement: `[X7/1 device, chassis]`"
#: How like a misspelt word is to the one that was meant (1: the same); of short words `wear` and `remark` are 0.6.
_LIKE, _VERY_LIKE, _LONG = 0.6, 0.66, 8
#: So many words are listed even where one of them was probably meant.
_FEW = 8


def nearest(word: str, known: Iterable[str], likeness: float | None = None) -> str | None:
    """The known word that was probably meant, or None: a short word has to be more like it than a long one."""
    lower = {name.casefold(): name for name in known}
    cutoff = likeness or (_LIKE if len(word) >= _LONG else _VERY_LIKE)
    close = difflib.get_close_matches(word.casefold(), lower, n=1, cutoff=cutoff)
    return lower[close[0]] if close else None


def describe(
    error: Any, fault: str, path: Path, kind: FileKind, data: Any, beside: Sequence[str] = ()
) -> Iterator[Shape]:
    """The faults that one error of the validator stands for; none where another finding covers it.

    `fault` is the validator's name for what is wrong, `path` leads to it in `data`, `beside` are other keys of the
    same map that are wrong in the same way.
    """
    where = schema_at(kind, path)
    match fault:
        case "AdditionalProperties":
            for key in error.kind.unexpected:
                yield _unknown_key(key, path, error.instance, kind)
        case "Required" if "dependentRequired" in error.schema_path:
            yield _missing_beside(error.kind.property, path, data, kind)
        case "Required":
            yield _missing_key(error.kind.property, path, kind)
        case "Enum":
            yield _not_in_list(error.instance, path, where, kind)
        case "Type":
            yield _wrong_type(error.instance, path, where, kind)
        case "Pattern":
            if not where.get("x-parsed"):  # else the parser of the value tells more
                yield _wrong_form(error.instance, path, where)
        case "PropertyNames":
            yield from _wrong_name(error, path, where, beside)
        case "MinItems" | "MinProperties" | "MinLength" | "MaxItems":
            yield _wrong_size(error.instance, path, where, kind)
        case "AnyOf":
            return  # a step without an action: told apart before the schema runs
        case _:
            yield _wrong_form(error.instance, path, where)


def _unknown_key(key: str, path: Path, value: Any, kind: FileKind) -> Shape:
    known = known_keys(kind, path, value)
    meant = nearest(key, known)
    help_ = f"did you mean `{meant}`?" if meant else f"its keys are: {', '.join(known)}"
    if not meant and schema_at(kind, path).get("x-name") == "step":
        help_ = "take it out, or say it in words with `do`; the page of the format lists the keys of a step"
    message = f"`{key}` is no key of {one_such(kind, path)}"
    return Shape("unknown-key", (*path, key), message, None, help_, at_key=True)


def _missing_key(key: str, path: Path, kind: FileKind) -> Shape:
    missing = schema_at(kind, (*path, key))
    message = f"{subject(kind, path)} has no `{key}`"
    if key == "sources":
        help_ = (
            "name everything that can feed it, such as `battery: {taken_off_by: [[service-plug]]}`, "
            "and write `none` for what the vehicle does not have"
        )
    elif key in _OR_NONE:
        help_ = f"add `{key}: …`; where there is none, write `{key}: none`, so that it is not just forgotten"
    else:
        help_ = f"add {example(key, missing)}"
    return Shape("missing-key", path, message, purpose(key, missing), help_, at_key=bool(path))


def _missing_beside(key: str, path: Path, data: Any, kind: FileKind) -> Shape:
    """A key that another key of the same step asks for."""
    step = data
    for part in path:
        step = step[part]
    needs = step_schema()["dependentRequired"].items()
    cause = next(name for name, needed in needs if name in step and key in needed)
    missing = schema_at(kind, (*path, key))
    named = _named(choices(missing), str(step[cause]))
    help_ = f"add to the same step: {example(key, missing) if named is None else f'`{key}: {named}`'}"
    message = f"`{cause}` needs `{key}` beside it"
    return Shape("missing-key", (*path, cause), message, purpose(key, missing), help_, at_key=True)


def _named(words: Sequence[str], text: str) -> str | None:
    """The one word of a list that a text names: `Resistance of the bond` is a resistance; None where there are more."""
    found = [word for word in words if re.search(rf"\b{re.escape(word)}\b", text, re.IGNORECASE)]
    found = [word for word in found if not any(word != other and word in other for other in found)]
    return found[0] if len(found) == 1 else None


def _not_in_list(value: Any, path: Path, where: dict[str, Any], kind: FileKind) -> Shape:
    words, key = choices(where), key_of(path)
    if value is None:
        return _empty(path, where, kind)
    if isinstance(value, dict | list):
        help_ = f"write one of: {', '.join(words)}"
        return Shape("wrong-shape", path, f"`{key}` takes one word, not {kind_of(value)}", None, help_)
    if words == ["yes", "no"]:
        help_ = f"write `{key}: yes` or `{key}: no`"
        return Shape("word-not-in-list", path, f"`{value}` is neither yes nor no", None, help_)
    if len(words) == 1:
        help_ = f"write `{key}: {words[0]}`"
        return Shape("word-not-in-list", path, f"`{key}` cannot be `{short(value)}`", None, help_)
    meant = nearest(str(value), words)
    if meant and _without_digits(meant) == _without_digits(str(value)):
        meant = None  # `class 7` is no slip of the keyboard
    help_ = f"did you mean `{meant}`? " if meant else ""
    if not meant or len(words) <= _FEW:
        help_ += f"The words are: {', '.join(words)}" if meant else f"write one of: {', '.join(words)}"
    message = f"`{short(value)}` is none of the words for `{key}`"
    return Shape("word-not-in-list", path, message, None if meant else purpose(key, where), help_.strip())


def _wrong_type(value: Any, path: Path, where: dict[str, Any], kind: FileKind) -> Shape:
    if value is None:
        return _empty(path, where, kind)
    types = types_of(where)
    verb = "is" if isinstance(path[-1], int) else "holds"
    message = f"{subject(kind, path)} {verb} {kind_of(value)}, but takes {takes(types)}"
    return Shape("wrong-shape", path, message, None, instead_of(value, key_of(path), where, types))


def _wrong_form(value: Any, path: Path, where: dict[str, Any]) -> Shape:
    if isinstance(value, dict | list):
        return Shape("wrong-shape", path, f"`{key_of(path)}` cannot hold {kind_of(value)}")
    help_ = _as_asked(str(value), where) if "patternErrorMessage" in where else None
    return Shape("wrong-form", path, f"`{key_of(path)}` cannot be `{short(value)}`", None, help_)


def _as_asked(value: str, where: dict[str, Any]) -> str:
    """The value in the form that its schema asks for, where it can be told; else the form alone."""
    form = where["patternErrorMessage"]
    meant = in_form(value, where["pattern"]) if "pattern" in where else None
    return f"write {form}" if meant is None else f"write `{meant}`: {form.partition(', such as')[0]}"


def _wrong_name(error: Any, path: Path, where: dict[str, Any], beside: Sequence[str]) -> Iterator[Shape]:
    """A key that has not the form of a name, or does not go with the action of its step."""
    name, steps = error.kind.error.instance, step_schema()
    at: Path = (*path, name)
    if "outcomes" in path and "dependentSchemas" in error.schema_path:
        action = error.schema_path[error.schema_path.index("dependentSchemas") + 1]
        exits = error.kind.error.kind.options
        meant = nearest(name, exits)
        help_ = f"did you mean `{meant}`? The exits" if meant else "the exits"
        help_ += f" of `{action}` are: {', '.join(exits)}"
        message = f"`{name}` is no exit of `{action}`"
        if beside:
            message = f"{_all_of(name, *beside)} are no exits of `{action}`"
            help_ += "; if they belong to something else, its key is missing above them"
        yield Shape("exit-not-possible", at, message, None, help_, True)
    elif where.get("x-name") == "step":
        if name in steps["properties"]:
            yield _does_not_fit(name, at, error.schema_path, beside)
    elif options := getattr(error.kind.error.kind, "options", None):
        meant = nearest(name, options)
        help_ = f"did you mean `{meant}`?" if meant else f"the names are: {', '.join(options)}"
        yield Shape("unknown-key", at, f"`{name}` is no key of `{key_of(path)}`", None, help_, True)
    else:
        form = "identifier" if "identifier" in error.schema_path else "name"
        help_ = _as_asked(name, schema("common")["$defs"][form])
        yield Shape("name-not-usable", at, f"`{name}` cannot be a name", None, help_, True)


#: What was probably meant by a key that goes with another action.
_MEANT = {
    ("answers", "measure"): "write what follows each result under `outcomes`, such as `below: stop`",
    ("answers", "read"): "write what follows each result under `outcomes`, such as `below: stop`",
    ("answers", "prove_dead"): "write what follows each result under `outcomes`, such as `not_dead: stop`",
    ("using", "tighten"): "name the wrench under `tools`",
    ("using", "loosen"): "name the tool under `tools`",
    ("outcomes", "ask"): "say what follows with `then` in each of the answers",
    ("limits", "do"): "name the action: `measure: …`, `read: …` or `prove_dead: …` instead of `do`",
    ("torque", "do"): "name the action: `tighten: …` instead of `do`",
}


def _does_not_fit(name: str, at: Path, schema_path: list[Any], beside: Sequence[str]) -> Shape:
    """A key of one action in a step that has another, or only words."""
    rules = step_schema()["dependentSchemas"]
    action = "do"
    if "dependentSchemas" in schema_path:
        action = schema_path[schema_path.index("dependentSchemas") + 1]
    fits = [other for other, rule in rules.items() if name in rule["propertyNames"]["enum"]]
    help_ = _MEANT.get((name, action), f"`{name}` goes with: {', '.join(fits)}")
    message = f"`{name}` does not go with `{action}`"
    if beside:
        message = f"{_all_of(name, *beside)} do not go with `{action}`"
        fits = [other for other, rule in rules.items() if {name, *beside} <= set(rule["propertyNames"]["enum"])]
        if fits and action == "do":
            help_ = f"the action that they belong to is missing: {' or '.join(f'`{fit}: …`' for fit in fits)}"
    return Shape("key-does-not-fit-action", at, message, None, help_, at_key=True)


def _wrong_size(value: Any, path: Path, where: dict[str, Any], kind: FileKind) -> Shape:
    if not value:
        return _empty(path, where, kind)
    key = key_of(path)
    if where.get("maxItems") == 2:
        message = f"`{key}` holds {len(value)} contact{'s' if len(value) > 1 else ''}, but takes two"
        return Shape("wrong-shape", path, message, None, _CONTACTS)
    least = where.get("minItems", 1)
    message = f"`{key}` has only {len(value)} item{'s' if len(value) > 1 else ''}, but takes at least {least}"
    return Shape("wrong-shape", path, message, None, where.get("x-say") and f"write {where['x-say']}")


def _empty(path: Path, where: dict[str, Any], kind: FileKind) -> Shape:
    last = path[-1]
    if isinstance(last, int):
        message = f"{subject(kind, path)} has no value"
        return Shape("empty-value", path, message, None, "take the dash or the comma out", True)
    above = schema_at(kind, path[:-1])
    needed = last in above.get("required", ()) or last in above.get("x-actions", ())
    help_ = ("" if needed else "take the key out, or ") + f"write {wanted(where)}"
    return Shape("empty-value", path, f"`{last}` has no value", None, help_, True)


def outdented(key: str, path: Path, inner: Path, kind: FileKind) -> Shape:
    """The fault of a key beside a map, at `inner`, that needs it and does not have it."""
    message = f"`{key}` stands beside `{key_of(inner)}`, not in it"
    because = f"`{key}` is no key of {one_such(kind, path)}, and `{key_of(inner)}` has none"
    return Shape("unknown-key", (*path, key), message, because, f"indent it deeper than `{key_of(inner)}`", at_key=True)


def home_of(entry: dict[str, Any], kind: FileKind) -> str | None:
    """The section of a file whose entries have all the keys of this one; None if there is none, or several."""
    homes = [name for name in schema_at(kind, ())["properties"] if entry.keys() <= _keys_in(name, kind)]
    return homes[0] if len(homes) == 1 else None


def _keys_in(section: str, kind: FileKind) -> set[str]:
    """The keys that an entry of a section may have."""
    entries = [schema_at(kind, (section, 0)), schema_at(kind, (section, "-"))]
    return {key for entry in entries for key in entry.get("properties", ())}


def stranger(entry: dict[str, Any], path: Path, kind: FileKind) -> tuple[Shape, str]:
    """The fault of an entry that stands among others of another kind, and the section that it belongs to."""
    sections = schema_at(kind, ())["properties"]
    belongs = home_of(entry, kind) or max(sections, key=lambda name: len(_keys_in(name, kind) & entry.keys()))
    unknown = [key for key in entry if key not in schema_at(kind, path).get("properties", {})]
    message = f"{_all_of(*unknown)} are no keys of {one_such(kind, path)}"
    if len(unknown) == 1:
        message = f"`{unknown[0]}` is no key of {one_such(kind, path)}"
    help_ = f"write the key of its own section above it: `{belongs}:`"
    because = f"this entry stands among the {path[0]}, but has the keys of another section"
    return Shape("unknown-key", (*path, unknown[0]), message, because, help_, at_key=True), belongs


def _all_of(*names: str) -> str:
    """Keys in a sentence: the first of them, if there are many."""
    ticked = [f"`{name}`" for name in names[:3]]
    if len(names) > 3:
        return f"{', '.join(ticked)} and {len(names) - 3} more"
    return f"{', '.join(ticked[:-1])} and {ticked[-1]}"


def _without_digits(text: str) -> str:
    return "".join(character for character in text if not character.isdigit())
