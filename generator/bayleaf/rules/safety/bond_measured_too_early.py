"""A bond is measured before the last screw of its part is tight.

## Why it matters

The bond of a housing goes through its strap and its screws. Measured while one of them is loose, it is not the bond that the
vehicle leaves with; and a good reading says nothing any more once a screw was turned, or the part was off, behind it. A
housing whose bond is bad can be at the full voltage after the next fault of the insulation, and nobody knows.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - loosen: heater-bracket
  - measure: Bond of the heater
    quantity: bonding resistance
    at: [cabin-heater, chassis] # <- step 3 measures the bond of `cabin-heater` while `heater-bracket` may be loose
    test_current: 1 A
    limits: at most 40 mΩ
    source: workshop practice
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, heater-bracket]
```

```yaml fails procedure
steps:
  - perform: test-van/isolate
  - measure: Bond of the heater
    quantity: bonding resistance
    at: [cabin-heater, chassis]
    test_current: 1 A
    limits: at most 40 mΩ
    source: workshop practice
  - tighten: heater-bracket # <- step 3 tightens `heater-bracket` behind the bond of `cabin-heater`, which may not be measured again
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
```

## Passes

```yaml passes procedure
steps:
  - perform: test-van/isolate
  - loosen: heater-bracket
  - tighten: heater-bracket
  - measure: Bond of the heater
    quantity: bonding resistance
    at: [cabin-heater, chassis]
    test_current: 1 A
    limits: at most 40 mΩ
    source: workshop practice
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
```

## Source

UN R100 (potential equalisation is shown on the finished vehicle; from memory); common practice. The screws of a housing are
those fasteners of the profile that name it as their `part`.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import VERBS, fault_of, of_kind, step_words, touched

KIND = "validity"
SEVERITY = "warning"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each bond that is measured too early, and each that is spoilt behind its measurement."""
    for breach in of_kind(case, "bond"):
        part, thing = breach.demand.name, getattr(breach.demand, "thing", "")
        where = step_words(breach.spots[-1], len(breach.spots) > 1)
        how = "it may be off" if thing == part else f"`{thing}` may be loose"
        message = f"{where} measures the bond of `{part}` while {how}"
        help_ = f"put it back before, on every path: `{'refit' if thing == part else 'tighten'}: {thing}`"
        yield fault_of(breach, case, message, "what is read is not the bond that the vehicle leaves with", help_)
    for breach in of_kind(case, "bond left"):
        spot, part = breach.spots[-1], breach.demand.name
        verb = VERBS.get(spot.step.action.__class__, "works at")
        names = touched(spot.step)
        message = f"{step_words(spot)} {verb} {names} behind the bond of `{part}`, which may not be measured again"
        help_ = f"measure the bond of `{part}` behind step {spot.step.number}, on every path to an end"
        yield fault_of(breach, case, message, "the reading says nothing of the bond as it is now", help_)
