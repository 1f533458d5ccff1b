"""A file or folder has a name that Windows keeps for a device.

## Why it matters

`aux`, `con`, `nul`, `prn`, `com1` to `com9` and `lpt1` to `lpt9` are devices there, with any ending. A manual
that holds a file of such a name cannot be copied onto a computer with Windows; what opens `aux.yml` gets a port
instead of the file.

## Fails

Shown file by file in the tests: `procedures/test-van/aux.yml`, `procedures/con/vehicle.yml`, `records/com1.yml`.

## Passes

Shown file by file in the tests: `procedures/test-van/aux-battery.yml`.

## Source

Microsoft, “Naming Files, Paths, and Namespaces”: names of devices, also with an ending.
"""

from collections.abc import Iterator

from ...model.file_names import KEPT_BY_WINDOWS
from ...model.procedure import Procedure
from ...model.record import Record
from ...model.vehicle import Vehicle
from ..case import Case
from ..fault import Fault

KIND = "form"
SEVERITY = "warning"

_WHY = "it is a device there, with any ending, so the manual cannot be copied onto such a computer"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """The file; its folder is that of a vehicle."""
    yield from _told(procedure.file.split("/")[-1], "id", "file", "choose a name that says what is done")


def check_vehicle(vehicle: Vehicle, case: Case) -> Iterator[Fault]:
    """The folder."""
    yield from _told(vehicle.file.split("/")[-2], "vehicle", "folder", "choose a longer name, such as that of the type")


def check_record(record: Record, case: Case) -> Iterator[Fault]:
    """The file."""
    yield from _told(record.file.split("/")[-1], "job", "file", "give the job another number")


def _told(name: str, key: str, what: str, help_: str) -> Iterator[Fault]:
    if name.split(".")[0] in KEPT_BY_WINDOWS:
        yield Fault(
            (key,), f"Windows cannot have a {what} called `{name}`", _WHY, f"{help_}, and change `{key}` with it"
        )
