"""A free page has a tag of a kind that does not exist.

## Why it matters

A tag puts a drawing or a link in its place. One that is not known stays in the page as it is written, and the reader
looks at brackets where the drawing should be.

## Fails

```markdown fails page
The heater hangs on [[conector: test-van X7]].  <!-- <- there is no tag `conector` -->
```

## Passes

```markdown passes page
The heater hangs on [[connector: test-van X7]]. Brackets with a colon that are no tag: \\[[note: see below]].
```

## Source

The format of free pages: the tags are those that the chapter "Tags in free pages" of the book lists.
"""

from collections.abc import Iterator

from ...loading.shape_words import nearest
from ...model.free_page import FORMS, FreePage
from ..case import Case
from ..fault import Fault

KIND = "form"
SEVERITY = "error"


def check_page(page: FreePage, case: Case) -> Iterator[Fault]:
    """The word before the colon."""
    for number, tag in enumerate(page.tags):
        if tag.word not in FORMS:
            start = tag.text.index(tag.word)
            meant = nearest(tag.word, FORMS)
            escape = "brackets that are no tag get a backslash before them, `\\[[`"
            help_ = f"did you mean `{meant}`?" if meant else f"the tags are: {', '.join(FORMS)}; {escape}"
            yield Fault(
                ("tags", number), f"there is no tag `{tag.word}`", help=help_, span=(start, start + len(tag.word))
            )
