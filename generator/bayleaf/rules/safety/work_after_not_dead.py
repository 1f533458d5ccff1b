"""Work goes on although a circuit was found not dead.

## Why it matters

Everything was taken off, and there is voltage all the same: something is not as the profile says. Nobody knows what will
happen next. Hands stay away until somebody qualified has found out why.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - prove_dead: traction
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
    outcomes:
      not_dead: next
  - unplug: X7 # <- step 3 unplugs `X7` although Traction DC bus may have been found not dead
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Passes

Not dead leads to a stop when nothing is written.

```yaml passes procedure
steps:
  - perform: test-van/isolate
  - prove_dead: traction
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
  - unplug: X7
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Source

Common practice. A procedure made for this case says `handles: [not dead]`.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import VERBS, circuit_of, fault_of, of_kind, step_words, touched

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each step of work that a path with `not_dead` leads to."""
    for breach in of_kind(case, "not dead"):
        circuit = circuit_of(breach, case)
        spot = breach.spots[-1]
        verb = VERBS.get(spot.step.action.__class__, "works at")
        where = f"{step_words(spot, len(breach.spots) > 1)} {verb} {touched(spot.step)}"
        message = f"{where} although {circuit.name} may have been found not dead"
        because = "voltage on a circuit that is taken off means that something is not as the profile says"
        help_ = "lead `not_dead` to a conclusion with `end: stop`, or write a procedure that says `handles: [not dead]`"
        yield fault_of(breach, case, message, because, help_)
