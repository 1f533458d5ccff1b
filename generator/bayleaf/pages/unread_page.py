"""The page that stands in for a file that cannot be read: what is wrong with it, in which lines."""

from collections.abc import Iterator
from functools import partial

from ..manual import Manual
from .body import Body, Crumb, Page
from .faults import fault_notes
from .templating import render


def unread_pages(manual: Manual) -> Iterator[Page]:
    """One for each procedure and profile that cannot be read, at the address that it would have."""
    for file in manual.files:
        folders = file.removesuffix(".yml").split("/")[1:]
        if not file.startswith("procedures/") or len(folders) != 2:
            continue
        folder, name = folders
        known = folder in manual.vehicles if name == "vehicle" else f"{folder}/{name}" in manual.procedures
        if not known:
            yield Page(f"{folder}/{name}.html", f"{name}.yml cannot be read", partial(unread_body, file, manual))


def unread_body(file: str, manual: Manual) -> Body:
    """The body of it."""
    html = render("unread", file=file, faults=fault_notes(manual, file))
    return Body(html, (), (), (Crumb(file.split("/")[1], None), Crumb(file.split("/")[2], None)))
