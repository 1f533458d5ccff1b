"""One file, from its bytes to its model and everything that is wrong with its form."""

from collections.abc import Callable
from typing import Any, Literal, NamedTuple

from ..diagnostics.finding import Finding
from ..model.free_page import FreePage
from ..model.procedure import Procedure
from ..model.record import Record
from ..model.vehicle import Vehicle
from ..model.workshop import Workshop
from .free_page import PageSource, read_free_page
from .read_procedure import read_procedure
from .read_record import read_record
from .read_vehicle import read_vehicle
from .read_workshop import read_workshop
from .reader import Reader
from .schema import FileKind
from .shape import check_shape
from .tree import Source, read_source
from .unfilled import unfilled
from .value_reader import Data

Model = Vehicle | Procedure | Workshop | Record | FreePage

#: The kinds of file that a manual has: those of the format, and free pages.
AnyKind = FileKind | Literal["page"]

_READERS: dict[FileKind, Callable[[Data, Reader, str], Any]] = {
    "vehicle": read_vehicle,
    "procedure": read_procedure,
    "workshop": read_workshop,
    "record": read_record,
}


class Loaded(NamedTuple):
    """A file that was read: its text with places, its model, and the faults of its form."""

    source: Source | PageSource
    model: Any
    findings: tuple[Finding, ...]


def load(file: str, data: bytes, kind: AnyKind) -> Loaded:
    """Reads one file. `file` is its path relative to the manual, with `/`. Never raises on what is in it."""
    if kind == "page":
        page, model = read_free_page(file, data)
        return Loaded(page, model, page.findings)
    return _load(file, data, kind)


def _load(file: str, data: bytes, kind: FileKind) -> Loaded:
    source = read_source(file, data)
    doubtful = source.doubtful()
    shaped = check_shape(source, kind, doubtful)
    reader = Reader(source, shaped.broken + doubtful)
    model = _READERS[kind](shaped.data, reader, file)
    later = (*shaped.findings, *reader.findings)
    empty = {finding.place.line for finding in later if finding.rule == "empty-value"}
    if empty:  # what stands below a key without a value probably belongs to it
        later = tuple(one for one in later if one.rule != "wrong-shape" or one.place.line - 1 not in empty)
    if source.findings:
        later = tuple(finding for finding in later if not _is_told(finding, source.findings))
    return Loaded(source, model, (*source.findings, *later, *unfilled(file, source.text)))


def _is_told(finding: Finding, told: tuple[Finding, ...]) -> bool:
    """Whether the slip of writing that is behind a finding is told already, at the same place."""
    return any(_is_same_place(finding, one) or _is_one_line_too_high(finding, one) for one in told)


def _is_same_place(finding: Finding, told: Finding) -> bool:
    """Whether two findings overlap; of a line that could not be read at first, no part is judged a second time."""
    here, there = finding.place, told.place
    if here.line != there.line:
        return False
    return told.rule == "not-readable" or there.column < here.end_column and here.column < there.end_column


def _is_one_line_too_high(missing: Finding, twice: Finding) -> bool:
    """Whether a key that is missing stands in the line above, where it is written twice: two lines changed places."""
    if twice.rule != "repeated-key" or missing.place.line != twice.place.line + 1:
        return False
    if missing.rule == "missing-key":
        return missing.message.split("`")[-2] == twice.message.split("`")[1]
    return missing.rule == "empty-value"
