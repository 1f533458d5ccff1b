"""`bayleaf check`: reads the manual and says what is wrong."""

from datetime import date
from pathlib import Path

import click

from ..safety.trace_text import trace_text
from ._watching import watch
from .common import FORMATS, WrongCall, load, manual_for, report, resolved, say, the_day


@click.command("check")
@click.argument("paths", nargs=-1, metavar="[PATH]...")
@click.option("--format", "form", type=click.Choice(FORMATS), default="text", show_default=True, help="How to report.")
@click.option("--today", metavar="DATE", help="The day that dates are held against (year-month-day).")
@click.option("--trace", metavar="PROCEDURE", help="Print the state of every circuit at every step of a procedure.")
@click.option("--watch", "watched", is_flag=True, help="Check again after every save, until Ctrl+C.")
def command(paths: tuple[str, ...], form: str, today: str | None, trace: str | None, watched: bool) -> int:
    """Check the manual.

    Each PATH is a file, a folder or the id of a procedure. The whole manual is always read; the paths choose what is
    reported. Without one, everything is. With --trace a procedure is followed step by step instead.
    """
    day = the_day(today)
    if trace is not None:
        return _trace(trace, day, form, paths)
    chosen = [resolved(path) for path in paths]
    folder = manual_for(chosen)
    if watched:
        if form != "text":
            raise WrongCall("--watch prints text; leave out --format")
        within = [_within(folder, path) for path in chosen] or [""]
        watch(folder, day, lambda one: any(_lies_below(one.place.file, each) for each in within))
        return 0
    manual = load(folder, day, quiet=form != "text")
    findings, files = manual.findings, len(manual.files)
    if chosen:
        wanted = [_within(folder, path) for path in chosen]
        findings = tuple(one for one in findings if any(_lies_below(one.place.file, each) for each in wanted))
        files = sum(any(_lies_below(file, each) for each in wanted) for file in manual.files)
        if not files and not findings and any(path.is_file() for path in chosen):
            raise WrongCall(
                f"{' and '.join(paths)} is nothing that is checked: the files of a manual end in .yml and lie in "
                "procedures/ and records/"
            )
    report(findings, manual, form, files)
    return 1 if any(one.severity == "error" for one in findings) else 0


def _trace(name: str, day: date | None, form: str, paths: tuple[str, ...]) -> int:
    """Prints the trace of a procedure; what is wrong in it is reported behind, in the same words as without it."""
    if form != "text" or paths:
        raise WrongCall("--trace takes one procedure and prints text; leave out the paths and --format")
    path = resolved(name)
    folder = manual_for([path])
    manual = load(folder, day, quiet=True)
    file = _within(folder, path)
    found = next((own for own, procedure in manual.procedures.items() if procedure.file == file), None)
    surveyor = manual.surveyors.get(found.split("/")[0]) if found is not None else None
    if found is None or surveyor is None or found not in surveyor.procedures:
        raise WrongCall(f"{name} is no procedure that can be followed: see what `bayleaf check {name}` says")
    say(trace_text(found, surveyor), nl=False)
    findings = manual.by_file.get(file, ())
    if findings:
        say("")
        report(findings, manual, form, 1)
    return 1 if any(one.severity == "error" for one in findings) else 0


def _within(folder: Path, path: Path) -> str:
    """A path as the manual names its files; the manual itself is empty."""
    full = path.resolve() if path.is_dir() else path.parent.resolve() / path.name
    inside = full.relative_to(folder).as_posix()
    return "" if inside == "." else inside


def _lies_below(file: str, path: str) -> bool:
    return not path or file == path or file.startswith(f"{path}/")
