"""Where the plugin gets its pages from: the one place that names the manual and the list of its pages."""

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from ..diagnostics.finding import Finding
from ..pages.body import Page
from ..pages.tags import Tags
from ..site.facts import ManualFacts

#: Beside `procedures/`, what a manual is made of: a change in it makes the pages anew.
ALSO_WATCHED = ("records",)


class Loaded(NamedTuple):
    """The pages of a manual, what was found wrong with it, what is known of the pages, what tags stand for."""

    pages: Sequence[Page]
    findings: Sequence[Finding]
    facts: ManualFacts
    tags: Tags | None = None


def load(folder: Path) -> Loaded:
    """Everything that the shell needs of the manual in `folder`.

    The imports stand in the function: whoever only hands pages to the shell does not pay for them.
    """
    from ..manual import load_manual
    from ..pages.all import all_pages
    from ..site.facts import facts_of

    manual = load_manual(folder)
    return Loaded(all_pages(manual), manual.findings, facts_of(manual), Tags(manual))
