"""An answer held against what is offered: by number, by name, and what was probably meant by any other word."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from ..loading.shape_words import nearest


@dataclass(frozen=True, slots=True)
class Chosen:
    """What was found, in the order of the answer; `unknown` is the first word that is nothing of it, with a hint."""

    names: tuple[str, ...]
    unknown: str | None = None
    meant: str | None = None


def chosen(answer: str, offered: Mapping[str, str]) -> Chosen:
    """The names in an answer. `offered` are names with how they are called, numbered from 1 in their order."""
    whole = _one(answer, offered)
    if whole is not None:
        return Chosen((whole,))
    found: dict[str, None] = {}
    for word in _words(answer, offered):
        name = _one(word, offered)
        if name is None:
            return Chosen(tuple(found), word, _meant(word, offered))
        found[name] = None
    return Chosen(tuple(found))


def _words(answer: str, offered: Mapping[str, str]) -> list[str]:
    """Parts between commas; one that is no name is parted at its spaces, where each of these is one."""
    words: list[str] = []
    for part in re.split(r"[,;\n]", answer):
        single = part.split()
        are_names = len(single) > 1 and _one(part, offered) is None and all(_one(one, offered) for one in single)
        words += single if are_names else [" ".join(single)]
    return [word for word in words if word]


def _one(word: str, offered: Mapping[str, str]) -> str | None:
    text = " ".join(word.split()).casefold()
    if text.isdecimal() and text not in offered:
        number = int(text)
        return list(offered)[number - 1] if 0 < number <= len(offered) else None
    by_name = {name.casefold(): name for name in offered}
    by_title = {" ".join(title.split()).casefold(): name for name, title in offered.items()}
    return by_name.get(text) or by_title.get(text)


def _meant(word: str, offered: Mapping[str, str]) -> str | None:
    """The name that is most like it; else the only one whose title holds the word."""
    name = nearest(word.replace(" ", "-"), offered)
    if name is not None:
        return name
    titles = {title: name for name, title in offered.items()}
    title = nearest(word, titles)
    if title is not None:
        return titles[title]
    holding = [name for name, title in offered.items() if word.casefold() in title.casefold()]
    return holding[0] if len(holding) == 1 else None
