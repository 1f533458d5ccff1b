"""What may be meant where a name stands."""

from collections.abc import Collection
from typing import NamedTuple

from ...model.common import MODE_OFF
from ..case import SECTIONS


class Meant(NamedTuple):
    """The kinds of element of the profile that may be named; `also` are words that name something built in.

    With `words`, prose may stand there as well, and only what has the form of an identifier is looked up;
    with `contacts`, a pin or one side of a connector too.
    """

    kinds: tuple[str, ...]
    also: frozenset[str] = frozenset()
    words: bool = False
    contacts: bool = False


#: The section of the profile in which each kind of element stands.
SECTION_OF = {kind: section for section, kind in SECTIONS.items()} | {
    "bus": "buses", "system": "systems", "variant": "variants",
}  # fmt: skip

_ANY = tuple(SECTIONS.values())

#: By a word for the place where the name stands.
MEANT: dict[str, Meant] = {kind: Meant((kind,)) for kind in SECTION_OF} | {
    "isolation point": Meant(("isolation point",), frozenset({MODE_OFF})),
    "point opened by hand": Meant(("isolation point",)),
    "what a wait is for": Meant(("circuit",), words=True),
    "what is loosened": Meant(("fastener",), words=True),
    "valve": Meant(("part", "fastener"), words=True),
    "unit that is asked": Meant(("part",), words=True),
    "part to order": Meant(("part", "fastener")),
    "what stays off": Meant(("part", "connector", "fastener", "isolation point")),
    "place of a group": Meant(_ANY),
    "what is touched": Meant(_ANY, contacts=True),
    "contact": Meant(("connector",)),
}


def rule_of(meant: str) -> str:
    """The rule that reports a name which is not what is meant: that of the first kind, unless there are many."""
    kinds = MEANT[meant].kinds
    return f"{kinds[0].replace(' ', '-')}-not-in-profile" if len(kinds) < 3 else "name-not-in-profile"


def in_words(kinds: tuple[str, ...]) -> str:
    """The kinds as one phrase: "part, connector, fastener or isolation point"."""
    return kinds[0] if len(kinds) == 1 else f"{', '.join(kinds[:-1])} or {kinds[-1]}"


def in_brackets(name: str, known: Collection[str]) -> str | None:
    """What to write instead of several names in one text, such as `X7, X8`; None if it is one name, or words.

    Names with only a space between them come from lines of a list, of which one has lost its dash.
    """
    parts = [part.strip() for part in name.split(",")]
    if len(parts) > 1 and all(parts) and any(part in known for part in parts):
        return f"write several in brackets: `[{', '.join(parts)}]`"
    words = name.split()
    if len(words) > 1 and all(word in known for word in words):
        return f"write each behind a dash of its own, or all in brackets: `[{', '.join(words)}]`"
    return None


def with_article(noun: str) -> str:
    """A noun with its article."""
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"
