"""What the search may find on a free page: its HTML, taken apart at the headings."""

from html.parser import HTMLParser

from ..pages.body import SearchRecord

_HEADINGS = ("h1", "h2", "h3")
_SILENT = ("script", "style", "svg", "template")
_BLOCKS = frozenset(
    (*_HEADINGS, "h4", "h5", "h6", "p", "li", "td", "th", "tr", "dt", "dd", "div", "br", "pre", "blockquote")
)

#: The anchor of a heading, its text, and the text up to the next one.
_Section = tuple[str, list[str], list[str]]


def records(url: str, title: str, html: str) -> tuple[SearchRecord, ...]:
    """One record for the page and one for each heading below it, each with the text up to the next."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    found: list[SearchRecord] = []
    for anchor, heading, text in reader.sections:
        words = " ".join("".join(text).split())
        if not found:
            found.append(SearchRecord(url, title, "page", (), words))
        elif anchor:
            found.append(SearchRecord(f"{url}#{anchor}", " ".join("".join(heading).split()), "page", (), words))
        else:
            joined = " ".join([found[-1].words, *"".join(heading).split(), words])
            found[-1] = found[-1]._replace(words=joined.strip())
    return tuple(found)


class _Reader(HTMLParser):
    """Collects sections: the anchor of a heading, its text, and the text that follows it."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.sections: list[_Section] = [("", [], [])]
        self._heading = False
        self._silent = 0
        self._in_mark = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """A heading begins a section, save the first of the page, which is the page's own."""
        names = dict(attrs)
        if tag in _SILENT:
            self._silent += 1
        elif tag == "a" and "headerlink" in (names.get("class") or ""):
            self._in_mark = True
        elif tag in _HEADINGS:
            if tag != "h1":
                self.sections.append((names.get("id") or "", [], []))
            self._heading = True
        if tag in _BLOCKS:
            self.handle_data(" ")

    def handle_endtag(self, tag: str) -> None:
        """The end of a heading, of a permanent link, or of what is not read."""
        if tag in _SILENT:
            self._silent = max(0, self._silent - 1)
        elif tag == "a":
            self._in_mark = False
        elif tag in _HEADINGS:
            self._heading = False
        if tag in _BLOCKS:
            self.handle_data(" ")

    def handle_data(self, data: str) -> None:
        """Text, to the heading or to what follows it."""
        if not self._silent and not self._in_mark:
            _, heading, text = self.sections[-1]
            (heading if self._heading else text).append(data)
