"""A step plugs in, unplugs, takes off or refits what an earlier step has left so on every path.

## Why it matters

Somebody who is told to plug in what is plugged in already looks for another plug, or takes this one out again to be sure. Mostly
the step between was forgotten, the name is that of another plug, or two parts of a procedure were put together.

Tightening again is not told: a joint is often tightened in several passes. Nor is `disconnect` of a point that is open already:
it means, see that it is open. What a performed procedure does in between may change everything, so nothing is told behind it.

## Fails

```yaml fails procedure
steps:
  - set: {mode: off}
  - unplug: X210
  - plug: X210
  - plug: X210 # <- step 4 plugs in `X210`, which step 3 has plugged in already
```

```yaml fails procedure
steps:
  - set: {mode: off}
  - unplug: X210
  - unplug: X210 # <- step 3 unplugs `X210`, which step 2 has unplugged already
  - plug: X210
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: off}
  - unplug: X210
  - ask: Are the contacts clean?
    on: X210
    answers:
      - {answer: no, then: end}
      - {answer: yes, then: back}
  - id: back
    plug: X210
stays_off: X210
```

## Source

Common practice.
"""

from collections.abc import Iterator
from typing import NamedTuple

from ...graph.effects import Interrupted
from ...graph.graph import Graph
from ...model import actions
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault, Spot
from ._flow import flow_of, is_whole, step_name

KIND = "practice"
SEVERITY = "warning"
NEEDS_FLOW = True


class _Done(NamedTuple):
    """That a thing is in its place, or out of it, because a step has brought it there."""

    thing: str
    is_in: bool


_Known = frozenset[_Done]

#: What each action does: whether things are in their place afterwards, and the words for it.
_VERBS: dict[type, tuple[bool, str, str]] = {
    actions.Plug: (True, "plugs in", "plugged in"),
    actions.Unplug: (False, "unplugs", "unplugged"),
    actions.Refit: (True, "refits", "refitted"),
    actions.Remove: (False, "takes off", "taken off"),
}


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each thing that is surely so already, whatever variant it is that comes to the step."""
    flow = flow_of(procedure, case)
    if not is_whole(flow):
        return
    ways = [_before(variant.graph) for variant in flow]
    for step in procedure.steps:
        for number, done in enumerate(_done_by(step)):
            reached = [way[step.number] for way in ways if step.number in way]
            if reached and all(done in known for known in reached):
                yield _fault(procedure, step, number, done)


def _done_by(step: Step) -> list[_Done]:
    """What is so after a step, in the order of its names."""
    if step.action.__class__ not in _VERBS or step.broken:
        return []
    names: tuple[str, ...] = getattr(step.action, "connectors", ()) or getattr(step.action, "parts", ())
    return [_Done(name, _VERBS[step.action.__class__][0]) for name in names]


def _before(graph: Graph) -> dict[str, _Known]:
    """For each step that is reached, by its number, what is surely so when it is come to, on every path."""
    before: dict[int, _Known] = {0: frozenset()} if graph.steps else {}
    pending = list(before)
    while pending:
        index = pending.pop()
        step, known = graph.steps[index], before[index]
        for edge in graph.leaving[index]:
            if not isinstance(edge.target, int):
                continue
            is_lost = step.broken or isinstance(step.action, actions.Perform)
            is_lost |= any(isinstance(effect, Interrupted) for effect in edge.effects)
            left: _Known = frozenset() if is_lost else _after(known, step)
            there = before.get(edge.target)
            joined = left if there is None else there & left
            if joined != there:
                before[edge.target] = joined
                pending.append(edge.target)
    return {graph.steps[index].number: known for index, known in before.items()}


def _after(known: _Known, step: Step) -> _Known:
    done = _done_by(step)
    things = {one.thing for one in done}
    return frozenset(one for one in known if one.thing not in things) | frozenset(done)


def _fault(procedure: Procedure, step: Step, number: int, done: _Done) -> Fault:
    """The fault, with the last step above that did the same; where a loop leads here it may be the last of all."""
    same = [one for one in procedure.steps if done in _done_by(one)]
    place = next(index for index, one in enumerate(same) if one is step)
    first = same[place - 1]
    _, does, was = _VERBS[step.action.__class__]
    return Fault(
        (*step.at, step.action.key, number),
        f"{step_name(step)} {does} `{done.thing}`, which {step_name(first)} has {was} already",
        "on every path that leads here it is so, and nothing has changed it in between",
        f"leave `{done.thing}` out here, or write the step that was forgotten between the two",
        (Spot(procedure.file, (*first.at, first.action.key), f"{was} here", key=True),),
    )
