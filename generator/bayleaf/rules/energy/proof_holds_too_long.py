"""The policy of a workshop lets a proof of absence of voltage hold for longer than an hour.

## Why it matters

That a circuit is dead was true when it was read. The longer ago that is, the more may have happened that nobody at the
vehicle knows of. After an hour the reading is taken again, whatever a policy says.

## Fails

```yaml fails workshop
policy:
  proof_holds: 4 h # <- a proof holds for 60 min, not for `4 h`
```

## Passes

```yaml passes workshop
policy: {proof_holds: 45 min}
```

## Source

Common practice: proved again after every break and at least every hour. NFPA 70E-2024: at each point of work (as
restated by a training page).
"""

from collections.abc import Iterator

from ...model.workshop import Workshop
from ..case import Case
from ..fault import Fault

KIND = "danger"
SEVERITY = "error"

#: In seconds; common practice.
_FLOOR = 3600


def check_workshop(workshop: Workshop, case: Case) -> Iterator[Fault]:
    """How long a proof holds."""
    held = workshop.policy.proof_holds
    if held is not None and held.si > _FLOOR:
        yield Fault(
            ("policy", "proof_holds"),
            f"a proof holds for 60 min, not for `{held}`",
            "a policy can ask for more than the floor, never for less: the 60 min stand",
            "write `proof_holds: 60 min` or less, or take it away",
        )
