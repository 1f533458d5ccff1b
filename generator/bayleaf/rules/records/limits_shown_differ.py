"""A record holds other limits of a reading than the procedure, although by its digest it was worked by this very text.

## Why it matters

The verdict on a reading is no better than the limits it was held against. A page shows those of the procedure; where the record
holds others, it was changed by hand, or the page must not be trusted until it is known why. A record without a digest is not
looked at.

## Fails

```yaml fails record
procedure: test-van/isolate
digest: 32cb07ee84ede7ae
entries:
  - step: 8
    reading: 0.4 V
    between: [X1/1 cable, chassis]
    instrument: voltage-tester
    verdict: dead
    limits: at most 50 V # <- this reading was held against at most 50 V, but the step says at most 5 V
```

## Passes

```yaml passes record
procedure: test-van/isolate
digest: 32cb07ee84ede7ae
entries:
  - step: 8
    reading: 0.4 V
    between: [X1/1 cable, chassis]
    instrument: voltage-tester
    verdict: dead
    limits: at most 5 V
```

## Source

A decision of this format.
"""

from collections.abc import Iterator

from ...model.record import Record
from ..case import Case
from ..fault import Fault
from ._evaluated import entries

KIND = "validity"
SEVERITY = "error"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """Every reading with limits, against those of its step. How they are written does not matter."""
    for one in entries(record, case):
        if one.weighed is None or not one.weighed.others:
            continue
        there = " or ".join(dict.fromkeys(str(limit) for limit in one.weighed.others))
        yield Fault(
            (*one.entry.at, "limits"),
            f"this reading was held against {one.entry.limits}, but the step says {there}",
            "by wrong limits a good unit is thrown out, or a bad one kept",
            "if the record was changed, put it right; if not, trust no page of this manual until it is known why",
        )
