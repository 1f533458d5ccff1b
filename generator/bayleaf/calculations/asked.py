"""What somebody types to have a formula computed: `R=47kohm C=1.1mF from=410V`.

Values are read as everywhere in a manual, with every accepted spelling of a unit and a comma or a point as decimal
sign. What is wrong is told in one sentence: what, why, and what to write.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction

from ..quantities.numbers import read_number
from ..quantities.problem import Problem
from ..quantities.quantity import Quantity, parse_quantity, whole
from ..quantities.units import unit
from .formula import Formula, Input, all_formulas
from .threads import read_thread

#: Between several values: a semicolon, a comma before a blank, or a comma that does not stand between two digits.
_BETWEEN = re.compile(r"\s*;\s*|\s*,\s+|\s*(?<![0-9]),\s*|\s*,(?![0-9])\s*")
_LIKE = 0.5


class Refused(Exception):
    """Something that cannot be computed; its text is one sentence that says what, why, and what to write."""


@dataclass(frozen=True, slots=True)
class Understood:
    """What one input was given, as it was understood: a quantity each, a plain number, or one of the choices."""

    input: Input
    values: tuple[Quantity | Fraction | str, ...]
    by_default: bool

    @property
    def argument(self) -> float | str | list[float]:
        """What the function takes: numbers in the unit of the input."""
        numbers = [_number(one, self.input) for one in self.values]
        if self.input.several:
            return [one for one in numbers if not isinstance(one, str)]
        return numbers[0]


@dataclass(frozen=True, slots=True)
class Asked:
    """A formula with a value for each of its inputs."""

    formula: Formula
    inputs: tuple[Understood, ...]

    @property
    def arguments(self) -> list[float | str | list[float]]:
        """What the function takes, in the order of the inputs."""
        return [one.argument for one in self.inputs]


def _number(value: Quantity | Fraction | str, of: Input) -> float | str:
    if isinstance(value, Quantity):
        return float(value.to(of.unit).value)
    return value if isinstance(value, str) else float(value)


def find_formula(words: Sequence[str]) -> Formula:
    """The formula that these words name, with blanks or hyphens between them."""
    for count in range(len(words), 0, -1):
        name = "-".join(" ".join(words[:count]).lower().split())
        found = next((one for one in all_formulas() if one.slug == name), None)
        if found is not None:
            if count < len(words):
                raise Refused(_nameless(words[count], found))
            return found
    name = " ".join(words)
    hint = _meant("-".join(name.lower().split()), [one.slug for one in all_formulas()])
    raise Refused(f"there is no calculation `{name}`; {hint or '`bayleaf compute` lists them all'}")


def split_call(words: Sequence[str]) -> tuple[list[str], list[tuple[str, str]]]:
    """The words of a call: those of the name, and what is given by name; `R=47 kohm` may come as two words."""
    name: list[str] = []
    given: list[tuple[str, str]] = []
    for word in words:
        key, sign, text = word.partition("=")
        if sign:
            given.append((key.strip(), text.strip()))
        elif given:
            given[-1] = (given[-1][0], f"{given[-1][1]} {word}".strip())
        else:
            name.append(word)
    return name, given


def ask(formula: Formula, given: Iterable[tuple[str, str]]) -> Asked:
    """The formula with what was given by name, and defaults for the rest. Raises `Refused`."""
    known = {one.name: one for one in formula.inputs}
    texts: dict[str, str] = {}
    for name, text in given:
        if name not in known:
            raise Refused(_unknown_name(name, formula))
        if name in texts:
            raise Refused(f"{name} is given twice, as `{texts[name]}` and as `{text}`; leave one out")
        texts[name] = text
    return Asked(formula, tuple(_understood(one, texts, formula) for one in formula.inputs))


def example_of(formula: Formula) -> Asked:
    """The formula with the values of its example."""
    return ask(formula, formula.example.items())


def call_of(formula: Formula, values: Mapping[str, str]) -> str:
    """A call as it is typed: words with blanks between quotation marks."""
    given = (f"{name}={text}" for name, text in values.items())
    return " ".join(["bayleaf compute", formula.slug, *(f'"{one}"' if " " in one else one for one in given)])


def _understood(one: Input, texts: Mapping[str, str], formula: Formula) -> Understood:
    text = texts.get(one.name, one.default)
    if text is None:
        raise Refused(f"{formula.slug} needs {one.name} ({one.title}); write {_such_as(one, formula)}")
    if not text:
        raise Refused(f"{one.name} has no value; write {_such_as(one, formula)}")
    parts = several(text, one) if one.several else [text]
    return Understood(one, tuple(_value(part, one, formula) for part in parts), one.name not in texts)


def several(text: str, one: Input) -> list[str]:
    """The values of a list. A comma between two digits is a decimal sign, save where that cannot be."""
    parts = [part for part in _BETWEEN.split(text) if part]
    if one.unit or len(parts) > 1 or "," not in text:
        return parts
    pieces = text.split(",")
    if len(pieces) == 2 and "." not in text:
        raise Refused(
            f"{one.name}: `{text}` can be one number or two; write `{text.replace(',', '.')}` or "
            f"`{text.replace(',', '; ')}`"
        )
    return pieces


def _value(text: str, one: Input, formula: Formula) -> Quantity | Fraction | str:
    if one.choices:
        return _choice(text, one)
    if not one.unit:
        return _plain(text, one, formula)
    read = parse_quantity(text, unit(one.unit).quantity, _decimals(text))
    if isinstance(read, Problem):
        raise Refused(f"{one.name}: {_sentence(read)}")
    return read


def _decimals(text: str) -> int | None:
    """A point before three figures is a decimal point, as a display shows it; a comma there stays a riddle."""
    return None if "," in text else 3


def _choice(text: str, one: Input) -> str:
    wanted = " ".join(text.split()).casefold()
    found = next((each for each in one.choices if each.casefold() == wanted), None)
    if found is None and (thread := read_thread(text)) in one.choices:
        return str(thread)
    if found is None:
        meant = _meant(wanted, one.choices)
        listed = "; ".join(one.choices[:_FEW]) + (f" … {one.choices[-1]}" if len(one.choices) > _FEW else "")
        hint = f"{meant} There are" if meant else "write one of"
        raise Refused(f"{one.name}: `{text}` is none of the choices; {hint}: {listed}")
    return found


#: So many choices are listed in a sentence.
_FEW = 12


def _plain(text: str, one: Input, formula: Formula) -> Fraction:
    start, end = whole(text)
    read = read_number(text, start, end, _decimals(text))
    if isinstance(read, Problem):
        raise Refused(f"{one.name}: {_sentence(read)}")
    if read.end < end:
        number = text[start : read.end]
        raise Refused(
            f"{one.name}: `{text}` is more than a number, and {one.name} has no unit; write {one.name}={number}"
        )
    return Fraction(read.value)


def _sentence(problem: Problem) -> str:
    because = f" ({problem.because.rstrip('.')})" if problem.because else ""
    return f"{problem.message}{because}{f'; {problem.help}' if problem.help else ''}"


def _such_as(one: Input, formula: Formula) -> str:
    text = formula.example.get(one.name, one.default or "")
    return call_of(formula, {one.name: text}).rpartition(f"{formula.slug} ")[2]


def _nameless(word: str, formula: Formula) -> str:
    names = [one.name for one in formula.inputs]
    return f"`{word}` has no name before it; write {names[0]}={word}, for instance ({formula.slug} takes {_and(names)})"


def _unknown_name(name: str, formula: Formula) -> str:
    names = [one.name for one in formula.inputs]
    hint = _meant(name, names)
    return f"{formula.slug} takes {_and(names)}, but no `{name}`{f'; {hint}' if hint else ''}"


def _and(names: Sequence[str]) -> str:
    return " and ".join([", ".join(names[:-1]), names[-1]]) if len(names) > 1 else names[0]


def _meant(word: str, known: Iterable[str]) -> str | None:
    lower = {name.casefold(): name for name in known}
    close = get_close_matches(word.casefold(), lower, n=1, cutoff=_LIKE)
    return f"did you mean {lower[close[0]]}?" if close else None
