"""A procedure lists a trouble code twice.

## Why it matters

One of the two was probably meant to be another code, and under that one the procedure is not found.

## Fails

```yaml fails procedure
trouble_codes: [P0AA6, P0A0D, P0AA6]  # <- `P0AA6` stands twice in `trouble_codes`
```

## Passes

```yaml passes procedure
trouble_codes: [P0AA6, P0A0D, P0AA6-1B]
```

## Source

The format of the files, version 1. A code with a failure type is another code than the one without.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault, Spot

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The list of codes that the procedure is for."""
    first: dict[str, int] = {}
    for index, code in enumerate(procedure.trouble_codes):
        before = first.setdefault(code, index)
        if before != index:
            yield Fault(
                ("trouble_codes", index),
                f"`{code}` stands twice in `trouble_codes`",
                help="take one out, or write the code that was meant",
                see=(Spot(procedure.file, ("trouble_codes", before), "the first time"),),
            )
