"""Where the plugin gets its pages from: the one place that names the manual and the list of its pages."""

from collections.abc import Sequence
from pathlib import Path

from ..diagnostics.finding import Finding
from ..pages.body import Page
from ..site.facts import ManualFacts

#: Beside `procedures/`, what a manual is made of: a change in it makes the pages anew.
ALSO_WATCHED = ("records",)


#: Pages, findings, facts.
Loaded = tuple[Sequence[Page], Sequence[Finding], ManualFacts]


def load(folder: Path) -> Loaded:
    """The pages of the manual in `folder`, what was found wrong with it, and what is known of the pages.

    The imports stand in the function: whoever only hands pages to the shell does not pay for them.
    """
    from ..manual import load_manual
    from ..pages.all import all_pages
    from ..site.facts import facts_of

    manual = load_manual(folder)
    return all_pages(manual), manual.findings, facts_of(manual)
