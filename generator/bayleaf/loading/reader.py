"""Reads typed values out of plain data: what every kind of file needs.

A reader never raises on what an author wrote: a value that cannot be read becomes None (or is left
out), and a finding says so at its place.
"""

import unicodedata
from collections.abc import Callable, Mapping
from datetime import date
from fractions import Fraction
from typing import Any, TypeVar

from ..diagnostics.finding import Finding
from ..diagnostics.mend import Edit, Mend
from ..diagnostics.place import Path
from ..model.cited import Cited
from ..model.common import SIGNAL_WORDS, Built, Callout, Conditions, Message, Photo, Waiver
from ..model.contact import Contact, read_contact
from ..quantities.limit import Limit, limit_from_map, parse_limit
from ..quantities.problem import Problem
from ..quantities.quantity import Quantity, parse_quantity
from .contact_words import no_contact
from .tree import Source

T = TypeVar("T")
Data = Mapping[str, Any]
Expected = str | tuple[str, ...] | None


def clean(text: str) -> str:
    """A text as the model keeps it: trimmed, in composed form (NFC)."""
    return text if text.isascii() else unicodedata.normalize("NFC", text)


class Reader:
    """Typed access to the plain data of one file; collects what cannot be read."""

    __slots__ = ("source", "findings", "broken")

    def __init__(self, source: Source, broken: tuple[Path, ...]) -> None:
        self.source = source
        self.findings: list[Finding] = []
        self.broken = broken

    def is_broken(self, at: Path) -> bool:
        """Whether the element at a path, or anything in it, has a fault of shape."""
        return any(path[: len(at)] == at for path in self.broken) if self.broken else False

    def fault(self, rule: str, at: Path, message: str, because: str | None = None, help: str | None = None) -> None:
        """Reports a fault at the value of a path."""
        self.findings.append(Finding(rule, self.source.place(at), message, because, help))

    def problem(self, at: Path, problem: Problem) -> None:
        """Reports what a parser of values found, under the smallest part that is wrong."""
        place = self.source.place(at, problem.start, problem.end)
        mend = None if problem.write is None else Mend((Edit(place, problem.write),))
        because = _as_clause(problem.because)
        self.findings.append(Finding(problem.rule, place, problem.message, because, problem.help, mend=mend))

    def text(self, data: Data, key: str) -> str | None:
        """A text, or None where there is none."""
        value = data.get(key)
        if value is None or value.__class__ is not str:
            return None
        value = clean(value).strip()
        return value or None

    def words(self, data: Data, key: str) -> tuple[str, ...]:
        """A text or a list of texts, always as a tuple."""
        value = data.get(key)
        if value is None:
            return ()
        if value.__class__ is str:
            value = value.strip()
            return (clean(value),) if value else ()
        return tuple(clean(item).strip() for item in value if item.__class__ is str)

    def names(self, data: Data, key: str) -> tuple[str, ...]:
        """Names of the profile; `none` and what is missing are both the empty tuple."""
        found = self.words(data, key)
        return () if found == ("none",) else found

    def yes(self, data: Data, key: str) -> bool | None:
        """True for yes, False for no, None where nothing is said."""
        value = data.get(key)
        return None if value is None else value == "yes"

    def count(self, data: Data, key: str) -> int | None:
        """A whole number from 1."""
        value = data.get(key)
        return int(value) if value is not None and value.isdecimal() else None

    def quantity(self, data: Data, key: str, at: Path, expected: Expected = None) -> Quantity | None:
        """A number with its unit."""
        value = data.get(key)
        if value is None or value.__class__ is not str:
            return None
        parsed = parse_quantity(value, expected)
        if isinstance(parsed, Problem):
            self.problem((*at, key), parsed)
            return None
        return parsed

    def limit(self, data: Data, key: str, at: Path, expected: Expected = None) -> Limit | None:
        """Limits in words or as a map. A map with a rule alone has no figures yet: None."""
        value = data.get(key)
        if value is None:
            return None
        path = (*at, key)
        if value.__class__ is str:
            parsed = parse_limit(value, expected)
            if isinstance(parsed, Problem):
                self.problem(path, parsed)
                return None
            return parsed
        return self._limit_map(value, path, expected)

    def value(self, data: Data, key: str, at: Path, expected: Expected = None) -> Limit | None:
        """A value that is set or known, with or without a tolerance; without one it has only a nominal value."""
        text = data.get(key)
        if text.__class__ is str:
            alone = parse_quantity(text, expected)
            if isinstance(alone, Quantity):
                return Limit(nominal=alone)
            if alone.rule != "limit-unreadable" and not _is_toleranced(text):
                self.problem((*at, key), alone)
                return None
        elif text is not None and set(text) == {"nominal"}:
            nominal = self.quantity(text, "nominal", (*at, key), expected)
            return None if nominal is None else Limit(nominal=nominal, origin="map")
        return self.limit(data, key, at, expected)

    def waivers(self, data: Data) -> tuple[Waiver, ...]:
        """The practice warnings that a file waives."""
        return tuple(
            Waiver(("waive", index), self.text(value, "rule") or "", self.text(value, "why") or "")
            for index, value in enumerate(data.get("waive") or ()) if isinstance(value, dict)
        )  # fmt: skip

    def cited(self, limits: Data, at: Path) -> Cited | None:
        """The rule that limits cite, with what it is applied to."""
        rule = limits.get("rule")
        if rule is None:
            return None
        condition = self.value(limits, "at", at)
        return Cited(rule, self.words(limits, "of"), condition, limits.get("line"), limits.get("code"))

    def _limit_map(self, value: Data, path: Path, expected: Expected) -> Limit | None:
        figures = {name: value.get(name) for name in ("at_least", "at_most", "nominal", "tolerance")}
        if all(figure is None for figure in figures.values()):
            if "rule" not in value and not self.is_broken(path):
                help_ = "write `at_least: …`, `at_most: …`, or `nominal: …` with `tolerance: …`"
                self.fault("limit-unreadable", path, "these limits hold no figure", help=help_)
            return None
        made = limit_from_map(**figures, expected=expected)
        if isinstance(made, Limit):
            return made
        for key, problem in made:
            self.problem((*path, key) if key else path, problem)
        return None

    def date(self, data: Data, key: str, at: Path) -> date | None:
        """A date; one that no calendar has is reported."""
        value = data.get(key)
        if value is None:
            return None
        try:
            return date.fromisoformat(value.strip())
        except ValueError:
            because = "no calendar has this day" if len(value.strip()) == 10 else None
            self.fault(
                "date-impossible",
                (*at, key),
                f"`{value}` is no date",
                because,
                "write year-month-day, such as 2026-09-30",
            )
            return None

    def contact(self, text: Any, at: Path) -> Contact | None:
        """A contact; a text that has not the form of one is reported."""
        if text.__class__ is not str:
            return None
        found = read_contact(text)
        if found is None:
            self.fault("contact-unreadable", at, f"`{text}` is no contact", *no_contact(text))
        return found

    def pair(self, value: Any, at: Path) -> tuple[Contact, Contact] | None:
        """Two contacts."""
        if value.__class__ is not list or len(value) != 2:
            return None
        first = self.contact(value[0], (*at, 0))
        second = self.contact(value[1], (*at, 1))
        return None if first is None or second is None else (first, second)

    def pairs(self, data: Data, key: str, at: Path) -> tuple[tuple[Contact, Contact], ...]:
        """One pair or a list of pairs, always as a tuple of pairs."""
        value = data.get(key)
        if value is None:
            return ()
        path = (*at, key)
        if all(item.__class__ is str for item in value):
            if len(value) != 2:
                help_ = "write the two points of the measurement: `[X7/1 device, chassis]`"
                self.fault(
                    "wrong-shape",
                    path,
                    f"`{key}` names {len(value)} contacts; a measurement is between two",
                    help=help_,
                )
                return ()
            value, paths = [value], [path]
        else:
            paths = [(*path, index) for index in range(len(value))]
        if any(item.__class__ is str for item in value):
            help_ = "write each pair in brackets of its own: `- [X7/1 device, chassis]`"
            self.fault("wrong-shape", path, f"`{key}` mixes single contacts with pairs", help=help_)
            return ()
        made = (self.pair(item, where) for item, where in zip(value, paths, strict=True))
        return tuple(pair for pair in made if pair is not None)

    def messages(self, data: Data, at: Path) -> tuple[Message, ...]:
        """The safety messages of a procedure or step, the gravest first."""
        found: list[Message] = []
        for word in SIGNAL_WORDS:
            value = data.get(word)
            if value is None:
                continue
            path = (*at, word)
            items = [(value, path)] if isinstance(value, dict) else [(item, (*path, i)) for i, item in enumerate(value)]
            for item, where in items:
                if isinstance(item, dict):
                    hazard, consequence, avoid = (
                        self.text(item, key) or "" for key in ("hazard", "consequence", "avoid")
                    )
                    found.append(Message(where, word, hazard, consequence, avoid))
        return tuple(found)

    def photo(self, data: Data, at: Path) -> Photo | None:
        """A photo: the name of a file, or a map with call-outs."""
        value = data.get("photo")
        path = (*at, "photo")
        if value is None:
            return None
        if isinstance(value, str):
            return Photo(path, value.strip())
        callouts = []
        for number, item in enumerate(value.get("callouts") or ()):
            if isinstance(item, dict) and item.get("at"):
                x, _, y = item["at"].partition(",")
                where = (*path, "callouts", number, "at")
                callouts.append(Callout(where, int(x), int(y), self.text(item, "text") or ""))
        file = self.text(value, "file")
        return Photo(path, file, self.text(value, "shows"), tuple(callouts)) if file else None

    def conditions(self, data: Data, key: str, at: Path) -> Conditions | None:
        """Conditions; None where nothing is asked."""
        value = data.get(key)
        if not isinstance(value, dict):
            return None
        return Conditions(
            at=(*at, key),
            mode=value.get("mode"),
            unplugged=self.words(value, "unplugged"),
            plugged=self.words(value, "plugged"),
            open=self.words(value, "open"),
            closed=self.words(value, "closed"),
            removed=self.words(value, "removed"),
            fitted=self.words(value, "fitted"),
            load=self.text(value, "load"),
        )

    def built(self, data: Data, key: str, at: Path) -> Built | None:
        """The years built."""
        value = data.get(key)
        if value is None:
            return None
        first, _, last = value.partition(" to ")
        years = Built(int(first), int(first) if not last else None if last == "today" else int(last))
        if years.last is not None and years.last < years.first:
            self.fault(
                "years-reversed",
                (*at, key),
                f"`{value}` ends before it begins",
                help=f"write `{last} to {first}`",
            )
        return years

    def each(self, data: Data, key: str, make: Callable[[str, Data, Path], T]) -> dict[str, T]:
        """Makes one element for every entry of a map; entries that are no maps are left out."""
        found: dict[str, T] = {}
        for name, value in (data.get(key) or {}).items():
            if isinstance(value, dict):
                found[name] = make(name, value, (key, name))
        return found


def _as_clause(text: str | None) -> str | None:
    """A sentence as it stands behind "because": no capital before it, no full stop behind."""
    if text is None or not text[1:2].islower():
        return text
    return text[0].lower() + text[1:].rstrip(".")


_TOLERANCE_SIGNS = ("±", "+", "−", " to ", "at least", "at most")


def _is_toleranced(text: str) -> bool:
    """Whether a text is meant as a value with a tolerance or a range rather than as one bare value."""
    return any(sign in text for sign in _TOLERANCE_SIGNS)


def fraction(text: str | None) -> Fraction | None:
    """An exact number of a plain decimal text, or None."""
    return None if text is None else Fraction(text)
