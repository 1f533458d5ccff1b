"""A circuit is proved dead with an instrument past its calibration.

## Why it matters

The proving unit tells that the tester shows a voltage at all; the calibration tells that it shows the right one. A
tester that reads too little shows a circuit as dead that is not. Without a date, or without an interval, nobody knows.

## Fails

The workshop file and the procedure, shown file by file:

```yaml fails beside workshop
instruments:
  tester:
    name: Tester
    kind: two-pole voltage tester
    category: CAT III 1000 V
    highest_dc: 1200 V
    calibrated: 2025-09-01
    interval: 12 months
    functions:
      dc voltage:
        - {range: 100 V, resolution: 0.1 V, accuracy: 2.0 % + 3 digits}
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
    using: tester  # <- the calibration of `tester` was due on 2026-09-01
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
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
```

## Source

ISO/IEC 17025:2017, 6.4 (measuring equipment and its calibration; clause from memory); common practice.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...safety.rig import category_of
from ..case import Case
from ..fault import Fault
from ..once import once
from ._dates import instrument
from ._gloves import workshop_of
from ._steps import proofs

KIND = "danger"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The instruments of proofs at class B and 48 V power."""
    yield from once(_faults(procedure, case), procedure.file)


def _faults(procedure: Procedure, case: Case) -> Iterator[Fault]:
    workshop = workshop_of(case)
    for step, proof, circuit in proofs(procedure, case.vehicle) if workshop is not None else ():
        found = workshop.instruments.get(proof.using) if proof.using is not None else None  # type: ignore[union-attr]
        if found is not None and category_of(circuit) in ("class B", "power"):
            dated = instrument(found)
            late = dated.late(case.today)
            if late is not None:
                because = "a tester that reads too little shows a circuit as dead that is not"
                yield Fault((*step.at, "using"), late, because, dated.help("12 months"), see=(dated.spot(workshop),))  # type: ignore[arg-type]
