"""What follows one result is written twice.

## Why it matters

Two ways on from one result, and nobody can tell which one holds.

## Fails

```yaml fails procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: at least 11.5 V
    source: workshop practice
    then: end # <- `then` says again what follows `within`
    outcomes:
      within: next
```

```yaml fails procedure
steps:
  - ask: Is the seal dry and whole?
    answers:
      - answer: yes
        then: next
      - answer: no
        then: stop
      - answer: yes # <- the answer `yes` is there twice
        then: end
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
      within: next
      below: stop
```

## Source

A decision of this format: `then` is what follows when all is well.
"""

from collections.abc import Iterator

from ...diagnostics.place import Path
from ...graph.exits import GOES_ON
from ...model import actions
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault, Spot

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """`then` beside what it stands for, and answers with the same words."""
    told: set[Path] = set()
    for step in procedure.steps:
        asks = step.action.__class__ is actions.Ask
        if not (asks or step.then is not None and step.outcomes) or step.broken or step.at in told:
            continue
        told.add(step.at)
        if asks:
            yield from _answers(step, procedure)
        else:
            yield from _then(step, procedure)


def _then(step: Step, procedure: Procedure) -> Iterator[Fault]:
    for exit, _ in step.outcomes:
        if exit in GOES_ON:
            see = (Spot(procedure.file, (*step.at, "outcomes", exit), f"what follows `{exit}`", key=True),)
            help_ = f"keep one: take out `then`, or `{exit}` in `outcomes`"
            yield Fault((*step.at, "then"), f"`then` says again what follows `{exit}`", None, help_, see, key=True)


def _answers(step: Step, procedure: Procedure) -> Iterator[Fault]:
    assert isinstance(step.action, actions.Ask)
    if step.then is not None:
        help_ = "take it out: each answer has its own `then`"
        yield Fault((*step.at, "then"), "`then` says again what the answers say", None, help_, key=True)
    answers = step.action.answers
    if len({answer.text.casefold() for answer in answers}) == len(answers):
        return
    first: dict[str, Path] = {}
    for answer in answers:
        words = answer.text.casefold()
        if words in first:
            see = (Spot(procedure.file, first[words], "the first one"),)
            help_ = "take one of the two out, or say how they differ"
            yield Fault((*answer.at, "answer"), f"the answer `{answer.text}` is there twice", None, help_, see)
        elif words:
            first[words] = (*answer.at, "answer")
