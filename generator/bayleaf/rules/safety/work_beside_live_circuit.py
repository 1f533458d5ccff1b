"""Somebody works beside an open circuit that is not proved dead.

## Why it matters

While the cover is off, a slipping tool or a sleeve reaches the conductors although the work is on something else. Until the
circuit is proved dead, nothing is done there but the proof.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - pause: break
  - loosen: heater-bracket # <- step 3 loosens `heater-bracket` beside the open Traction DC bus, which may be waited, but not proved dead
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, heater-bracket]
```

## Passes

```yaml passes procedure
steps:
  - perform: test-van/isolate
  - loosen: heater-bracket
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, heater-bracket]
```

## Source

EN 50110-1, 6.2 (fifth rule: protection against adjacent live parts; clause number from memory).
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import MAY_BE, VERBS, circuit_of, fault_of, of_kind, step_words, touched

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each step of work while a cover of a dangerous circuit may be off."""
    for breach in of_kind(case, "beside"):
        circuit = circuit_of(breach, case)
        spot = breach.spots[-1]
        assert breach.word is not None
        verb = VERBS.get(spot.step.action.__class__, "works at")
        where = f"{step_words(spot, len(breach.spots) > 1)} {verb} {touched(spot.step)}"
        message = f"{where} beside the open {circuit.name}, which may be {MAY_BE[breach.word]}"
        because = "a tool or a sleeve reaches the open conductors although the work is on something else"
        yield fault_of(breach, case, message, because)
