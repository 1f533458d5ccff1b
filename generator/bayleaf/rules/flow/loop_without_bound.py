"""A loop has no bound.

## Why it matters

"Again until it is right" leaves open when to give up. A third attempt rarely finds what two have not, and the
hours are booked on a job that should have taken another turn.

## Fails

```yaml fails procedure
steps:
  - id: clean
    do: Clean the seal.
    on: nothing
  - ask: Is the seal dry and whole?
    answers:
      - answer: yes, dry and whole
        then: end
      - answer: no
        then: clean # <- nothing bounds how often this goes back to step 1 (`clean`)
```

## Passes

```yaml passes procedure
steps:
  - id: clean
    do: Clean the seal.
    on: nothing
    repeat: at most 2
    exhausted: stop
  - ask: Is the seal dry and whole?
    answers:
      - answer: yes, dry and whole
        then: end
      - answer: no
        then: clean
```

## Source

Common practice.
"""

from collections.abc import Iterator

from ...diagnostics.place import Path
from ...graph.graph import Edge
from ...graph.reach import reached_without_bound
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault, Spot
from ._flow import Variant, flow_of, jumps_back, step_name

KIND = "practice"
SEVERITY = "warning"
NEEDS_FLOW = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Every step that a loop returns to without `repeat`, at the first way back."""
    back: dict[Path, list[tuple[Edge, Step]]] = {}
    for variant in flow_of(procedure, case):
        for edge in jumps_back(variant.graph):
            target = variant.graph.steps[edge.target]  # type: ignore[index]
            if target.repeat is None and edge.target not in variant.stuck and _returns(variant, edge):
                back.setdefault(target.at, []).append((edge, target))
    for ways in back.values():
        first, target = ways[0]
        others = dict.fromkeys(edge.at for edge, _ in ways if edge.at != first.at)
        see = [Spot(procedure.file, (*target.at, target.action.key), "the step that it goes back to", key=True)]
        see += [Spot(procedure.file, at, "from here too") for at in others if at is not None]
        yield Fault(
            first.at or target.at,
            f"nothing bounds how often this goes back to {step_name(target)}",
            "a loop that is gone through again and again finds nothing new",
            f"write `repeat: at most 2` at step {target.number}, and `exhausted: …` for what follows then",
            tuple(see),
        )


def _returns(variant: Variant, edge: Edge) -> bool:
    """Whether it is a loop without a bound anywhere in it: a path from the step above comes to this one again."""
    assert isinstance(edge.target, int)
    source_is_bounded = variant.graph.steps[edge.source].repeat is not None
    return not source_is_bounded and edge.source in reached_without_bound(variant.graph, edge.target)
