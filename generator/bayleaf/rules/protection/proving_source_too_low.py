"""The tester is proved on a source that it does not show.

## Why it matters

A tester begins to show at its lowest indication. On a source below it the tester stays silent although it works; people
get used to that, and then the proof tells nothing.

## Fails

The workshop file and the procedure, shown file by file:

```yaml fails beside workshop
instruments:
  tester:
    name: Tester
    kind: two-pole voltage tester
    category: CAT III 1000 V
    highest_dc: 1200 V
    lowest_indication: 50 V
    calibrated: 2026-10-05
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
    using: tester
    tester_proved:
      before: proving-unit
      after: X210/3  # <- `X210/3` has 12 V, but `tester` shows nothing below 50 V
    limits: at most 5 V
    source: workshop practice
```

## Passes

The workshop file and the procedure, shown file by file:

```yaml passes beside workshop
instruments:
  tester:
    name: Tester
    kind: two-pole voltage tester
    category: CAT III 1000 V
    highest_dc: 1200 V
    lowest_indication: 50 V
    calibrated: 2026-10-05
    interval: 12 months
    functions:
      dc voltage:
        - {range: 100 V, resolution: 0.1 V, accuracy: 2.0 % + 3 digits}
```

```yaml passes beside procedure
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
    using: tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
```

## Source

IEC 61243-3 and HSE GS38 practice: the tester is proved on a known source, by an indication; common practice.
"""

from collections.abc import Iterator

from ...model.contact import read_contact
from ...model.pins import circuits_at
from ...model.procedure import Procedure
from ...model.vehicle import Vehicle
from ...model.workshop import Workshop
from ...quantities.quantity import Quantity
from ..case import Case
from ..fault import Fault, Spot
from ..once import once
from ._gloves import workshop_of
from ._steps import proofs

KIND = "danger"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Every source on which a tester with a known lowest indication is proved."""
    workshop = workshop_of(case)
    if workshop is not None and case.vehicle is not None:
        yield from once(_faults(procedure, case.vehicle, workshop), procedure.file)


def _faults(procedure: Procedure, vehicle: Vehicle, workshop: Workshop) -> Iterator[Fault]:
    for step, proof, _ in proofs(procedure, vehicle):
        tester = workshop.instruments.get(proof.using) if proof.using is not None else None
        lowest = tester.lowest_indication if tester is not None else None
        for key, name in (("before", proof.proved_before), ("after", proof.proved_after)):
            voltage = _voltage(name, vehicle, workshop) if name is not None and lowest is not None else None
            if tester is not None and lowest is not None and voltage is not None and voltage < lowest:
                yield Fault(
                    (*step.at, "tester_proved", key),
                    f"`{name}` {_gives(name, workshop)} {voltage}, but `{tester.id}` shows nothing below {lowest}",
                    "a tester that stays silent on its source has not been proved",
                    f"prove it on a source above {lowest}",
                    see=(
                        Spot(workshop.file, ("instruments", tester.id, "lowest_indication"), "its lowest indication"),
                    ),
                )


def _voltage(name: str, vehicle: Vehicle, workshop: Workshop) -> Quantity | None:
    """The voltage of a proving unit, or the nominal voltage at a pin."""
    if name in workshop.proving_units:
        return workshop.proving_units[name].voltage
    contact = read_contact(name)
    for circuit in circuits_at((contact,), vehicle) if contact is not None else ():
        voltage = vehicle.circuits[circuit].voltage if circuit in vehicle.circuits else None
        if voltage is not None:
            return voltage.nominal or voltage.max
    return None


def _gives(name: str | None, workshop: Workshop) -> str:
    return "puts out" if name in workshop.proving_units else "has"
