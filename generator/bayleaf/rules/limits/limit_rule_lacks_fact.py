"""A rule for limits cannot be computed, since a fact is missing.

## Why it matters

A rule takes its figures from the vehicle profile, so that nobody types them twice. Without them there is no limit, and the
reading decides nothing.

## Fails

```yaml fails procedure
steps:
  - set: {mode: ignition}
  - measure: Drop of the ground strap
    quantity: voltage drop
    between: [X210/1, chassis]
    using: multimeter
    limits:
      rule: voltage drop  # <- the rule `voltage drop` cannot be computed: `at` has to say a current
      of: ground-strap
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: ignition}
  - measure: Drop of the ground strap
    quantity: voltage drop
    between: [X210/1, chassis]
    using: multimeter
    limits:
      rule: voltage drop
      of: ground path
```

## Source

The format of the files, version 1. What each rule needs stands in the book, under "Limits by rule".
"""

from collections.abc import Iterator

from ...limits.limit_rule import MAY_CITE, Lack, computed
from ...limits.torque import computed_torque
from ...model.procedure import Procedure, Step
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault, Spot

KIND = "validity"
SEVERITY = "error"
STEPS = MAY_CITE


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Rules that fit what is read; a profile with a fault of its own is mended first."""
    if step.cited is None or case.vehicle is None or case.vehicle.broken or step.cited.computed is not None:
        return
    lack = computed(step, case.vehicle)
    if isinstance(lack, Lack):
        see = (Spot(case.vehicle.file, *lack.seen),) if lack.seen is not None else ()
        text = f"the rule `{step.cited.rule}` cannot be computed: {lack.message}"
        is_written = {"of": step.cited.of, "at": step.cited.at, "line": step.cited.line, "code": step.cited.code}
        key = lack.key if is_written.get(lack.key) else "rule"
        yield Fault((*step.at, "limits", key), text, lack.because, lack.help, see=see)


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """Torques that a rule computes."""
    for fastener in vehicle.fasteners.values():
        if fastener.torque_by is None or fastener.broken or fastener.torque_by.computed is not None:
            continue
        lack = computed_torque(fastener)
        if isinstance(lack, Lack):
            text = f"the rule `{fastener.torque_by.rule}` cannot be computed: {lack.message}"
            yield Fault((*fastener.at, "torque", "rule"), text, lack.because, lack.help)
