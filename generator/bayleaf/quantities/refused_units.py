"""Why a spelling of a unit is refused, and what to write instead."""

import re
from dataclasses import replace
from difflib import get_close_matches
from functools import lru_cache

from .problem import Problem
from .units import AMBIGUOUS, SPELLINGS, UNITS, Unit, known_unit, spelling_key

_CASE = "Capital and small letters differ: m is a thousandth, M a million, k a thousand."
_DIRECT_OR_ALTERNATING = "Whether a voltage is DC or AC is written with its circuit, not in the unit."
_ABOVE_AMBIENT = "Pressures are written as the gauge shows them, above ambient."

#: Refused spellings with one right mend: the unit to write, and why.
_ONE_MEND: dict[str, tuple[str, str]] = {
    **dict.fromkeys(
        ("VDC", "VAC", "Vdc", "Vac", "V·DC", "V·AC", "V·dc", "V·ac", "V~", "V="),
        ("V", _DIRECT_OR_ALTERNATING),
    ),
    **dict.fromkeys(("psig", "PSIG"), ("psi", _ABOVE_AMBIENT)),
    **dict.fromkeys(("barg", "bar(g)"), ("bar", _ABOVE_AMBIENT)),
    "R": ("Ω", "The symbol of the ohm is Ω."),
    "kgm": ("kgf·m", "A torque is a force times a length: kilogram-force."),
    "kp": ("kgf", "The kilopond is the kilogram-force."),
    "mkp": ("kgf·m", "The kilopond is the kilogram-force."),
}

#: A unit that counts something by a number, such as `V per 1000 rpm`: the figure before it is another one.
_OTHER_NUMBER = re.compile(r"[0-9]")

#: Prefixes in words, as other languages spell them too.
_PREFIXES = {
    "mikro": "µ", "micro": "µ", "milli": "m", "mili": "m", "kilo": "k", "mega": "M", "nano": "n", "piko": "p",
    "pico": "p",
}  # fmt: skip

#: Units of another quantity that were probably meant as the unit beside them.
_LIKELY: dict[tuple[str, str], str] = {
    ("lb", "force"): "lbf",
    ("kg", "force"): "kgf",
    ("F", "temperature"): "°F",
    ("°", "temperature"): "°C",
    ("K", "resistance"): "kΩ",
    ("J", "torque"): "N·m",
    ("N·m", "energy"): "J",
    ("m", "time"): "min",
    ("h", "inductance"): "H",
    ("H", "time"): "h",
    ("g", "force"): "N",
    ("L/min", "volume"): "L",
    ("mm", "area"): "mm²",
    ("mH", "capacitance"): "mF",
    ("µH", "capacitance"): "µF",
    ("mF", "inductance"): "mH",
    ("µF", "inductance"): "µH",
}


def likely_unit(found: Unit, expected: str) -> str | None:
    """The unit an author most likely meant who wrote `found` where `expected` is measured."""
    return _LIKELY.get((found.symbol, expected))


@lru_cache(maxsize=1024)
def find_unit(spelling: str, number: str = "") -> Unit | Problem:
    """The unit of a spelling, or what is wrong with it; `number` only serves the words."""
    found = known_unit(spelling)
    if found is not None:
        return found
    key = spelling_key(spelling)
    if key in AMBIGUOUS:
        return _ambiguous(spelling, number, AMBIGUOUS[key])
    if key in _ONE_MEND:
        symbol, because = _ONE_MEND[key]
        return replace(_unknown(spelling, because, f"write {_tick(symbol, number)}"), write=symbol)
    return _unknown(spelling, *_near(key, number))


def _tick(unit: str, number: str) -> str:
    """A value as an author would write it, between backticks."""
    blank = "" if not number or unit == "°" else " "
    return f"`{number}{blank}{unit}`"


def _unknown(spelling: str, because: str | None, mend: str) -> Problem:
    message = f"`{spelling}` is not a unit that can be written here"
    return Problem("unit-unknown", message, 0, len(spelling), because, mend)


def _ambiguous(spelling: str, number: str, readings: tuple[tuple[str, str], ...]) -> Problem:
    names = " or ".join(name for _, name in readings)
    mends = " or ".join(f"{_tick(symbol, number)} for {_with_article(name)}" for symbol, name in readings if symbol)
    message = f"{_tick(spelling, number)} can mean {names}"
    return Problem("unit-ambiguous", message, 0, len(spelling), None, f"write {mends}")


def _with_article(name: str) -> str:
    return f"{'an' if name[0] in 'aeiou' else 'a'} {name}"


def _near(key: str, number: str) -> tuple[str | None, str]:
    """Why, and which accepted unit comes nearest: first by letters alone, then by likeness."""
    by_case = [unit for spelt, unit in SPELLINGS.items() if spelt.casefold() == key.casefold()]
    likely = list(dict.fromkeys(by_case))
    if not likely and (written_out := _with_prefix_in_words(key)) is not None:
        likely = [written_out]
    if not likely:
        near = get_close_matches(key, SPELLINGS, n=3, cutoff=0.6)
        likely = list(dict.fromkeys(SPELLINGS[spelt] for spelt in near))[:2]
    if not likely and (first := key.split("·")[0].split(" ")[0]) in SPELLINGS:
        likely = [SPELLINGS[first]]
    if not likely:
        return None, "write one of the units listed on the page of the format, such as `V` or `N·m`"
    if any(_OTHER_NUMBER.search(unit.symbol) and not _OTHER_NUMBER.search(key) for unit in likely):
        meant = " or ".join(f"`{unit.symbol}` ({unit.name})" for unit in likely)
        return None, f"convert the number to one of these units: {meant}"
    meant = " or ".join(f"{_tick(unit.symbol, number)} ({unit.name})" for unit in likely)
    return (_CASE if by_case else None), f"did you mean {meant}?"


def _with_prefix_in_words(key: str) -> Unit | None:
    """The unit of a word with its prefix as it is spelt in another language: `mikrofarad`, `Kiloohm`."""
    word = key.casefold()
    for spelt, prefix in _PREFIXES.items():
        if word.startswith(spelt):
            base = known_unit(word.removeprefix(spelt))
            return None if base is None else UNITS.get(f"{prefix}{base.symbol}")
    return None


def symbols() -> tuple[str, ...]:
    """Every canonical symbol, in the order of the table; for the page of the format."""
    return tuple(UNITS)
