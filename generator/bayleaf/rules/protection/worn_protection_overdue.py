"""Protection is worn whose test is overdue.

## Why it matters

Rubber ages, and a pinhole is not seen. Insulating gloves are tested every 6 months while they are in use; from the day
after, nobody knows whether they hold the voltage. A pair without a date, or without an interval, is a pair of which
nobody knows.

## Fails

The workshop file and the procedure, shown file by file:

```yaml fails beside workshop
protection:  # their test is overdue, which is a warning here too
  gloves-old: {class: class 0, tested: 2026-02-01, interval: 6 months}
  over-gloves: {kind: over-gloves}
  face-shield: {kind: face shield}
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
    wear: gloves-old  # <- the test of `gloves-old` was due on 2026-08-01
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
    wear: gloves-0
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

29 CFR 1910.137, Table I-5: before first issue and every 6 months thereafter; IEC 60903:2014: 6 months in use, 12 months
in stock, as quoted by a test house.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ..once import once
from ._dates import protection
from ._gloves import workshop_of, worn
from ._steps import glove_steps

KIND = "danger"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """What is worn at steps of class B and has a class or a date."""
    yield from once(overdue(procedure, case), procedure.file)


def overdue(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each piece that is overdue, at each step."""
    workshop = workshop_of(case)
    if workshop is None or case.vehicle is None or not any(step.wear for step in procedure.steps):
        return
    for step, _ in glove_steps(procedure, case.vehicle):
        for at, one in worn(step, workshop):
            dated = protection(one)
            late = dated.late(case.today)
            if late is not None and (one.glove_class or one.tested or one.interval):
                because = "rubber ages, and a pinhole is not seen; only the test tells whether it holds the voltage"
                yield Fault(at, late, because, dated.help("6 months"), see=(dated.spot(workshop),))
