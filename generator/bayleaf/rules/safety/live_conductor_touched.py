"""A bare conductor may be live when it is touched.

## Why it matters

Above 60 V DC or 30 V AC a touch can kill; at 48 V the arc of a lug that is lifted under load burns hands and eyes. A
conductor counts as dead only when its circuit is disconnected, secured, waited and proved dead, on every path that
leads to the step. One path on which somebody comes here without it is enough.

## Fails

```yaml fails procedure
steps:
  - set: {mode: off}
  - unplug: X7 # <- step 2 unplugs `X7` while Traction DC bus may be only switched off
stays_off: X7
```

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - pause: break
  - unplug: X7 # <- step 3 unplugs `X7` while Traction DC bus may be waited, but not proved dead
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Passes

```yaml passes procedure
steps:
  - perform: test-van/isolate
  - unplug: X7
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Source

EN 50110-1, 6.2 (disconnect, secure, prove dead, before work; clause numbers from memory); UN R100 for the voltages. That a
break ends the proof is common practice.
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
    """Each step at which a circuit of class B, or of 48 V power, may not be dead."""
    for breach in of_kind(case, "touch"):
        circuit = circuit_of(breach, case)
        if circuit.energy == "electrical" and breach.word is not None and not (breach.lacks and breach.lacks.never):
            message = f"{does(breach)} while {circuit.name} may be {MAY_BE[breach.word]}"
            because = (
                f"bare conductors of `{circuit.id}` ({voltage_words(circuit)}) are touched only when it is proved dead"
            )
            yield fault_of(breach, case, message, because)
