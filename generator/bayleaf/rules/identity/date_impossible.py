"""A date is none.

## Why it matters

Intervals are counted from dates: of calibrations, of tests of gloves. From a day that no calendar has,
nothing can be counted.

## Fails

```yaml fails procedure
revisions:
  - {number: 1, date: 2026-02-30, why: First version}  # <- `2026-02-30` is no date
```

```yaml fails record
started: 2026-09-31 08:15  # <- `2026-09-31 08:15` is no date
```

## Passes

```yaml passes procedure
revisions:
  - {number: 1, date: 2024-02-29, why: First version}
```

## Source

ISO 8601, calendar dates: year, month, day, with hyphens.
"""

from collections.abc import Iterator
from datetime import datetime

from ...diagnostics.place import Path
from ...model.record import Record
from ..case import Case
from ..fault import Fault

KIND = "form"
SEVERITY = "error"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """Times of a record, which are kept as they are written. All other dates are read, and told of, in loading."""
    yield from _check(record.started, ("started",))
    for entry in record.entries:
        yield from _check(entry.time, (*entry.at, "at"))


def _check(text: str | None, at: Path) -> Iterator[Fault]:
    if text is None:
        return
    try:
        datetime.fromisoformat(text)
    except ValueError:
        because = "no calendar has this day, or no clock this time"
        yield Fault(at, f"`{text}` is no date", because, "write day and time as in 2026-09-30 08:15")
