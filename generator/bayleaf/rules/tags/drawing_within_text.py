"""A free page has a drawing in the middle of a line.

## Why it matters

A drawing is as wide as the page. Within a sentence, a list or a table there is no room for it, and a page that is torn
apart by it is not read.

## Fails

```markdown fails page
The map is this one: [[energy: test-van]]  <!-- <- the drawing `[[energy: test-van]]` does not have its line to itself -->
```

## Passes

```markdown passes page
The map is this one:

[[energy: test-van]]
```

## Source

The format of free pages: a tag that is a drawing stands on a line of its own; a tag that is a link stands anywhere.
"""

from collections.abc import Iterator

from ...model.free_page import DRAWN, FreePage
from ..case import Case
from ..fault import Fault
from ._words import readable_tags

KIND = "form"
SEVERITY = "error"


def check_page(page: FreePage, case: Case) -> Iterator[Fault]:
    """Every drawing that shares its line."""
    for number, tag, _ in readable_tags(page):
        if tag.word in DRAWN and not tag.alone:
            message = f"the drawing `{tag.text}` does not have its line to itself"
            help_ = "put it on a line of its own, outside of lists, tables and headings"
            yield Fault(("tags", number), message, help=help_, span=(0, len(tag.text)))
