"""Words by which the consequence of a safety message tells how bad it is.

The definitions are those of ANSI Z535.6 and ISO 3864-2: danger and warning stand for death or serious injury,
caution for minor or moderate injury, notice for what is not related to injury. The lists of words are our own.
"""

import re
from collections.abc import Iterator
from functools import lru_cache

from ...diagnostics.place import Path
from ...model.common import Message
from ...model.procedure import Procedure

_DEATH_OR_SERIOUS = (
    r"deaths?", r"deadly", r"die", r"dies", r"died", r"kill(?:s|ed)?", r"fatal(?:ly|ities|ity)?", r"lethal(?:ly)?",
    r"life-threatening", r"electrocut(?:es?|ed|ion)",
    r"(?:serious|severe|permanent)(?:ly)? (?:injur(?:y|ies|ed)|hurt|burns?|burned|harm)",
    r"cardiac arrest", r"heart (?:stops|failure)", r"amputat(?:es?|ed|ion)", r"blindness", r"loss of (?:sight|a limb)",
    r"crush(?:es)? (?:a person|people|somebody|you)",
)  # fmt: skip
_BODY = r"(?:skin|hands?|fingers?|face|eyes?|(?:fore)?arms?|legs?|feet|foot|back|hair)"
_INJURY = (
    r"injur(?:y|ies|ed|es?)", r"hurts?", r"wounds?", r"wounded", r"bruis(?:es?|ed)", r"scald(?:s|ed)?",
    rf"(?:burns?|cuts?)(?= (?:to |on |in )?(?:you\b|(?:the |your )?{_BODY}))", r"burns(?=[.,;]|$| and| or)",
    r"(?:electric )?shocks?(?! (?:absorbers?|loads?|waves?))", r"poison(?:s|ed|ing|ous)?", r"blinds?",
    r"sprain(?:s|ed)?", r"irritat(?:es?|ed|ion)", r"skin", r"eyes", r"fingers?", r"lungs?", r"implants?",
    r"pacemakers?",
)  # fmt: skip
#: Harms people or things; which, the text does not say.
_VIOLENT = (
    r"explo(?:des?|sions?)", r"fires?", r"bursts?", r"falls?", r"crush(?:es)?", r"moves?", r"drops?",
    r"strikes?", r"slips?", _BODY, r"you", r"people", r"persons?", r"somebody", r"someone", r"anybody", r"anyone",
)  # fmt: skip
_DAMAGE = (
    r"damag(?:es?|ed|ing)", r"destroy(?:s|ed)?", r"ruin(?:s|ed)?", r"scratch(?:es|ed)?", r"leaks?",
    r"corro(?:des?|ded|sion)", r"wears?(?: out)?", r"worn", r"breaks?", r"broken", r"tears?", r"torn", r"fails?",
    r"fault(?:s|y)?", r"loose", r"bent", r"bends?", r"cracks?", r"cracked", r"stain(?:s|ed)?", r"jams?",
    r"seiz(?:es?|ed)",
)  # fmt: skip


def _any(words: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join(words)})\b", re.IGNORECASE)


_GRAVE, _HURT, _THINGS = _any(_DEATH_OR_SERIOUS), _any(_INJURY), _any(_DAMAGE)
_ANY_HARM = _any((*_DEATH_OR_SERIOUS, *_INJURY, *_VIOLENT))
# The same few sentences stand in many procedures, hence the memory of the functions below.
#: "Nobody is hurt, but the pump runs dry": what follows a "no" up to the next comma is not threatened.
_DENIED = re.compile(r"\b(?:no|nobody|no one|not|never|without)\b[^.,;:]*", re.IGNORECASE)


@lru_cache(maxsize=4096)
def grave_word(text: str) -> re.Match[str] | None:
    """The first word that speaks of death or serious injury."""
    return _GRAVE.search(_threat(text))


@lru_cache(maxsize=4096)
def injury_word(text: str) -> re.Match[str] | None:
    """The first word that speaks of death or injury; the graver one wins."""
    threat = _threat(text)
    return _GRAVE.search(threat) or _HURT.search(threat)


@lru_cache(maxsize=4096)
def only_damage_word(text: str) -> re.Match[str] | None:
    """The first word that speaks of damage to things, where none may mean harm to people."""
    threat = _threat(text)
    return None if _ANY_HARM.search(threat) else _THINGS.search(threat)


def _threat(text: str) -> str:
    """The text with what it denies blanked out; offsets stay true."""
    return _DENIED.sub(lambda denied: " " * len(denied[0]), text)


def messages(procedure: Procedure) -> Iterator[tuple[Message, Path]]:
    """Every safety message of a procedure, once for each place in the file, with that of its consequence."""
    told: set[Path] = set()
    for message in procedure.messages:
        yield message, (*message.at, "consequence")
    for step in procedure.steps:
        for message in step.messages:
            if message.at not in told and not step.broken:
                told.add(message.at)
                yield message, (*message.at, "consequence")
