"""A limit does not say where it comes from.

## Why it matters

When a reading is disputed, somebody has to look the limit up. A figure without a source is as good as the
memory of whoever wrote it, and it stays when the document behind it changes.

## Fails

```yaml fails procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: 11.5 V to 14.8 V # <- `11.5 V to 14.8 V` has no source
```

```yaml fails procedure
steps:
  - tighten: Screws of the trim panel
    torque: 3 N·m # <- `3 N·m` has no source
```

## Passes

```yaml passes procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: 11.5 V to 14.8 V
    source: workshop practice
```

## Source

Common practice; ISO/IEC 17025:2017, 7.1.3 asks for a decision rule agreed beforehand.
"""

from collections.abc import Iterator

from ...model import actions
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault

KIND = "practice"
SEVERITY = "warning"
STEPS = (
    actions.Measure, actions.Read, actions.ProveDead, actions.ProveSafe, actions.Compute, actions.Discharge,
    actions.Tighten,
)  # fmt: skip


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Limits and torques that stand in the step itself; those of a rule have their source."""
    if step.source is not None or step.cited is not None:
        return
    action = step.action
    if isinstance(action, actions.Tighten):
        limit, key = action.torque, "torque"
    else:
        limit, key = action.limit, "limits"  # type: ignore[union-attr]
    if limit is not None:
        help_ = "add `source: workshop practice`, or the document and the place in it where the figure stands"
        yield Fault((*step.at, key), f"`{limit}` has no source", None, help_)
