"""What lies around a file that is checked, and which of it its findings rest on: noted while the rules look at it.

So a finding can be kept until something that it rests on changes, and no rule has to say what that is.
"""

import os
from collections.abc import Iterator, Mapping
from functools import cached_property
from pathlib import Path as Folder
from typing import Any, NamedTuple, TypeVar

from ..model.facts import Facts
from ..model.procedure import Procedure
from ..model.vehicle import Vehicle
from ..pictures.album import Album
from ..pictures.seen import Seen
from .circles import circles

T = TypeVar("T")


class Look(NamedTuple):
    """One thing that was looked at, and its name: "facts", "procedure", "vehicle", "profile" (what the procedures of a

    vehicle get of it), "circle", "listing", "text", "picture". Without a name it is all of that kind.
    """

    kind: str
    name: str | None


#: What was looked at, with what was found there.
Looks = dict[Look, Any]


class Outlook:
    """The other procedures, the vehicles, the folders and the texts of one state of a manual.

    `seen` may be taken away and replaced at any time: what is looked at from then on is noted in the new one.
    """

    def __init__(
        self,
        folder: Folder,
        facts: Mapping[str, Facts],
        procedures: Mapping[str, Procedure],
        vehicles: Mapping[str, Vehicle],
        texts: Mapping[str, bytes],
        album: Album,
        profiles: Mapping[str, Any],
    ) -> None:
        self._folder = folder
        self._album = album
        self._texts = texts
        self._listings: dict[str, Mapping[str, bool]] = {}
        self._maps: dict[str, Mapping[str, Any]] = {
            "facts": facts, "procedure": procedures, "vehicle": vehicles, "profile": profiles
        }  # fmt: skip
        self.seen: Looks = {}
        self.facts: Mapping[str, Facts] = _Noted(self, "facts", facts)
        self.procedures: Mapping[str, Procedure] = _Noted(self, "procedure", procedures)
        self.vehicles: Mapping[str, Vehicle] = _Noted(self, "vehicle", vehicles)

    def circle(self, name: str) -> tuple[str, ...] | None:
        """The circle of procedures performing each other that is told at this one."""
        return self.note(Look("circle", name))

    def entries(self, folder: str) -> Mapping[str, bool]:
        """The names in a folder of the manual, written with `/`, and whether each is a file. Empty if there is none.

        The name of the folder must be written letter by letter, also on a system that would not mind.
        """
        return self.note(Look("listing", folder))

    def text(self, file: str) -> bytes:
        """The bytes of a file of the manual; none of one that is not here."""
        return self.note(Look("text", file)) or b""

    def picture(self, path: str) -> Seen | None:
        """What is known of a picture file; None where there is none."""
        return self.note(Look("picture", path))

    def note(self, look: Look) -> Any:
        """What is there, noted as seen."""
        found = self.seen[look] = self.now(look)
        return found

    def is_still(self, seen: Looks) -> bool:
        """Whether all that was seen in an earlier state looks the same in this one."""
        maps = self._maps
        for look, found in seen.items():
            kind, name = look
            at = maps.get(kind)  # as in `now`: thousands are asked at every save
            now = self.now(look) if at is None else at if name is None else at.get(name)
            if now is not found and not _is_same(look, found, now):
                return False
        return True

    def now(self, look: Look) -> Any:
        """What is there in this state."""
        kind, name = look
        if kind in self._maps:
            return self._maps[kind] if name is None else self._maps[kind].get(name)
        assert name is not None
        if kind == "circle":
            return self._circles.get(name)
        if kind == "picture":
            return self._album.seen(name)
        return self._listing(name) if kind == "listing" else self._texts.get(name)

    @cached_property
    def _circles(self) -> Mapping[str, tuple[str, ...]]:
        return circles(self._maps["facts"])

    def _listing(self, folder: str) -> Mapping[str, bool]:
        found = self._listings.get(folder)
        if found is None:
            above, _, name = folder.rpartition("/")
            exists = not above or self._listing(above).get(name) is False
            found = self._listings[folder] = _read(self._folder / folder) if exists else {}
        return found


class _Noted(Mapping[str, T]):
    """A map whose entries are noted as they are asked for; whoever goes through it has seen all."""

    def __init__(self, outlook: Outlook, kind: str, base: Mapping[str, T]) -> None:
        self._outlook, self._kind, self._base = outlook, kind, base

    def __getitem__(self, name: str) -> T:
        self._outlook.note(Look(self._kind, name))
        return self._base[name]

    def __contains__(self, name: object) -> bool:
        self._outlook.note(Look(self._kind, str(name)))
        return name in self._base

    def __iter__(self) -> Iterator[str]:
        self._outlook.note(Look(self._kind, None))
        return iter(self._base)

    def __len__(self) -> int:
        self._outlook.note(Look(self._kind, None))
        return len(self._base)


def _is_same(look: Look, then: Any, now: Any) -> bool:
    """Of two objects. Facts are equal where they say the same; of a model only the very same one is: its maps have an order."""
    if look.kind not in ("procedure", "vehicle", "profile"):
        return bool(then == now)
    if look.name is not None:
        return False
    return list(then) == list(now) and all(then[name] is now[name] for name in then)


def _read(folder: os.PathLike[str]) -> Mapping[str, bool]:
    try:
        with os.scandir(folder) as found:
            return {entry.name: entry.is_file() for entry in found}
    except OSError:
        return {}
