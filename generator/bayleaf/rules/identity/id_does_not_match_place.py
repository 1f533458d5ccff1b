"""What a file is called inside differs from where it lies.

## Why it matters

The identifier is how other files, the address of the page and job records name a procedure, a vehicle or
a job. It is its place as well. If the two differ, one of them leads to the wrong page; most often the
file was copied and only half changed.

## Fails

```yaml fails procedure
id: test-van/other  # <- `test-van/other` lies in `procedures/test-van/job.yml`
```

```yaml fails vehicle
vehicle: test-truck  # <- `test-truck` lies in the folder `test-van`
```

```yaml fails record
job: "2026-0002"  # <- job `2026-0002` lies in `records/2026-0001.yml`
```

## Passes

```yaml passes procedure
id: test-van/job
```

## Source

The format of the files, version 1: the id of a procedure is its path below `procedures`, without the
ending; that of a vehicle is its folder; a job is the name of its record.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ...model.record import Record
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """`id` is the path."""
    place = procedure.file.removeprefix("procedures/").removesuffix(".yml")
    if procedure.id != place:
        message = f"`{procedure.id}` lies in `{procedure.file}`"
        help_ = f"write `id: {place}`, or move the file to `procedures/{procedure.id}.yml`"
        yield Fault(("id",), message, help=help_)


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """`vehicle` is the folder."""
    folder = vehicle.file.split("/")[-2]
    if vehicle.id != folder:
        message = f"`{vehicle.id}` lies in the folder `{folder}`"
        help_ = f"write `vehicle: {folder}`, or rename the folder to `{vehicle.id}`"
        yield Fault(("vehicle",), message, help=help_)


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """`job` is the name of the file."""
    name = record.file.removeprefix("records/").removesuffix(".yml")
    if record.job and record.job != name:
        message = f"job `{record.job}` lies in `{record.file}`"
        help_ = f'write `job: "{name}"`, or rename the file to `{record.job}.yml`'
        yield Fault(("job",), message, help=help_)
