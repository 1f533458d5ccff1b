"""The manual bound for paper: a title, a table of contents, then page after page, each with its own margins.

Browsers cannot print the number of the sheet that a link leads to. So the manual is printed twice: the first time tells
where each page begins (by the named places of the PDF), the second time holds the numbers. They have the same room both
times, so that nothing moves.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from html import escape
from pathlib import Path

from . import paper
from .chromium import NoPrinter
from .single_file import Parts, single_file

_ID = re.compile(r'(\s(?:id|for|aria-labelledby|aria-describedby)=")([^"]+)(")')
_REFERENCE = re.compile(r'((?:\s(?:xlink:)?href="|url\()#)([^")]+)')
_SCRIPT = re.compile(r"<script\b.*?</script>", re.DOTALL)
_SHEET = re.compile(r'<style media="print">@page \{.*?</style>', re.DOTALL)

_STYLE = """
.md-typeset.bound-title h1 { margin: 60mm 0 6mm; font-size: 30pt; font-weight: 700; }
.md-typeset.bound-title p { font-size: 12pt; }
.bound-contents, .bound-page { break-before: page; }
@page { margin: 14mm 13mm 12mm; }
.bound-page :is(.bl-briefing, .sheet-code, .md-content__inner) { page: auto !important; }
.md-typeset.bound-contents ol { margin: 0; padding: 0; list-style: none; }
.md-typeset.bound-contents li { display: block; margin: 0; break-inside: avoid; }
.md-typeset.bound-contents a { display: flex; gap: 4mm; padding: 1.2mm 0; color: #000; font-size: 10pt; }
.md-typeset.bound-contents a span:first-child { flex: 1; }
.md-typeset.bound-contents h1 { font-size: 18pt; }
.bound-number { width: 12mm; text-align: right; font-variant-numeric: tabular-nums; }
.md-typeset.bound-contents h2 { margin: 5mm 0 1mm; font-size: 12pt; break-after: avoid; }
"""


@dataclass(frozen=True, slots=True)
class Chapter:
    """One page of the bound manual: under which heading of the contents, its title, its parts, its line of number."""

    heading: str
    title: str
    parts: Parts
    line: str


def bound(name: str, about: str, chapters: Sequence[Chapter], more_style: str, sheets: Mapping[str, int]) -> str:
    """The whole manual as one file of HTML; `sheets` holds the number of the first sheet of each chapter, as known."""
    places = [f"p{number}" for number in range(1, len(chapters) + 1)]
    margins = "".join(paper.margins(one.title, one.line, place) for one, place in zip(chapters, places, strict=True))
    pages = "".join(
        f'<section class="bound-page sheet-{place}" id="{place}">{_own(one.parts.article, place)}</section>\n'
        for one, place in zip(chapters, places, strict=True)
    )
    title = f'<section class="bound-title md-typeset"><h1>{escape(name)}</h1><p>{escape(about)}</p></section>'
    whole = f"{title}{_contents(chapters, places, sheets)}{pages}"
    parts = replace(chapters[0].parts, title=escape(name), article=whole)
    return single_file(parts, more_style=f"{_STYLE}{margins}{more_style}", with_scripts=False)


def _contents(chapters: Sequence[Chapter], places: Sequence[str], sheets: Mapping[str, int]) -> str:
    lines, heading = [], None
    for one, place in zip(chapters, places, strict=True):
        if one.heading != heading:
            lines.append(f"{'</ol>' if heading is not None else ''}<h2>{escape(one.heading)}</h2><ol>")
            heading = one.heading
        number = sheets.get(place, "")
        lines.append(
            f'<li><a href="#{place}"><span>{escape(one.title)}</span>'
            f'<span class="bound-number">{number}</span></a></li>'
        )
    return f'<section class="bound-contents md-typeset"><h1>Contents</h1>{"".join(lines)}</ol></section>\n'


def _own(article: str, place: str) -> str:
    """A page whose places have names of their own, since several pages have a step 1; without scripts."""
    text = _SHEET.sub("", _SCRIPT.sub("", article))

    def named(found: re.Match[str]) -> str:
        return found[1] + " ".join(f"{place}-{one}" for one in found[2].split()) + found[3]

    return _REFERENCE.sub(rf"\g<1>{place}-\g<2>", _ID.sub(named, text))


def print_bound(make: Callable[[Mapping[str, int]], str], print_pdf: Callable[[str, Path], None], target: Path) -> None:
    """Print until the numbers in the contents are those of the sheets: the second time, save where lines moved."""
    sheets: Mapping[str, int] = {}
    for _ in range(3):
        print_pdf(make(sheets), target)
        found = first_sheets(target)
        if found == sheets:
            return
        sheets = found
    raise NoPrinter("The numbers in the table of contents did not settle.")


def first_sheets(pdf: Path) -> dict[str, int]:
    """The sheet on which each chapter begins, by its place."""
    try:
        from pypdf import PdfReader
    except ImportError as error:
        raise NoPrinter(
            "The table of contents of a whole manual is made with pypdf: `pip install bayleaf[pdf]`. "
            "One procedure, `--pdf PROCEDURE`, goes without."
        ) from error
    reader = PdfReader(pdf)
    places = {name.lstrip("/"): place for name, place in reader.named_destinations.items()}
    return {
        name: (reader.get_destination_page_number(place) or 0) + 1
        for name, place in places.items()
        if re.fullmatch(r"p\d+", name)
    }
