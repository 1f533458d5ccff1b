"""`bayleaf check`: reads the manual and says what is wrong."""

from pathlib import Path

import click

from .common import FORMATS, WrongCall, load, manual_for, report, resolved, the_day


@click.command("check")
@click.argument("paths", nargs=-1, metavar="[PATH]...")
@click.option("--format", "form", type=click.Choice(FORMATS), default="text", show_default=True, help="How to report.")
@click.option("--today", metavar="DATE", help="The day that dates are held against (year-month-day).")
def command(paths: tuple[str, ...], form: str, today: str | None) -> int:
    """Check the manual.

    Each PATH is a file, a folder or the id of a procedure. The whole manual is always read; the paths choose what is
    reported. Without one, everything is.
    """
    day = the_day(today)
    chosen = [resolved(path) for path in paths]
    folder = manual_for(chosen)
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


def _within(folder: Path, path: Path) -> str:
    """A path as the manual names its files; the manual itself is empty."""
    full = path.resolve() if path.is_dir() else path.parent.resolve() / path.name
    inside = full.relative_to(folder).as_posix()
    return "" if inside == "." else inside


def _lies_below(file: str, path: str) -> bool:
    return not path or file == path or file.startswith(f"{path}/")
