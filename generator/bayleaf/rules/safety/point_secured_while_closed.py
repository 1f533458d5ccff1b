"""An isolation point is secured that may still be closed.

## Why it matters

A padlock on a closed switch keeps it closed. It is locked after it was opened, on every path.

## Fails

```yaml fails procedure
steps:
  - set: {mode: off}
  - secure: charge-lead # <- step 2 secures `charge-lead`, which may still be closed
stays_off: charge-lead
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - secure: charge-lead
stays_off: charge-lead
```

## Source

EN 50110-1, 6.2 (first disconnect, then secure; clause number from memory).
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import does, fault_of, of_kind

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each lock on a point that is closed on some path."""
    for breach in of_kind(case, "secure"):
        name = breach.demand.name
        message = f"{does(breach)}, which may still be closed"
        help_ = f"add `disconnect: {name}` before it, on every path"
        yield fault_of(breach, case, message, "a lock keeps a point as it is: closed", help_)
