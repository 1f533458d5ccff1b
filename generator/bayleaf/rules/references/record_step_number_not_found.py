"""A record has an entry for a number that no step of the procedure has.

## Why it matters

A reading belongs to a step. Without it nobody can tell what was measured, and the limits of the step cannot be held
against it.

A record of an older revision is left alone: it may have had more steps.

## Fails

```yaml fails record
procedure: test-van/isolate
entries:
  - {step: 8, done: yes}
  - {step: 12, done: yes} # <- the procedure `test-van/isolate` has no step 12: it ends with step 8
```

## Passes

```yaml passes record
procedure: test-van/isolate
entries:
  - {step: 8, done: yes}
```

## Source

The format of the files, version 1: `step` is the id or the number of a step, as the page shows it.
"""

import re
from collections.abc import Iterator

from ...model.facts import Facts
from ...model.record import Record
from ..case import Case
from ..fault import Fault, Spot

KIND = "form"
SEVERITY = "error"

_NUMBER = re.compile(r"([0-9]+)(\.[0-9]+)*")


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """The number at the beginning of the path of every entry; what it leads to in a performed procedure is not followed."""
    facts = case.facts.get(record.procedure)
    if facts is None or not facts.readable or record.revision not in (None, facts.revision):
        return
    for entry in record.entries:
        number = entry.step[0] if entry.step else ""
        if number not in facts.step_ids and _NUMBER.fullmatch(number) and not _is_there(number, facts):
            last = facts.step_numbers[-1]
            yield Fault(
                (*entry.at, "step"),
                f"the procedure `{facts.id}` has no step {number}: it ends with step {last}",
                "a reading without its step cannot be held against any limit",
                "write the id or the number that the page shows at the step",
                see=(Spot(facts.file, ("steps",), "its steps", key=True),),
            )


def _is_there(number: str, facts: Facts) -> bool:
    """Whether a step has this number, or is one of a performed procedure (7.1 behind step 7, which is none of a group)."""
    if number in facts.step_numbers or not facts.step_numbers:
        return True
    top, _, within = number.partition(".")
    return bool(within) and top in facts.step_numbers
