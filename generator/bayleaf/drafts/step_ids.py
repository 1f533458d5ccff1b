"""Identifiers for steps, so that a job record still finds its step after another one has been put in between."""

import re
from collections.abc import Sequence

from .yaml_text import Data

#: Steps of one kind that follow one another and say nothing else become one.
_MERGED = ("unplug", "plug", "loosen", "tighten")
#: How a step is called by its action; its object follows.
_CALLED = {
    "prove_safe": "safe", "fit_temporary": "fit", "remove_temporary": "take-off", "secure": "lock", "release": "unlock",
    "disconnect": "open", "reconnect": "close", "do": "work", "prove_dead": "prove",
}  # fmt: skip


def merged(steps: Sequence[Data]) -> list[Data]:
    """Plugs that follow one another in one step, fasteners likewise where the tool is the same."""
    found: list[Data] = []
    for step in steps:
        key = next((one for one in _MERGED if one in step), None)
        before = found[-1] if found else {}
        if key is not None and key in before and _rest(step, key) == _rest(before, key) and "do" not in step:
            names = before[key] if isinstance(before[key], list) else [before[key]]
            found[-1] = {**before, key: [*names, step[key]]}
        else:
            found.append(step)
    return found


def _rest(step: Data, key: str) -> Data:
    return {name: value for name, value in step.items() if name != key}


def with_ids(steps: Sequence[Data]) -> list[Data]:
    """Every step with an id: its own, else one from what it does, told apart by a number."""
    taken = {step["id"] for step in steps if "id" in step}
    found = []
    for step in steps:
        if "id" not in step:
            wanted = name = _name(step)
            count = 1
            while name in taken:
                count += 1
                name = f"{wanted}-{count}"
            taken.add(name)
            step = {"id": name, **step}
        found.append(step)
    return found


def _name(step: Data) -> str:
    key = next(iter(key for key in step if key != "do" or "on" in step), "do")
    value = step.get("on", "") if key == "do" else step[key]
    first = value[0] if isinstance(value, list) and value else value
    words = f"{_CALLED.get(key, key)} {first if isinstance(first, str) and first != 'nothing' else ''}"
    return "-".join(re.findall(r"[a-z0-9]+", words.lower())[:6]) or "step"
