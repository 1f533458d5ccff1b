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

from ...loading.shape_words import nearest
from ...model.procedure import Procedure
from ...model.record import Record
from ..case import Case
from ..fault import Fault
from ._procedures import Reference, is_reported_elsewhere, references

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
            yield _fault(reference, case)


def _fault(reference: Reference, case: Case) -> Fault:
    name = reference.name
    if "/" not in name:
        message = f"`{name}` is not the full name of a procedure"
        known = [other for other in case.facts if other.endswith(f"/{name}")]
        own = [other for other in known if other.startswith(f"{reference.folder}/")]
        meant = next(iter(own or known), None) or nearest(f"{reference.folder}/{name}", case.facts)
        help_ = f"write `{meant}`" if meant else "write folder and name, as `test-van/isolate`"
        return Fault(reference.at, message, help=help_)
    for ending in (".yml", ".yaml"):
        if name.endswith(ending) and name.removesuffix(ending) in case.facts:
            help_ = f"write `{name.removesuffix(ending)}`, without the ending of the file"
            return Fault(reference.at, f"there is no procedure `{name}`", help=help_)
    if name.endswith("/vehicle"):
        help_ = "`vehicle.yml` is the profile of the vehicle; name one of its procedures"
        return Fault(reference.at, f"there is no procedure `{name}`", help=help_)
    meant = _nearest(name, case)
    help_ = f"did you mean `{meant}`?" if meant else f"write it, as `procedures/{name}.yml`"
    return Fault(reference.at, f"there is no procedure `{name}`", help=help_)


def _nearest(name: str, case: Case) -> str | None:
    """The procedure that was probably meant; in a folder that exists, only what stands behind it is compared."""
    folder, _, stem = name.rpartition("/")
    beside = [other.rpartition("/")[2] for other in case.facts if other.startswith(f"{folder}/")]
    if not beside:
        return nearest(name, case.facts)
    meant = nearest(stem, beside)
    return f"{folder}/{meant}" if meant else None
