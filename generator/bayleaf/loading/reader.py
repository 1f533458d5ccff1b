"""Reads what every kind of file has in common and what is made of several values: messages, photos, conditions."""

from collections.abc import Callable
from typing import TypeVar

from ..diagnostics.place import Path
from ..model.cited import Cited
from ..model.common import SIGNAL_WORDS, Built, Callout, Conditions, Message, Photo, Waiver
from .value_reader import Data, ValueReader

T = TypeVar("T")


class Reader(ValueReader):
    """Typed access to the plain data of one file; collects what cannot be read."""

    __slots__ = ()

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
