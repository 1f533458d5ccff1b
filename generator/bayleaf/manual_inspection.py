"""The findings of a manual, each kept until something that it rests on has changed.

A file is checked again where it, its profile, the workshop file, its graph or anything that its rules looked at is not
what it was; a procedure is walked again where it, what it performs, or what the walks ask of the whole vehicle is not.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Set
from dataclasses import dataclass, replace
from datetime import date
from operator import is_
from typing import Any, NamedTuple

from .diagnostics.finding import Finding
from .diagnostics.place import Path, Place
from .graph.build import build_graph
from .graph.graph import Graph
from .manual_files import Sources
from .manual_profiles import Views
from .model.actions import Perform
from .model.facts import Facts
from .model.procedure import Procedure
from .model.record import Record
from .model.vehicle import Vehicle
from .model.workshop import Workshop
from .rules.case import Case
from .rules.consequences import without_consequences
from .rules.outlook import Look, Looks, Outlook
from .rules.run import Locate, run_rules, run_walk_rules
from .safety.breaches import Court
from .safety.premises import without_caller
from .safety.survey import Surveyor
from .safety.walk_premises import made_live

#: Faults of form that hide no danger from a walk. A proof that is deleted leaves the conclusion of its outcome without
#: a way to it: that the circuit is not proved dead is said beside it, or the danger would wait behind the form. What
#: else the walk finds mostly comes from the same slip, and waits.
_WALKED_ALL_THE_SAME = frozenset({"conclusion-never-reached", "step-never-reached"})


def _grave(findings: Iterable[Finding], never_reached: Set[str]) -> Iterator[Finding]:
    """Of the findings of walks all; in files of which a part is never reached, the dangers."""
    return (one for one in findings if one.kind == "danger" or one.place.file not in never_reached)


@dataclass(frozen=True)
class Scope:
    """One state of a manual, ready to be judged: the models that could be read, by file, and the maps of them.

    `vehicles` are those whose profile could be read, `views` what procedures get of them; `procedures` go by id;
    `workshop` is None where it cannot be read.
    """

    models: Mapping[str, Any]
    vehicles: Mapping[str, Vehicle]
    views: Mapping[str, Views]
    procedures: Mapping[str, Procedure]
    facts: Mapping[str, Facts]
    workshop: Workshop | None
    sources: Sources
    outlook: Outlook
    today: date


class _Kept(NamedTuple):
    """Findings with what they rest on: objects that must be the very same, and what was seen beside them."""

    rests_on: tuple[Any, ...]
    seen: Looks
    findings: tuple[Finding, ...]


class _Drawn(NamedTuple):
    """The graph of a procedure, with what it was made from: what is known of the procedures that it performs."""

    procedure: Procedure
    names: tuple[str, ...]
    callees: tuple[Facts | None, ...]
    graph: Graph


class Inspector:
    """Judges one state of a manual after the other. `checked` and `walked` name what the last one took anew."""

    def __init__(self) -> None:
        self.checked: list[str] = []
        self.walked: list[str] = []
        self.surveyors: dict[str, Surveyor] = {}
        self._of_rules: dict[str, _Kept] = {}
        self._of_walks: dict[str, _Kept] = {}
        self._graphs: dict[str, _Drawn] = {}
        self._renamed: dict[str, tuple[Procedure, Procedure]] = {}
        self._bases: dict[str, tuple[Surveyor, dict[str, tuple[Any, ...]]]] = {}
        self._alike: dict[tuple[str, str], Any] = {}

    def inspect(
        self,
        scope: Scope,
        read: Iterable[Finding],
        first: Set[str] = frozenset(),
        tell: Callable[[tuple[Finding, ...]], None] | None = None,
    ) -> list[Finding]:
        """Everything that is wrong: what was found while reading, by the rules, and by the walks.

        The files `first` are judged before all others, and told of at once.
        """
        self.checked, self.walked = [], []
        findings = list(read)
        base = Case(scope.outlook, None, scope.workshop, scope.today)
        cases = {name: replace(base, vehicle=views.rules) for name, views in scope.views.items()}
        whole = {name: replace(base, vehicle=vehicle) for name, vehicle in scope.vehicles.items()}
        self.surveyors = self._surveyors_of(scope)
        for file in sorted(scope.models, key=lambda file: file not in first):
            if tell is not None and file not in first:
                tell(tuple(one for one in findings if one.place.file in first))
                tell = None
            model = scope.models[file]
            cases_of = cases if isinstance(model, Procedure) else whole
            findings.extend(self._by_rules(file, model, _case_of(model, base, cases_of), scope))
        wrong = [finding for finding in findings if finding.severity == "error"]
        in_vehicle = {one.place.file for one in wrong}
        unclear = {one.place.file for one in wrong if one.kind == "form" and one.rule not in _WALKED_ALL_THE_SAME}
        never_reached = {one.place.file for one in wrong if one.rule in _WALKED_ALL_THE_SAME}
        for name in self.surveyors:
            if scope.vehicles[name].file not in in_vehicle:
                findings.extend(_grave(self._by_walks(name, cases[name], unclear, scope), never_reached))
        self._forget(scope)
        return findings

    def sizes(self) -> tuple[int, ...]:
        """How much is kept of each kind."""
        kept = (self._of_rules, self._of_walks, self._graphs, self._renamed, self._bases, self._alike, self.surveyors)
        return tuple(len(one) for one in kept)

    def _by_rules(self, file: str, model: Any, case: Case, scope: Scope) -> tuple[Finding, ...]:
        graph = None
        if isinstance(model, Procedure) and model.shape_is_whole:
            graph = self._graph(self._named(_id_of(file), model), scope.facts)
        rests_on = (model, case.vehicle, case.workshop, self._same(("today", ""), case.today), graph)

        def find(locate: Locate) -> Iterator[Finding]:
            self.checked.append(file)
            return run_rules(model, replace(case, graph=graph), locate)

        return _kept(self._of_rules, file, file, rests_on, find, scope)

    def _by_walks(self, folder: str, case: Case, unclear: Set[str], scope: Scope) -> Iterator[Finding]:
        """What the walks find in the procedures of a vehicle, where they and all they perform have no fault of form.

        A walk over a name that is misspelt would only find more of the same.
        """
        surveyor = self.surveyors[folder]
        court, own = Court(surveyor, case.proof_holds), surveyor.procedures
        around = case.workshop, self._same(("today", ""), case.today)
        for name, basis in self._bases_of(folder, surveyor).items():
            if unclear and not unclear.isdisjoint(own[one].file for one in (name, *surveyor.called(name))):
                continue

            def find(locate: Locate, name: str = name) -> Iterator[Finding]:
                self.walked.append(name)

                def note(file: str) -> None:
                    scope.outlook.note(Look("text", file))

                every = court.breaches(name)
                if every:  # told in words of the profile
                    scope.outlook.note(Look("profile", folder))
                walked = without_consequences(name, every, surveyor, case, note)
                told = list(run_walk_rules(own[name], replace(case, walked=walked), locate))
                if len(walked) < len(every) and not any(one.severity == "error" for one in told):
                    told = list(
                        run_walk_rules(own[name], replace(case, walked=every), locate)
                    )  # an error is never hidden
                return iter(told)

            yield from _kept(self._of_walks, name, own[name].file, around + basis, find, scope)

    def _bases_of(self, folder: str, surveyor: Surveyor) -> Mapping[str, tuple[Any, ...]]:
        """What the findings of each procedure's walks rest on: the profile, what the walks ask of all procedures

        of the vehicle, and the procedures on the way with their graphs. All of it belongs to the surveyor.
        """
        kept = self._bases.get(folder)
        if kept is None or kept[0] is not surveyor:
            own, rig = surveyor.procedures, surveyor.rig
            live = self._same(("live", folder), made_live(own.values(), rig))
            temporaries = self._same(("temporaries", folder), rig.temporaries)
            bases = {}
            for name, procedure in own.items():
                alone = self._same(("alone", name), without_caller(procedure, own.values()))
                called = (name, *surveyor.called(name))
                walked = (part for one in called for part in (own[one], surveyor.graph(one)))
                bases[name] = (surveyor.vehicle, live, temporaries, alone, *walked)
            kept = self._bases[folder] = surveyor, bases
        return kept[1]

    def _surveyors_of(self, scope: Scope) -> dict[str, Surveyor]:
        """For each vehicle what walks its procedures; the same one as long as nothing of them has changed."""
        own: dict[str, dict[str, Procedure]] = {name: {} for name in scope.vehicles}
        for name, procedure in scope.procedures.items():
            if procedure.folder in own:
                own[procedure.folder][name] = self._named(name, procedure)
        found = {}
        for folder, procedures in own.items():
            vehicle, graph = scope.views[folder].walks, {}
            for name, one in procedures.items():
                if one.shape_is_whole:
                    graph[name] = self._graph(one, scope.facts)
            before = self.surveyors.get(folder)
            if before is None or not _is_surveyed(before, vehicle, procedures, graph):
                before = Surveyor(vehicle, procedures, lambda one, graph=graph: graph[one.id])  # type: ignore[misc]
            found[folder] = before
        return found

    def _graph(self, procedure: Procedure, facts: Mapping[str, Facts]) -> Graph:
        """The graph of a procedure; the same one while it and what it performs say the same."""
        kept = self._graphs.get(procedure.file)
        if kept is None or kept.procedure is not procedure:
            names = tuple(step.action.procedure for step in procedure.steps if isinstance(step.action, Perform))
        else:
            names = kept.names
        callees = tuple(map(facts.get, names))
        if kept is None or kept.procedure is not procedure or kept.callees != callees:
            graph = build_graph(procedure, facts)
            kept = self._graphs[procedure.file] = _Drawn(procedure, names, callees, graph)
        return kept.graph

    def _named(self, name: str, procedure: Procedure) -> Procedure:
        """The procedure by the name of its file, where another one is written in it."""
        if procedure.id == name:
            return procedure
        kept = self._renamed.get(name)
        if kept is None or kept[0] is not procedure:
            kept = self._renamed[name] = procedure, replace(procedure, id=name)
        return kept[1]

    def _same(self, what: tuple[str, str], value: Any) -> Any:
        """The object that stood for this the last time, where it is equal: so it is told by identity."""
        if what not in self._alike or self._alike[what] != value:
            self._alike[what] = value
        return self._alike[what]

    def _forget(self, scope: Scope) -> None:
        """What belongs to files that are gone."""
        for kept in (self._of_rules, self._graphs):
            for file in kept.keys() - scope.models.keys():
                del kept[file]
        for by_name in (self._of_walks, self._renamed):
            for name in by_name.keys() - scope.procedures.keys():
                del by_name[name]
        for folder in self._bases.keys() - scope.vehicles.keys():
            del self._bases[folder]
        known = {"", *scope.vehicles, *scope.procedures}
        for what in [one for one in self._alike if one[1] not in known]:
            del self._alike[what]


def _kept(
    store: dict[str, _Kept],
    key: str,
    file: str,
    rests_on: tuple[Any, ...],
    find: Callable[[Locate], Iterator[Finding]],
    scope: Scope,
) -> tuple[Finding, ...]:
    """The findings as kept, or found anew."""
    kept, outlook = store.get(key), scope.outlook
    if kept is None or not _is_identical(kept.rests_on, rests_on) or not outlook.is_still(kept.seen):
        outlook.seen = {}
        outlook.note(Look("text", file))
        findings = tuple(find(_locator(scope.sources, outlook)))
        kept = store[key] = _Kept(rests_on, outlook.seen, findings)
    return kept.findings


def _is_identical(then: tuple[Any, ...], now: tuple[Any, ...]) -> bool:
    return len(then) == len(now) and all(map(is_, then, now))


def _is_surveyed(
    before: Surveyor, vehicle: Vehicle, procedures: Mapping[str, Procedure], graphs: Mapping[str, Graph]
) -> bool:
    """Whether a surveyor was made of just these procedures and graphs, in this order."""
    if before.vehicle is not vehicle or list(before.procedures) != list(graphs):
        return False
    return all(before.procedures[name] is procedures[name] and before.graph(name) is graphs[name] for name in graphs)


def _case_of(model: Any, base: Case, cases: Mapping[str, Case]) -> Case:
    if isinstance(model, Procedure):
        return cases.get(model.folder, base)
    if isinstance(model, Vehicle):
        return cases.get(model.file.split("/")[-2], base)
    if isinstance(model, Record):
        return cases.get(model.procedure.split("/")[0], base)
    return base


def _id_of(file: str) -> str:
    return file.removeprefix("procedures/").removesuffix(".yml")


def _locator(sources: Sources, outlook: Outlook) -> Locate:
    def locate(file: str, at: Path, key: bool, span: tuple[int, int] | None) -> Place:
        outlook.note(Look("text", file))
        source = sources.get(file)
        if source is None:
            return Place(file, 1, 1, 1, 1)
        start, end = span if span is not None else (None, None)
        return source.place(at, start, end, key)

    return locate
