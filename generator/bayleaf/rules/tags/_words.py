"""What is said of tags in several rules."""

from collections.abc import Iterator

from ...model.free_page import FORMS, FreePage, Tag

#: How a name that is to be put in is shown.
_ASKED = {"trouble code": "P0A0D", "procedure": "FOLDER/PROCEDURE"}


def usage(word: str) -> str:
    """How a tag is written: "`[[energy: VEHICLE]]` or `[[energy: VEHICLE CIRCUIT]]`"."""
    forms = (" ".join(_ASKED.get(kind, kind.upper().replace(" ", "-")) for kind in form) for form in FORMS[word])
    return " or ".join(f"`[[{word}: {form}]]`" for form in forms)


def readable_tags(page: FreePage) -> Iterator[tuple[int, Tag, tuple[str, ...]]]:
    """The tags whose names can be looked up: their number, the tag, and what its names are."""
    for number, tag in enumerate(page.tags):
        form = tag.form
        if form is not None:
            yield number, tag, form
