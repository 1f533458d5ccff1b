"""A step of each kind to begin with, as editors insert it: `${1:text}` is a place to type over."""

from typing import Any

from ..loading.schema import step_schema

#: What stands behind an action and the keys that go with it; what is not here is filled with the key's own title.
_VALUES: dict[str, Any] = {
    "set": {"mode": "${1|off,ignition,ready,asleep,charging|}"},
    "wait": "${1:5 min}",
    "measure": "${1:What is measured}",
    "quantity": "${2:voltage}",
    "between": ["${3:X1/1}", "${4:chassis}"],
    "limits": "${5:at most 5 V}",
    "using": "${6:multimeter}",
    "answers": [{"answer": "${2:Yes}", "then": "${3:next}"}, {"answer": "${4:No}", "then": "${5:stop}"}],
    "formula": "${2|difference,parallel,average,insulation by voltmeter|}",
    "of": ["${3:first-reading}", "${4:second-reading}"],
    "for_each": ["${1:X1}", "${2:X2}"],
    "steps": [{"do": "${3:What is done at each}", "on": "each"}],
    "pause": "${1|break,hand-over,vehicle left|}",
    "tester_proved": {"before": "${7:proving-unit}", "after": "${8:proving-unit}"},
    "on": "${2:nothing}",
    "fit_temporary": "${1:cap}",
    "remove_temporary": "${1:cap}",
}
#: What an action nearly always has beside it, further to what it must have.
_BESIDE = {"do": ("on",), "measure": ("between", "using", "limits"), "prove_dead": ("tester_proved",)}


def step_snippets() -> list[dict[str, Any]]:
    """One for each action of a step, with the keys that it needs."""
    step = step_schema()
    titles = {key: inner.get("title", key) for key, inner in step["properties"].items()}
    needed = step["dependentRequired"]
    return [
        {
            "label": f"step: {action}",
            "description": step["properties"][action]["description"],
            "body": {
                key: _VALUES.get(key, f"${{1:{titles[key]}}}")
                for key in dict.fromkeys((action, *needed.get(action, ()), *_BESIDE.get(action, ())))
            },
        }
        for action in step["x-actions"]
    ]
