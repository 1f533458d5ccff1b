"""A circuit is proved dead against a limit at which it may hurt.

## Why it matters

Up to 60 V DC and 30 V AC a voltage may be touched; above it begins voltage class B. A limit above it, or none upwards,
calls a circuit dead that is not. Below it there is no lower bound: with a good discharge nearly nothing is left.

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
  - prove_dead: traction
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 75 V  # <- `at most 75 V` calls `traction` dead above 60 V DC
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

UN R100 (definition of high voltage) and FMVSS 305: above 60 V DC or 30 V AC.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ..once import once
from ._steps import floor_of, proofs

KIND = "danger"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Limits of proofs of every electrical circuit. A proof without limits takes the least that is known."""
    yield from once(_faults(procedure, case), procedure.file)


def _faults(procedure: Procedure, case: Case) -> Iterator[Fault]:
    for step, proof, circuit in proofs(procedure, case.vehicle):
        top, words = floor_of(circuit)
        if proof.limit is not None and (proof.limit.high is None or proof.limit.high.si > top):
            because = f"above {words} a voltage must not be touched"
            message = f"`{proof.limit}` calls `{circuit.id}` dead above {words}"
            yield Fault(
                (*step.at, "limits"), message, because, "write `limits: at most 5 V`, or the limit of the maker"
            )
