"""One file, from its bytes to its model and everything that is wrong with its form."""

from collections.abc import Callable
from typing import Any, NamedTuple

from ..diagnostics.finding import Finding
from ..model.procedure import Procedure
from ..model.record import Record
from ..model.vehicle import Vehicle
from ..model.workshop import Workshop
from .read_procedure import read_procedure
from .read_record import read_record
from .read_vehicle import read_vehicle
from .read_workshop import read_workshop
from .reader import Data, Reader
from .schema import FileKind
from .shape import check_shape
from .tree import Source, read_source

Model = Vehicle | Procedure | Workshop | Record

_READERS: dict[FileKind, Callable[[Data, Reader, str], Any]] = {
    "vehicle": read_vehicle,
    "procedure": read_procedure,
    "workshop": read_workshop,
    "record": read_record,
}


class Loaded(NamedTuple):
    """A file that was read: its text with places, its model, and the faults of its form."""

    source: Source
    model: Any
    findings: tuple[Finding, ...]


def load(file: str, data: bytes, kind: FileKind) -> Loaded:
    """Reads one file. `file` is its path relative to the manual, with `/`. Never raises on what is in it."""
    source = read_source(file, data)
    shaped = check_shape(source, kind)
    reader = Reader(source, shaped.broken + source.doubtful())
    model = _READERS[kind](shaped.data, reader, file)
    later = (*shaped.findings, *reader.findings)
    if source.findings:
        later = tuple(finding for finding in later if not _is_told(finding, source.findings))
    return Loaded(source, model, (*source.findings, *later))


def _is_told(finding: Finding, told: tuple[Finding, ...]) -> bool:
    """Whether the slip of writing that is behind a finding is told already, at the same place."""
    here = finding.place
    return any(
        there.line == here.line and there.column < here.end_column and here.column < there.end_column
        for there in (one.place for one in told)
    )
