"""Steps, from plain data to the model; groups that are done at several places are unfolded here.

Unfolding works on the plain data, before anything is parsed: the word `each` becomes the name, every
step keeps the path of the line that the author wrote, so that a finding points there.
"""

import re
from typing import Any

from ..diagnostics.place import Path
from ..model.actions import Do
from ..model.procedure import Step
from .read_actions import ACTIONS
from .reader import Reader
from .value_reader import Data

_EACH = re.compile(r"(?<![\w-])each(?=/| device| cable|$)")
#: Keys whose text is prose: there `each` is an English word, and only `each/1` or `each device` is the name.
_PROSE = frozenset({"do", "expect", "ask", "hazard", "consequence", "avoid", "text", "answer", "finding", "shows"})
#: Keys that name what is done at the place: there the word alone is the name.
_NAMING = frozenset({"measure", "read", "compute", "command"})
_EACH_AS_WORD = re.compile(r"(?<![\w-])each(?![\w-])")
_EACH_IN_PROSE = re.compile(r"(?<![\w-])each(?=/| device\b| cable\b)")


def read_steps(steps: Any, reader: Reader) -> tuple[tuple[Step, ...], bool]:
    """The steps in order, and whether every one of them could be read."""
    found: list[Step] = []
    whole = isinstance(steps, list) and bool(steps)
    for index, data in enumerate(steps if isinstance(steps, list) else ()):
        at: Path = ("steps", index)
        number = str(index + 1)
        if not isinstance(data, dict):
            found.append(Step(at, number, None, Do(), broken=True))
            whole = False
        elif "for_each" in data:
            whole = _unfold(data, at, number, reader, found) and whole
        else:
            step = _step(data, at, number, reader)
            found.append(step)
            whole = whole and not step.broken
    return tuple(found), whole


def _unfold(data: Data, at: Path, number: str, reader: Reader, found: list[Step]) -> bool:
    """Appends the steps of a group, once for each of its places."""
    places = data.get("for_each")
    inner = data.get("steps")
    if not isinstance(places, list) or not isinstance(inner, list):
        found.append(Step(at, number, None, Do(), broken=True))
        return False
    own_ids = frozenset(step["id"] for step in inner if isinstance(step, dict) and isinstance(step.get("id"), str))
    whole, count = True, 0
    for place in places:
        first = True
        for index, body in enumerate(inner):
            path = (*at, "steps", index)
            count += 1
            if not isinstance(body, dict) or not isinstance(place, str) or "for_each" in body:
                if isinstance(body, dict) and "for_each" in body and place is places[0]:
                    reader.fault(
                        "group-within-group", (*path, "for_each"), "a group of steps stands inside another",
                        "the reader would have to keep two places in mind at once",
                        "write the inner steps out, or give them a group of their own behind this one",
                    )  # fmt: skip
                found.append(Step(path, f"{number}.{count}", None, Do(), group=str(place), broken=True))
                whole = False
                continue
            made = _step(at_place(body, place, own_ids), path, f"{number}.{count}", reader, place, first)
            found.append(made)
            whole = whole and not made.broken
            first = False
    return whole


def at_place(value: Any, place: str, own_ids: frozenset[str], key: str = "") -> Any:
    """The same data with the name of the place for `each`, and the ids of the group told apart."""
    if isinstance(value, str):
        if key in _PROSE:
            return _EACH_IN_PROSE.sub(place, value)
        if key in _NAMING:
            return _EACH_AS_WORD.sub(place, value)
        if key in ("id", "then", "exhausted", "outcome", "of") and value in own_ids:
            return f"{value}@{place}"
        return _EACH.sub(place, value)
    if isinstance(value, list):
        return [at_place(item, place, own_ids, key) for item in value]
    if isinstance(value, dict):
        inner = "outcome" if key == "outcomes" else None
        return {name: at_place(item, place, own_ids, inner or name) for name, item in value.items()}
    return value


def _step(data: Data, at: Path, number: str, reader: Reader, group: str | None = None, first: bool = False) -> Step:
    action_key = "do"
    for key in data:
        if key in ACTIONS:
            action_key = key
            break
    repeat = data.get("repeat")
    outcomes = data.get("outcomes")
    limits = data.get("limits")
    read = reader.words
    return Step(
        at,
        number,
        reader.text(data, "id"),
        ACTIONS[action_key](data, reader, at) if action_key != "do" else Do(),
        reader.text(data, "do"),
        read(data, "on") if "on" in data else (),
        reader.conditions(data, "when", at) if "when" in data else None,
        read(data, "only_for") if "only_for" in data else (),
        reader.messages(data, at),
        reader.photo(data, at) if "photo" in data else None,
        reader.text(data, "expect"),
        reader.quantity(data, "time", at, "time"),
        reader.yes(data, "attended"),
        reader.count(data, "people"),
        reader.text(data, "by"),
        read(data, "tools") if "tools" in data else (),
        read(data, "wear") if "wear" in data else (),
        reader.text(data, "source"),
        reader.text(data, "then"),
        int(repeat.removeprefix("at most ")) if repeat else None,
        reader.text(data, "exhausted"),
        tuple((key, target.strip()) for key, target in outcomes.items() if target) if outcomes else (),
        reader.cited(limits, (*at, "limits")) if limits.__class__ is dict else None,
        group,
        first,
        reader.is_broken(at),
        limits is not None,
    )
