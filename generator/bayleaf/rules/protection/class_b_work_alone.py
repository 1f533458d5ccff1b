"""One person alone opens, reads or energises a circuit of class B.

## Why it matters

Opening and closing an isolation point, taking off a cover, reading a live voltage and energising are the moments at which
an arc or a shock can happen. A second person stands by, touches nothing, and knows how to switch off.

## Fails

```yaml fails procedure
people: {at_least: 1, who: Qualified for work on dead high-voltage systems}  # <- one person alone opens `service-plug`
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
    people: 2
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
```

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
    people: 1  # <- one person alone takes off `inverter-cover`
  - prove_dead: traction
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
```

## Passes

```yaml passes procedure
people: {at_least: 2, who: Qualified for work on dead high-voltage systems}
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

EN 50110-1 (a second person where the risk asks for it; from memory); common practice for vehicles of voltage class B.
"""

from collections.abc import Iterator

from ...model import actions
from ...model.procedure import Procedure, Step
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ._people import HELP, blamed, is_alone, of_step, together
from ._steps import energised, glove_steps, is_live_reading
from .proving_dead_alone import alone as proving_alone

KIND = "practice"
SEVERITY = "warning"

_ENERGISING = ("ready", "charging")


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Every such step by fewer than two people; a number that is reported for a proof is not reported again."""
    if case.vehicle is None:
        return
    said = {blamed(step, procedure) for step, _ in proving_alone(procedure, case)}
    found = [one for one in _alone(procedure, case.vehicle) if blamed(one[0], procedure) not in said]
    yield from together(found, procedure)


def _alone(procedure: Procedure, vehicle: Vehicle) -> Iterator[tuple[Step, Fault]]:
    met = {id(step): circuits for step, circuits in glove_steps(procedure, vehicle)}
    for step in procedure.steps:
        does = None if step.broken else _does(step, id(step) in met, bool(met), vehicle)
        if does is not None and is_alone(step, procedure):
            because = "it is a moment at which an arc or a shock can happen, and nobody could help"
            yield step, Fault(of_step(step), f"one person alone {does}", because, HELP, key=True)


def _does(step: Step, meets: bool, procedure_meets: bool, vehicle: Vehicle) -> str | None:
    """What a step does that nobody does alone, in words; None where it does no such thing.

    Switching a vehicle on is ordinary; it is energising where class B is worked on in the same procedure.
    """
    action = step.action
    if isinstance(action, actions.SetMode):
        return f"brings the vehicle into {action.mode}" if procedure_meets and action.mode in _ENERGISING else None
    circuits = energised(action, vehicle)
    if circuits:
        return f"energises `{circuits[0]}`"
    if not meets:
        return None
    if isinstance(action, actions.Disconnect | actions.Reconnect):
        verb = "opens" if isinstance(action, actions.Disconnect) else "closes"
        return f"{verb} {_names(action.points)}"
    if isinstance(action, actions.Remove):
        return f"takes off {_names(action.parts)}"
    return "reads a voltage of class B" if is_live_reading(step) else None


def _names(names: tuple[str, ...]) -> str:
    return " and ".join(f"`{name}`" for name in names)
