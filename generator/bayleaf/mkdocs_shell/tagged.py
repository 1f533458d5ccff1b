"""Tags in the Markdown of free pages: links go in as Markdown, drawings as a word that is replaced in the HTML.

A drawing put in before the Markdown is converted would be taken apart by it: within a note or a list it is no HTML.
"""

import posixpath
import re
from collections.abc import Container

from mkdocs.structure.pages import Page as ShellPage

from ..loading.free_page import tags_in
from ..pages.tags import Drawn, LinkTo, Tags
from .published import source_uri

#: No Markdown changes such a word, and nobody writes it.
_WORD = "bayleaftag{}x7q"
_REMARKS = r"(?:[ \t]*<!--.*?-->)*[ \t]*"
_WORDS = re.compile(rf"<p>{_REMARKS}(bayleaftag\d+x7q){_REMARKS}</p>|(bayleaftag\d+x7q)")
_LINE = re.compile(rf"^({_REMARKS}bayleaftag\d+x7q{_REMARKS})$", re.MULTILINE)
#: Everything that could be a sign of Markdown, or of HTML, within a line.
_SIGN = re.compile(r"""[!-+:<=>@\[-`{-~]""")


class Tagged:
    """The tags of the free pages of one run; `made` holds the names of the pages that may be linked to."""

    def __init__(self, tags: Tags | None, made: Container[str]) -> None:
        self._tags, self._made = tags, made
        self._drawings: dict[str, dict[str, str]] = {}
        #: The pages with a tag on them.
        self.holding: set[str] = set()

    def put_in(self, page: ShellPage, markdown: str) -> str:
        """The Markdown with its tags replaced; what leads nowhere stays as it is written."""
        if self._tags is None:
            return markdown
        uri = page.file.src_uri
        drawings = self._drawings[uri] = {}
        base = "../" * page.url.count("/")
        parts, done = [], 0
        for number, tag in enumerate(tags_in(markdown)):
            shown = self._tags.shown(tag, base, f"tag{number}")
            new = tag.text
            self.holding.add(uri)
            if isinstance(shown, LinkTo):
                new = self._link(shown, posixpath.dirname(uri))
            elif isinstance(shown, Drawn) and tag.alone:
                new = _WORD.format(number)
                drawings[new] = str(shown.html)
            parts += [markdown[done : tag.start], new]
            done = tag.end
        whole = "".join([*parts, markdown[done:]])
        return _LINE.sub(r"\n\1\n", whole) if drawings else whole

    def put_back(self, page: ShellPage, html: str) -> str:
        """The HTML with the drawings in the place of their words."""
        drawings = self._drawings.get(page.file.src_uri)
        if not drawings:
            return html
        return _WORDS.sub(lambda found: drawings.get(found[1] or found[2], found[0]), html)

    def _link(self, link: LinkTo, folder: str) -> str:
        url, mark, anchor = link.url.partition("#")
        words = _SIGN.sub(lambda sign: f"&#{ord(sign[0])};", link.words)
        uri = source_uri(url)
        if uri not in self._made:
            return words
        return f"[{words}]({posixpath.relpath(uri, folder or '.')}{mark}{anchor})"
