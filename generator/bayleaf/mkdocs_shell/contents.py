"""What is put into the pages of one run, and what the search shall know of them."""

import posixpath
import re
from collections.abc import Sequence, Set
from functools import cache
from html import escape, unescape

from mkdocs.exceptions import PluginError
from mkdocs.structure.pages import Page as ShellPage
from mkdocs.structure.toc import AnchorLink, TableOfContents
from mkdocs.utils import get_relative_url

from .. import folders
from ..loading.prose import prose
from ..pages.body import Body, Crumb, Heading, Page, SearchRecord
from ..pages.kept_together import kept_together
from ..pages.tags import Tags
from ..site import free_text, paper, search_index
from ..site.facts import NO_FACTS, ManualFacts
from .published import title_html
from .tagged import Tagged

_ID = re.compile(r'\sid="([^"]+)"')
#: `[text](larkway-m12/isolate.yml#step-3)` or `[text](codes.html)`: the target, its ending apart.
_LINK = re.compile(r"(?<=\]\()([^()\s:]+)\.(?:yml|html)(?=[)#\s])")


class Contents:
    """The made pages by their name in MkDocs; their bodies, put in one by one; what the search gets of each."""

    def __init__(
        self,
        pages: dict[str, Page],
        banner: str = "",
        lenient: bool = False,
        facts: ManualFacts = NO_FACTS,
        site_url: str | None = None,
        tags: Tags | None = None,
    ) -> None:
        self.pages = pages
        self._tagged = Tagged(tags, pages)
        self._facts = facts
        self._site_url = site_url
        self._banner = banner
        #: Whether a page that cannot be made is shown with the reason on it, rather than ending the run.
        self._lenient = lenient
        self._records: dict[str, Sequence[SearchRecord]] = {}
        self._titles: dict[str, str] = {}

    @property
    def tagged(self) -> Set[str]:
        """The free pages that were read and hold tags, by their name in MkDocs."""
        return self._tagged.holding

    def renew(self, pages: dict[str, Page], facts: ManualFacts, tags: Tags | None) -> None:
        """The same pages as they are now."""
        self.pages, self._facts = pages, facts
        self._tagged = Tagged(tags, pages)

    def introduce(self, page: ShellPage) -> None:
        """Give a made page its title, save where the navigation of the manual names it otherwise."""
        made = self.pages.get(page.file.src_uri)
        if made is not None and "title" not in vars(page):
            page.title = title_html(made)

    def linked(self, page: ShellPage, markdown: str) -> str:
        """The Markdown of a free page, with its tags put in, and its links by the names that MkDocs has for pages.

        A procedure file is a page, and may be linked as it lies there; any page may be linked by its address.
        """
        folder = posixpath.dirname(page.file.src_uri)

        read = prose(markdown) if "](" in markdown else markdown

        def named(found: re.Match[str]) -> str:
            if read[found.start() : found.end()] != found[0]:  # in code it is shown as it is written
                return found[0]
            uri = posixpath.normpath(posixpath.join(folder, f"{found[1]}.md"))
            return f"{found[1]}.md" if uri in self.pages else found[0]

        return self._tagged.put_in(page, _LINK.sub(named, markdown))

    def fill(self, page: ShellPage, html: str) -> str:
        """The content of a page: the body of a made page, or what Markdown gave for a free one."""
        made = self.pages.get(page.file.src_uri)
        if made is None:
            # The theme would fetch the program that draws these from another host: they stay text.
            html = self._tagged.put_back(page, html)
            return self._banner + kept_together(html.replace('<pre class="mermaid">', '<pre class="diagram-source">'))
        page.is_made = True  # type: ignore[attr-defined]
        body = self._make(made)
        page.toc = _table(made.title, body.toc)
        page.meta["search"] = {"exclude": True}
        page.toc_html = kept_together(_list(page.toc.items[0].children))  # type: ignore[attr-defined]
        page.crumbs_html = kept_together(_crumbs(body.crumbs, page.url))  # type: ignore[attr-defined]
        page.scripts = [script.url for script in made.scripts]  # type: ignore[attr-defined]
        page.styles = _styles(page.scripts)  # type: ignore[attr-defined]
        page.present_anchor_ids = set(_ID.findall(body.html))
        self._records[made.url] = body.search
        self._titles[made.url] = made.title
        sheet = paper.sheet_parts(made.title, made.url, self._facts.of(made.url), self._site_url)
        return self._banner + sheet + kept_together(body.html)

    def note(self, page: ShellPage, html: str) -> None:
        """Keep of a free page what the search shall find and the frame shows, once every plugin had its turn."""
        if page.file.src_uri not in self.pages:
            items = list(page.toc)
            below_title = items[0].children if items and items[0].level == 1 else items
            page.toc_html = kept_together(_list(below_title))  # type: ignore[attr-defined]
            title = unescape(str(page.title or ""))
            self._titles[page.file.url] = title
            self._records[page.file.url] = free_text.records(page.file.url, title, html)

    def search_pieces(self) -> dict[str, str]:
        """The index of the search over every page that was filled, by address."""
        records = [record for found in self._records.values() for record in found]
        return search_index.build(records, self._titles, self._facts)

    def _make(self, page: Page) -> Body:
        try:
            return page.make()
        except Exception as error:
            said = f"The page “{page.title}” ({page.url}) could not be made: {type(error).__name__}: {error}"
            if not self._lenient:
                raise PluginError(said) from error
            return Body(f'<p class="manual-errors">{escape(said)}</p>', ())


def _styles(scripts: Sequence[str]) -> list[str]:
    """The style sheets of these scripts: those of their names, where the theme has one."""
    named = [posixpath.splitext(script)[0] + ".css" for script in scripts]
    return [style for style in named if _is_ours(style)]


@cache
def _is_ours(style: str) -> bool:
    return folders.site_theme().joinpath(*style.split(posixpath.sep)).is_file()


def _table(title: str, headings: Sequence[Heading]) -> TableOfContents:
    """The table of contents: below one entry for the page, so that every page has one, the headings."""
    root = AnchorLink(escape(title, quote=False), "content", 1)
    for heading in headings:
        link = AnchorLink(escape(heading.text, quote=False), heading.anchor, heading.level)
        above = root.children[-1] if heading.level > 2 and root.children else root
        above.children.append(link)
    return TableOfContents([root])


def _list(links: Sequence[AnchorLink]) -> str:
    """The items of a list of headings. Made here and not in a template, which takes ten times as long."""
    return "".join(
        f'<li><a href="{link.url}">{link.title}</a>'
        + (f"<ul>{_list(link.children)}</ul>" if link.children else "")
        + "</li>"
        for link in links
    )


def _crumbs(crumbs: Sequence[Crumb], url: str) -> str:
    """The items of the way to a page, with addresses relative to the page."""
    return "".join(
        f'<li><a href="{escape(get_relative_url(crumb.url, url))}">{escape(crumb.text)}</a></li>'
        if crumb.url
        else f'<li class="crumbs__here"><span>{escape(crumb.text)}</span></li>'
        for crumb in crumbs
    )
