"""Which page shows a file, and what its author is told on the pages of the preview."""

from collections import Counter
from collections.abc import Iterator
from html import escape
from typing import NamedTuple

from ..diagnostics.finding import Finding
from ..manual import Manual
from ..pages.faults import anchors_of, errors_of, fault_notes
from ..pages.templating import macro

#: So many other pages with errors are named; the rest is counted.
_NAMED = 4
HOME = "index.html"


class Shown(NamedTuple):
    """Where a saved file is seen: the address of its page, the anchor of its first error or nothing, and the pages

    that are made of it as well, where whoever reads one of them stays.
    """

    url: str
    anchor: str
    also: tuple[str, ...]


def page_of(file: str, manual: Manual) -> str | None:
    """The address of the page that shows a file; None of one that no page shows, such as a photo."""
    top, _, below = file.partition("/")
    stem, _, ending = below.rpartition(".")
    if top == "procedures" and ending == "md":
        folder, slash, name = stem.rpartition("/")
        return f"{folder}{slash}index.html" if name in ("index", "README") else f"{stem}.html"
    if top == "procedures" and below.count("/") == 1 and file in manual.sources:
        return f"{stem}.html"
    return HOME if ending in ("yml", "yaml") and top in ("procedures", "records") else None


def shown(file: str, manual: Manual) -> Shown | None:
    """Where a saved file is seen."""
    url = page_of(file, manual)
    if url is None:
        return None
    also: tuple[str, ...] = ()
    stem = url.removesuffix(".html")
    if file.endswith("/vehicle.yml"):
        also = tuple(f"{stem.removesuffix('vehicle')}{name}.html" for name in ("energy", "review"))
    elif file.endswith(".yml") and url != HOME:
        also = (f"{stem}.briefing.html",)
    return Shown(url, next((anchor for anchor, _ in _places(file, manual)), ""), also)


def notes(manual: Manual, url: str, files: tuple[str, ...]) -> str:
    """What stands above the body of a page: the errors of files that have no place on the page, in full.

    `files` are all that the page shows: those of the procedures that it is made of tell their errors themselves.
    """
    elsewhere = [file for file in files if file.endswith(".md") or page_of(file, manual) == HOME]
    found = [note for file in elsewhere for note in fault_notes(manual, file)]
    if not found:
        return ""
    up = "../" * url.count("/")
    told = (str(macro("fault", "fault")(one._replace(url=f"{up}rules/{one.rule}.html"))) for one in found)
    return f'<div class="bl-page">{"".join(told)}</div>'


def bar(manual: Manual, url: str, saved: str | None, trouble: str | None) -> str:
    """What stands at the lower edge of every page of the preview: what is wrong, with links to where."""
    files = {page_of(file, manual): file for file in manual.by_file if errors_of(manual, file)}
    wrong = (one.place.file for one in manual.findings if one.severity == "error")
    counts = Counter(page_of(file, manual) or HOME for file in wrong)
    parts = [f"<span>{escape(trouble)}</span>"] if trouble else []
    own = files.get(url)
    if own is not None:
        number = counts.pop(url)
        links = dict(_places(own, manual))
        told = ", ".join(f'<a href="#{escape(anchor)}">{escape(words)}</a>' for anchor, words in links.items())
        where = f": {told}" if told else ""
        parts.append(f"<strong>{_errors(number)} on this page</strong>{where}")
    if counts:
        named = [f'<a href="/{escape(one)}">{escape(one.removesuffix(".html"))}</a>' for one in sorted(counts)[:_NAMED]]
        more = f" and {len(counts) - _NAMED} more" if len(counts) > _NAMED else ""
        parts.append(f"{_errors(sum(counts.values()))} elsewhere: {', '.join(named)}{more}")
    if parts:
        parts.insert(0, "<strong>Do not work by these pages.</strong>")
    said = " · ".join(parts) or "no errors in the manual"
    look = "bl-preview-wrong" if parts else "bl-preview-right"
    last = f"<span>saved last: {escape(saved)}</span>" if saved else ""
    return f'<aside id="bl-preview" class="{look}" aria-label="Preview"><p>Preview: {said}</p>{last}</aside>'


def _errors(number: int) -> str:
    return "1 error" if number == 1 else f"{number} errors"


def _places(file: str, manual: Manual) -> Iterator[tuple[str, str]]:
    """Where on its page the errors of a file stand: anchors and words, in the order of the file."""
    found: tuple[Finding, ...] = errors_of(manual, file)
    procedure = manual.procedures.get(file.removeprefix("procedures/").removesuffix(".yml"))
    if procedure is None or not found:
        return
    numbers = {step.anchor: f"step {step.number}" for step in procedure.steps}
    for anchor in dict.fromkeys(anchors_of(procedure, found, manual)):
        words = numbers.get(anchor) or (f"“{anchor.removeprefix('conclusion-')}”" if anchor else "head")
        yield anchor or "content", words
