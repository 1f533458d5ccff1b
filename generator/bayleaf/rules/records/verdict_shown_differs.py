"""A record holds another verdict on a reading than the limits and the instrument give.

## Why it matters

By the verdict that was shown somebody decided to go on or to stop. If it was wrong, so may be what was done after it. Either
the file was written by hand, or the page and the checker do not agree: then the page must not be trusted until it is known
why.

## Fails

```yaml fails record
procedure: test-van/isolate
entries:
  - step: 8
    reading: 4.8 V
    between: [X1/1 cable, chassis]
    limits: at most 5 V
    instrument: voltage-tester
    verdict: dead # <- `dead` was shown for 4.8 V, but it is not decided: at most 5 V, and the reading may be wrong by 0.4 V
```

## Passes

```yaml passes record
procedure: test-van/isolate
entries:
  - step: 8
    reading: 4.8 V
    between: [X1/1 cable, chassis]
    limits: at most 5 V
    instrument: voltage-tester
    verdict: not decided
```

## Source

The verdict on a reading, JCGM 106:2012 (guarded acceptance); the error is that of the workshop file.
"""

from collections.abc import Iterator

from ...model.record import Record
from ...records.words import width
from ..case import Case
from ..fault import Fault
from ._evaluated import entries

KIND = "validity"
SEVERITY = "error"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """Every reading with a verdict, against the limits in the record."""
    for one in entries(record, case):
        found = one.weighed
        if found is None or not found.differs:
            continue
        shown = one.entry.reading or "no reading"
        may_be = ""
        if one.entry.reading is not None and found.error:
            may_be = f", and the reading may be wrong by {width(found.error, one.entry.reading)}"
        yield Fault(
            (*one.entry.at, "verdict"),
            f"`{found.shown}` was shown for {shown}, but it is {found.verdict}: {found.limit}{may_be}",
            "by the verdict somebody went on or stopped",
            "look at reading, limits and instrument in the record; if they are right, read again before the vehicle is used",
        )
