"""A voltage is expected where nothing feeds it.

## Why it matters

On every path that leads to the step the circuit is disconnected from all that feeds it. A reading near zero is then right, and
sends the reader off to look for a fault that is none; a reading within the limits would be the fault.

## Fails

```yaml fails procedure
steps:
  - set: {mode: off}
  - disconnect: aux-negative
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1] # <- step 3 measures at `X210/3` and expects a voltage, but `supply-12` is disconnected on every path
    using: multimeter
    limits: 11.5 V to 15 V
    source: workshop practice
stays_off: aux-negative
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: ignition}
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
    limits: 11.5 V to 15 V
    source: workshop practice
```

## Source

Common practice. Nothing is said where a circuit is made live by `energise` or a `command`, joined by a bridge, or
where a machine can turn and feed it.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import does, fault_of, of_kind

KIND = "validity"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each such reading."""
    for breach in of_kind(case, "voltage possible"):
        circuit = getattr(breach.demand, "circuit", "")
        message = f"{does(breach)} and expects a voltage, but `{circuit}` is disconnected on every path"
        because = "a reading near zero is right there, and looks like a fault"
        help_ = "measure it before the circuit is disconnected, or correct the limits"
        yield fault_of(breach, case, message, because, help_)
