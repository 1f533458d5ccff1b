"""The other procedures that a file refers to."""

from collections.abc import Iterator
from typing import NamedTuple

from ...diagnostics.place import Path
from ...model import actions
from ...model.procedure import Procedure
from ...model.record import Record
from ..case import Case


class Reference(NamedTuple):
    """A procedure as named in a file; `folder` is that of the vehicle the file is about, None for a record."""

    name: str
    at: Path
    folder: str | None


def references(model: Procedure | Record) -> Iterator[Reference]:
    """Every procedure that a file names: performed, as a repair, or recorded."""
    if isinstance(model, Record):
        if model.procedure:
            yield Reference(model.procedure, ("procedure",), None)
        return
    for step in model.steps:
        if step.action.__class__ is actions.Perform and not step.broken and step.action.procedure:
            yield Reference(step.action.procedure, (*step.at, "perform"), model.folder)
    for end in model.conclusions.values():
        if not end.broken:
            several = len(end.repair) > 1
            for index, name in enumerate(end.repair):
                at = (*end.at, "repair")
                yield Reference(name, (*at, index) if several else at, model.folder)


def is_reported_elsewhere(name: str, case: Case) -> bool:
    """Whether a procedure of this name is there, but its file lies wrong or says another name."""
    if any(facts.id == name for facts in case.facts.values()):
        return True
    folder, _, stem = name.rpartition("/")
    if stem == "vehicle":
        return False  # that is the profile, and no procedure
    files = {f"{stem}.yml".casefold(), f"{stem}.yaml".casefold()}
    return bool(folder) and any(other.casefold() in files for other in case.outlook.entries(f"procedures/{folder}"))
