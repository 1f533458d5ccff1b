"""A record names a revision that was not written yet when the job began.

## Why it matters

A record says by which text somebody worked. With a revision that came later it says that readings were taken by limits and in an
order that nobody had; whoever writes the next procedure from it relies on that.

## Fails

The procedure and the record, shown file by file:

```yaml fails beside procedure
revisions:
  - {number: 2, date: 2026-10-07, why: The lamp is looked at too}
  - {number: 1, date: 2026-09-30, why: First version}
```

```yaml fails beside record
revision: 2 # <- the job began on 2026-10-05, and revision 2 is of 2026-10-07
started: 2026-10-05 08:15
```

## Passes

```yaml passes beside procedure
revisions:
  - {number: 2, date: 2026-10-05, why: The lamp is looked at too}
  - {number: 1, date: 2026-09-30, why: First version}
```

```yaml passes beside record
revision: 2
started: 2026-10-05 08:15
```

## Source

A decision of this format.
"""

from collections.abc import Iterator
from datetime import date

from ...model.record import Record
from ..case import Case
from ..fault import Fault
from ._evaluated import evaluated

KIND = "validity"
SEVERITY = "warning"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """The day on which a job began, against that of its revision. On the same day either may have been first."""
    found = evaluated(record, case)
    if found is None or found.around.procedure is None:
        return
    begun = _day(record.started)
    for one in found.around.procedure.revisions:
        if one.number == record.revision and one.date is not None and begun is not None and begun < one.date:
            yield Fault(
                ("revision",),
                f"the job began on {begun}, and revision {one.number} is of {one.date}",
                "nobody can have worked by a text that was not written yet",
                "write the revision that was on the page, or put the dates right",
            )


def _day(started: str | None) -> date | None:
    try:
        return date.fromisoformat((started or "")[:10])
    except ValueError:  # told by a rule of its own
        return None
