"""What a step says under `when` may not hold.

## Why it matters

A reading means something only in the state it was meant for: awake or asleep, plugged or unplugged. If a path leads here in another
state, the reading is worthless and the verdict wrong.

## Fails

```yaml fails procedure
steps:
  - set: {mode: off}
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    when: {mode: ignition} # <- step 2 is meant for another state: the vehicle may not be in mode ignition
    limits: 11.5 V to 14.8 V
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: ignition}
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    when: {mode: ignition}
    limits: 11.5 V to 14.8 V
    source: workshop practice
  - set: {mode: off}
```

## Source

A decision of this format.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...safety.things import ThingDemand
from ..case import Case
from ..fault import Fault
from ._tell import fault_of, of_kind, step_words, thing_words

KIND = "validity"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each condition that is broken on some path."""
    for breach in of_kind(case, "when"):
        assert isinstance(breach.demand, ThingDemand)
        spot = breach.spots[-1]
        where = step_words(spot, len(breach.spots) > 1)
        message = f"{where} is meant for another state: {thing_words(breach.demand)}"
        help_ = "bring the vehicle into the state before this step, on every path, or mend `when`"
        yield fault_of(breach, case, message, "in another state the result means nothing", help_)
