"""The tester is proved on a source that nobody knows.

## Why it matters

A voltage tester that has failed shows no voltage, just as a dead circuit does. So it is proved on a live
source before and after; that source must be one of which the voltage is known.

## Fails

```yaml fails procedure
kind: isolation
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
leaves: {traction: proved dead}
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
    tester_proved:
      before: proving-box  # <- `proving-box` is no known source to prove a tester on
      after: proving-unit
    limits: at most 5 V
    source: workshop practice
```

## Passes

```yaml passes procedure
kind: isolation
stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
leaves: {traction: proved dead}
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
    tester_proved:
      before: proving-unit
      after: proving-unit
    limits: at most 5 V
    source: workshop practice
```

## Source

EN 50110-1 (operation of electrical installations): the detector is checked immediately before and after
use; from memory. What may be named is the format of the files, version 1: a proving unit of
`procedures/workshop.yml`, or a pin.
"""

from collections.abc import Iterator

from ...loading.shape_words import nearest
from ...model import actions
from ...model.contact import read_contact
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault

KIND = "form"
SEVERITY = "error"
STEPS = (actions.ProveDead,)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Both sources; a pin that the vehicle does not have is reported by the rules about names."""
    proof: actions.ProveDead = step.action  # type: ignore[assignment]
    workshop = case.workshop
    if workshop is None or workshop.broken:
        return
    for name, key in {proof.proved_after: "after", proof.proved_before: "before"}.items():
        if name is None or name in workshop.proving_units:
            continue
        contact = read_contact(name)
        if contact is None or contact.pin is None:
            meant = nearest(name, workshop.proving_units)
            units = ", ".join(f"`{unit}`" for unit in workshop.proving_units)
            help_ = f"name a proving unit of `{workshop.file}`{f' ({units})' if units else ''}, or a pin as `X210/3`"
            yield Fault(
                (*step.at, "tester_proved", key),
                f"`{name}` is no known source to prove a tester on",
                help=f"did you mean `{meant}`?" if meant else help_,
            )
