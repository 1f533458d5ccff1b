"""The limit of a proof leaves no room for the error of the tester.

## Why it matters

A tester may show less than there is, by its greatest error: percent of the reading and digits of the last place. So that
a reading at the limit is surely not above 60 V DC or 30 V AC, limit and error together must not exceed it.

## Fails

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
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 59.5 V  # <- `at most 59.5 V` leaves no room: `voltage-tester` may be wrong by 1.49 V there
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
    limits: at most 58.5 V
    source: workshop practice
```

## Source

UN R100 and FMVSS 305 (60 V DC, 30 V AC); JCGM 106:2012 (guard band at a tolerance limit).
"""

from collections.abc import Iterator

from ...limits.instrument import error_at, range_for
from ...model.procedure import Procedure
from ...model.vehicle import Circuit
from ...model.workshop import Instrument
from ...quantities.quantity import Quantity
from ...safety.protection import voltage_kind_of
from ..case import Case
from ..fault import Fault, Spot
from ..once import once
from ._gloves import workshop_of
from ._steps import floor_of, proofs, volts_of

KIND = "danger"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Limits of proofs at class B that are not above the floor already, with a tester whose error is known."""
    yield from once(_faults(procedure, case), procedure.file)


def _faults(procedure: Procedure, case: Case) -> Iterator[Fault]:
    workshop = workshop_of(case)
    for step, proof, circuit in proofs(procedure, case.vehicle) if workshop is not None else ():
        tester = workshop.instruments.get(proof.using) if proof.using is not None else None  # type: ignore[union-attr]
        high = proof.limit.high if proof.limit is not None else None
        top, words = floor_of(circuit)
        if tester is None or high is None or high.si > top or not circuit.is_class_b:
            continue
        why = _too_little(high, top, circuit, tester)
        if why is not None:
            spot = Spot(workshop.file, ("instruments", tester.id, "functions"), "its ranges", key=True)  # type: ignore[union-attr]
            yield Fault(
                (*step.at, "limits"),
                f"`{proof.limit}` leaves no room: {why}",
                f"limit and error together must not exceed {words}",
                "write a lower limit, such as `at most 5 V`",
                see=(spot,),
            )


def _too_little(high: Quantity, top: int, circuit: Circuit, tester: Instrument) -> str | None:
    """Why a limit is too near to the floor for a tester, or None."""
    ranges = tester.functions.get(f"{voltage_kind_of(circuit)} voltage", ())
    found = range_for(high.si, ranges)
    if found is None:
        return f"`{tester.id}` does not show as much" if ranges else None
    error = error_at(high.si, found)
    if error is None or high.si + error <= top:
        return None
    return f"`{tester.id}` may be wrong by {volts_of(error)} there"
