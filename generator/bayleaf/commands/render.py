"""`bayleaf render`: checks the manual, and makes the site of it, or single files, or paper."""

from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ..manual import Manual, without_collector
from ..pages.all import all_pages
from ..pages.tags import Tags
from ..site import outputs
from ..site.chromium import NoPrinter
from ..site.facts import ManualFacts, facts_of
from ..site.folder import SiteFolderError
from ..site.folder import check as check_folder
from ..site.zip_file import write_zip
from . import _completing
from ._help import WithExamples
from .common import WrongCall, load, manual_for, progress, report, say, the_day

if TYPE_CHECKING:
    from ..mkdocs_shell import Shell

_OUT = "out"


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to be made. `pdf` holds ids of procedures, or an empty text for the whole manual."""

    output: Path | None = None
    with_zip: bool = False
    sheets: tuple[str, ...] = ()
    pdf: tuple[str, ...] = ()
    paper: str = outputs.PAPERS[0]

    @property
    def site(self) -> bool:
        """Whether the site is written: always, save where only single files are asked for."""
        return self.with_zip or self.output is not None or not (self.sheets or self.pdf)


@click.command(
    "render",
    cls=WithExamples,
    examples=(
        ("bayleaf render", "checks, then makes the manual in site/"),
        ("bayleaf render --zip", "also as one file for a stick"),
        ("bayleaf render --sheet larkway-m12/isolate-traction", "one procedure as one file"),
        ("bayleaf render --pdf larkway-m12/isolate-traction --paper letter", "one procedure for the printer"),
        ("bayleaf render --pdf", "the whole manual for the printer"),
    ),
)
@click.option("--manual", "start", type=click.Path(path_type=Path), help="The manual's folder. [default: around here]")
@click.option(
    "--output", type=click.Path(path_type=Path), help="Where the site goes. [default: site_dir of mkdocs.yml]"
)
@click.option("--zip", "with_zip", is_flag=True, help="Also the site as out/manual.zip.")
@click.option(
    "--sheet",
    "sheets",
    multiple=True,
    metavar="PROCEDURE",
    help="One file in out/ that asks for nothing else.",
    shell_complete=_completing.procedures,
)
@click.option(
    "--pdf",
    multiple=True,
    is_flag=False,
    flag_value="",
    metavar="[PROCEDURE]",
    help="On paper, in out/: a procedure, or the whole manual with contents. Needs Chromium, Chrome or Edge.",
    shell_complete=_completing.procedures,
)
@click.option(
    "--paper",
    type=click.Choice(outputs.PAPERS, case_sensitive=False),
    default=outputs.PAPERS[0],
    help="Size of sheets.",
)
@click.option("--with-errors", is_flag=True, help="Render in spite of errors; the pages are marked.")
@click.option("--today", metavar="DATE", help="The day that dates are held against (year-month-day).")
def command(
    start: Path | None,
    output: Path | None,
    with_zip: bool,
    sheets: tuple[str, ...],
    pdf: tuple[str, ...],
    paper: str,
    with_errors: bool,
    today: str | None,
) -> int:
    """Check the manual and render it.

    With errors nothing is rendered, and the last good site stays as it was.
    """
    wanted = Wanted(output, with_zip, sheets, pdf, paper)
    with without_collector():
        return _render(manual_for([start] if start else []), wanted, with_errors, today)


def _render(folder: Path, wanted: Wanted, with_errors: bool, today: str | None) -> int:
    from ..mkdocs_shell import ShellError, open_shell  # late: MkDocs takes its time to import

    manual = load(folder, the_day(today))
    if manual.findings:
        report(manual.findings, manual.folder, manual.text, "text", len(manual.files))
    if manual.has_errors and not with_errors:
        say("Nothing was rendered. The last good manual is untouched; --with-errors renders with marked pages.")
        return 1
    facts = facts_of(manual)
    try:
        shell = open_shell(folder / "mkdocs.yml", all_pages(manual), manual.findings, facts, Tags(manual))
        if wanted.site:
            _site(shell, folder, wanted)
        _files(shell, manual, facts, wanted)
    except (ShellError, SiteFolderError, NoPrinter) as error:
        raise WrongCall(str(error)) from error
    for line in shell.said:
        say(line, err=True)
    return 1 if manual.has_errors else 0


def _site(shell: "Shell", folder: Path, wanted: Wanted) -> None:
    site = wanted.output.resolve() if wanted.output else shell.site_dir
    if folder / "procedures" in (site, *site.parents):
        raise WrongCall(f"{site} lies in procedures/, where the author's files are. Name another folder.")
    check_folder(site)
    with progress("Rendering") as step:
        count = shell.write(site, step)
    say(f"The manual is {site / 'index.html'} ({count} pages)")
    if wanted.with_zip:
        target = folder / _OUT / "manual.zip"
        files = write_zip(site, target)
        say(f"The same is {target} ({files} files)")


def _files(shell: "Shell", manual: Manual, facts: ManualFacts, wanted: Wanted) -> None:
    """The single files; every procedure is looked up before the first is made."""
    out = manual.folder / _OUT
    sheets = [_procedure(text, manual) for text in wanted.sheets]
    printed = [_procedure(text, manual) if text else "" for text in wanted.pdf]
    for procedure in sheets:
        say(f"The sheet is {outputs.write_sheet(shell, procedure, out)}")
    for procedure in printed:
        if procedure:
            target = outputs.write_pdf(shell, procedure, wanted.paper, out)
        else:
            target = outputs.write_manual_pdf(shell, facts, wanted.paper, out)
        say(f"The paper is {target}")


def _procedure(text: str, manual: Manual) -> str:
    """The id of a procedure that is named by its id or by its file."""
    if text in manual.procedures:
        return text
    try:
        below = Path(text).resolve().relative_to(manual.folder / "procedures")
    except ValueError:
        below = Path(text)
    found = below.with_suffix("").as_posix()
    if found in manual.procedures:
        return found
    near = get_close_matches(text, manual.procedures, 1)
    raise WrongCall(f"there is no procedure {text}" + (f". Did you mean {near[0]}?" if near else ""))
