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
#: The pages of a vehicle that stand before its procedures.
_OF_VEHICLE = ("vehicle.html", "energy.html", "review.html")
#: The indexes that are bound behind the vehicles, and their heading in the contents.
_INDEXES = ("codes.html", "systems.html", "parts.html", "torques.html", "limits.html", "tools.html")
_INDEX_HEADING = "Indexes"
#: Pages that serve whoever writes the manual, or that only lead on: they are not bound.
_NOT_BOUND = (
    "index.html",
    "vehicles.html",
    "404.html",
    "rules",
    "format.html",
    "commands.html",
    "calculators",
    "limit-rules.html",
)
_FREE_HEADING = "Further pages"


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
    """The vehicles with their profiles, energy maps, reviews, briefings and procedures; indexes, free pages."""
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
        heading = facts.vehicle(url) or (_INDEX_HEADING if url in _INDEXES else _FREE_HEADING)
        line = paper.number_line(known) if known.number else heading
        yield Chapter(heading, title, parts_of(shell.page_html(url), url, shell.asset), line)


def bound_urls(urls: Sequence[str], facts: ManualFacts) -> tuple[str, ...]:
    """By vehicle the profile, energy map, review, each procedure behind its briefing; the indexes; the free pages."""
    theirs = [url for url in urls if facts.vehicle(url)]

    def place(url: str) -> tuple[str, int, str, bool]:
        folder, _, name = url.partition("/")
        first = _OF_VEHICLE.index(name) if name in _OF_VEHICLE else len(_OF_VEHICLE)
        return folder, first, facts.of(url).number, not url.endswith(".briefing.html")

    free = [url for url in urls if url not in (*theirs, *_INDEXES) and not url.startswith(_NOT_BOUND)]
    return (*sorted(theirs, key=place), *(url for url in _INDEXES if url in urls), *free)


def _size(size: str) -> str:
    return f"@page {{ size: {size}; }}"
