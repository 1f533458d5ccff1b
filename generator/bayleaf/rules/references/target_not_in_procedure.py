"""Something leads to a step or conclusion that the procedure does not have.

## Why it matters

A branch that leads nowhere is found out at the vehicle, by somebody who has just read a value out of
limits and wants to know what to do.

## Fails

```yaml fails procedure
steps:
  - ask: Is the seal dry and whole?
    answers:
      - answer: yes, dry and whole
        then: next
      - answer: no
        then: water-in-plugg  # <- the procedure has no step or conclusion `water-in-plugg`
conclusions:
  water-in-plug:
    finding: Water is in the plug.
```

```yaml fails procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    then: 3  # <- the procedure has no step or conclusion `3`
```

## Passes

```yaml passes procedure
steps:
  - ask: Is the seal dry and whole?
    answers:
      - answer: yes, dry and whole
        then: next
      - answer: no
        then: water-in-plug
conclusions:
  water-in-plug:
    finding: Water is in the plug.
```

## Source

The format of the files, version 1: what follows is `next`, `stop`, `end`, the `id` of a step, or a
conclusion.
"""

from collections.abc import Iterator

from ...diagnostics.place import Path
from ...loading.shape_words import nearest
from ...model import actions
from ...model.procedure import RESERVED_TARGETS, Procedure, Step
from ..case import Case
from ..fault import Fault
from ..once import once
from ._hidden import hides_ids

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Every target that is written, in `then`, `outcomes`, `answers` and `exhausted`."""
    return once(_unknown(procedure, case), procedure.file)


def _unknown(procedure: Procedure, case: Case) -> Iterator[Fault]:
    ids = {step.id for step in procedure.steps if step.id is not None}
    known = ids | procedure.conclusions.keys() | RESERVED_TARGETS
    for step in procedure.steps:
        if not known.issuperset(_targets(step)) and not step.broken and not hides_ids(procedure):
            for target, at in _places(step):
                if target not in known:
                    message = f"the procedure has no step or conclusion `{target}`"
                    yield Fault(at, message, help=_help(target, ids, procedure, case))


def _targets(step: Step) -> list[str]:
    """What a step leads to, as written. Asked for every step of a manual, so the places come later."""
    found = [target for _, target in step.outcomes] if step.outcomes else []
    if step.then is not None:
        found.append(step.then)
    if step.exhausted is not None:
        found.append(step.exhausted)
    if step.action.__class__ is actions.Ask:
        found += [answer.then for answer in step.action.answers if answer.then is not None]
    return found


def _places(step: Step) -> Iterator[tuple[str, Path]]:
    """The same with where each stands."""
    for exit, target in step.outcomes:
        yield target, (*step.at, "outcomes", exit)
    if step.then is not None:
        yield step.then, (*step.at, "then")
    if step.exhausted is not None:
        yield step.exhausted, (*step.at, "exhausted")
    if isinstance(step.action, actions.Ask):
        for answer in step.action.answers:
            if answer.then is not None:
                yield answer.then, (*answer.at, "then")


def _help(target: str, ids: set[str], procedure: Procedure, case: Case) -> str:
    places = [known for known in ids if known.startswith(f"{target}@")]
    if places:
        return f"the step stands in a group, once for each place: {', '.join(f'`{id}`' for id in sorted(places))}"
    if target in case.facts:
        return "another procedure is done with a step of its own: `perform: …`"
    if any(step.number == target for step in procedure.steps):
        return "give the step an `id` and write that: numbers change when a step is put in"
    meant = nearest(target.replace(" ", "-"), sorted({*ids, *procedure.conclusions, *RESERVED_TARGETS}))
    if meant:
        noun = "step" if meant in ids else "conclusion" if meant in procedure.conclusions else "word"
        return f"did you mean the {noun} `{meant}`?"
    return f"give the step that is meant `id: {target}`, or add `{target}` under `conclusions`"
