"""Two revisions have the same number.

## Why it matters

A record says by which revision a job was done. With two of the same number nobody can tell which steps
were followed.

## Fails

```yaml fails procedure
revisions:
  - {number: 2, date: 2026-10-01, why: Second test point added}
  - {number: 2, date: 2026-09-30, why: First version}  # <- there are two revisions 2
```

## Passes

```yaml passes procedure
revisions:
  - {number: 2, date: 2026-10-01, why: Second test point added}
  - {number: 1, date: 2026-09-30, why: First version}
```

## Source

The format of the files, version 1. That instructions carry an unmistakable version: IEC/IEEE
82079-1:2019, from memory.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault, Spot

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The numbers of the revisions; the upper of two is the newer one and keeps its number."""
    first: dict[int, tuple[str | int, ...]] = {}
    for revision in procedure.revisions:
        if revision.number is None:
            continue
        before = first.setdefault(revision.number, revision.at)
        if before != revision.at:
            yield Fault(
                (*revision.at, "number"),
                f"there are two revisions {revision.number}",
                help="count on: the newest stands first and has the highest number",
                see=(Spot(procedure.file, (*before, "number"), f"the other revision {revision.number}"),),
            )
