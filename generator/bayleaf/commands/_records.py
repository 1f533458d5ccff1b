"""What a draft is made from: a profile without faults of form, and a record, of the manual or from elsewhere."""

from pathlib import Path

from ..drafts.surroundings import Around, around_of
from ..loading.load import load as load_file
from ..manual import Manual, manual_above
from ..model.procedure import Procedure
from ..model.record import Record
from .common import WrongCall


def known(manual: Manual, folder: str) -> Around:
    """What the manual knows of a vehicle. Facts may be missing in its profile, but none may be misspelt."""
    refuse_faulty(manual.vehicles[folder].file, manual)
    return around_of(manual, folder)


def refuse_faulty(file: str, manual: Manual) -> None:
    """A wrong call where a file that a draft is made from has faults of form: what is meant in it is not known."""
    faults = [one for one in manual.by_file.get(file, ()) if one.severity == "error" and one.kind == "form"]
    if faults:
        raise WrongCall(
            f"{file}, line {faults[0].place.line}: {faults[0].message}. Put this right first, for the draft rests on "
            "it; `bayleaf check` tells how."
        )


def record_path(name: str, start: Path | None) -> Path:
    """A path as given, or that of the record of this job in the manual."""
    path = Path(name)
    if path.is_file():
        return path
    folder = manual_above(start or Path.cwd())
    by_number = folder / "records" / f"{name}.yml" if folder is not None else None
    if by_number is not None and by_number.is_file():
        return by_number
    raise WrongCall(f"there is no record {name}, neither as a path nor as the number of a job")


def record_of(path: Path, manual: Manual) -> tuple[Record, Procedure]:
    """The record and the procedure it was worked by. One that cannot be read surely is refused."""
    file = f"records/{path.name}"
    found = load_file(file, path.read_bytes(), "record")
    faults = [one for one in found.findings if one.severity == "error"]
    if faults:
        raise WrongCall(f"{path}, line {faults[0].place.line}: {faults[0].message}. Put the record right first.")
    record: Record = found.model
    procedure = manual.procedures.get(record.procedure)
    if procedure is None:
        raise WrongCall(f"{path} was worked by {record.procedure}, and this manual has no such procedure")
    if procedure.folder not in manual.vehicles or not procedure.shape_is_whole or procedure.broken:
        raise WrongCall(f"{record.procedure}, by which the job was worked, has faults; `bayleaf check` tells them")
    return record, procedure
