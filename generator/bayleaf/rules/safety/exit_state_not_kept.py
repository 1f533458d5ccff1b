"""An end leaves a circuit less safe than the procedure says.

## Why it matters

Whoever comes next reads what the procedure leaves, and puts their hands where it says that they may. Each end that comes back
is held to it, on every path.

## Fails

```yaml fails procedure
leaves: {traction: proved dead} # <- Traction DC bus is said to be left proved dead, but may be only switched off
steps:
  - set: {mode: off}
```

## Passes

```yaml passes procedure
leaves: {traction: switched off}
steps:
  - set: {mode: off}
```

## Source

A decision of this format.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import MAY_BE, circuit_of, fault_of, of_kind

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each state that is declared of an end and may not hold there."""
    for breach in of_kind(case, "leaves"):
        circuit = circuit_of(breach, case)
        assert breach.word is not None
        end = f" by `{breach.ends[0]}`" if breach.ends[0] else ""
        message = f"{circuit.name} is said to be left {breach.demand.name}{end}, but may be {MAY_BE[breach.word]}"
        yield fault_of(breach, case, message, "whoever comes next relies on what is said here")
