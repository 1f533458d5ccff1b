"""An isolation point is opened before what has to come first.

## Why it matters

A service plug that is drawn under load burns; one that is drawn while the 12 V side still holds the contactors has current
on it. The profile says what comes first, and when the point may be opened at all.

## Fails

```yaml fails procedure
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - disconnect: service-plug # <- step 3 disconnects `service-plug` before `aux-negative` is surely open
stays_off: [charge-lead, service-plug]
```

```yaml fails procedure
steps:
  - disconnect: charge-lead # <- step 1 disconnects `charge-lead` while the vehicle may not be in mode off
stays_off: charge-lead
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: off}
  - disconnect: [charge-lead, aux-negative, service-plug]
stays_off: [charge-lead, aux-negative, service-plug]
```

## Source

The vehicle's profile (`first`, `only_when`), which follows its maker.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...safety.things import ThingDemand
from ..case import Case
from ..fault import Fault
from ._tell import does, fault_of, of_kind, thing_words

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each point that is opened too early on some path."""
    for breach in of_kind(case, "first", "only when"):
        demand = breach.demand
        assert isinstance(demand, ThingDemand)
        if demand.kind == "first":
            message = f"{does(breach)} before `{demand.thing}` is surely open"
            help_ = f"add `disconnect: {demand.thing}` before it, on every path"
        else:
            message = f"{does(breach)} while {thing_words(demand)}"
            help_ = "do before it what the profile asks under `only_when`, on every path"
        yield fault_of(breach, case, message, f"the profile of the vehicle asks it of `{demand.name}`", help_)
