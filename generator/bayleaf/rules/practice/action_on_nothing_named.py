"""A step in words does not say what is touched.

## Why it matters

On a vehicle with voltage class B, what has to be dead before a step follows from what the step touches. Words
alone cannot be checked, so a step in words says `on: …`, or `on: nothing`.

## Fails

```yaml fails procedure
steps:
  - do: Clean the seal of the plug. # <- this step does not say what is touched
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the display.
    on: nothing
```

## Source

UN R100, 2.17 and ISO 6469-3 (voltage class B: above 60 V DC or 30 V AC; clause from memory); that `on` is
written is a decision of this format.
"""

from collections.abc import Iterator

from ...model import actions
from ...model.procedure import Procedure, Step
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault
from ..references._memo import of_last

KIND = "practice"
SEVERITY = "warning"
STEPS = (actions.Do,)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Steps in words without `on`, on a vehicle that has voltage class B."""
    if step.on or case.vehicle is None or not _has_class_b(case.vehicle):
        return
    help_ = "add `on: …` with names of the profile or contacts, or `on: nothing`"
    because = "the vehicle has voltage class B, and what must be dead before a step follows from what it touches"
    yield Fault((*step.at, "do"), "this step does not say what is touched", because, help_)


@of_last
def _has_class_b(vehicle: Vehicle) -> bool:
    return any(circuit.is_class_b for circuit in vehicle.circuits.values())
