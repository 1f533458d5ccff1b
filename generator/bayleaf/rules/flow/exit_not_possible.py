"""A result is named that cannot come out.

## Why it matters

A limit open to below has no `below`; a procedure that ends in quarantine never comes back. What is written
for such a result is never done, and mostly the result that was meant has no way on.

## Fails

```yaml fails procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: at least 11.5 V
    source: workshop practice
    outcomes:
      above: stop # <- `above` cannot come out: `at least 11.5 V` has no upper limit
```

```yaml fails procedure
steps:
  - read: State of charge
    from: Display
    outcomes:
      below: stop # <- `below` cannot come out: this step has no limits
```

```yaml fails procedure
steps:
  - read: State of charge
    quantity: ratio
    from: Display
    limits: at least 20 %
    source: workshop practice
    outcomes:
      dead: stop # <- `dead` is no exit of `read`
```

## Passes

```yaml passes procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: at least 11.5 V
    source: workshop practice
    outcomes:
      below: stop
```

## Source

A decision of this format: the exits are `within`, `below`, `above`, `not_decided`, or `dead`, `not_dead`,
`not_decided`, or `end` and the conclusions by which a procedure comes back.
"""

from collections.abc import Iterator

from ...graph.exits import exits_of
from ...loading.shape_words import nearest
from ...model import actions
from ...model.procedure import NEXT, Procedure, Step
from ..case import Case
from ..fault import Fault, Spot

KIND = "form"
SEVERITY = "error"
STEPS = (
    actions.Measure, actions.Read, actions.ProveSafe, actions.Compute, actions.Discharge, actions.Perform,
)  # fmt: skip


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Every exit in `outcomes` that the step does not have."""
    if not step.outcomes:
        return
    if isinstance(step.action, actions.Perform):
        yield from _of_procedure(step, step.action.procedure, case)
        return
    possible = exits_of(step)
    impossible = [exit for exit, _ in step.outcomes if exit not in possible]
    if not impossible:
        return
    if possible == (NEXT,):
        help_ = "add `limits: …`, or take `outcomes` out: without limits nothing is decided here"
        message = f"`{impossible[0]}` cannot come out: this step has no limits"
        yield Fault((*step.at, "outcomes", impossible[0]), message, None, help_, key=True)
        return
    for exit in impossible:
        yield _of_limit(step, exit, possible)


def _of_limit(step: Step, exit: str, possible: tuple[str, ...]) -> Fault:
    side = {"below": "lower", "above": "upper"}.get(exit)
    limit = getattr(step.action, "limit", None)
    message = f"`{exit}` cannot come out: `{limit}` has no {side} limit"
    other = {"below": "above", "above": "below"}.get(exit)
    written = dict(step.outcomes)
    help_ = f"take it out, or give the limits {'a' if side == 'lower' else 'an'} {side} end"
    if other in possible and other not in written:
        help_ = f"did you mean `{other}`?"
    return Fault((*step.at, "outcomes", exit), message, None, help_, key=True)


def _of_procedure(step: Step, name: str, case: Case) -> Iterator[Fault]:
    callee = case.facts.get(name)
    if callee is None or not callee.readable:
        return
    for exit, _ in step.outcomes:
        if exit in ("end", *callee.returns):
            continue
        at = (*step.at, "outcomes", exit)
        if exit in callee.conclusions:
            see = (Spot(callee.file, ("conclusions", exit), f"`{exit}` ends in stop", key=True),)
            because = "nobody goes on after a stop, so the procedure that performs it does not go on either"
            yield Fault(at, f"`{name}` never comes back by `{exit}`, which stops", because, "take it out", see, True)
        else:
            exits = ", ".join(f"`{known}`" for known in ("end", *callee.returns))
            meant = nearest(exit, callee.returns)
            help_ = f"did you mean `{meant}`?" if meant else f"it comes back by: {exits}"
            yield Fault(at, f"`{name}` has no conclusion `{exit}`", None, help_, key=True)
