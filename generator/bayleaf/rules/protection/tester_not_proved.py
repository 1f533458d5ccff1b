"""A circuit is proved dead with a tester that is not proved.

## Why it matters

A tester with an empty battery or a broken lead shows no voltage, just as a dead circuit does. That it worked before tells
nothing of the moment of the test: only a second proof afterwards shows that it had not failed in between.

## Fails

```yaml fails procedure
kind: isolation
leaves: {traction: proved dead, supply-12: disconnected}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - disconnect: aux-negative
  - disconnect: service-plug
  - secure: [charge-lead, service-plug]
  - wait: 5 min
    for: [traction]
  - remove: inverter-cover
  - prove_dead: traction  # <- the tester is proved neither before nor after the reading
    using: voltage-tester
    limits: at most 5 V
    source: workshop practice
```

## Passes

```yaml passes procedure
kind: isolation
leaves: {traction: proved dead, supply-12: disconnected}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
steps:
  - set: {mode: off}
  - disconnect: charge-lead
  - disconnect: aux-negative
  - disconnect: service-plug
  - secure: [charge-lead, service-plug]
  - wait: 5 min
    for: [traction]
  - remove: inverter-cover
  - prove_dead: traction
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
```

## Source

NFPA 70E-2018, 120.5, step 7: verified before and after each test; 29 CFR 1910.333(b)(2); HSE GS38.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ..once import once
from ._steps import proofs

KIND = "danger"
SEVERITY = "error"

_BECAUSE = "a tester that has failed shows no voltage, just as a dead circuit does"
_HELP = "write `tester_proved: {before: …, after: …}` with a proving unit of the workshop, or a pin that is surely live"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Proofs at class B without `tester_proved`; that it holds both is a matter of its form."""
    yield from once(_faults(procedure, case), procedure.file)


def _faults(procedure: Procedure, case: Case) -> Iterator[Fault]:
    for step, proof, circuit in proofs(procedure, case.vehicle):
        if circuit.is_class_b and proof.proved_before is None and proof.proved_after is None:
            message = "the tester is proved neither before nor after the reading"
            yield Fault((*step.at, "prove_dead"), message, _BECAUSE, _HELP)
