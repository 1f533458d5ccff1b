"""A new battery is fitted whose own isolation point nobody has seen open.

## Why it matters

The switch or the service plug of a battery goes with the battery, and the lock on it goes too. The new one comes with its
own, in whatever position it left the store. Until somebody has seen it open and locked it, what the walk knows of the point
is true of a battery that no longer stands there.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - fit_temporary: caps
    at: X7
  - remove: traction-battery
  - refit: traction-battery # <- step 4 fits a new `traction-battery` whose `service-plug` nobody has seen open
    new: yes
  - remove_temporary: caps
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
```

## Passes

```yaml passes procedure
steps:
  - perform: test-van/isolate
  - fit_temporary: caps
    at: X7
  - remove: traction-battery
  - disconnect: service-plug
    do: See that the socket of the new battery holds a locking cap.
  - secure: service-plug
  - refit: traction-battery
    new: yes
  - remove_temporary: caps
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
```

## Source

EN 50110-1, 6.2 (disconnect completely, secure against reconnection; clause number from memory); common practice. A point is
taken to sit on a sealed part where it takes the battery off a circuit of that part, and is a switch or parts the battery in
its middle.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import fault_of, of_kind, step_words

KIND = "danger"
SEVERITY = "warning"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each new part that brings a point of its own."""
    for breach in of_kind(case, "carried"):
        part, point = breach.demand.name, getattr(breach.demand, "thing", "")
        where = step_words(breach.spots[-1], len(breach.spots) > 1)
        message = f"{where} fits a new `{part}` whose `{point}` nobody has seen open"
        because = "the point goes with its part, and the lock on it too; the new one may be closed"
        help_ = f"see to it before that step, on the new part: `disconnect: {point}`, then `secure: {point}`"
        yield fault_of(breach, case, message, because, help_)
