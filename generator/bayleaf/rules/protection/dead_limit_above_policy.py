"""A circuit is proved dead against a limit above the one of the workshop.

## Why it matters

Under `dead_below` the workshop has decided from which voltage on a circuit counts as dead. A procedure that allows more
goes behind that decision.

## Fails

The workshop file and the procedure, shown file by file:

```yaml fails beside workshop
policy: {dead_below: 5 V}
```

```yaml fails beside procedure
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
    limits: at most 20 V  # <- `at most 20 V` is above 5 V, below which this workshop calls a circuit dead
    source: workshop practice
```

## Passes

The workshop file and the procedure, shown file by file:

```yaml passes beside workshop
policy: {dead_below: 5 V}
```

```yaml passes beside procedure
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

The policy in `procedures/workshop.yml`; that a few volts and more are a reason to wait and look for the cause is common
practice.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault, Spot
from ..once import once
from ._steps import floor_of, proofs

KIND = "danger"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Limits of proofs that are not above the floor already."""
    yield from once(_faults(procedure, case), procedure.file)


def _faults(procedure: Procedure, case: Case) -> Iterator[Fault]:
    workshop = case.workshop
    below = workshop.policy.dead_below if workshop is not None else None
    if workshop is None or below is None:
        return
    for step, proof, circuit in proofs(procedure, case.vehicle):
        high = proof.limit.high if proof.limit is not None else None
        if high is not None and below < high and high.si <= floor_of(circuit)[0]:
            message = f"`{proof.limit}` is above {below}, below which this workshop calls a circuit dead"
            spot = Spot(workshop.file, ("policy", "dead_below"), "what the workshop has decided")
            yield Fault((*step.at, "limits"), message, None, f"write `limits: at most {below}`", see=(spot,))
