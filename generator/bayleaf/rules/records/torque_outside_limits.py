"""A torque in a record is not the one that the fastener asks for.

## Why it matters

A nut on a current stud that is too loose grows hot, one that is too tight tears the stud. A later entry with the right torque
mends it: then it was put right, and both stand in the record.

## Fails

The procedure and the record, shown file by file:

```yaml fails beside procedure
steps:
  - id: bracket
    tighten: heater-bracket
    tools: torque-wrench-small
```

```yaml fails beside record
entries:
  - {step: bracket, torque: 22 N·m} # <- 22 N·m is not the torque of `heater-bracket`: 20 N·m, with this wrench 19.2 N·m to 20.8 N·m
```

## Passes

```yaml passes beside procedure
steps:
  - id: bracket
    tighten: heater-bracket
    tools: torque-wrench-small
```

```yaml passes beside record
entries:
  - {step: bracket, torque: 22 N·m}
  - {step: bracket, torque: 20.5 N·m}
```

## Source

The torque and its tolerance are those of the profile. Where it states no tolerance, the wrench may be off by what the workshop
file states for it, else by ISO 6789-1:2017.
"""

from collections.abc import Iterator

from ...model.record import Record
from ...records.torques import Allowed
from ...records.words import size
from ..case import Case
from ..fault import Fault
from ._evaluated import entries

KIND = "validity"
SEVERITY = "error"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """Every torque that no later entry of the same fastener puts right."""
    taken = [
        (one.entry, one.torque, one.torque.allowed)
        for one in entries(record, case)
        if one.torque is not None and one.torque.allowed is not None
    ]
    for index, (entry, torque, allowed) in enumerate(taken):
        later = (other for other in taken[index + 1 :] if other[0].step == entry.step and other[2].name == allowed.name)
        if torque.is_outside(entry) and all(other.is_outside(again) for again, other, _ in later):
            yield Fault(
                (*entry.at, "torque"),
                f"{entry.torque} is not the torque of `{allowed.name}`: {_asked(allowed)}",
                "too loose it grows hot or comes off, too tight it tears",
                "tighten it again and add an entry with that torque; or put the figure right, if it was written wrong",
            )


def _asked(allowed: Allowed) -> str:
    if allowed.per_cent is None:
        return str(allowed.torque)
    ends = [size(end, "N·m") for end in (allowed.low, allowed.high) if end is not None]
    return f"{allowed.torque}, with this wrench {' to '.join(ends)}"
