"""A reading in a record is of another quantity than its limits.

## Why it matters

Volts cannot be held against ohms. Either the reading belongs to another step, or the unit is wrong; nothing can be said of
it.

## Fails

```yaml fails record
procedure: test-van/isolate
entries:
  - step: 8
    reading: 0.4 Ω # <- 0.4 Ω is a resistance, but the limits are of a voltage: at most 5 V
    between: [X1/1 cable, chassis]
    limits: at most 5 V
    instrument: voltage-tester
```

## Passes

```yaml passes record
procedure: test-van/isolate
entries:
  - step: 8
    reading: 0.4 V
    between: [X1/1 cable, chassis]
    limits: at most 5 V
    instrument: voltage-tester
```

## Source

The format of the files, version 1.
"""

from collections.abc import Iterator

from ...model.record import Record
from ...quantities.quantity import article
from ..case import Case
from ..fault import Fault
from ._evaluated import entries

KIND = "form"
SEVERITY = "error"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """Every reading with limits; where the record holds none, against what the step reads."""
    for one in entries(record, case):
        found = one.weighed
        if found is None or found.strange is None:
            continue
        was, asked = (article(name) for name in found.strange)
        rest = f"the limits are of {asked}: {found.limit}" if found.limit is not None else f"the step reads {asked}"
        yield Fault(
            (*one.entry.at, "reading"),
            f"{one.entry.reading} is {was}, but {rest}",
            help="put the unit right, or write the step that the reading belongs to",
        )
