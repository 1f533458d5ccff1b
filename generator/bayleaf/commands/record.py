"""`bayleaf record`: checks job records and reports on them."""

import json
from collections.abc import Sequence
from pathlib import Path

import click

from ..diagnostics.finding import Finding
from ..diagnostics.report_json import json_object
from ..diagnostics.report_paths import below
from ..manual import Manual, manual_above
from ..manual_files import File
from ..records.evaluate import evaluate
from ..records.report_text import report_text
from ..records.told import Data, told
from . import _completing
from ._help import WithExamples
from .common import WrongCall, from_here, load, manual_for, report, say, the_day, within, write_utf8


@click.command(
    "record",
    cls=WithExamples,
    examples=(
        ("bayleaf record 2026-0417", "judges a job record anew and reads it out"),
        ("bayleaf record records/2026-0417.yml --format json", "the same for a program"),
    ),
)
@click.argument("files", nargs=-1, required=True, metavar="FILE...", shell_complete=_completing.records)
@click.option("--format", "form", type=click.Choice(("text", "json")), default="text", show_default=True)
@click.option("--today", metavar="DATE", help="The day that dates are held against (year-month-day).")
def command(files: tuple[str, ...], form: str, today: str | None) -> int:
    """Check job records and report on them.

    Each FILE is a record in the folder records/ of a manual, or the number of a job. A file from elsewhere is judged
    as if it lay there, by the manual around the current folder. Every reading is judged anew; a verdict that differs
    from the one shown is an error.
    """
    day = the_day(today)
    paths = list(dict.fromkeys(map(_resolved, files)))
    inside = [path for path in paths if manual_above(path.parent) is not None]
    folder = manual_for(inside)
    names = [_within(folder, path) if path in inside else f"records/{path.name}" for path in paths]
    for path, name in zip(paths, names, strict=True):
        if path not in inside and names.count(name) > 1:
            raise WrongCall(f"{path} has the name of another of these files; give them one after the other")
    elsewhere = {
        File(name, "record"): _bytes(path)
        for path, name in zip(paths, names, strict=True)
        if path not in inside and path.suffix == ".yml"
    }
    manual = load(folder, day, form != "text", elsewhere)
    for path, name in zip(paths, names, strict=True):
        if name not in manual.files:
            raise WrongCall(f"{path} is no record of this manual: records lie in {folder / 'records'} and end in .yml")
    findings = [one for one in manual.findings if one.place.file in names]
    reports = list(_reports(manual, names))
    if form == "json":
        write_utf8(_json(reports, findings, manual))
    else:
        _say(reports, findings, manual, names)
    return 1 if any(one.severity == "error" for one in findings) else 0


def _resolved(name: str) -> Path:
    """A path as given, or that of the record of this job in the manual around the current folder."""
    path = Path(name)
    if path.is_dir():
        raise WrongCall(f"{name} is a folder; name the records one by one, such as records/2026-0001.yml")
    folder = manual_above(Path.cwd())
    if not path.exists() and folder is not None:
        by_number = folder / "records" / f"{name}.yml"
        if by_number.is_file():
            return by_number
    if not path.exists():
        raise WrongCall(f"there is no {name}, neither as a path nor as the number of a job")
    return path


def _bytes(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise WrongCall(f"{path} cannot be opened: {error.strerror}") from error


def _within(folder: Path, path: Path) -> str:
    """The file as the manual names it."""
    name = within(folder, path)
    if not name.startswith("records/"):
        raise WrongCall(f"{path} is no record: records lie in {folder / 'records'}; put it there first")
    return name


def _reports(manual: Manual, names: Sequence[str]) -> list[Data]:
    """What is said of each record that could be read."""
    found = {record.file: record for record in manual.records.values()}
    made = []
    for record in (found[name] for name in names if name in found):
        vehicle = manual.vehicles.get(record.procedure.split("/")[0])
        made.append(told(evaluate(record, manual.procedures, vehicle, manual.workshop)))
    return made


def _json(reports: list[Data], findings: list[Finding], manual: Manual) -> str:
    """One document: the records, and the findings as `check --format json` gives them."""
    path = below(from_here(manual.folder))
    records = [{**one, "file": path(one["file"])} for one in reports]
    checked = json_object(findings, path)
    return json.dumps({"format": 1, "records": records, **checked}, ensure_ascii=False, indent=2) + "\n"


def _say(reports: list[Data], findings: list[Finding], manual: Manual, names: Sequence[str]) -> None:
    say("\n".join(report_text(one) for one in reports), nl=False)
    if reports:
        say("")
    report(findings, manual.folder, manual.text, "text", len(names))
