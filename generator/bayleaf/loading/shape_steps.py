"""Steps without an action, and steps with two: looked for before the schema runs, which explains them badly."""

from collections.abc import Iterator
from typing import Any

from ..diagnostics.place import Path
from .schema import action_keys, step_schema
from .shape_words import Shape, nearest


def faulty_steps(steps: Any, at: Path) -> Iterator[tuple[Path, Shape | None]]:
    """Steps with no action or with two, those inside `for_each` included; without words where they are told above."""
    if not isinstance(steps, list):
        return
    lent = False
    for index, step in enumerate(steps):
        path, borrows = (*at, index), lent
        lent = False
        if not isinstance(step, dict):
            continue
        actions = [key for key in step if key in action_keys()]
        if len(actions) > 1:
            lent = len(actions) == 2 and list(step)[-1] == actions[1] and _has_no_action(steps, index + 1)
            yield path, _two_actions(path, actions, lent)
        elif borrows:
            yield path, None
        elif not actions and (shape := _no_action(path, step)):
            yield path, shape
        elif "for_each" in step:
            yield from faulty_steps(step.get("steps"), (*path, "steps"))


def _has_no_action(steps: list[Any], index: int) -> bool:
    step = steps[index] if index < len(steps) else None
    return isinstance(step, dict) and action_keys().isdisjoint(step)


def _two_actions(path: Path, actions: list[str], next_has_none: bool) -> Shape:
    first, second = actions[:2]
    message = f"`{second}` is a second action in this step, beside `{first}`"
    because = "a step does one thing, so that it can be ticked off and its effect is known"
    help_ = f"put a dash before it, so that it is a step of its own: `- {second}: …`"
    if next_has_none:
        help_ = "the step below has none: put this line below the dash of that step"
    return Shape("two-actions-in-one-step", (*path, second), message, because, help_, at_key=True)


def _no_action(path: Path, step: dict[str, Any]) -> Shape | None:
    """A step without an action; one in words alone passes, unless an action beside it is misspelt."""
    unknown = [key for key in step if key not in step_schema()["properties"]]
    for key in unknown:
        meant = nearest(key, action_keys())
        if meant:
            message = f"`{key}` is no action of a step"
            help_ = f"did you mean `{meant}`?"
            return Shape("step-without-action", (*path, key), message, None, help_, at_key=True)
    if "do" in step:
        return None
    message = "this step does not say what is done"
    if unknown:
        message = f"`{unknown[0]}` is no action of a step, and the step has no other"
    help_ = "say it in words with `do: …`, or name an action such as `measure`, `disconnect`, `tighten`"
    where = (*path, unknown[0]) if unknown else path
    return Shape("step-without-action", where, message, None, help_, at_key=bool(unknown))
