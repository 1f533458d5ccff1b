"""A step takes something off that was never fitted.

## Why it matters

Whatever is fitted for the time being is owed back. If it is taken off under another name, the one that is
still there is forgotten: a bridge that stays in, a cap that stays on.

## Fails

```yaml fails procedure
steps:
  - fit_temporary: breakout-lead
    at: X210
  - remove_temporary: break-out-lead  # <- nothing called `break-out-lead` was fitted
  - remove_temporary: breakout-lead
```

## Passes

```yaml passes procedure
steps:
  - fit_temporary: breakout-lead
    at: X210
  - remove_temporary: breakout-lead
```

## Source

The format of the files, version 1: what `fit_temporary` names, `remove_temporary` names again. A
procedure that performs another, or returns the vehicle to service, may take off what another fitted;
there only a name that resembles one fitted here is reported.
"""

from collections.abc import Iterator

from ...loading.shape_words import nearest
from ...model import actions
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault
from ._hidden import hides_ids

KIND = "form"
SEVERITY = "error"
STEPS = (actions.RemoveTemporary,)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The name under `remove_temporary`."""
    name = step.action.name  # type: ignore[union-attr]
    fitted = [other.action.name for other in procedure.steps if isinstance(other.action, actions.FitTemporary)]
    if not name or name in fitted or hides_ids(procedure):
        return
    meant = nearest(name, fitted)
    elsewhere = procedure.kind == "return to service" or any(
        isinstance(other.action, actions.Perform) for other in procedure.steps
    )
    if meant or not elsewhere:
        help_ = f"did you mean `{meant}`?" if meant else f"fit it first: `fit_temporary: {name}`"
        yield Fault((*step.at, "remove_temporary"), f"nothing called `{name}` was fitted", help=help_)
