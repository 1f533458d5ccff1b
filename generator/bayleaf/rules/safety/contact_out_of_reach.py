"""A probe is put where a plug or a cover is still in the way.

## Why it matters

One side of a plug can only be reached when the plug is out, and a test point only when its cover is off. Whoever follows the step
pulls something off that the procedure has not made safe.

## Fails

```yaml fails procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3 cable, X210/1 cable] # <- step 1 measures at `X210/3 cable`, but `X210` may still be in place
    limits: 11.5 V to 14.8 V
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - unplug: X210
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3 cable, X210/1 cable]
    limits: 11.5 V to 14.8 V
    source: workshop practice
  - plug: X210
```

## Source

A decision of this format.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...safety.things import ThingDemand
from ..case import Case
from ..fault import Fault
from ._tell import does, fault_of, join_words, of_kind

KIND = "validity"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each contact that may still be covered; one finding a step."""
    told: set[object] = set()
    for breach in of_kind(case, "side"):
        assert isinstance(breach.demand, ThingDemand)
        things = breach.demand.thing.split(" or ")
        place = (breach.identity[1], breach.demand.thing)
        if place not in told:
            told.add(place)
            message = f"{does(breach)}, but {join_words(things[:1])} may still be in place"
            key = "unplug" if case.vehicle is not None and things[0] in case.vehicle.connectors else "remove"
            help_ = f"add `{key}: {things[0]}` before it, on every path"
            yield fault_of(breach, case, message, "the contact cannot be reached before", help_)
