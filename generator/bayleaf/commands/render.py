"""`bayleaf render`: checks the manual, and makes the site of it."""

from pathlib import Path

import click

from ..manual import without_collector
from ..pages.all import all_pages
from ..site.folder import SiteFolderError
from ..site.folder import check as check_folder
from .common import WrongCall, load, manual_for, progress, report, say, the_day


@click.command("render")
@click.option("--manual", "start", type=click.Path(path_type=Path), help="The manual's folder. [default: around here]")
@click.option(
    "--output", type=click.Path(path_type=Path), help="Where the site goes. [default: site_dir of mkdocs.yml]"
)
@click.option("--with-errors", is_flag=True, help="Render in spite of errors; the pages are marked.")
@click.option("--today", metavar="DATE", help="The day that dates are held against (year-month-day).")
def command(start: Path | None, output: Path | None, with_errors: bool, today: str | None) -> int:
    """Check the manual and render it.

    With errors nothing is rendered, and the last good site stays as it was.
    """
    with without_collector():
        return _render(manual_for([start] if start else []), output, with_errors, today)


def _render(folder: Path, output: Path | None, with_errors: bool, today: str | None) -> int:
    from ..mkdocs_shell import ShellError, open_shell  # late: MkDocs takes its time to import

    manual = load(folder, the_day(today))
    if manual.findings:
        report(manual.findings, manual, "text", len(manual.files))
    if manual.has_errors and not with_errors:
        say("Nothing was rendered. The last good manual is untouched; --with-errors renders with marked pages.")
        return 1
    try:
        shell = open_shell(folder / "mkdocs.yml", all_pages(manual), manual.findings)
        site = output.resolve() if output else shell.site_dir
        if folder / "procedures" in (site, *site.parents):
            raise WrongCall(f"{site} lies in procedures/, where the author's files are. Name another folder.")
        check_folder(site)
        with progress("Rendering") as step:
            count = shell.write(site, step)
    except (ShellError, SiteFolderError) as error:
        raise WrongCall(str(error)) from error
    for line in shell.said:
        say(line, err=True)
    say(f"The manual is {site / 'index.html'} ({count} pages)")
    return 1 if manual.has_errors else 0
