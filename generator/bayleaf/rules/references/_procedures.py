"""The other procedures that a file refers to."""

from collections.abc import Iterator
from typing import NamedTuple

from ...diagnostics.place import Path
from ...loading.shape_words import nearest
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


def words_of_missing(name: str, folder: str | None, case: Case) -> tuple[str, str]:
    """What is said, and what is to be written, where there is no such procedure; `folder` is that of the vehicle."""
    if "/" not in name:
        known = [other for other in case.facts if other.endswith(f"/{name}")]
        own = [other for other in known if other.startswith(f"{folder}/")]
        meant = next(iter(own or known), None) or nearest(f"{folder}/{name}", case.facts)
        help_ = f"write `{meant}`" if meant else "write folder and name, as `test-van/isolate`"
        return f"`{name}` is not the full name of a procedure", help_
    message = f"there is no procedure `{name}`"
    for ending in (".yml", ".yaml"):
        if name.endswith(ending) and name.removesuffix(ending) in case.facts:
            return message, f"write `{name.removesuffix(ending)}`, without the ending of the file"
    if name.endswith("/vehicle"):
        return message, "`vehicle.yml` is the profile of the vehicle; name one of its procedures"
    meant = _nearest(name, case)
    return message, f"did you mean `{meant}`?" if meant else f"write it, as `procedures/{name}.yml`"


def _nearest(name: str, case: Case) -> str | None:
    """The procedure that was probably meant; in a folder that exists, only what stands behind it is compared."""
    folder, _, stem = name.rpartition("/")
    beside = [other.rpartition("/")[2] for other in case.facts if other.startswith(f"{folder}/")]
    if not beside:
        return nearest(name, case.facts)
    meant = nearest(stem, beside)
    return f"{folder}/{meant}" if meant else None
