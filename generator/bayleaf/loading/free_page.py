"""A free page, from its bytes to the tags in it."""

import re
from collections.abc import Iterator

from ..diagnostics.finding import Finding
from ..diagnostics.mend import Mend
from ..diagnostics.place import Path, Place
from ..model.free_page import FORMS, FreePage, Name, Tag
from .prose import prose
from .text import Fault, Lines, decode

_WORDS = "|".join(sorted((re.escape(word) for word in FORMS), key=len, reverse=True))
#: Behind a bracket in round or square brackets Markdown has a link of its own.
_WHOLE = re.compile(r"(?<!\\)\[\[[ \t]*([^\[\]\r\n\0]*?)[ \t]*\]\](?![(\[])")
_OPEN = re.compile(rf"(?<!\\)\[\[[ \t]*({_WORDS})[ \t]*:[^\[\]\r\n\0]*+\]?+(?![\]\0])")
_WRITTEN = re.compile(r"([^\W\d_][^\W\d_ -]*(?:[ -][^\W\d_]+)*)[ \t]*:(?!//)")
_NO_COLON = re.compile(rf"({_WORDS})[ \t]+\S")
_NAME = re.compile(r"\S+")
_HEAD = re.compile(r"-{3}[ \t]*\r?\n.*?\n(?:-{3}|\.{3})[ \t]*(?:\r?\n|$)", re.DOTALL)
_STATED = re.compile(r"^title:[ \t]*([\"']?)(.+?)\1[ \t]*\r?$", re.MULTILINE)
_FIRST = re.compile(r"\s*^#[ \t]+(.+?)(?:[ \t]+#+)?(?:[ \t]*\{[^}\r\n]*\})?[ \t]*\r?$", re.MULTILINE)
_LINK = re.compile(r"\[([^\]]*)\]\([^)]*\)")
#: What makes words of a heading bold, slanted or code.
_MARKED = re.compile(r"(\*\*|__|\*|`)(\S(?:.*?\S)?)\1")


class PageSource:
    """A free page with the places in it; it looks as the source of a YAML file does to who asks for places."""

    __slots__ = ("_lines", "_tags", "data", "file", "findings", "text")

    def __init__(self, file: str, text: str, tags: tuple[Tag, ...], findings: tuple[Finding, ...] = ()) -> None:
        self.file, self.text, self.findings = file, text, findings
        self.data: dict[str, object] = {}
        self._lines, self._tags = Lines(text), tags

    def place(self, path: Path, start: int | None = None, end: int | None = None, key: bool = False) -> Place:
        """The place of a tag, `("tags", n)`, or of a part of its text."""
        if len(path) != 2 or not isinstance(path[1], int) or path[1] >= len(self._tags):
            return Place(self.file, 1, 1, 1, 1)
        tag = self._tags[path[1]]
        first = tag.start + (start or 0)
        last = tag.end if end is None else tag.start + end
        line, column = self._lines.position(first)
        return Place(self.file, line, column, line, column + last - first)


def read_free_page(file: str, data: bytes) -> tuple[PageSource, FreePage]:
    """The page and its source; what keeps it from being read is among the findings of the source."""
    text = decode(data)
    if isinstance(text, Fault):
        place = Place(file, text.line, text.column, text.line, text.column + 1)
        mend = Mend(encoding=text.encoding) if text.encoding else None
        finding = Finding(text.rule, place, text.message, text.because, text.help, mend=mend)
        return PageSource(file, "", (), (finding,)), FreePage(file, title=title_in("", file))
    tags = tags_in(text)
    return PageSource(file, text, tags), FreePage(file, tags, title_in(text, file))


def title_in(text: str, file: str) -> str:
    """The title as MkDocs finds it: what the head states, else a heading before all text, else the name of the file."""
    head = _HEAD.match(text)
    stated = _STATED.search(head[0]) if head else None
    if stated:
        return stated[2].strip()
    first = _FIRST.match(text, head.end() if head else 0)
    if first:
        return _MARKED.sub(r"\2", _LINK.sub(r"\1", first[1]))
    name = file.rpartition("/")[2].rpartition(".")[0].replace("-", " ").replace("_", " ")
    return name.capitalize() if name == name.lower() else name


def tags_in(text: str) -> tuple[Tag, ...]:
    """The tags of a Markdown text in their order; in code, in remarks and behind a backslash there is none."""
    return tuple(_tags(prose(text))) if "[[" in text else ()


def _tags(text: str) -> Iterator[Tag]:
    at = 0
    while (at := text.find("[[", at)) >= 0:
        whole = _WHOLE.match(text, at)
        tag = _tag(whole) if whole else _unclosed(_OPEN.match(text, at))
        if tag is not None:
            yield tag
        at = tag.end if tag is not None else at + 2


def _tag(found: re.Match[str]) -> Tag | None:
    """What stands in double brackets; None where it does not look like a tag."""
    inner = found[1]
    lacks_colon = _NO_COLON.match(inner)
    if lacks_colon:
        return Tag(found.start(), found.end(), found[0], lacks_colon[1], fault="no colon")
    written = _WRITTEN.match(inner)
    if written is None:
        return None
    offset = found.start(1) - found.start()
    names = tuple(
        Name(one[0], offset + one.start(), offset + one.end()) for one in _NAME.finditer(inner, written.end())
    )
    return Tag(found.start(), found.end(), found[0], written[1], names, _is_alone(found))


def _unclosed(found: re.Match[str] | None) -> Tag | None:
    return None if found is None else Tag(found.start(), found.end(), found[0].rstrip(), found[1], fault="not closed")


def _is_alone(found: re.Match[str]) -> bool:
    start = found.string.rfind("\n", 0, found.start()) + 1
    end = found.string.find("\n", found.end())
    return found.string[start : end if end >= 0 else None].strip() == found[0]
