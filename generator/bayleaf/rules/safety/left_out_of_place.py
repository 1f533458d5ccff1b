"""Something is left off, open, loose or fitted at an end.

## Why it matters

A plug that is forgotten, a bracket that is only finger-tight or a bridge that stays in leave the workshop with the vehicle. What
is meant to stay off at an end is said with `stays_off`. A clamp that is reconnected is only pressed on: where the profile names
its own fastener (`point:`), that is tightened behind it.

## Fails

```yaml fails procedure
steps:
  - set: {mode: off}
  - unplug: X210 # <- `X210` is unplugged in step 2 and may be left so at the end
```

```yaml fails procedure
steps:
  - loosen: heater-bracket # <- `heater-bracket` is loosened in step 1 and may be left so at the end
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: off}
  - unplug: X210
  - plug: X210
```

```yaml passes procedure
steps:
  - set: {mode: off}
  - unplug: X210
stays_off: X210
```

## Source

Common practice.
"""

from collections.abc import Iterator

from ...model import actions
from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault
from ._tell import fault_of, of_kind, step_words

KIND = "practice"
SEVERITY = "error"
NEEDS_WALK = True

_DONE: dict[type, str] = {
    actions.Unplug: "unplugged",
    actions.Remove: "taken off",
    actions.Loosen: "loosened",
    actions.Disconnect: "disconnected",
    actions.Reconnect: "put on loose",
    actions.FitTemporary: "fitted",
    actions.Perform: "taken out of its place",
}


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each thing that is not put back on some path, where it was taken off."""
    for breach in of_kind(case, "left"):
        spot, name = breach.spots[-1], breach.demand.name
        done = _DONE.get(spot.step.action.__class__, "taken out of its place")
        ends = [f"`{end}`" if end else "the end" for end in breach.ends]
        where = ends[0] if len(ends) == 1 else f"{ends[0]} and {len(ends) - 1} other{'s' * (len(ends) > 2)}"
        message = f"`{name}` is {done} in {step_words(spot)} and may be left so at {where}"
        if isinstance(spot.step.action, actions.FitTemporary):  # `stays_off` holds names of the profile only
            help_ = f"take it off before {where}: `remove_temporary: {name}`"
        elif isinstance(spot.step.action, actions.Reconnect):
            help_ = f"tighten it before {where}: `tighten: {name}`"
        else:
            help_ = f"put it back before {where}, or add `{name}` to `stays_off`"
        yield fault_of(breach, case, message, "nobody is told to put it back", help_)
