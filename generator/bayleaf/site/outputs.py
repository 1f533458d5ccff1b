"""What is made of a manual beside its site, into `out/`: a zip, single files, PDF files."""

from collections.abc import Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import Protocol

from . import paper
from .bound import Chapter, bound, print_bound
from .chromium import find_browser, print_pdf
from .facts import ManualFacts
from .single_file import parts_of, single_file

#: Sizes of sheets, as CSS names them.
PAPERS = ("A4", "letter")
#: Pages of a vehicle that are looked at on a screen.
_NOT_BOUND = ("energy.html", "review.html")


class Shell(Protocol):
    """What is needed of the shell around the pages."""

    @property
    def name(self) -> str: ...
    @property
    def urls(self) -> tuple[str, ...]: ...
    def page_html(self, url: str) -> str: ...
    def asset(self, url: str) -> bytes | None: ...
    def title(self, url: str) -> str: ...


def file_name(procedure: str, ending: str) -> str:
    """The name of a file for a procedure: one folder holds those of all vehicles."""
    return f"{procedure.replace('/', '-')}.{ending}"


def write_sheet(shell: Shell, procedure: str, out: Path) -> Path:
    """One procedure as one file that works from anywhere and asks nothing."""
    note = f"One sheet of the manual “{shell.name}”. What leads to other pages of it is plain text here."
    target = out / file_name(procedure, "html")
    target.parent.mkdir(parents=True, exist_ok=True)
    url = f"{procedure}.html"
    text = single_file(parts_of(shell.page_html(url), url, shell.asset), note)
    target.write_bytes(text.encode("utf-8"))
    return target


def write_pdf(shell: Shell, procedure: str, size: str, out: Path) -> Path:
    """One procedure, blank, to be filled in by hand."""
    url = f"{procedure}.html"
    target = out / file_name(procedure, "pdf")
    parts = parts_of(shell.page_html(url), url, shell.asset)
    print_pdf(single_file(parts, more_style=_size(size), with_scripts=False), target)
    return target


def write_manual_pdf(shell: Shell, facts: ManualFacts, size: str, out: Path) -> Path:
    """The vehicles with their profiles, briefings and procedures, with a table of contents."""
    target = out / "manual.pdf"
    find_browser()  # before the work, not after it
    chapters = tuple(_chapters(shell, facts))
    about = f"Newest revision of {facts.newest}" if facts.newest else "No revision has a date"
    print_bound(partial(bound, shell.name, about, chapters, _size(size)), print_pdf, target)
    return target


def _chapters(shell: Shell, facts: ManualFacts) -> Iterator[Chapter]:
    for url in bound_urls(shell.urls, facts):
        title = shell.title(url)
        known = facts.of(url)
        line = paper.number_line(known) if known.number else facts.vehicle(url)
        yield Chapter(facts.vehicle(url), title, parts_of(shell.page_html(url), url, shell.asset), line)


def bound_urls(urls: Sequence[str], facts: ManualFacts) -> tuple[str, ...]:
    """The pages of the vehicles, by vehicle: the profile, then each procedure behind its briefing."""
    theirs = [url for url in urls if facts.vehicle(url) and not url.endswith(_NOT_BOUND)]

    def place(url: str) -> tuple[str, bool, str, bool]:
        folder = url.partition("/")[0]
        return folder, not url.endswith("/vehicle.html"), facts.of(url).number, not url.endswith(".briefing.html")

    return tuple(sorted(theirs, key=place))


def _size(size: str) -> str:
    return f"@page {{ size: {size}; }}"
