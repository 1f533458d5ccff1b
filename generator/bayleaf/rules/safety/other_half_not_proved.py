"""A circuit is proved at a connector that is apart, on one of its sides only.

## Why it matters

While a connector is apart, what hangs on its other side is not joined to the points that are read. The capacitors may lie
there: a proof at the lugs says nothing of the studs from which they were lifted. So it counts for the side that was read,
and for nothing else of the circuit, until the other side is read too. A proof that was made while the connector was
plugged stands for both sides, also after they have been parted, for as long as it stands at all.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - loosen: inverter-terminals
  - unplug: X1
  - pause: break
  - prove_dead: traction
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
  - plug: X1 # <- step 6 plugs in `X1` while Traction DC bus may be proved dead on one side of `X1` only
  - tighten: inverter-terminals
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
```

## Passes

```yaml passes procedure
steps:
  - perform: test-van/isolate
  - loosen: inverter-terminals
  - unplug: X1
  - pause: break
  - prove_dead: traction
    between:
      - [X1/1 cable, X1/2 cable]
      - [X1/1 cable, chassis]
      - [X1/2 cable, chassis]
      - [X1/1 device, X1/2 device]
      - [X1/1 device, chassis]
      - [X1/2 device, chassis]
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
  - plug: X1
  - tighten: inverter-terminals
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
```

## Source

EN 50110-1, 6.2 (a circuit is proved dead at the place of work, or as near to it as can be; clause number from memory).
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...safety.breaches import Breach
from ..case import Case
from ..fault import Fault
from ._tell import VERBS, circuit_of, fault_of, join_words, of_kind, step_words, touched

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each step, and each end, that relies on a proof of one half alone."""
    for breach in of_kind(case, "half"):
        circuit, lacks = circuit_of(breach, case), breach.lacks
        assert lacks is not None
        apart = join_words(lacks.apart)
        message = f"{_relies(breach)} while {circuit.name} may be proved dead on one side of {apart} only"
        because = "what lies on the side that was apart at the proof was not joined to the points that were read"
        pairs = [" to ".join(map(str, point.pair)) for point in circuit.dead_at]
        between = ", ".join(f"[{pair.replace(' to ', ', ')}]" for pair in dict.fromkeys((*pairs, *lacks.others)))
        help_ = f"read both sides in the proof: `between: [{between}]`; or prove it before {apart} is parted"
        yield fault_of(breach, case, message, because, help_)


def _relies(breach: Breach) -> str:
    """What the step does, or what is said of the end."""
    if not breach.spots:
        return f"what is left here is said to be {breach.demand.name},"
    spot = breach.spots[-1]
    where = step_words(spot, len(breach.spots) > 1)
    if breach.demand.kind == "expects":
        return (
            f"{where} performs `{getattr(spot.step.action, 'procedure', '')}`, which expects it {breach.demand.name},"
        )
    verb = VERBS.get(spot.step.action.__class__, "works at")
    return f"{where} {verb} {touched(spot.step) if breach.demand.kind == 'beside' else f'`{breach.demand.name}`'}"
