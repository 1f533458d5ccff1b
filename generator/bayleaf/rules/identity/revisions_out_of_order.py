"""The revisions do not stand newest first.

## Why it matters

The first revision in the list is the one that counts: it is printed on the page, and job records are held
against it.

## Fails

```yaml fails procedure
revisions:
  - {number: 1, date: 2026-09-30, why: First version}
  - {number: 2, date: 2026-10-01, why: Second test point added}  # <- revision 2 stands below revision 1
```

```yaml fails procedure
revisions:
  - {number: 2, date: 2026-09-30, why: Second test point added}
  - {number: 1, date: 2026-10-01, why: First version}  # <- revision 1 has a later date than revision 2
```

## Passes

```yaml passes procedure
revisions:
  - {number: 2, date: 2026-10-01, why: Second test point added}
  - {number: 1, date: 2026-09-30, why: First version}
```

## Source

The format of the files, version 1.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault, Spot
from ._dates import is_in_future

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Neighbours in the list. A list that is upside down is one mistake: only its first pair is reported."""
    revisions = procedure.revisions
    for newer, older in zip(revisions, revisions[1:], strict=False):
        if newer.number is None or older.number is None or newer.number == older.number:
            continue
        if newer.number < older.number:
            yield Fault(
                (*older.at, "number"),
                f"revision {older.number} stands below revision {newer.number}",
                "the first one in the list is taken for the newest",
                "put the newest first",
                see=(Spot(procedure.file, (*newer.at, "number"), f"revision {newer.number}"),),
            )
            return
        if (
            newer.date is not None
            and older.date is not None
            and newer.date < older.date
            and not is_in_future(older.date, case)
        ):
            yield Fault(
                (*older.at, "date"),
                f"revision {older.number} has a later date than revision {newer.number}",
                help="look which of the two dates is wrong, or put the newest first",
                see=(Spot(procedure.file, (*newer.at, "date"), f"the date of revision {newer.number}"),),
            )
            return
