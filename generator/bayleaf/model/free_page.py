"""A free page of the manual, as far as the checker looks at it: the tags in its text.

A tag is `[[word: name name]]`. It stands for a link to what it names, or for a drawing of it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, NamedTuple

#: What may be named, by the word for it: the elements of a profile by the words of their sections.
ELEMENTS = ("circuit", "isolation point", "connector", "part", "cable", "fastener")

#: For each word of a tag what is named behind it; several ways where there are several.
FORMS: Mapping[str, tuple[tuple[str, ...], ...]] = {
    "energy": (("vehicle",), ("vehicle", "circuit")),
    "face": (("vehicle", "connector"),),
    "discharge": (("vehicle", "circuit"), ("procedure", "step")),
    "flow": (("procedure",),),
    "vehicle": (("vehicle",),),
    "procedure": (("procedure",),),
    "step": (("procedure", "step"),),
    "code": (("trouble code",),),
    "rule": (("rule",),),
    **{kind: (("vehicle", kind),) for kind in ELEMENTS},
}
#: The words whose tag is a drawing; the others are links.
DRAWN = frozenset({"energy", "face", "discharge", "flow"})


class Name(NamedTuple):
    """A name in a tag, and where it begins and ends in the text of the tag."""

    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Tag:
    """A tag as it is written. `start` and `end` are its offsets in the text of the page.

    `fault` says what keeps it from being read; `alone` is True where nothing else stands on its line.
    """

    start: int
    end: int
    text: str
    word: str
    names: tuple[Name, ...] = ()
    alone: bool = False
    fault: Literal["", "no colon", "not closed"] = ""

    @property
    def form(self) -> tuple[str, ...] | None:
        """What its names are, one by one; None where their number is not right, or the word is none."""
        fitting = [form for form in FORMS.get(self.word, ()) if len(form) == len(self.names)]
        if self.fault or not fitting:
            return None
        first = "procedure" if "/" in self.names[0].text else "vehicle"
        return next((form for form in fitting if form[0] == first), fitting[0])


@dataclass(frozen=True, slots=True)
class FreePage:
    """A page in Markdown. `file` is relative to the manual; `title` is plain text."""

    file: str
    tags: tuple[Tag, ...] = ()
    title: str = ""

    @property
    def url(self) -> str:
        """The address of its page, as MkDocs gives it."""
        folder, _, name = self.file.removeprefix("procedures/").rpartition("/")
        stem = name.rpartition(".")[0]
        return f"{folder}/{'index' if stem == 'README' else stem}.html".removeprefix("/")
