"""A procedure lies in a folder without a vehicle profile.

## Why it matters

Without the profile nothing is known of the vehicle: no circuit, no isolation point, no connector. Then
nothing that the procedure does can be checked, and its page could not say what is live.

It is said once for a folder, at its first procedure.

## Fails

Shown file by file in the tests: `procedures/test-van/job.yml` without `procedures/test-van/vehicle.yml`.

## Passes

Shown file by file in the tests: both files side by side.

## Source

The format of the files, version 1: the vehicle of a procedure is the `vehicle.yml` of its folder.
"""

from collections.abc import Iterator

from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault

KIND = "form"
SEVERITY = "error"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Reports a folder in which no file is called like a profile, whatever its letters and its ending."""
    folder = procedure.folder
    if case.vehicle is not None:
        return
    there = case.outlook.entries(f"procedures/{folder}")
    if any(name.casefold() in ("vehicle.yml", "vehicle.yaml") for name in there):
        return  # it cannot be read, or its name is wrong: said there
    whole = [facts.file for facts in case.facts.values() if facts.folder == folder and facts.readable]
    if procedure.file == min(whole, default=procedure.file):
        yield Fault(
            (),
            f"the folder `{folder}` has no vehicle profile",
            "what is live and what is safe is told by the profile; without it nothing can be checked",
            f"write `procedures/{folder}/vehicle.yml`, beginning with `format: 1` and `vehicle: {folder}`",
        )
