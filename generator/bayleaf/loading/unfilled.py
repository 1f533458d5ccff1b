"""Places that somebody has marked to be filled later: `TODO`, in a text or in a comment."""

import re
from collections.abc import Iterator

from ..diagnostics.finding import Finding
from ..diagnostics.place import Place

_MARK = re.compile(r"\bTODO\b")


def unfilled(file: str, text: str) -> Iterator[Finding]:
    """One advice a mark, with its number among those of the file; a report to read tells them as one."""
    if "TODO" not in text:
        return
    found = [
        (line, mark.start() + 1, mark.end() + 1)
        for line, words in enumerate(text.splitlines(), start=1)
        for mark in _MARK.finditer(words)
    ]
    for number, (line, start, end) in enumerate(found, start=1):
        yield Finding(
            "todo-left", Place(file, line, start, line, end),
            f"this is still to be filled in ({number} of {len(found)} in this file)",
            "who works by the manual cannot know what was meant to stand here",
            "write what belongs here and take the word TODO away",
            kind="practice", severity="advice", together="places are still to be filled in",
        )  # fmt: skip
