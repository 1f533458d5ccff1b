"""A resistance is read at a pin that may be fed.

## Why it matters

An ohmmeter sends a current of its own through the piece and reads the voltage. Any other voltage there falsifies the reading: it
shows too much, too little, or less than nothing, and the fuse of the meter may go. With the vehicle off, or the supply
disconnected, or on the device side of a plug that is out, it reads the piece.

## Fails

```yaml fails procedure
steps:
  - measure: Supply line of the heater against ground
    quantity: resistance
    between: [X210/3, X210/1] # <- step 1 measures at `X210/3` while `supply-12` may feed it
    using: multimeter
    limits: at least 10 Ω
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: off}
  - measure: Ground of the heater
    quantity: resistance
    between: [X210/1, chassis]
    using: multimeter
    limits: at most 0.5 Ω
    source: workshop practice
```

A data bus whose pins belong to no circuit is read at any time, and so is a unit that is unplugged.

```yaml passes procedure
steps:
  - unplug: X210
  - measure: Inner resistance of the heater
    quantity: resistance
    between: [X210/3 device, X210/1 device]
    using: multimeter
    limits: at least 10 Ω
    source: workshop practice
  - plug: X210
```

## Source

Common practice.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import does, fault_of, of_kind

KIND = "validity"
SEVERITY = "warning"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each reading of this kind at a fused 12 V or 24 V supply. Of anything higher the danger is told, which is graver."""
    for breach in of_kind(case, "pin not fed"):
        circuit = getattr(breach.demand, "circuit", "")
        message = f"{does(breach)} while `{circuit}` may feed it"
        because = "any voltage at the pin falsifies what an ohmmeter shows"
        help_ = "add `set: {mode: off}` before it, on every path"
        yield fault_of(breach, case, message, because, help_)
