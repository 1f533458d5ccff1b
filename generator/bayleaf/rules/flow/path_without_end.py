"""Steps go round with no way out.

## Why it matters

Whoever follows them never finishes, and no conclusion is ever drawn.

## Fails

```yaml fails procedure
steps:
  - id: lamp
    do: Look whether the lamp is lit. # <- there is no way out from step 1 (`lamp`) on: 1 → 2 → 1
    on: nothing
  - do: Switch the lamp on.
    on: nothing
    then: lamp
```

## Passes

```yaml passes procedure
steps:
  - id: lamp
    ask: Is the lamp lit?
    repeat: at most 2
    answers:
      - answer: yes
        then: end
      - answer: no
        then: next
  - do: Switch the lamp on.
    on: nothing
    then: lamp
```

## Source

A decision of this format: from every step an end or a stop can be reached.
"""

from collections.abc import Iterator

from ...graph.reach import loops_within
from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault, Spot
from ._flow import flow_of, is_whole, step_name

KIND = "form"
SEVERITY = "error"
NEEDS_FLOW = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Every loop that nothing leaves, once, at its first step."""
    flow = flow_of(procedure, case)
    if not is_whole(flow):
        return
    told: set[str] = set()
    for variant in flow:
        if not variant.stuck:
            continue
        steps = variant.graph.steps
        for loop in loops_within(variant.graph, variant.stuck):
            first = steps[loop[0]]
            if first.number not in told:
                told.add(first.number)
                way = " → ".join(steps[index].number for index in (*loop, loop[0]))
                last = next(edge for edge in variant.graph.leaving[loop[-1]] if edge.target == loop[0])
                see = (Spot(procedure.file, last.at, "here it goes back"),) if last.at is not None else ()
                yield Fault(
                    (*first.at, first.action.key),
                    f"there is no way out from {step_name(first)} on: {way}",
                    None,
                    "let a step of the loop end it, or bound it with `repeat: at most 2` at its first step",
                    see,
                    data={"loop": [steps[index].number for index in loop]},
                )
