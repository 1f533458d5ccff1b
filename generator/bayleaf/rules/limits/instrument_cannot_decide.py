"""The instrument is too coarse for the limit.

## Why it matters

An instrument may be wrong by percent of the reading and by digits of the last place. Where that is more than the limit
itself leaves, every reading lies too close to call: whoever reads it guesses, and the guess looks like a measurement.

## Fails

```yaml fails procedure
steps:
  - set: {mode: ignition}
  - measure: Drop of the ground wire
    quantity: voltage drop
    between: [X210/1, chassis]
    using: multimeter
    limits: at most 15 mV  # <- `multimeter` may be wrong by 20 mV there: no reading could be accepted
    source: workshop practice
```

## Passes

```yaml passes procedure
steps:
  - set: {mode: ignition}
  - measure: Drop of the ground wire
    quantity: voltage drop
    between: [X210/1, chassis]
    using: multimeter
    limits: at most 100 mV
    source: workshop practice
```

## Source

JCGM 106:2012 (acceptance limit = tolerance limit − guard band); test uncertainty ratio below 1:1 (ANSI/NCSL Z540.3-2006).
"""

from collections.abc import Iterator
from fractions import Fraction

from ...model import actions
from ...model.procedure import Procedure, Step
from ..case import Case
from ..fault import Fault
from ._deciding import judged, limits_key, shown

KIND = "validity"
SEVERITY = "error"
STEPS = (actions.Measure, actions.Compute)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Limits whose instrument has ranges that show them, and limits of what is computed from readings."""
    found = judged(step, procedure, case)
    if found is None or found.sharp.decides:
        return
    error = max(end.error or Fraction(0) for end in found.sharp.ends)
    text = f"{found.by} may be wrong by {shown(error, found.limit.quantity)} there"
    if found.sharp.accepts_nothing:
        text += ": no reading could be accepted"
    else:
        assert found.sharp.ratio is not None
        text += f": the limits are only {float(found.sharp.ratio):.1f} times as wide as its uncertainty"
    because = "a reading counts only where it stays clear of the limit by the error of the instrument"
    yield Fault(limits_key(step), text, because, found.help, see=found.see)
