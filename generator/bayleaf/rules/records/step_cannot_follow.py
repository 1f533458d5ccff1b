"""A step in a record cannot follow what was done before it.

## Why it matters

Each step takes for granted what the steps before it have done. Where a record goes another way than the procedure, either it
is not what was done, or what was done was not safe by the procedure.

Steps without an entry are let pass where they decide nothing; `bayleaf record` lists them as missing. Proofs that a circuit is
dead may be repeated at any time. A record of another revision is left alone.

## Fails

```yaml fails record
procedure: test-van/isolate
entries:
  - {step: 4, done: yes}
  - {step: 3, done: yes} # <- step `3` cannot follow step `4`
  - {step: 4, done: yes}
```

## Passes

```yaml passes record
procedure: test-van/isolate
entries:
  - {step: 3, done: yes}
  - {step: 4, done: yes}
  - {step: 7, done: yes}
```

## Source

The format of the files, version 1: the entries stand in the order of time.
"""

from collections.abc import Iterator

from ...model.record import Record
from ...records.way import Followed
from ..case import Case
from ..fault import Fault
from ._evaluated import entries

KIND = "practice"
SEVERITY = "warning"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """Every entry that no way leads to over steps that decide nothing."""
    for one in entries(record, case):
        if not one.follows:
            yield Fault(
                (*one.entry.at, "step"),
                f"step `{'/'.join(one.entry.step)}` cannot {_after(one)}",
                "each step takes for granted what those before it have done",
                _mend(one),
            )


def _after(one: Followed) -> str:
    return "be the first" if one.before is None else f"follow step `{one.before.path}`"


def _mend(one: Followed) -> str:
    if one.blocked is not None:
        return f"step `{one.blocked.path}` decides what follows: write its result before this entry"
    return "put the entries into the order in which it was done; say in `remarks` why it was done in this order"
