"""A record ends with a conclusion that the procedure does not have.

## Why it matters

What was found is counted by its conclusion. One that the procedure does not know is counted nowhere.

A record of an older revision is left alone: the conclusion may have been there then.

## Fails

```yaml fails record
procedure: test-van/isolate
conclusion: faild  # <- the procedure `test-van/isolate` has no conclusion `faild`
```

## Passes

```yaml passes record
procedure: test-van/isolate
conclusion: failed
```

## Source

The format of the files, version 1.
"""

from collections.abc import Iterator

from ...loading.shape_words import nearest
from ...model.record import Record
from ..case import Case
from ..fault import Fault, Spot

KIND = "form"
SEVERITY = "error"


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """The conclusion, where one is given and the record is of the revision that is there."""
    facts = case.facts.get(record.procedure)
    name = record.conclusion
    if facts is None or name is None or name in facts.conclusions or not facts.readable:
        return
    if record.revision in (None, facts.revision):
        meant = nearest(name, facts.conclusions)
        there = ", ".join(f"`{end}`" for end in facts.conclusions)
        help_ = f"did you mean `{meant}`?" if meant else f"its conclusions are: {there}"
        yield Fault(
            ("conclusion",),
            f"the procedure `{facts.id}` has no conclusion `{name}`",
            help=help_ if facts.conclusions else "take it out; the procedure has no conclusions",
            see=(Spot(facts.file, ("conclusions",), "its conclusions", key=True),),
        )
