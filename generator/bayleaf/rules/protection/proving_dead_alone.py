"""One person alone proves a circuit of class B dead.

## Why it matters

Until it is proved dead the circuit counts as live. Whoever gets a shock cannot help himself: a second person stands by,
touches nothing, and knows how to switch off and call for help.

## Fails

```yaml fails procedure
people: {at_least: 1, who: Qualified for work on dead high-voltage systems}  # <- one person alone proves `traction` dead
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
    people: 1  # <- one person alone proves `traction` dead
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
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
    people: 2
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
```

## Source

EN 50110-1 (a second person where the risk asks for it; from memory); common practice for vehicles of voltage class B.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault
from ._people import HELP, is_alone, of_step, together
from ._steps import has, proofs

KIND = "danger"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Proofs at class B by fewer than two people."""
    yield from together(alone(procedure, case), procedure)


def alone(procedure: Procedure, case: Case) -> Iterator[tuple[Step, Fault]]:
    """Each such step with its fault."""
    for step, _, circuit in proofs(procedure, case.vehicle):
        if circuit.is_class_b and is_alone(step, procedure):
            because = f"{has(circuit)}, and counts as live until it is proved dead"
            yield step, Fault(of_step(step), f"one person alone proves `{circuit.id}` dead", because, HELP, key=True)
