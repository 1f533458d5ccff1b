"""The page of the commands, from `commands.json` beside this module.

The commands stand above the pages, and a plugin of MkDocs never sees them. So what they say of themselves lies in a
file, which a test holds to it: `BAYLEAF_GOLDEN=write` writes it anew.
"""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from markupsafe import Markup, escape

from .body import Body, SearchRecord
from .indexes import index_body
from .layout import Row, Section, Table

URL = "commands.html"
SAID = Path(__file__).with_name("commands.json")
_LEAD = (
    "Typed in a terminal, in the folder of the manual. Every command ends with 0 where there are no errors, with 1 "
    "where there are, with 2 where it was called wrongly; --help behind it tells the same as this page."
)


def commands_body() -> Body:
    """Every command: how it is called, what it does, its options, examples."""
    commands = json.loads(SAID.read_text(encoding="utf-8"))
    sections = [_section(one) for one in commands]
    search = tuple(
        SearchRecord(
            f"{URL}#{one['name']}", f"Command bayleaf {one['name']}", "reference", (f"bayleaf {one['name']}",),
            " ".join((*one["about"], *(word for option in one["options"] for word in option))),
        )
        for one in commands
    )  # fmt: skip
    return index_body("Commands", _LEAD, sections, "", search)


def _section(one: dict[str, Any]) -> Section:
    rows = tuple(Row((Markup("<code>{}</code>").format(names), words)) for names, words in one["options"])
    table = Table(("Option", "What it does"), rows) if rows else None
    return Section(f"bayleaf {one['name']}", one["name"], table=table, notes=tuple(_notes(one)))


def _notes(one: dict[str, Any]) -> Iterator[Markup | str]:
    yield Markup("<code>{}</code>").format(one["usage"])
    yield from (_with_code(paragraph) for paragraph in one["about"])
    for typed, words in one["examples"]:
        yield Markup("For example <code>{}</code>{}").format(typed, f": {words}" if words else "")


def _with_code(text: str) -> Markup:
    """What stands between backquotes, as code."""
    return Markup(re.sub(r"`([^`]+)`", r"<code>\1</code>", str(escape(text))))
