"""A record holds a vehicle identification number, and the workshop has not allowed that.

## Why it matters

With the number of the vehicle a record tells who was where and when: it is data about a person. Records are kept, copied
and shown with the manual, so whether they may hold it is decided once, for the workshop. A depot that works on its own
vehicles alone has a reason to allow it; a workshop with customers has none.

## Fails

```yaml fails record
vin: ABCDEFGH123456789 # <- the workshop has not allowed vehicle identification numbers in records
entries:
  - {step: 1, done: yes}
```

## Passes

Shown file by file in the tests: the same record with `policy: {allow_vin: yes}` in the workshop file.

```yaml passes record
entries:
  - {step: 1, done: yes}
```

## Source

Regulation (EU) 2016/679, article 4 (1): what leads to a person is personal data; ISO 3779 for the number (both from
memory).
"""

from collections.abc import Iterator

from ...model.record import Record
from ..case import Case
from ..fault import Fault

KIND = "practice"
SEVERITY = "error"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """Only where the policy can be read; a workshop without one has not allowed it."""
    if record.vin is None or case.workshop is None or case.workshop.broken or case.workshop.policy.allow_vin:
        return
    yield Fault(
        ("vin",),
        "the workshop has not allowed vehicle identification numbers in records",
        "the number leads to a person, and records are kept and shown",
        "take the line away; or, where they are wanted, write `policy: {allow_vin: yes}` in the workshop file",
    )
