"""A voltage or current is read with a function that cannot show it.

## Why it matters

A DC bus reads 0 on an AC range, and many an AC circuit reads 0 on a DC range. A reading of 0 looks like a dead circuit.

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
    functions:
      ac voltage:
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
    using: tester  # <- `tester` has no function `dc voltage`, but `traction` is a DC circuit
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

Common practice; IEC 61243-3 (two-pole voltage detectors for AC and DC).
"""

from collections.abc import Iterator

from ...model import actions
from ...model.procedure import Procedure
from ...model.workshop import Instrument
from ...safety.protection import voltage_kind_of
from ..case import Case
from ..fault import Fault, Spot
from ..once import once
from ._instruments import has_figures, instrument_readings
from ._steps import Reading, proofs

KIND = "danger"
SEVERITY = "error"

_BECAUSE = "a DC voltage reads 0 on an AC range, and an AC voltage can read 0 on a DC range: it looks dead"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Functions of instruments at class B and 48 V power, and `current_kind` of proofs."""
    yield from once(_other_kind(procedure, case), procedure.file)
    yield from once(_missing(procedure, case), procedure.file)


def _other_kind(procedure: Procedure, case: Case) -> Iterator[Fault]:
    for step, proof, circuit in proofs(procedure, case.vehicle):
        kind = voltage_kind_of(circuit)
        if circuit.voltage is not None and proof.current_kind not in (None, kind):
            message = f"proved with `current_kind: {proof.current_kind}`, but `{circuit.id}` is {_a(kind)} circuit"
            yield Fault((*step.at, "current_kind"), message, _BECAUSE, f"write `current_kind: {kind}`, or leave it out")


def _missing(procedure: Procedure, case: Case) -> Iterator[Fault]:
    for reading, instrument in instrument_readings(procedure, case):
        if reading.function in instrument.functions or _is_said_elsewhere(reading, instrument):
            continue
        assert case.workshop is not None
        spot = Spot(case.workshop.file, ("instruments", instrument.id), "its functions", key=True)
        yield Fault(
            (*reading.step.at, "using"),
            f"`{instrument.id}` has no function `{reading.function}`, but `{reading.circuit.id}` is {_a(reading.kind)} circuit",
            _BECAUSE,
            f"use an instrument with `{reading.function}`; if this one has it, add its ranges under `functions`",
            see=(spot,),
        )


def _is_said_elsewhere(reading: Reading, instrument: Instrument) -> bool:
    """A proof without any figures, or with the wrong kind, is one mistake already."""
    if not isinstance(reading.action, actions.ProveDead):
        return False
    return not has_figures(instrument) or reading.action.current_kind not in (None, reading.kind)


def _a(kind: str) -> str:
    return "a DC" if kind == "dc" else "an AC"
