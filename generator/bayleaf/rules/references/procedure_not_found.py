"""A file names a procedure that does not exist.

## Why it matters

The steps of a performed procedure are part of the job: what it makes safe, the work behind it relies on.
Where it is missing, the reader stands in front of an empty place, and nothing behind it can be checked.

## Fails

```yaml fails procedure
steps:
  - perform: test-van/isolat  # <- there is no procedure `test-van/isolat`
```

```yaml fails procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    then: leaks
conclusions:
  leaks:
    finding: The heater leaks.
    repair: isolate  # <- `isolate` is not the full name of a procedure
```

## Passes

```yaml passes procedure
steps:
  - do: Look at the vehicle.
    on: nothing
    then: leaks
conclusions:
  leaks:
    finding: The heater leaks.
    repair: test-van/isolate
```

## Source

The format of the files, version 1: a procedure is named by its folder and its file, as
`test-van/isolate`.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...model.record import Record
from ..case import Case
from ..fault import Fault
from ._procedures import is_reported_elsewhere, references, words_of_missing

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """What is performed, and what mends a conclusion."""
    return _missing(procedure, case)


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """What was done."""
    return _missing(record, case)


def _missing(model: Procedure | Record, case: Case) -> Iterator[Fault]:
    for reference in references(model):
        if reference.name not in case.facts and not is_reported_elsewhere(reference.name, case):
            message, help_ = words_of_missing(reference.name, reference.folder, case)
            yield Fault(reference.at, message, help=help_)
