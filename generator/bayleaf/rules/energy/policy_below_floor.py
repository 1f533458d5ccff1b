"""The policy of a workshop asks for less than the floor.

## Why it matters

What is asked without any policy is the least that protects. A workshop may ask for more: a lower voltage that counts as
dead, a wider guard band around a reading. A policy that asks for less would only make people believe that it holds; it
never does.

## Fails

```yaml fails workshop
policy:
  dead_below: 75 V # <- `75 V` is above 60 V, where voltage class B begins
```

```yaml fails workshop
policy:
  guard_band: 0.5 # <- a guard band of `0.5` is narrower than the uncertainty of the reading
```

## Passes

```yaml passes workshop
policy: {dead_below: 5 V, guard_band: 1.5}
```

## Source

UN R100, definition of high voltage: above 60 V DC or 30 V AC; for alternating voltage the checker holds 30 V whatever a
policy says. JCGM 106:2012, 8.3: a guard band of one expanded uncertainty keeps a wrong "within" below 2.5 %.
"""

from collections.abc import Iterator

from ...model.workshop import Workshop
from ..case import Case
from ..fault import Fault

KIND = "danger"
SEVERITY = "error"

#: In volts: UN R100, definition of high voltage.
_DEAD_BELOW = 60


def check_workshop(workshop: Workshop, case: Case) -> Iterator[Fault]:
    """The two figures that have a floor."""
    policy = workshop.policy
    if policy.dead_below is not None and policy.dead_below.si > _DEAD_BELOW:
        yield Fault(
            ("policy", "dead_below"),
            f"`{policy.dead_below}` is above {_DEAD_BELOW} V, where voltage class B begins",
            "a policy can ask for more than the floor, never for less",
            "write `dead_below: 60 V` or lower (a workshop that measures alternating voltage: 30 V), or take it away",
        )
    if policy.guard_band is not None and policy.guard_band < 1:
        yield Fault(
            ("policy", "guard_band"),
            f"a guard band of `{float(policy.guard_band):g}` is narrower than the uncertainty of the reading",
            "a policy can ask for more than the floor, never for less",
            "write `guard_band: 1.0` or more, or take it away",
        )
