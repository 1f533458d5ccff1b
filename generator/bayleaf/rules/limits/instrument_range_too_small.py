"""No range of the instrument shows the limit.

## Why it matters

A display that is overloaded shows no figure, and a reading that cannot be seen cannot be held against a limit. On some
instruments an overload is taken for "very good", on others for "open".

## Fails

```yaml fails procedure
steps:
  - measure: Line of the body CAN to ground
    quantity: resistance
    between: [X210/5, chassis]
    using: multimeter
    limits: at least 1 MΩ  # <- no range of `multimeter` shows 1 MΩ: `resistance` ends at 600 kΩ
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
    limits: at least 11.5 V
    source: workshop practice
```

## Source

Common practice.
"""

from collections.abc import Iterator

from ...limits.instrument import range_for
from ...model import actions
from ...model.procedure import Procedure, Step
from ...model.workshop import Range
from ..case import Case
from ..fault import Fault
from ._deciding import Deciding, deciding, limits_key, suggestion

KIND = "validity"
SEVERITY = "error"
STEPS = (actions.Measure,)


def check_step(step: Step, procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Each end of a limit, the greatest first; and the test voltage of an insulation tester."""
    found = deciding(step, case)
    if found is None or found.function not in found.instrument.functions:
        return
    if not found.ranges:
        yield from _other_ranges(step, found, case)
        return
    ends = sorted((end for end in (found.limit.low, found.limit.high) if end is not None), key=lambda end: -abs(end.si))
    for end in ends[:1]:
        if range_for(end.si, found.ranges) is None:
            text = f"no range of `{found.instrument.id}` shows {end}: `{found.function}` ends at {_top(found.ranges)}"
            because = "an overloaded display shows no figure that could be held against the limit"
            yield Fault(limits_key(step), text, because, suggestion(found, case), see=(found.spot,))


def _other_ranges(step: Step, found: Deciding, case: Case) -> Iterator[Fault]:
    """The function is there, but on no range with this test voltage or current."""
    for key, value in (("test_voltage", found.measured.test_voltage), ("test_current", found.measured.test_current)):
        has = [getattr(one, key) for one in found.instrument.functions[found.function]]
        if value is not None and any(has):
            least = ", ".join(dict.fromkeys(str(one) for one in has if one is not None))
            text = f"`{found.instrument.id}` has no range of `{found.function}` with {value}"
            yield Fault((*step.at, key), text, f"its ranges have {least}", suggestion(found, case), see=(found.spot,))
            return


def _top(ranges: tuple[Range, ...]) -> str:
    tops = [one.top for one in ranges if one.top is not None]
    return str(max(tops, key=lambda top: top.si)) if tops else "no figure"
