"""A cover is opened before the circuit below it is isolated.

## Why it matters

Below a cover lie bare conductors. Taking it off is part of proving them dead, so no proof is asked for yet; but nothing may
feed them any more: disconnected, secured against coming back, and waited until the capacitors have run down.

## Fails

```yaml fails procedure
steps:
  - set: {mode: off}
  - remove: inverter-cover # <- step 2 takes off `inverter-cover` while Traction DC bus may be only switched off
stays_off: inverter-cover
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: off}
  - disconnect: [charge-lead, aux-negative, service-plug]
  - secure: [charge-lead, service-plug]
  - wait: 5 min
    for: [traction]
  - remove: inverter-cover
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
```

## Source

EN 50110-1, 6.2 (order of the rules; clause number from memory).
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import MAY_BE, circuit_of, does, fault_of, of_kind, voltage_words

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each step that lays a dangerous circuit bare while something may feed it."""
    for breach in of_kind(case, "cover"):
        circuit = circuit_of(breach, case)
        assert breach.word is not None
        message = f"{does(breach)} while {circuit.name} may be {MAY_BE[breach.word]}"
        because = f"`{circuit.id}` ({voltage_words(circuit)}) lies bare below it"
        yield fault_of(breach, case, message, because)
