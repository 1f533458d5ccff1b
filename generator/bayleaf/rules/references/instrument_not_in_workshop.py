"""A step uses an instrument that the workshop file does not list.

## Why it matters

Whether a reading is within its limits depends on the accuracy of the instrument, and whether it may touch
a circuit at all on its category and highest voltage. Both stand in the workshop file.

## Fails

```yaml fails procedure
steps:
  - measure: Supply of the heater control
    quantity: voltage
    between: [X210/3, X210/1]
    using: multi-meter  # <- the workshop has no instrument `multi-meter`
```

```yaml fails procedure
steps:
  - measure: Supply of the heater control
    quantity: voltage
    between: [X210/3, X210/1]
    using: proving-unit  # <- `proving-unit` is a proving unit, but an instrument is meant here
```

## Passes

```yaml passes procedure
steps:
  - measure: Supply of the heater control
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
```

## Source

The format of the files, version 1: instruments are listed in `procedures/workshop.yml`.
"""

from collections.abc import Iterator

from ...model import actions
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault
from ._workshop import not_in_workshop

KIND = "form"
SEVERITY = "error"
STEPS = (actions.Measure, actions.ProveDead, actions.ProveSafe, actions.Discharge)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """What stands under `using`."""
    name = step.action.using  # type: ignore[union-attr]
    fault = name and not_in_workshop(name, "instruments", (*step.at, "using"), case)
    if fault:
        yield fault
