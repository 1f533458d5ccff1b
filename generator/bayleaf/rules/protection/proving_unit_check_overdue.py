"""The tester is proved on a proving unit past its check.

## Why it matters

A proving unit whose voltage has fallen, or that has none any more, proves a tester that sees too little. Without a date,
or without an interval, nobody knows.

## Fails

The workshop file and the procedure, shown file by file:

```yaml fails beside workshop
proving_units:
  unit: {name: Proving unit, voltage: 690 V, checked: 2025-06-01, interval: 12 months}
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
    tester_proved: {before: unit, after: unit}  # <- the check of `unit` was due on 2026-06-01
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

Common practice.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ..once import once
from ._dates import proving_unit
from ._gloves import workshop_of
from ._steps import proofs

KIND = "danger"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The proving units of proofs at class B."""
    yield from once(_faults(procedure, case), procedure.file)


def _faults(procedure: Procedure, case: Case) -> Iterator[Fault]:
    workshop = workshop_of(case)
    for step, proof, circuit in proofs(procedure, case.vehicle) if workshop is not None else ():
        for key, name in (
            {proof.proved_after: "after", proof.proved_before: "before"}.items() if circuit.is_class_b else ()
        ):
            unit = workshop.proving_units.get(key) if key is not None else None  # type: ignore[union-attr]
            late = proving_unit(unit).late(case.today) if unit is not None else None
            if unit is not None and late is not None:
                dated = proving_unit(unit)
                because = "a proving unit whose voltage has fallen proves a tester that sees too little"
                at = (*step.at, "tester_proved", name)
                yield Fault(at, late, because, dated.help("12 months"), see=(dated.spot(workshop),))  # type: ignore[arg-type]
