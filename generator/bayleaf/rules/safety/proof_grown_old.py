"""A proof is older than it may be when the circuit is touched.

## Why it matters

Whoever proves a circuit dead at nine and reaches in at eleven relies on two hours in which nothing was closed, nothing
shifted and nobody came by. The workshop says how long a proof holds; 60 minutes where it says nothing.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - do: Take the dashboard out.
    on: nothing
    time: 75 min
  - unplug: X7 # <- step 3 unplugs `X7` up to 75 min after `traction` was proved dead, and a proof holds for 60 min
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Passes

```yaml passes procedure
steps:
  - perform: test-van/isolate
  - do: Take the dashboard out.
    on: nothing
    time: 75 min
  - prove_dead: traction
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
  - unplug: X7
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X7]
```

## Source

A decision of this format (`policy: proof_holds`); EN 50110-1 asks that the proof is repeated after interruptions (from
memory). Counted are the times of the steps and of the waits along the longest path; a loop as often as its `repeat` allows.
"""

from collections.abc import Iterator
from fractions import Fraction

from ...model.procedure import Procedure
from ...safety.breaches import Breach
from ..case import Case
from ..fault import Fault, Spot
from ._tell import does, of_kind

KIND = "practice"
SEVERITY = "warning"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Of each circuit the first step at which the proof may be too old."""
    told: set[str] = set()
    for breach in of_kind(case, "relied"):
        circuit = getattr(breach.demand, "circuit", "")
        if circuit not in told:
            told.add(circuit)
            yield _fault(breach, circuit, case.proof_holds)


def _fault(breach: Breach, circuit: str, holds: Fraction) -> Fault:
    assert breach.age is not None
    at, see = breach.demand.at, []
    if len(breach.spots) > 1:
        inner = breach.spots[-1]
        at = (*breach.spots[0].step.at, "perform")
        see.append(Spot(inner.procedure.file, breach.demand.at, f"step {inner.step.number} of `{inner.procedure.id}`"))
    see.append(Spot(breach.age.file, breach.age.at, f"proved here, by step {breach.age.number}"))
    age = minutes(breach.age.seconds)
    return Fault(
        at,
        f"{does(breach)} up to {age} after `{circuit}` was proved dead, and a proof holds for {minutes(holds)}",
        "the times of the steps between, along the longest path; meanwhile anything may have been closed",
        f"add `prove_dead: {circuit}` before it",
        see=tuple(see),
        data={"circuit": circuit, "seconds": breach.age.seconds},
    )


def minutes(seconds: float | Fraction) -> str:
    """A time in minutes."""
    return f"{float(seconds) / 60:g} min"
