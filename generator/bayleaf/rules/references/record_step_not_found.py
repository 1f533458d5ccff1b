"""A record has an entry for a step that the procedure does not have.

## Why it matters

A reading belongs to a step. Without it nobody can tell what was measured, and the limits of the step
cannot be held against it.

A record of an older revision is left alone: its steps may have been there then.

## Fails

```yaml fails record
procedure: test-van/isolate
entries:
  - {step: 8, done: yes}
  - {step: prov, done: yes}  # <- the procedure `test-van/isolate` has no step `prov`
```

## Passes

```yaml passes record
procedure: test-van/isolate
entries:
  - {step: 8, done: yes}
```

## Source

The format of the files, version 1: `step` is the id or the number of a step, led to through the performed
procedures, as `isolate/prove`.
"""

import re
from collections.abc import Iterator

from ...loading.shape_words import nearest
from ...model.facts import Facts
from ...model.record import Record
from ..case import Case
from ..fault import Fault, Spot

KIND = "form"
SEVERITY = "error"

_NUMBER = re.compile(r"[0-9]+(\.[0-9]+)?")


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """The ids in the path of every entry; whether there are so many steps is not known here."""
    facts = case.facts.get(record.procedure)
    if facts is None or record.revision not in (None, facts.revision):
        return
    for entry in record.entries:
        here: tuple[Facts, ...] = (facts,)
        for part in entry.step:
            if not part or not here or not all(one.readable for one in here):
                break
            ids = [id for one in here for id in one.step_ids]
            if part not in ids and not _NUMBER.fullmatch(part):
                yield _fault((*entry.at, "step"), part, ids, here)
                break
            called = [case.facts.get(name) for one in here for name in one.performs]
            here = () if None in called else tuple(one for one in called if one is not None)


def _fault(at: tuple[str | int, ...], part: str, ids: list[str], here: tuple[Facts, ...]) -> Fault:
    names = " or ".join(f"`{one.id}`" for one in here)
    meant = nearest(part, ids)
    return Fault(
        at,
        f"the procedure {names} has no step `{part}`",
        help=f"did you mean `{meant}`?" if meant else "write the id or the number that the page shows at the step",
        see=tuple(Spot(one.file, ("steps",), "its steps", key=True) for one in here),
    )
