"""What a page is once it is made: pure data, which the shell puts between head and foot."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple


class Heading(NamedTuple):
    """An entry of the table of contents: level 2 or 3, the anchor (without `#`), the text (plain, not HTML)."""

    level: int
    anchor: str
    text: str


class SearchRecord(NamedTuple):
    """One thing that the search can find.

    `url` is relative to the root of the site, with an anchor where the thing stands on a page.
    `kind` is the word shown beside a hit ("procedure", "connector", "trouble code").
    `exact` holds what somebody may type to mean just this: a code, an identifier, a part number.
    `words` is plain text that is searched word by word.
    """

    url: str
    title: str
    kind: str
    exact: tuple[str, ...] = ()
    words: str = ""


class Crumb(NamedTuple):
    """A step of the way to a page: its text, and its address relative to the root of the site, or None."""

    text: str
    url: str | None


@dataclass(frozen=True, slots=True)
class Body:
    """The body of one page. `html` is complete and safe: every text in it is escaped already."""

    html: str
    toc: tuple[Heading, ...]
    search: tuple[SearchRecord, ...] = ()
    crumbs: tuple[Crumb, ...] = ()


class Script(NamedTuple):
    """A script that some pages need and the others do not: its address relative to the root of the site.

    `make` gives its text where it is made anew with every rendering; without it, it lies in the theme.
    """

    url: str
    make: Callable[[], str] | None = None


class Picture(NamedTuple):
    """A picture that a page shows: its address relative to the root of the site, and the function that gives its bytes.

    That raises OSError where the original cannot be read any more.
    """

    url: str
    make: Callable[[], bytes]


@dataclass(frozen=True, slots=True)
class Page:
    """A page that can be made: its address relative to the root of the site ("larkway-m12/vehicle.html"),

    its title as plain text, and the function that makes its body. Making is put off, so that a list of
    all pages costs nothing and one page can be made without the others.
    """

    url: str
    title: str
    make: Callable[[], Body]
    scripts: tuple[Script, ...] = ()
    pictures: tuple[Picture, ...] = ()
