"""A circuit is proved dead with an instrument that shows no figures.

## Why it matters

A lamp that stays dark does not tell 0 V from 55 V, or from a voltage just below its threshold. Dead means a reading below
a limit, so there must be a reading. A detector that is held near a cable without touching it proves nothing.

## Fails

The workshop file and the procedure, shown file by file:

```yaml fails beside workshop
instruments:
  tester:
    name: Tester
    kind: two-pole voltage tester
    category: CAT III 1000 V
    highest_dc: 1200 V
    calibrated: 2026-10-05
    interval: 12 months
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
    using: tester  # <- `tester` shows no voltage in figures
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

IEC 61243-3:2014, scope: a two-pole voltage detector is not a measuring instrument; HSE GS38, 4th edition: proving dead is
not done without contact.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...safety.rig import category_of
from ..case import Case
from ..fault import Fault, Spot
from ..once import once
from ._gloves import workshop_of
from ._instruments import has_figures
from ._steps import proofs

KIND = "danger"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The instruments of proofs at class B and 48 V power."""
    yield from once(_faults(procedure, case), procedure.file)


def _faults(procedure: Procedure, case: Case) -> Iterator[Fault]:
    workshop = workshop_of(case)
    for step, proof, circuit in proofs(procedure, case.vehicle) if workshop is not None else ():
        instrument = workshop.instruments.get(proof.using) if proof.using is not None else None  # type: ignore[union-attr]
        if instrument is not None and not has_figures(instrument) and category_of(circuit) in ("class B", "power"):
            yield Fault(
                (*step.at, "using"),
                f"`{instrument.id}` shows no voltage in figures",
                "a lamp that stays dark does not tell 0 V from a voltage just below its threshold",
                "use a tester with figures; if this one has them, add its ranges under `functions`, `dc voltage` or `ac voltage`",
                see=(Spot(workshop.file, ("instruments", instrument.id), "its functions", key=True),),  # type: ignore[union-attr]
            )
