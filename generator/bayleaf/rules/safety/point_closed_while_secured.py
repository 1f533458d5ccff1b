"""An isolation point is reconnected while its lock may still be on.

## Why it matters

The lock belongs to somebody who may have their hands in the vehicle. Only they take it off, as a step of its own.

## Fails

```yaml fails procedure
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - secure: charge-lead
  - reconnect: charge-lead # <- step 4 reconnects `charge-lead`, whose lock may still be on
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - secure: charge-lead
  - release: charge-lead
  - reconnect: charge-lead
```

## Source

29 CFR 1910.147(e)(3) (each lock is removed by whoever applied it; from memory).
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
    """Each point that is closed while it is locked on some path."""
    for breach in of_kind(case, "reconnect"):
        name = breach.demand.name
        message = f"{does(breach)}, whose lock may still be on"
        yield fault_of(
            breach, case, message, "whoever put the lock on may be at work", f"add `release: {name}` before it"
        )
