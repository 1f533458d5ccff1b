"""A step may be repeated, but nothing comes back to it.

## Why it matters

`repeat` bounds a loop. Without one, the way back that the author had in mind is missing.

## Fails

```yaml fails procedure
steps:
  - do: Clean the seal.
    on: nothing
    repeat: at most 2 # <- step 1 may be repeated, but nothing comes back to it
```

## Passes

```yaml passes procedure
steps:
  - id: clean
    do: Clean the seal.
    on: nothing
    repeat: at most 2
  - ask: Is the seal dry and whole?
    answers:
      - answer: yes, dry and whole
        then: end
      - answer: no
        then: clean
```

## Source

A decision of this format: `repeat` stands on the step to which the loop returns.
"""

from collections.abc import Iterator

from ...graph.reach import round_through
from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._flow import flow_of, is_whole, step_name

KIND = "practice"
SEVERITY = "warning"
NEEDS_FLOW = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Every `repeat` on a step that cannot come round again for any variant."""
    bounded = [step for step in procedure.steps if step.repeat is not None and not step.broken]
    if not bounded:
        return
    flow = flow_of(procedure, case)
    if not is_whole(flow):
        return
    round_again = {
        step.at
        for variant in flow for index, step in enumerate(variant.graph.steps)
        if step.repeat is not None and round_through(variant.graph, index)
    }  # fmt: skip
    for step in {step.at: step for step in bounded if step.at not in round_again}.values():
        help_ = "lead back to this step where the work is to be done again, or take `repeat` out"
        message = f"{step_name(step)} may be repeated, but nothing comes back to it"
        yield Fault((*step.at, "repeat"), message, None, help_, key=True)
