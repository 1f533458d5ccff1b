"""A barred exit was opened, and nobody wrote why.

## Why it matters

An exit that the reading does not lead to is barred, because behind it something else is taken for granted. There may be a
good reason to take it. Who comes after can only judge that if it is written.

## Fails

```yaml fails record
procedure: test-van/isolate
entries:
  - step: 8
    exit: not_dead # <- the exit `not_dead` was opened at step `8` without a reason
```

## Passes

```yaml passes record
procedure: test-van/isolate
entries:
  - step: 8
    exit: not_dead
    reason: The tester failed its second check on the proving unit
```

## Source

The format of the files, version 1; common practice: who departs from a procedure says why.
"""

from collections.abc import Iterator

from ...model.record import Record
from ..case import Case
from ..fault import Fault
from ._evaluated import entries, evaluated

KIND = "validity"
SEVERITY = "error"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """Every exit that the verdict does not take; in a record of another revision, every exit."""
    found = evaluated(record, case)
    for one in entries(record, case):
        opened = one.barred or (one.entry.exit is not None and found is not None and not found.around.agrees)
        if opened and one.entry.reason is None:
            yield Fault(
                (*one.entry.at, "exit"),
                f"the exit `{one.entry.exit}` was opened at step `{'/'.join(one.entry.step)}` without a reason",
                "the result of the step does not lead there",
                "write `reason:` with the words of the person who opened it",
            )
