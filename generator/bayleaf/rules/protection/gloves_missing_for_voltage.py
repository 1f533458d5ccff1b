"""The workshop has no gloves in date for the voltage.

## Why it matters

Opening a point of isolation, taking off a cover and proving dead are done with insulating gloves, since only the proof
tells that the circuit is dead. Which class is needed is worked out from the profile and printed at the step; the
workshop must own such a pair, with its test in date.

## Fails

The workshop file and the procedure, shown file by file:

```yaml fails beside workshop
protection:
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
  - disconnect: service-plug  # <- the workshop has no gloves for 410 V DC in date
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

EN 50110-1 (personal protection for making dead) and IEC 60903 (classes); common practice.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...model.vehicle import Circuit
from ...model.workshop import Workshop
from ..case import Case
from ..fault import Fault, Spot
from ._dates import protection
from ._gloves import class_for, in_date, is_proving, stands_up_to, too_weak_for, workshop_of, worn
from ._people import of_step
from ._steps import glove_steps, highest, volts_of
from .protection_too_weak import too_weak
from .worn_protection_overdue import overdue

KIND = "danger"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The first step that needs gloves which nobody has. Gloves that are named and do not fit are reported where they stand."""
    workshop = workshop_of(case)
    if workshop is None or case.vehicle is None:
        return
    gloves = [one for one in workshop.protection.values() if one.glove_class and in_date(one, case)]
    without = []
    for step, circuits in glove_steps(procedure, case.vehicle):
        if is_proving(step) and not any(one.glove_class for _, one in worn(step, workshop)):
            wanting = next((one for one in circuits if all(too_weak_for(each, (one,)) for each in gloves)), None)
            if wanting is not None:
                without.append((step, circuits, wanting))
    if not without or any(True for _ in too_weak(procedure, case)) or any(True for _ in overdue(procedure, case)):
        return
    step, circuits, wanting = without[0]
    volts, kind = highest(wanting)
    yield Fault(
        of_step(step),
        f"the workshop has no gloves for {volts_of(volts)} {kind.upper()} in date",
        _why(workshop, wanting, case),
        f"list gloves of {class_for(circuits)} or higher, with `tested` and `interval`, under `protection` in `{workshop.file}`",
        see=tuple(Spot(procedure.file, of_step(other), "here too", key=True) for other, _, _ in without[1:3]),
        key=True,
    )


def _why(workshop: Workshop, circuit: Circuit, case: Case) -> str:
    """Why each pair that is owned does not do."""
    kind = highest(circuit)[1]
    reasons = []
    for one in workshop.protection.values():
        if one.glove_class:
            late = protection(one).late(case.today)
            weak = f"`{one.id}` are good for up to {stands_up_to(one, kind)} V {kind.upper()}"
            reasons.append(weak if too_weak_for(one, (circuit,)) else late or "")
    return "; ".join(reasons) if reasons else "no protection of the workshop has a class of gloves"
