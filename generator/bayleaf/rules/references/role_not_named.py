"""A step is done by a role that the procedure does not name.

## Why it matters

Where two people work, each must know which steps are theirs. A role that is not explained at the
beginning leaves it to chance who feels meant.

## Fails

```yaml fails procedure
roles:
  second-person: Watches, and can call for help
steps:
  - do: Watch the display.
    on: nothing
    by: second-persn  # <- the procedure names no role `second-persn`
```

## Passes

```yaml passes procedure
roles:
  second-person: Watches, and can call for help
steps:
  - do: Watch the display.
    on: nothing
    by: second-person
```

## Source

The format of the files, version 1: roles are named under `roles` of the procedure.
"""

from collections.abc import Iterator

from ...loading.shape_words import nearest
from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ..once import once
from ._hidden import hides_entries

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """What stands under `by`."""
    return once(_unnamed(procedure), procedure.file)


def _unnamed(procedure: Procedure) -> Iterator[Fault]:
    roles = procedure.roles
    for step in procedure.steps:
        if step.by is None or step.by in roles or step.broken or hides_entries(procedure):
            continue
        meant = nearest(step.by, roles)
        yield Fault(
            (*step.at, "by"),
            f"the procedure names no role `{step.by}`",
            help=f"did you mean `{meant}`?" if meant else f"add it under `roles`: `{step.by}: …`",
        )
