"""A tag in a free page is not written to its end.

## Why it matters

Without its colon, its brackets or all of its names a tag says nothing, and stays in the page as it is written.

## Fails

```markdown fails page
Begin with [[procedure test-van/isolate]].  <!-- <- the tag `procedure` lacks its colon -->
```

```markdown fails page
Begin with [[procedure: test-van/isolate].  <!-- <- the tag `procedure` is not closed -->
```

```markdown fails page
Look at [[step: test-van/isolate]].  <!-- <- the tag `step` has 1 name, which is not enough -->
```

## Passes

```markdown passes page
Begin with [[procedure: test-van/isolate]]; the wait is [[step: test-van/isolate 6]].
```

## Source

The format of free pages: `[[word: name]]`, or `[[word: name name]]`.
"""

from collections.abc import Iterator

from ...model.free_page import FORMS, FreePage, Tag
from ..case import Case
from ..fault import Fault
from ._words import usage

KIND = "form"
SEVERITY = "error"


def check_page(page: FreePage, case: Case) -> Iterator[Fault]:
    """Colon, brackets, number of names."""
    for number, tag in enumerate(page.tags):
        if tag.word in FORMS and tag.form is None:
            message, help_ = _words(tag)
            yield Fault(("tags", number), message, help=help_, span=(0, len(tag.text)))


def _words(tag: Tag) -> tuple[str, str]:
    if tag.fault == "no colon":
        return f"the tag `{tag.word}` lacks its colon", f"write `[[{tag.word}: …]]`"
    if tag.fault == "not closed":
        return f"the tag `{tag.word}` is not closed", "end it with `]]`, on the same line"
    count, most = len(tag.names), max(map(len, FORMS[tag.word]))
    names = f"{count or 'no'} name{'' if count == 1 else 's'}"
    extent = "too many" if count > most else "not enough"
    return f"the tag `{tag.word}` has {names}, which is {extent}", f"write {usage(tag.word)}"
