"""`bayleaf check`: reads the manual and says what is wrong."""

import click

from ..manual import files_below
from .common import FORMATS, load, manual_for, report, resolved, the_day


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
        wanted = tuple(path.resolve() for path in chosen)
        kept = set(files_below(manual, wanted))
        given = {path.relative_to(folder).as_posix() for path in wanted if path.is_file() and folder in path.parents}
        findings = tuple(one for one in findings if one.place.file in kept or one.place.file in given)
        files = len(kept)
    report(findings, manual, form, files)
    return 1 if any(one.severity == "error" for one in findings) else 0
