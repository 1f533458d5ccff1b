"""A record holds an answer, or an exit, that its step does not have.

## Why it matters

What followed was decided by the answer. One that the procedure does not know leads nowhere, and is counted nowhere.

A record of another revision is left alone: the answer may have been there then.

## Fails

The procedure and the record, shown file by file:

```yaml fails beside procedure
steps:
  - id: look
    ask: Is the plug dry?
    on: X210
    answers:
      - {answer: yes it is, then: next}
      - {answer: no it is not, then: stop}
```

```yaml fails beside record
entries:
  - {step: look, answer: dry} # <- step `look` has no answer `dry`
```

## Passes

```yaml passes beside procedure
steps:
  - id: look
    ask: Is the plug dry?
    on: X210
    answers:
      - {answer: yes it is, then: next}
      - {answer: no it is not, then: stop}
```

```yaml passes beside record
entries:
  - {step: look, answer: yes it is}
```

## Source

The format of the files, version 1: an answer stands in the words of the procedure.
"""

from collections.abc import Iterator

from ...loading.shape_words import nearest
from ...model import actions
from ...model.record import Record
from ..case import Case
from ..fault import Fault, Spot
from ._evaluated import entries

KIND = "form"
SEVERITY = "error"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """Every answer and every exit."""
    for one in entries(record, case):
        if one.not_there is None or one.step is None:
            continue
        key = "exit" if one.entry.exit is not None else "answer"
        is_asked = key == "exit" or isinstance(one.step.step.action, actions.Ask)
        names = [name for name, _ in one.step.exits if name != "exhausted"] if is_asked else []
        meant = nearest(one.not_there, names)
        there = "; ".join(f"`{name}`" for name in names)
        listed = f"its {key}s are: {there}" if names else "the step asks no question; write `done: yes`, or its reading"
        yield Fault(
            (*one.entry.at, key),
            f"step `{'/'.join(one.entry.step)}` has no {key} `{one.not_there}`",
            help=f"did you mean `{meant}`?" if meant else listed,
            see=(Spot(one.step.procedure.file, one.step.step.at, f"the step `{one.step.path}`"),),
        )
