"""Protection that is worn is too weak for the voltage.

## Why it matters

Insulating gloves are made for a highest voltage, by their class: class 00 up to 500 V AC and 750 V DC, class 0 up to
1000 V AC and 1500 V DC. Above it they may be pierced, and nobody sees it beforehand. What counts is the highest
voltage of the circuit, undivided: a service plug in the middle of the battery leaves half of it at its socket, but what
is being opened is not yet known to be apart.

What is to be worn is worked out from the profile and printed at every step. `wear` may add to it, never fall below it.

## Fails

The workshop file and the procedure, shown file by file:

```yaml fails beside workshop
protection:
  gloves-0: {class: class 0, tested: 2026-08-01, interval: 6 months}
  sheet-300: {name: Cover sheet, voltage: 300 V}
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
    wear: [gloves-0, sheet-300]  # <- `sheet-300` is good for up to 300 V, but `traction` has up to 410 V DC
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

IEC 60903 and ASTM D120 (classes and voltages of use), as restated for 29 CFR 1910.137; the DC figures are 1.5 times the
AC ones, as ASTM F496 has them.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...model.vehicle import Circuit
from ...model.workshop import Protection
from ..case import Case
from ..fault import Fault, Spot
from ..once import once
from ._gloves import fitting, stands_up_to, too_weak_for, workshop_of, worn
from ._steps import glove_steps, has, highest

KIND = "danger"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """What is worn at steps of class B, against the highest voltage that is met there."""
    yield from once(too_weak(procedure, case), procedure.file)


def too_weak(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each piece that is too weak, at each step."""
    workshop = workshop_of(case)
    if workshop is None or case.vehicle is None or not any(step.wear for step in procedure.steps):
        return
    for step, circuits in glove_steps(procedure, case.vehicle):
        for at, one in worn(step, workshop):
            circuit = too_weak_for(one, circuits)
            if circuit is not None:
                key = "class" if one.glove_class else "voltage"
                yield Fault(
                    at,
                    f"`{one.id}` {'are' if one.glove_class else 'is'} good for up to {_stands(one, circuit)}, but {has(circuit)}",
                    "the whole voltage of the circuit counts, also where only a part of it is left",
                    fitting(circuits, workshop.protection),
                    see=(Spot(workshop.file, ("protection", one.id, key), "what they are good for"),),
                )


def _stands(one: Protection, circuit: Circuit) -> str:
    kind = highest(circuit)[1]
    return f"{one.voltage}" if one.glove_class is None else f"{stands_up_to(one, kind)} V {kind.upper()}"
