"""A value is computed from a reading that the procedure does not take.

## Why it matters

The reader would be asked for a value that was never written down, or for one of another step.

## Fails

```yaml fails procedure
steps:
  - id: engine-off
    read: Pressure with the pump off
    quantity: pressure
  - id: engine-on
    read: Pressure with the pump on
    quantity: pressure
  - compute: Rise of the pressure
    formula: difference
    quantity: pressure
    of: [engine-on, engine-of]  # <- the procedure has no reading `engine-of`
```

```yaml fails procedure
steps:
  - id: start
    do: Look at the gauge.
    on: nothing
  - id: engine-on
    read: Pressure with the pump on
    quantity: pressure
  - compute: Rise of the pressure
    formula: difference
    quantity: pressure
    of: [engine-on, start]  # <- the step `start` gives no reading
```

## Passes

```yaml passes procedure
steps:
  - id: engine-off
    read: Pressure with the pump off
    quantity: pressure
  - id: engine-on
    read: Pressure with the pump on
    quantity: pressure
  - compute: Rise of the pressure
    formula: difference
    quantity: pressure
    of: [engine-on, engine-off]
```

## Source

The format of the files, version 1: `of` holds the ids of steps that measure, read, discharge or compute.
"""

from collections.abc import Iterator

from ...loading.shape_words import nearest
from ...model import actions
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault, Spot
from ._hidden import hides_ids

KIND = "form"
SEVERITY = "error"
STEPS = (actions.Compute,)

_READINGS = (actions.Measure, actions.Read, actions.Discharge, actions.Compute)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Every id in `of`."""
    steps = {other.id: other for other in procedure.steps if other.id is not None}
    names = step.action.of  # type: ignore[union-attr]
    for index, name in enumerate(names):
        named = steps.get(name)
        if named is not None and (named.broken or isinstance(named.action, _READINGS)):
            continue
        if named is None and hides_ids(procedure):
            continue
        readings = [id for id, other in steps.items() if isinstance(other.action, _READINGS) and other is not step]
        places = [id for id in readings if id.startswith(f"{name}@")]
        meant = nearest(name, readings)
        help_ = f"did you mean `{meant}`?" if meant else "give the step that takes the reading this `id`"
        if places:
            help_ = f"the reading is taken at each place of a group: {', '.join(f'`{id}`' for id in places)}"
        message = f"the procedure has no reading `{name}`"
        see: tuple[Spot, ...] = ()
        if named is not None:
            message = f"the step `{name}` gives no reading"
            see = (Spot(procedure.file, (*named.at, "id"), f"the step `{name}`"),)
        yield Fault((*step.at, "of", index), message, help=help_, see=see)
