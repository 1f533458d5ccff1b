"""The demo manual as tests read it: loaded once in a process, its pages made once, its site written once."""

from collections.abc import Mapping
from datetime import date
from functools import cache
from pathlib import Path

from bayleaf.manual import Manual, load_manual
from bayleaf.mkdocs_shell import open_shell
from bayleaf.mkdocs_shell.direct import Shell
from bayleaf.pages.all import all_pages
from bayleaf.pages.body import Body
from bayleaf.pages.tags import Tags
from bayleaf.site.facts import facts_of

ROOT = Path(__file__).resolve().parents[1]
#: The day at which it is checked: what has grown old by the calendar is told by `bayleaf check`, not by tests.
DAY = date(2026, 11, 29)


@cache
def demo() -> Manual:
    """The demo manual."""
    return load_manual(ROOT, today=DAY)


@cache
def demo_bodies() -> Mapping[str, Body]:
    """Every page of it by its address."""
    return {page.url: page.make() for page in all_pages(demo())}


@cache
def demo_shell() -> Shell:
    """Its pages in their shell."""
    manual = demo()
    return open_shell(ROOT / "mkdocs.yml", all_pages(manual), manual.findings, facts_of(manual), Tags(manual))
