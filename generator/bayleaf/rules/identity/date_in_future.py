"""A date of something that has happened lies in the future.

## Why it matters

When gloves were tested, an instrument calibrated or a procedure revised decides whether it may still be
used. A year that is typed wrong makes it valid for longer than it is.

One day ahead is let pass, since the file may come from the other side of the date line.

## Fails

```yaml fails procedure
revisions:
  - {number: 1, date: 2027-09-30, why: First version}  # <- 2027-09-30 lies in the future
```

```yaml fails workshop
protection:
  gloves-0: {class: class 0, tested: 2028-06-01, interval: 6 months}  # <- 2028-06-01 lies in the future
  over-gloves: {kind: over-gloves}
  face-shield: {kind: face shield}
```

```yaml fails record
started: 2062-10-01 08:15  # <- 2062-10-01 lies in the future
```

## Passes

```yaml passes workshop
protection:
  gloves-0: {class: class 0, tested: 2026-08-01, interval: 6 months}
  over-gloves: {kind: over-gloves}
  face-shield: {kind: face shield}
```

## Source

The format of the files, version 1: these dates tell when something was done.
"""

from collections.abc import Iterator
from datetime import date

from ...diagnostics.place import Path
from ...model.procedure import Procedure
from ...model.record import Record
from ...model.vehicle import Vehicle
from ...model.workshop import Workshop
from ..case import Case
from ..fault import Fault
from ._dates import day_of, is_in_future

KIND = "form"
SEVERITY = "error"


def _check(day: date | None, at: Path, case: Case) -> Iterator[Fault]:
    if day is not None and is_in_future(day, case):
        because = f"today is {case.today}, and this tells when something was done"
        yield Fault(at, f"{day} lies in the future", because, "look whether the year and the month are right")


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The dates of the revisions."""
    for revision in procedure.revisions:
        yield from _check(revision.date, (*revision.at, "date"), case)


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """The days on which prices and catalogue numbers were seen."""
    for part in vehicle.parts.values():
        for number in part.numbers:
            yield from _check(number.seen, (*number.at, "seen"), case)


def check_workshop(workshop: Workshop, case: Case) -> Iterator[Fault]:
    """Calibrations, checks and tests."""
    for instrument in workshop.instruments.values():
        yield from _check(instrument.calibrated, (*instrument.at, "calibrated"), case)
    for unit in workshop.proving_units.values():
        yield from _check(unit.checked, (*unit.at, "checked"), case)
    for piece in workshop.protection.values():
        yield from _check(piece.tested, (*piece.at, "tested"), case)


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """When the job was started; the entries only where that is right, for they follow it."""
    started = day_of(record.started)
    faults = list(_check(started, ("started",), case))
    yield from faults
    if not faults:
        for entry in record.entries:
            yield from _check(day_of(entry.time), (*entry.at, "at"), case)
