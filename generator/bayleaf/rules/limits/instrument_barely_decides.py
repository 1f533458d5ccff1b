"""The instrument is coarse against the limit: many good readings will be too close to call.

## Why it matters

With an uncertainty of a quarter of what the limits leave, few readings near a limit are undecided. With less than that,
a sound part is often measured again, or wrongly called bad.

## Fails

```yaml fails procedure
steps:
  - set: {mode: ignition}
  - measure: Supply of the heater control
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
    limits: 12.0 V to 12.4 V  # <- the limits are 2.1 times as wide as the uncertainty of `multimeter` (4 are usual)
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: ignition}
  - measure: Supply of the heater control
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
    limits: 11.5 V to 14.8 V
    source: workshop practice
```

## Source

Test uncertainty ratio of 4:1: ANSI/NCSL Z540.3-2006, 5.3 b. The ratio is (upper − lower limit) / (2 · U), for one limit
|limit − nominal value| / U; U = 2a/√3 (JCGM 100:2008, 4.3.7).
"""

from collections.abc import Iterator

from ...model import actions
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault
from ._deciding import judged, limits_key

KIND = "practice"
SEVERITY = "warning"
STEPS = (actions.Measure, actions.Compute)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Limits that can be decided, with a ratio below 4:1."""
    found = judged(step, procedure, case)
    if found is None or not found.sharp.decides or found.sharp.decides_well:
        return
    assert found.sharp.ratio is not None
    ratio = f"{float(found.sharp.ratio):.1f}"
    text = f"the limits are {ratio} times as wide as the uncertainty of {found.by} (4 are usual)"
    yield Fault(
        limits_key(step), text, "a reading near a limit will often be too close to call", found.help, see=found.see
    )
