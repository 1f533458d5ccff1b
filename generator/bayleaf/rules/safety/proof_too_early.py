"""A circuit is proved dead, or discharged, before it is isolated, secured and waited.

## Why it matters

The proof holds only for what cannot come back. Whoever proves a circuit that is not secured proves nothing; whoever proves
before the capacitors have run down stands at a live conductor with two probes in the hands.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - release: charge-lead
  - prove_dead: traction # <- step 3 proves `traction` while Traction DC bus may be disconnected, but neither secured nor proved dead
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
```

## Passes

The isolation procedure of the test vehicle.

```yaml passes procedure
steps:
  - perform: test-van/isolate
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
```

## Source

EN 50110-1, 6.2; NFPA 70E, 120.5 (order of the steps; from a trade journal, 2018 edition).
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import MAY_BE, circuit_of, does, fault_of, of_kind

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each proof and each discharge that comes too early on some path."""
    for breach in of_kind(case, "prove", "discharge"):
        circuit = circuit_of(breach, case)
        assert breach.word is not None
        message = f"{does(breach)} while {circuit.name} may be {MAY_BE[breach.word]}"
        because = "a proof holds only for what is disconnected, secured against coming back, and has run down"
        yield fault_of(breach, case, message, because)
