"""A reading in a record was taken between contacts that its step does not name.

## Why it matters

A circuit is dead only where it was read. A reading at another place proves nothing of the place that was asked for, however
good it is.

## Fails

```yaml fails record
procedure: test-van/isolate
entries:
  - step: 8
    reading: 0.4 V
    between: [X7/1 cable, chassis] # <- step `8` is not read between X7/1 cable and chassis
    limits: at most 5 V
    instrument: voltage-tester
```

## Passes

```yaml passes record
procedure: test-van/isolate
entries:
  - step: 8
    reading: 0.4 V
    between: [chassis, X1/1 cable]
    limits: at most 5 V
    instrument: voltage-tester
```

## Source

The format of the files, version 1; EN 50110-1, 6.2.4 (absence of voltage is proved at the place of work; from memory).
"""

from collections.abc import Iterator

from ...model.record import Record
from ...records.readings import wanted_of
from ..case import Case
from ..fault import Fault
from ._evaluated import entries, evaluated

KIND = "form"
SEVERITY = "error"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """Every reading with contacts; in which order the two are written does not matter."""
    found = evaluated(record, case)
    for one in entries(record, case):
        if found is None or one.step is None or one.weighed is None or not one.weighed.elsewhere:
            continue
        first, second = one.entry.between or ("", "")
        pairs = [wanted.between for wanted in wanted_of(one.step, found.around) if wanted.between is not None]
        there = "; ".join(f"`[{pair[0]}, {pair[1]}]`" for pair in pairs)
        yield Fault(
            (*one.entry.at, "between"),
            f"step `{'/'.join(one.entry.step)}` is not read between {first} and {second}",
            "a reading at one place says nothing of another",
            f"the step is read between {there}",
        )
