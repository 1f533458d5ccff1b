"""No path leads to a conclusion.

## Why it matters

A conclusion is what the work was done for. One that no step leads to promises an answer that nobody can get,
and the branch that should give it gives another one.

## Fails

```yaml fails procedure
steps:
  - ask: Is the seal dry and whole?
    answers:
      - answer: yes, dry and whole
        then: end
      - answer: no
        then: stop
conclusions:
  water: # <- no path leads to the conclusion `water`
    finding: Water is in the plug.
```

## Passes

```yaml passes procedure
steps:
  - ask: Is the seal dry and whole?
    answers:
      - answer: yes, dry and whole
        then: end
      - answer: no
        then: water
conclusions:
  water:
    finding: Water is in the plug.
```

## Source

A decision of this format; reachability in the graph of the steps.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._flow import Variant, flow_of, is_whole

KIND = "form"
SEVERITY = "error"
NEEDS_FLOW = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Every conclusion that is an end for no variant."""
    if not procedure.conclusions:
        return
    flow = flow_of(procedure, case)
    if not is_whole(flow):
        return
    reached = {end.conclusion for variant in flow for end in variant.ends}
    for name, conclusion in procedure.conclusions.items():
        if name not in reached and not conclusion.broken and not _waits_for_step(name, procedure, flow):
            help_ = f"let a step lead to it, with `then: {name}` or in its `outcomes`, or take it out"
            yield Fault(conclusion.at, f"no path leads to the conclusion `{name}`", None, help_, key=True)


def _waits_for_step(name: str, procedure: Procedure, flow: tuple[Variant, ...]) -> bool:
    """Whether a step leads to it that is itself never reached, which is reported there."""
    return any(
        not isinstance(edge.target, int) and edge.target.conclusion == name
        for variant in flow for edge in variant.graph.edges
    )  # fmt: skip
