"""A rule for limits is cited where something else is read.

## Why it matters

A rule gives a figure for one kind of reading. Beside another one it has no meaning, and the figure would be compared with
something that it was not made for.

## Fails

```yaml fails procedure
steps:
  - set: {mode: ignition}
  - measure: Supply of the heater control
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
    limits:
      rule: insulation resistance  # <- the rule `insulation resistance` is for insulation resistance, not for voltage
      at_least: 11.5 V
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: ignition}
  - measure: Supply of the heater control
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
    limits:
      rule: supply range
      code: C
```

## Source

The format of the files, version 1. A proof of a dead circuit takes its limit from the workshop's policy and from the
voltage class, never from a rule.
"""

from collections.abc import Iterator

from ...limits.limit_rule import MAY_CITE, fits, limit_rules
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault

KIND = "validity"
SEVERITY = "error"


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Every step that cites a rule."""
    rule = limit_rules().get(step.cited.rule) if step.cited is not None else None
    if rule is None or fits(step, rule):
        return
    at = (*step.at, "limits", "rule")
    if not isinstance(step.action, MAY_CITE):
        text = f"the rule `{rule.name}` is not for `{step.action.key}`"
        because = "what proves a circuit dead or safe is judged by the workshop's limit, not by a computed one"
        yield Fault(at, text, because, "write the limit itself, such as `at most 5 V`")
        return
    quantity = step.action.quantity or "a value whose kind is not said"
    text = f"the rule `{rule.name}` is for {' or '.join(sorted(rule.fits))}, not for {quantity}"
    yield Fault(at, text, None, "cite the rule for what is read, or say what is read: `quantity: …`")
