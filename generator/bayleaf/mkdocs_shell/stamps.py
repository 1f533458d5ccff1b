"""Pages cut from one that the theme rendered: what stands around the pages of one folder is the same.

Rendering the templates costs more than a millisecond a page, and a thousand times the same text comes out.
So the theme renders one page of a folder with marks in it, and the others are put together from the
pieces between the marks. Never a change of what a page is: it is done only where nothing but the templates of
this package has a say, and the first pages of each folder are rendered in full and compared.
"""

import copy
import re
from collections.abc import Callable

from markupsafe import Markup, escape
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.pages import Page as ShellPage

_MARK = "bayleaf-mark-{}-x7q"
_NAMES = ("title", "crumbs", "content", "toc", "canonical")
_MARKS = {name: _MARK.format(name) for name in _NAMES}
_H1_MARK = f"<h1 {_MARKS['content']}>"
_SPLIT = re.compile(f"({re.escape(_H1_MARK)}|{'|'.join(map(re.escape, _MARKS.values()))})")
#: So many pages of each kind are rendered in full as well, and compared.
_COMPARED = 2
#: Events by which another plugin may make each page different.
_EVENTS = ("page_context", "post_page")

_Render = Callable[[ShellPage], str]
_Kind = tuple[str, bool, bool, bool, bool, tuple[str, ...]]


def allowed(config: MkDocsConfig) -> bool:
    """Whether nothing but our own templates decides on what stands around a page."""
    foreign = any(config.plugins.events[event] for event in _EVENTS)
    return not foreign and not config.theme.custom_dir and not config.extra.get("version")


class Stamps:
    """Renders pages that the navigation does not list, one in full for each kind and the others from it."""

    def __init__(self, render: _Render) -> None:
        self._render = render
        self._pieces: dict[_Kind, list[str]] = {}
        self._compared: dict[_Kind, int] = {}

    def html(self, page: ShellPage) -> str:
        """The whole page."""
        kind = _kind(page)
        done = self._compared.get(kind, 0)
        if done < 0:  # a page of this kind came out otherwise
            return self._render(page)
        pieces = self._pieces.get(kind)
        if pieces is None:
            pieces = self._pieces[kind] = _SPLIT.split(self._render(_marked(page, kind)))
        stamped = _filled(pieces, page)
        if done < _COMPARED:
            full = self._render(page)
            self._compared[kind] = done + 1 if full == stamped else -1
            return full
        return stamped


def _kind(page: ShellPage) -> _Kind:
    """What the templates look at: addresses are relative to the folder, parts are there or not."""
    return (
        page.url.rpartition("/")[0],
        "<h1" in (page.content or ""),
        bool(page.crumbs_html),  # type: ignore[attr-defined]
        bool(page.toc_html),  # type: ignore[attr-defined]
        bool(page.canonical_url),
        tuple(page.scripts),  # type: ignore[attr-defined]
    )


def _marked(page: ShellPage, kind: _Kind) -> ShellPage:
    """The page with marks in the place of what is its own."""
    marked = copy.copy(page)
    marked.title = _MARKS["title"]
    marked.content = _H1_MARK if kind[1] else _MARKS["content"]
    if kind[2]:
        marked.crumbs_html = _MARKS["crumbs"]  # type: ignore[attr-defined]
    if kind[3]:
        marked.toc_html = _MARKS["toc"]  # type: ignore[attr-defined]
    if kind[4]:
        marked.canonical_url = _MARKS["canonical"]
    return marked


def _filled(pieces: list[str], page: ShellPage) -> str:
    title = str(page.title)
    values = {
        _MARKS["title"]: title,
        _MARKS["crumbs"]: page.crumbs_html,  # type: ignore[attr-defined]
        _MARKS["content"]: page.content or "",
        _H1_MARK: page.content or "",
        _MARKS["toc"]: page.toc_html,  # type: ignore[attr-defined]
        _MARKS["canonical"]: page.canonical_url or "",
    }
    filled = [values.get(piece, piece) for piece in pieces]
    if _MARKS["title"] in pieces:  # the first one stands in <title>, where no tags may be
        filled[pieces.index(_MARKS["title"])] = escape(Markup(title).striptags())
    return "".join(filled)
