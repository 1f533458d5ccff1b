"""The tester is proved on a pin that may be disconnected.

## Why it matters

A tester is proved on a source that is live for certain. A pin of a supply that was disconnected as part of the isolation shows
nothing, and so does a tester that has failed: the proof cannot tell them apart. Somebody then takes the silence for "dead".

## Fails

```yaml fails procedure
kind: isolation
leaves: {traction: proved dead}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
steps:
  - set: {mode: off}
  - disconnect: [charge-lead, aux-negative, service-plug]
  - secure: [charge-lead, service-plug]
  - wait: 5 min
    for: [traction]
  - remove: inverter-cover
  - prove_dead: traction
    using: voltage-tester
    tester_proved:
      before: X210/3 # <- step 6 proves the tester on `X210/3`, and `supply-12` may be disconnected then
      after: proving-unit
    limits: at most 5 V
    source: workshop practice
```

## Passes

The isolation of the test vehicle, which proves its tester on a proving unit.

```yaml passes procedure
steps:
  - perform: test-van/isolate
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
```

## Source

29 CFR 1910.333(b)(2) (as restated by the DOE electrical safety handbook); HSE GS38: a proving unit or a known live source.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import fault_of, of_kind, step_words

KIND = "danger"
SEVERITY = "error"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each pin that is named as a source and not live on every path."""
    for breach in of_kind(case, "source live"):
        circuit = getattr(breach.demand, "circuit", "")
        where = step_words(breach.spots[-1], len(breach.spots) > 1)
        why = f"`{circuit}` may be disconnected then" if circuit else "that belongs to no circuit"
        message = f"{where} proves the tester on `{breach.demand.name}`, and {why}"
        because = "a tester that shows nothing there may have failed or not"
        yield fault_of(breach, case, message, because, "name a proving unit of the workshop, or the posts of a battery")
