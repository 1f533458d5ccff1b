"""One manual: the folder, its files, what they hold, and everything that is wrong with them."""

import gc
from collections.abc import Callable, Iterator, Mapping, Set
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from pathlib import Path as Folder
from typing import Any, NamedTuple

from .diagnostics.finding import Finding, in_order
from .diagnostics.place import Path, Place
from .graph.build import build_graph
from .graph.graph import Graph
from .limits.resolve import resolved, with_torques
from .loading.load import Model, load
from .loading.schema import FileKind
from .manual_files import Found, Sources, bytes_of, find_files
from .model.facts import Facts, facts_of
from .model.procedure import Procedure
from .model.record import Record
from .model.vehicle import Vehicle
from .model.workshop import Workshop
from .rules.case import Case
from .rules.run import Locate, run_rules, run_walk_rules
from .safety.breaches import Court
from .safety.survey import Surveyor

Progress = Callable[[int, int], None]


@dataclass(frozen=True)
class Manual:
    """Everything that was read. Files that could not be read at all are missing in the maps.

    `files` are all files that belong to the manual, relative to its folder; `sources` their texts with places;
    `surveyors` walk the procedures of a vehicle.
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
    """What is kept of a file that was read."""

    kind: FileKind
    model: Model
    is_readable: bool
    findings: tuple[Finding, ...]


def load_manual(folder: Folder, today: date | None = None, progress: Progress | None = None) -> Manual:
    """Reads and checks a manual. `progress` is told how many files are done, and how many there are."""
    found = find_files(folder)
    read: dict[str, _Read] = {}
    texts: dict[str, tuple[bytes, FileKind]] = {}
    with without_collector():
        for count, (path, kind) in enumerate(found.files, 1):
            data, unread = bytes_of(folder, path)
            one = load(path, data, kind)
            findings = one.findings if unread is None else (unread,)
            read[path] = _Read(kind, one.model, isinstance(one.source.data, dict), findings)
            texts[path] = data, kind
            if progress is not None:
                progress(count, len(found.files))
        return _judge(folder, found, read, Sources(texts), today or date.today())


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


def _judge(folder: Folder, found: Found, read: Mapping[str, _Read], sources: Sources, today: date) -> Manual:
    """Checks what was read; every file is judged by itself, with the others as its surroundings."""
    read = _with_limits(read)
    models: dict[FileKind, dict[str, Any]] = {"vehicle": {}, "procedure": {}, "workshop": {}, "record": {}}
    readable: dict[FileKind, set[str]] = {
        "vehicle": set(),
        "procedure": set(),
        "workshop": set(),
        "record": set(),
    }
    for file, one in read.items():
        models[one.kind][file] = one.model
        if one.is_readable:
            readable[one.kind].add(file)
    vehicles = {file.split("/")[-2]: model for file, model in models["vehicle"].items()}
    procedures: dict[str, Procedure] = {}
    for file, model in models["procedure"].items():
        if file in readable["procedure"]:
            procedures[_id_of(file)] = model
    facts = {name: facts_of(procedure) for name, procedure in procedures.items()}
    for file in models["procedure"].keys() - readable["procedure"]:
        facts[_id_of(file)] = replace(facts_of(models["procedure"][file]), readable=False)
    workshops = list(models["workshop"].values())
    workshop = workshops[0] if workshops else Workshop("procedures/workshop.yml")
    misnamed = {finding.mend.rename for finding in found.findings if finding.mend is not None}
    is_known = workshop.file in readable["workshop"] if workshops else workshop.file not in misnamed
    workshop_known = workshop if is_known else None
    known = {name: model for name, model in vehicles.items() if model.file in readable["vehicle"]}

    findings: list[Finding] = list(found.findings)
    base = Case(folder, None, workshop_known, facts, today, procedures)
    cases = {name: replace(base, vehicle=vehicle) for name, vehicle in known.items()}
    surveyors = _surveyors(known, procedures, facts)
    for one in read.values():
        findings.extend(one.findings)
        if one.is_readable:
            findings.extend(run_rules(one.model, _case_of(one.model, base, cases, surveyors), _locator(sources)))
    wrong = [finding for finding in findings if finding.severity == "error"]
    in_vehicle = {one.place.file for one in wrong}
    unclear = {one.place.file for one in wrong if one.kind == "form"}
    for name, surveyor in surveyors.items():
        if known[name].file not in in_vehicle:
            findings.extend(_walked(cases[name], surveyor, unclear, _locator(sources)))
    return Manual(
        folder=folder,
        files=tuple(read),
        sources=sources,
        vehicles=known,
        procedures=procedures,
        workshop=workshop,
        records={model.job: model for file, model in models["record"].items() if file in readable["record"]},
        facts=facts,
        findings=in_order(findings),
        surveyors=surveyors,
    )


def _with_limits(read: Mapping[str, _Read]) -> dict[str, _Read]:
    """The same with the torques and limits that rules compute from the profile of the vehicle."""
    read = {
        file: one._replace(model=with_torques(one.model)) if isinstance(one.model, Vehicle) else one
        for file, one in read.items()
    }
    profiles = {
        file.split("/")[-2]: one.model
        for file, one in read.items()
        if isinstance(one.model, Vehicle) and one.is_readable
    }
    return {
        file: one._replace(model=resolved(one.model, profiles.get(one.model.folder)))
        if isinstance(one.model, Procedure)
        else one
        for file, one in read.items()
    }


def _id_of(file: str) -> str:
    return file.removeprefix("procedures/").removesuffix(".yml")


def _surveyors(
    vehicles: Mapping[str, Vehicle], procedures: Mapping[str, Procedure], facts: Mapping[str, Facts]
) -> dict[str, Surveyor]:
    """For each vehicle what walks its procedures."""
    found: dict[str, dict[str, Procedure]] = {name: {} for name in vehicles}
    for name, procedure in procedures.items():
        if procedure.folder in found:
            found[procedure.folder][name] = procedure
    return {name: Surveyor(vehicles[name], own, lambda one: build_graph(one, facts)) for name, own in found.items()}


def _walked(case: Case, surveyor: Surveyor, unclear: Set[str], locate: Locate) -> Iterator[Finding]:
    """What the walks find in the procedures of a vehicle, where they and all that they perform have no fault of form.

    A walk over a name that is misspelt would only find more of the same.
    """
    court = Court(surveyor, case.proof_holds)
    for name, procedure in surveyor.procedures.items():
        if not unclear & {surveyor.procedures[one].file for one in (name, *surveyor.called(name))}:
            yield from run_walk_rules(procedure, replace(case, walked=court.breaches(name)), locate)


def _case_of(model: Any, base: Case, cases: Mapping[str, Case], surveyors: Mapping[str, Surveyor]) -> Case:
    if isinstance(model, Procedure):
        case = cases.get(model.folder, base)
        if not model.shape_is_whole:
            return case
        surveyor = surveyors.get(model.folder)
        graph = build_graph(model, case.facts) if surveyor is None else surveyor.graph(_id_of(model.file))
        return replace(case, graph=graph)
    if isinstance(model, Vehicle):
        return cases.get(model.file.split("/")[-2], base)
    if isinstance(model, Record):
        return cases.get(model.procedure.split("/")[0], base)
    return base


def _locator(sources: Sources) -> Callable[[str, Path, bool, tuple[int, int] | None], Place]:
    def locate(file: str, at: Path, key: bool, span: tuple[int, int] | None) -> Place:
        source = sources.get(file)
        if source is None:
            return Place(file, 1, 1, 1, 1)
        start, end = span if span is not None else (None, None)
        return source.place(at, start, end, key)

    return locate


def manual_above(start: Folder) -> Folder | None:
    """The nearest folder, from here upwards, that is a manual: it holds mkdocs.yml and procedures/."""
    here = start.resolve()
    for folder in (here, *here.parents):
        if (folder / "mkdocs.yml").is_file() and (folder / "procedures").is_dir():
            return folder
    return None
