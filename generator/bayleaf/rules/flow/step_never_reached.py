"""No path leads to a step.

## Why it matters

A step that nobody comes to is not done. Either a branch that should lead here leads elsewhere, or the step
is left over from an older version and would mislead whoever reads the whole page.

## Fails

```yaml fails procedure
steps:
  - do: Look at the display.
    on: nothing
    then: end
  - do: Look at the fuse box. # <- no path leads to step 2
    on: nothing
```

```yaml fails procedure
steps:
  - ask: Is the seal dry and whole?
    answers:
      - answer: yes, dry and whole
        then: end
      - answer: no
        then: water
  - id: clean
    do: Clean the seal. # <- no path leads to step 2 (`clean`)
    on: nothing
  - do: Look at the seal again.
    on: nothing
conclusions:
  water:
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
        then: clean
  - id: clean
    do: Clean the seal.
    on: nothing
```

## Source

A decision of this format; reachability in the graph of the steps, for every variant of the vehicle.
"""

from collections.abc import Iterator

from ...diagnostics.place import Path
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault, Spot
from ._flow import flow_of, is_whole, step_name

KIND = "form"
SEVERITY = "error"
NEEDS_FLOW = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The first step of each run that is reached for no variant."""
    flow = flow_of(procedure, case)
    if not is_whole(flow) or any(variant.stuck for variant in flow):
        return  # what stands behind a loop without a way out is not reached for that reason
    if len(flow) == 1 and len(flow[0].reached) == len(procedure.steps):
        return
    reached = {variant.graph.steps[index].number for variant in flow for index in variant.reached}
    above: Step | None = None
    told: set[Path] = set()
    for step in procedure.steps:
        if step.number not in reached and (above is None or above.number in reached) and step.at not in told:
            told.add(step.at)
            help_ = "lead a path here, or take out this step and what only follows from it"
            yield Fault((*step.at, step.action.key), _message(step), None, help_, _jumps_over(above, procedure, case))
        above = step


def _message(step: Step) -> str:
    for_whom = f"; it is only for {', '.join(f'`{name}`' for name in step.only_for)}" if step.only_for else ""
    return f"no path leads to {step_name(step)}{for_whom}"


def _jumps_over(above: Step | None, procedure: Procedure, case: Case) -> tuple[Spot, ...]:
    """Where the step above goes on instead."""
    if above is None or case.graph is None:
        return ()
    index = next(index for index, step in enumerate(case.graph.steps) if step is above)
    edges = [edge for edge in case.graph.leaving[index] if edge.at is not None]
    return tuple(
        Spot(procedure.file, edge.at, f"{step_name(above)} goes on here instead")
        for edge in edges
        if edge.at is not None
    )
