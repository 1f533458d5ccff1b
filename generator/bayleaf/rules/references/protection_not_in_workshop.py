"""A step asks for protection that the workshop file does not list.

## Why it matters

Gloves protect up to the voltage of their class, and only while their test is not overdue. Both stand in
the workshop file; of a pair that is not there nothing is known.

## Fails

```yaml fails procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    wear: glovs-0  # <- the workshop has no piece of protection `glovs-0`
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    wear: gloves-0
```

## Source

The format of the files, version 1: personal protection is listed in `procedures/workshop.yml`. Classes of
gloves and their tests: IEC 60903.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._workshop import not_in_workshop

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """What stands under `wear`."""
    for step in procedure.steps:
        if step.wear and not step.broken:
            for index, name in enumerate(step.wear):
                at = (*step.at, "wear", index) if len(step.wear) > 1 else (*step.at, "wear")
                fault = not_in_workshop(name, "protection", at, case)
                if fault:
                    yield fault
