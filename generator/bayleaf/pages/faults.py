"""What is wrong with a file, in the full words of the report, at the place of a page where it is."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from ..diagnostics.finding import Finding
from ..diagnostics.place import Path
from ..manual import Manual
from ..model.procedure import Procedure


class Line(NamedTuple):
    """A line of a file: its number, what stands before the mark, in it and behind it."""

    number: int
    before: str
    marked: str
    behind: str


class FaultNote(NamedTuple):
    """A fault as a page shows it; `see` are other places with what stands there, `url` leads to the rule."""

    severity: str
    message: str
    place: str
    line: Line | None
    because: str | None
    help: str | None
    see: tuple[str, ...]
    rule: str
    url: str


@dataclass(frozen=True, slots=True)
class Faults:
    """The faults of a procedure: those at its steps and conclusions by their anchor, and those of the head."""

    head: tuple[FaultNote, ...] = ()
    at: Mapping[str, tuple[FaultNote, ...]] = field(default_factory=dict)


def fault_notes(manual: Manual, file: str) -> tuple[FaultNote, ...]:
    """The errors of a file, for the head of its page. Warnings are for the author, not for the bay."""
    return tuple(_note(one, manual, file) for one in errors_of(manual, file))


def errors_of(manual: Manual, file: str) -> tuple[Finding, ...]:
    """What is wrong with a file and forbids to publish it."""
    return tuple(one for one in manual.by_file.get(file, ()) if one.severity == "error")


def faults_of(procedure: Procedure, manual: Manual) -> Faults:
    """The errors of a procedure, each at the step or conclusion in whose lines it stands."""
    found = errors_of(manual, procedure.file)
    if not found:
        return Faults()
    anchors = anchors_of(procedure, found, manual)
    at: dict[str, list[FaultNote]] = {}
    for finding, anchor in zip(found, anchors, strict=True):
        at.setdefault(anchor, []).append(_note(finding, manual, procedure.file))
    head = tuple(at.pop("", ()))
    return Faults(head, {anchor: tuple(notes) for anchor, notes in at.items()})


def anchors_of(procedure: Procedure, findings: tuple[Finding, ...], manual: Manual) -> tuple[str, ...]:
    """For each finding of a procedure the anchor of its step or conclusion; an empty one for the head of the page."""
    source = manual.sources[procedure.file]
    begins: dict[tuple[int, int], str] = {}

    def begin(at: Path, anchor: str, key: bool = False) -> None:
        place = source.place(at, key=key)
        begins.setdefault((place.line, place.column), anchor)

    for step in procedure.steps:  # of a group that is done at several places, the first time
        begin(step.at[:2], step.anchor)
        begin(step.at, step.anchor)
    for end in procedure.conclusions.values():
        begin(end.at, f"conclusion-{end.id}", key=True)
    for key in source.data if isinstance(source.data, dict) else ():
        begin((key,), "", key=True)
    order = sorted(begins)

    def anchor(finding: Finding) -> str:
        before = [one for one in order if one <= (finding.place.line, finding.place.column)]
        return begins[before[-1]] if before else ""

    return tuple(map(anchor, findings))


def _note(finding: Finding, manual: Manual, file: str) -> FaultNote:
    place = finding.place
    where = f"line {place.line}, column {place.column} of {place.file}"
    see = tuple(
        f"line {one.place.line}{f' of {one.place.file}' if one.place.file != file else ''}: {one.text}"
        for one in finding.see
    )
    return FaultNote(
        finding.severity, finding.message, where, _line(finding, manual), finding.because, finding.help, see,
        finding.rule, f"{'../' * (file.count('/') - 1)}rules/{finding.rule}.html",
    )  # fmt: skip


def _line(finding: Finding, manual: Manual) -> Line | None:
    """The line of the file with its mark; nothing where there is none to show."""
    lines = (manual.text(finding.place.file) or "").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    place = finding.place
    if not 0 < place.line <= len(lines) or not lines[place.line - 1].strip():
        return None
    line = lines[place.line - 1]
    end = place.end_column - 1 if place.end_line == place.line else len(line)
    return Line(place.line, line[: place.column - 1], line[place.column - 1 : end], line[end:])
