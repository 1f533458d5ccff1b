"""A circuit is proved dead against a limit that the wait before does not reach.

## Why it matters

The required wait brings a circuit below 60 V. A proof against 5 V then fails though everything is as it should be: somebody
waits again, or looks for a fault that is none. The capacitors need longer for the lower limit.

## Fails

```yaml fails procedure
kind: isolation
leaves: {traction: proved dead}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
steps:
  - set: {mode: off}
  - disconnect: [charge-lead, aux-negative, service-plug]
  - secure: [charge-lead, service-plug]
  - wait: 5 min
    for: [traction]
  - remove: inverter-cover
  - prove_dead: traction # <- `traction` is proved against 1 V, but after the required 300 s up to 4.1 V may be left
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 1 V
    source: workshop practice
```

## Passes

```yaml passes procedure
kind: isolation
leaves: {traction: proved dead}
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
steps:
  - set: {mode: off}
  - disconnect: [charge-lead, aux-negative, service-plug]
  - secure: [charge-lead, service-plug]
  - wait: 7 min
    for: [traction]
  - remove: inverter-cover
  - prove_dead: traction
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 1 V
    source: workshop practice
```

## Source

U(t) = Umax·e^(−t/RC) at the worst tolerances; for 1.1 mF, 47 kΩ and 410 V it takes 125 s to 60 V and 287 s to 5 V.
"""

from collections.abc import Iterator
from math import ceil

from ...model import actions
from ...model.procedure import Procedure
from ...safety.wait import required_wait, safe_voltage, time_to, voltage_after
from ..case import Case
from ..fault import Fault
from ._tell import circuit_of, of_kind

KIND = "practice"
SEVERITY = "warning"
NEEDS_WALK = True


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each proof before which some path waits too little for its limit."""
    for breach in of_kind(case, "early"):
        circuit, proof = circuit_of(breach, case), breach.spots[-1].step.action
        required = required_wait(circuit).seconds
        if not isinstance(proof, actions.ProveDead) or proof.limit is None or proof.limit.high is None or not required:
            continue
        left, longer = voltage_after(circuit, required), time_to(circuit, proof.limit.high.si)
        first = time_to(circuit, safe_voltage(circuit))
        if left is None or longer is None or first is None:
            continue
        limit = str(proof.limit.high)
        yield Fault(
            breach.demand.at,
            f"`{circuit.id}` is proved against {limit}, but after the required {required} s up to {left:.1f} V may be left",
            f"at worst it takes {first:.0f} s to {safe_voltage(circuit)} V and {longer:.0f} s to {limit}",
            f"write `wait: {ceil(longer)} s`, or a limit that the wait reaches",
        )
