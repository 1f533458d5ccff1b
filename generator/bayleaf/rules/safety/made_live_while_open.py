"""A circuit is made live while something of it is open.

## Why it matters

When energy comes back, every lug that is not tightened, every open plug and every missing cover becomes a place where
somebody is hurt. Before the last point is closed, everything is back in its place.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - unplug: X7
  - refit: inverter-cover
  - release: [charge-lead, service-plug]
  - reconnect: service-plug # <- step 5 makes Traction DC bus live while `X7` may not be in its place
stays_off: [charge-lead, aux-negative, X7]
```

## Passes

```yaml passes procedure
steps:
  - perform: test-van/isolate
  - unplug: X7
  - plug: X7
  - refit: inverter-cover
  - release: [charge-lead, service-plug]
  - reconnect: [service-plug, aux-negative, charge-lead]
```

## Source

Common practice; NFPA 70E, 120.5 (before re-energising; from memory).
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...safety.demands import Demand
from ..case import Case
from ..fault import Fault
from ._tell import circuit_of, fault_of, join_words, of_kind, step_words

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each step that closes or switches while something of the circuit may be off."""
    for breach in of_kind(case, "made live"):
        assert isinstance(breach.demand, Demand)
        circuit = circuit_of(breach, case)
        spot = breach.spots[-1]
        open_ = join_words(breach.out)
        message = f"{step_words(spot, len(breach.spots) > 1)} makes {circuit.name} live while {open_} may not be in their place"
        if len(breach.out) == 1:
            message = message.replace("in their place", "in its place")
        because = "whatever is open of a live circuit is a place to be hurt at"
        help_ = f"put back {open_} before step {breach.spots[0].step.number}, on every path"
        yield fault_of(breach, case, message, because, help_)
