"""One manual: the folder, its files, what they hold, and everything that is wrong with them."""

import gc
from collections.abc import Callable, Iterator, Mapping, Set
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property, partial
from pathlib import Path as Folder
from typing import Any, NamedTuple, TypeVar

from .diagnostics.finding import Finding, in_order
from .file_stamp import stamp_of
from .graph.build import build_graph
from .graph.graph import Graph
from .limits.resolve import resolved, with_torques
from .loading.load import AnyKind, Model, load
from .manual_files import File, Found, Sources, bytes_of, find_files
from .manual_inspection import Inspector, Scope
from .manual_profiles import Profiles
from .model.facts import Facts, facts_of
from .model.free_page import FreePage
from .model.procedure import Procedure
from .model.record import Record
from .model.vehicle import Vehicle
from .model.workshop import Workshop
from .pictures.album import Album
from .rules.outlook import Outlook
from .safety.survey import Surveyor

T = TypeVar("T")

Progress = Callable[[int, int], None]

#: Is told of what was read anew, and what is wrong with it by itself, before that is judged which rests on it.
Soon = Callable[[Sources, tuple[str, ...], tuple[Finding, ...]], None]


@dataclass(frozen=True)
class Manual:
    """Everything that was read. Files that could not be read at all are missing in the maps.

    `files` are all files that belong to the manual, relative to its folder; `sources` their texts with places;
    `surveyors` walk the procedures of a vehicle; `album` looks at photos and converts them; `pages` are the
    free pages by their files.
    """

    folder: Folder
    files: tuple[str, ...]
    sources: Sources
    vehicles: Mapping[str, Vehicle]
    procedures: Mapping[str, Procedure]
    workshop: Workshop
    records: Mapping[str, Record]
    facts: Mapping[str, Facts]
    findings: tuple[Finding, ...]
    surveyors: Mapping[str, Surveyor]
    album: Album
    pages: Mapping[str, FreePage]

    @property
    def has_errors(self) -> bool:
        """Whether anything is wrong that forbids to publish the manual."""
        return any(finding.severity == "error" for finding in self.findings)

    @cached_property
    def by_file(self) -> Mapping[str, tuple[Finding, ...]]:
        """The findings of each file."""
        found: dict[str, list[Finding]] = {}
        for finding in self.findings:
            found.setdefault(finding.place.file, []).append(finding)
        return {file: tuple(items) for file, items in found.items()}

    def text(self, file: str) -> str | None:
        """The text of a file, as far as it could be read."""
        return self.sources.text(file)

    def graph(self, procedure: Procedure) -> Graph:
        """The step graph of a procedure of this manual."""
        return build_graph(procedure, self.facts)


class _Read(NamedTuple):
    """What is kept of a file: how it looked from outside when it was read, its bytes, and what they hold.

    `is_open` is False where the system did not hand the bytes out.
    """

    stamp: tuple[int, ...] | None
    is_open: bool
    data: bytes
    kind: AnyKind
    model: Model
    is_readable: bool
    findings: tuple[Finding, ...]


class ManualKeeper:
    """Reads and checks one manual again and again, each time only what has changed.

    What it gives is always what reading everything anew would give. `read` names the files that were read last time.
    """

    def __init__(self, folder: Folder) -> None:
        self._folder = folder
        self._files: dict[str, _Read] = {}
        self._drafts: Mapping[File, bytes] = {}
        self._resolved: dict[str, tuple[Model, Vehicle | None, Model]] = {}
        self._facts: dict[str, tuple[Procedure, bool, Facts]] = {}
        self._profiles = Profiles()
        self._album = Album(folder)
        self.inspector = Inspector()
        self.read: list[str] = []

    def manual(
        self,
        today: date | None = None,
        progress: Progress | None = None,
        drafts: Mapping[File, bytes] | None = None,
        soon: Soon | None = None,
    ) -> Manual:
        """The manual as it is now. `progress` is told how many files are done, and how many there are.

        `soon` is told of a profile or workshop file that was read anew before all that rests on it is judged.
        `drafts` are files that are not written yet, or not written like this: they are judged as if they lay there.
        """
        with without_collector():
            self._drafts = drafts or {}
            found = find_files(self._folder)
            found = replace(found, files=tuple(sorted({*found.files, *self._drafts})))
            self._read_again(found, progress)
            return self._judged(found, today or date.today(), soon)

    def sizes(self) -> tuple[int, ...]:
        """How much is kept of each kind: grows with the manual, not with the number of saves."""
        kept = len(self._files), len(self._resolved), len(self._facts), len(self._profiles)
        return *kept, *self.inspector.sizes()

    def _read_again(self, found: Found, progress: Progress | None) -> None:
        self.read, folder = [], str(self._folder)
        files: dict[str, _Read] = {}
        for count, (path, kind) in enumerate(found.files, 1):
            stamp = None if (path, kind) in self._drafts else stamp_of(f"{folder}/{path}")
            kept = self._files.get(path)
            if kept is None or stamp is None or kept.stamp != stamp or not kept.is_open:
                kept = self._read(path, kind, stamp, kept)
            files[path] = kept
            if progress is not None:
                progress(count, len(found.files))
        self._files = files
        for kept_by_file in (self._resolved, self._facts):
            for path in kept_by_file.keys() - files.keys():
                del kept_by_file[path]
        self._profiles.forget(files)

    def _read(self, path: str, kind: AnyKind, stamp: tuple[int, ...] | None, kept: _Read | None) -> _Read:
        drafted = self._drafts.get(File(path, kind))
        data, unread = (drafted, None) if drafted is not None else bytes_of(self._folder, path)
        if unread is None and kept is not None and kept.is_open and kept.data == data:
            return kept._replace(stamp=stamp)
        self.read.append(path)
        one = load(path, data, kind)
        findings = one.findings if unread is None else (unread,)
        is_readable = isinstance(one.source.data, dict)
        return _Read(stamp, unread is None, data, kind, one.model, is_readable, findings)

    def _judged(self, found: Found, today: date, soon: Soon | None) -> Manual:
        """Checks what was read; every file is judged by itself, with the others as its surroundings."""
        models = self._models()
        readable = {file for file, one in self._files.items() if one.is_readable}
        vehicles = _of_kind(Vehicle, models, readable)
        procedures = _of_kind(Procedure, models, readable)
        records = _of_kind(Record, models, readable)
        shops = [model for model in models.values() if isinstance(model, Workshop)]
        workshop = shops[0] if shops else _NO_WORKSHOP
        misnamed = {finding.mend.rename for finding in found.findings if finding.mend is not None}
        is_known = workshop.file in readable if shops else workshop.file not in misnamed
        facts = {
            _id_of(file): self._facts_of(file, model, file in readable)
            for file, model in models.items()
            if isinstance(model, Procedure)
        }
        texts = {file: one.data for file, one in self._files.items()}
        sources = Sources({file: (one.data, one.kind) for file, one in self._files.items()})
        by_folder = {file.split("/")[-2]: model for file, model in vehicles.items()}
        by_id = {_id_of(file): model for file, model in procedures.items()}
        views = {folder: self._profiles.of(vehicle) for folder, vehicle in by_folder.items()}
        scope = Scope(
            models={file: model for file, model in models.items() if file in readable},
            vehicles=by_folder,
            views=views,
            procedures=by_id,
            facts=facts,
            workshop=workshop if is_known else None,
            sources=sources,
            outlook=Outlook(self._folder, facts, by_id, by_folder, texts, self._album, views),
            today=today,
        )
        read = [*found.findings, *(finding for one in self._files.values() for finding in one.findings)]
        rested_on = {file for file in self.read if isinstance(models[file], Vehicle | Workshop)} if soon else set()
        first = partial(soon, sources, tuple(sorted(rested_on))) if soon and rested_on else None
        findings = self.inspector.inspect(scope, read, rested_on, first)
        return Manual(
            folder=self._folder,
            files=tuple(self._files),
            sources=sources,
            vehicles=scope.vehicles,
            procedures=scope.procedures,
            workshop=workshop,
            records={model.job: model for model in records.values()},
            facts=facts,
            findings=in_order(findings),
            surveyors=self.inspector.surveyors,
            album=self._album,
            pages={file: model for file, model in models.items() if isinstance(model, FreePage)},
        )

    def _models(self) -> dict[str, Model]:
        """The models with the torques and limits that rules compute from the profile of the vehicle."""
        profiles: dict[str, Vehicle] = {}
        models: dict[str, Model] = {}
        for file, one in self._files.items():
            if isinstance(one.model, Vehicle):
                models[file] = vehicle = self._filled(file, one.model, None)
                if one.is_readable:
                    profiles[file.split("/")[-2]] = self._profiles.of(vehicle).rules
        for file, one in self._files.items():
            if isinstance(one.model, Procedure):
                models[file] = self._filled(file, one.model, profiles.get(one.model.folder))
        return {file: models.get(file, one.model) for file, one in self._files.items()}

    def _filled(self, file: str, model: Any, vehicle: Vehicle | None) -> Any:
        kept = self._resolved.get(file)
        if kept is None or kept[0] is not model or kept[1] is not vehicle:
            filled: Any = with_torques(model) if isinstance(model, Vehicle) else resolved(model, vehicle)
            if (
                kept is not None
                and kept[0] is model
                and isinstance(filled, Procedure)
                and _is_as_before(kept[2], filled)
            ):
                filled = kept[2]
            kept = self._resolved[file] = model, vehicle, filled
        return kept[2]

    def _facts_of(self, file: str, procedure: Procedure, is_readable: bool) -> Facts:
        kept = self._facts.get(file)
        if kept is None or kept[0] is not procedure or kept[1] is not is_readable:
            facts = facts_of(procedure)
            kept = self._facts[file] = procedure, is_readable, facts if is_readable else replace(facts, readable=False)
        return kept[2]


#: What is taken where there is no workshop file: always the same one, so that nothing is checked again for it.
_NO_WORKSHOP = Workshop("procedures/workshop.yml")


def load_manual(
    folder: Folder,
    today: date | None = None,
    progress: Progress | None = None,
    drafts: Mapping[File, bytes] | None = None,
) -> Manual:
    """Reads and checks a manual once, as `ManualKeeper.manual` does."""
    return ManualKeeper(folder).manual(today, progress, drafts)


@contextmanager
def without_collector() -> Iterator[None]:
    """Without the search for garbage in circles: reading makes none to speak of, and the search takes a third more.

    For work that keeps nearly all it makes; not for a server.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _of_kind(kind: type[T], models: Mapping[str, Any], readable: Set[str]) -> dict[str, T]:
    return {file: model for file, model in models.items() if isinstance(model, kind) and file in readable}


def _is_as_before(kept: Any, filled: Any) -> bool:
    """Whether the limits that rules compute for a procedure are the same, to the digit that is shown."""
    pairs = zip(kept.steps, filled.steps, strict=True)
    return all(one is other or (one == other and repr(one) == repr(other)) for one, other in pairs)


def _id_of(file: str) -> str:
    return file.removeprefix("procedures/").removesuffix(".yml")


def manual_above(start: Folder) -> Folder | None:
    """The nearest folder, from here upwards, that is a manual: it holds mkdocs.yml and procedures/."""
    here = start.resolve()
    for folder in (here, *here.parents):
        if (folder / "mkdocs.yml").is_file() and (folder / "procedures").is_dir():
            return folder
    return None
