"""What follows a result is not said.

## Why it matters

After a question, the next step is right for one answer at most. After a procedure that can come back with
several conclusions, each of them needs its own way on: whoever finds that nothing can be made dead must not
just go on to the next line.

## Fails

```yaml fails procedure
steps:
  - ask: Is the seal dry and whole?
    answers:
      - answer: yes, dry and whole
        then: next
      - answer: no # <- the answer `no` does not say what follows
```

A procedure that is performed and can come back by a conclusion for which nothing is written is shown file by
file in the tests.

## Passes

```yaml passes procedure
steps:
  - ask: Is the seal dry and whole?
    answers:
      - answer: yes, dry and whole
        then: next
      - answer: no
        then: stop
```

## Source

A decision of this format. Of a measurement, `within` goes on and every other exit stops unless it is written.
"""

from collections.abc import Iterator

from ...loading.shape_words import nearest
from ...model import actions
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault, Spot

KIND = "form"
SEVERITY = "error"
STEPS = (actions.Ask, actions.Perform)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Answers without `then`, and conclusions that a performed procedure comes back by."""
    if isinstance(step.action, actions.Ask):
        for answer in step.action.answers:
            if answer.then is None and answer.text:
                help_ = "add `then: …`: next, stop, end, the id of a step, or the name of a conclusion"
                message = f"the answer `{answer.text}` does not say what follows"
                yield Fault((*answer.at, "answer"), message, None, help_)
    elif isinstance(step.action, actions.Perform):
        yield from _not_taken_up(step, step.action.procedure, case)


def _not_taken_up(step: Step, name: str, case: Case) -> Iterator[Fault]:
    """One fault for all conclusions of a callee for which nothing is written."""
    callee = case.facts.get(name)
    if callee is None or not callee.readable:
        return
    written = dict(step.outcomes)
    unknown = [exit for exit in written if exit not in ("end", *callee.conclusions)]
    misspelt = {nearest(exit, callee.returns) for exit in unknown}  # told as an exit that is not possible
    missing = [end for end in callee.returns if end not in written and end not in misspelt]
    if missing:
        ends = " and ".join(f"`{end}`" for end in missing)
        lines = ", ".join(f"`{end}: …`" for end in missing)
        yield Fault(
            (*step.at, "perform"),
            f"`{name}` can come back by {ends}, and this step does not say what follows",
            "each conclusion by which a performed procedure comes back needs its own way on",
            f"add to `outcomes`: {lines}",
            tuple(Spot(callee.file, ("conclusions", end), f"the conclusion `{end}`", key=True) for end in missing),
        )
