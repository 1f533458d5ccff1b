"""A record ends with a conclusion that its last step does not lead to.

## Why it matters

By the conclusion the part is ordered and the next procedure is chosen. One that the readings do not lead to replaces a sound
part.

A record that does not come to an end is left alone, and one of another revision.

## Fails

```yaml fails record
procedure: test-van/isolate
entries:
  - step: 8
    exit: dead
    reason: Proved with the second tester
conclusion: failed # <- the last step does not lead to `failed`, but to the plain end of the procedure
```

## Passes

```yaml passes record
procedure: test-van/isolate
entries:
  - step: 8
    exit: not_dead
    reason: The tester failed its second check on the proving unit
conclusion: failed
```

## Source

The format of the files, version 1.
"""

from collections.abc import Iterator

from ...model.record import Record
from ..case import Case
from ..fault import Fault
from ._evaluated import evaluated

KIND = "validity"
SEVERITY = "error"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """The conclusion, where the entries come to an end; that it exists at all is asked by another rule."""
    found = evaluated(record, case)
    end = found.way.end if found is not None else None
    if found is None or end is None or record.conclusion in (None, end.conclusion) or found.way.following:
        return
    if found.around.procedure is None or record.conclusion not in found.around.procedure.conclusions:
        return
    to = f"`{end.conclusion}`" if end.conclusion else "a stop" if end.stops else "the plain end of the procedure"
    yield Fault(
        ("conclusion",),
        f"the last step does not lead to `{record.conclusion}`, but to {to}",
        "by the conclusion parts are ordered and the next procedure is chosen",
        f"write `conclusion: {end.conclusion}`"
        if end.conclusion
        else "take the line away, or write the entries that lead there",
    )
