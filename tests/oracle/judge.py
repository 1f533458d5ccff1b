"""The second judge of safety: follows the paths of a procedure one by one and judges each step from what came before.

It shares no code with the walk that it is the measure of. Nothing is joined and nothing is approximated: two paths
are only followed together where everything that is so on them is equal, and so is what may follow.
"""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from bayleaf.graph.build import build_graph, graph_of_variant
from bayleaf.graph.graph import End, Graph
from bayleaf.graph.variants import variants_of
from bayleaf.model import actions
from bayleaf.model.facts import facts_of
from bayleaf.model.procedure import Procedure
from bayleaf.model.vehicle import Vehicle

from .demands import OneCircuit
from .facts import NOTHING, Facts, Names
from .points import AllPoints


class Found(NamedTuple):
    """A demand that is not met on some path: the step, as numbers through performed procedures, and of what."""

    path: tuple[str, ...]
    subject: str
    demand: str


#: How often a path may come to a step within one activation of its procedure.
VISITS = 2


def judge(
    procedure_id: str, procedures: Mapping[str, Procedure], vehicle: Vehicle, visits: int | None = VISITS
) -> frozenset[Found]:
    """Everything that is not met on some path of a procedure. `visits` None: loops are walked without a bound."""
    return Judge(procedures, vehicle).judge(procedure_id, visits)


class Judge:
    """The judge of all procedures of one vehicle; what is looked up is looked up once."""

    def __init__(self, procedures: Mapping[str, Procedure], vehicle: Vehicle) -> None:
        self.procedures, self.vehicle = procedures, vehicle
        self._known = {name: facts_of(one) for name, one in procedures.items()}
        self._graphs: dict[tuple[str, str | None], Graph] = {}
        self._faults = {name: self._faults_of(one) for name, one in procedures.items()}
        facts = Facts(vehicle, procedures)
        circuits = [name for name, one in vehicle.circuits.items() if facts.category(one) != "low"]
        self._subjects = [*(OneCircuit(facts, name) for name in circuits), AllPoints(facts)]

    def judge(self, procedure_id: str, visits: int | None = VISITS) -> frozenset[Found]:
        """See `judge` above."""
        found: set[Found] = set()
        faults = self._faults[procedure_id]
        for variant in self._variants(procedure_id):
            for subject in self._subjects:
                paths = _Paths(self, subject, variant, visits)
                for start in subject.starts(self.procedures[procedure_id], faults):
                    found |= paths.walk(procedure_id, start, NOTHING, ()).found
        return frozenset(found)

    def graph(self, name: str, variant: str | None) -> Graph:
        """The graph of a procedure for a variant of the vehicle."""
        key = name, variant
        if key not in self._graphs:
            graph = build_graph(self.procedures[name], self._known)
            self._graphs[key] = graph if variant is None else graph_of_variant(graph, variant)
        return self._graphs[key]

    def performed(self, name: str) -> set[str]:
        """A procedure and all that it performs, however far down."""
        found, waiting = {name}, [name]
        while waiting:
            for callee in self._known[waiting.pop()].performs:
                if callee in self.procedures and callee not in found:
                    found.add(callee)
                    waiting.append(callee)
        return found

    def _variants(self, name: str) -> list[str | None]:
        found = {one for each in self.performed(name) for one in variants_of(self.procedures[each], self.vehicle)}
        return sorted(found - {None}) or [None]

    def faults(self, name: str) -> Names:
        """The faults that a procedure says the vehicle has."""
        return self._faults[name]

    def _faults_of(self, procedure: Procedure) -> Names:
        meanings = [self.vehicle.codes.get(code) for code in procedure.trouble_codes]
        told = {one.fault for one in meanings if one is not None and one.fault is not None}
        return frozenset(told | set(procedure.faults))


class _Walked(NamedTuple):
    """How a procedure was left from one state: by which exits in which states, and what was found in it."""

    exits: frozenset[tuple[str, NamedTuple]]
    found: frozenset[Found]


class _Paths:
    """All paths for one subject. A performed procedure is followed once for each state in which it is come to."""

    def __init__(self, judge: Judge, subject: OneCircuit | AllPoints, variant: str | None, visits: int | None) -> None:
        self.judge, self.subject, self.variant, self.visits = judge, subject, variant, visits
        self._walked: dict[tuple[object, ...], _Walked] = {}

    def walk(self, name: str, start: NamedTuple, faults: Names, callers: tuple[str, ...]) -> _Walked:
        """Every path through one activation of a procedure, with the faults of whoever performs it."""
        faults = faults | self.judge.faults(name)
        start = self.subject.enter(start, faults)
        key = name, start, faults, callers
        if key not in self._walked:
            self._walked[key] = self._walk(name, start, faults, (*callers, name))
        return self._walked[key]

    def _walk(self, name: str, start: NamedTuple, faults: Names, callers: tuple[str, ...]) -> _Walked:
        procedure, graph = self.judge.procedures[name], self.judge.graph(name, self.variant)
        exits: set[tuple[str, NamedTuple]] = set()
        found: set[Found] = set()
        if not graph.steps:
            return _Walked(frozenset({("end", start)}), frozenset())
        counted = _steps_in_loops(graph) if self.visits is not None else range(0)
        first = 0, start, (0,) * len(counted)
        seen, waiting = {first}, [first]
        while waiting:
            index, state, counts = waiting.pop()
            if index in counted:
                place = index - counted.start
                if counts[place] == self.visits:
                    continue
                counts = (*counts[:place], counts[place] + 1, *counts[place + 1 :])
            number = graph.steps[index].number
            for target, new, told in self._step(procedure, graph, index, state, faults, callers):
                found.update(Found((number, *one.path), one.subject, one.demand) for one in told)
                if isinstance(target, End):
                    exits.add((target.conclusion or "end", new))
                elif isinstance(target, int) and (there := (target, new, counts)) not in seen:
                    seen.add(there)
                    waiting.append(there)
        return _Walked(frozenset(exits), frozenset(found))

    def _step(
        self, procedure: Procedure, graph: Graph, index: int, state: NamedTuple, faults: Names, callers: tuple[str, ...]
    ) -> Iterator[tuple[object, NamedTuple, list[Found]]]:
        """Every way to do one step: where it leads, the state there, and what was found (paths from this step on)."""
        step = graph.steps[index]
        callee = None
        if isinstance(step.action, actions.Perform):
            callee = self.judge.procedures.get(step.action.procedure)
        unmet, states = self.subject.arrive(procedure, step, state, faults, callee)
        if unmet:
            yield None, state, [Found((), *one) for one in unmet]
        for here in states:
            if callee is None:
                for edge in graph.leaving[index]:
                    told, new = self.subject.leave(step, edge, here, faults)
                    yield edge.target, new, [Found((), *one) for one in told]
                continue
            if callee.id in callers:
                continue  # performing oneself is reported by its own rule, and never comes back
            walked = self.walk(callee.id, here, faults, callers)
            yield None, here, list(walked.found)
            for edge in graph.leaving[index]:
                if edge.exit == "exhausted":
                    yield edge.target, here, []
                yield from ((edge.target, new, []) for exit, new in walked.exits if exit == edge.exit)


def _steps_in_loops(graph: Graph) -> range:
    """Steps that a path may come to twice: none before the first that is jumped back to, none behind the last jump."""
    back = [
        (edge.source, edge.target)
        for edge in graph.edges
        if isinstance(edge.target, int) and edge.target <= edge.source
    ]
    return range(min(there for _, there in back), max(here for here, _ in back) + 1) if back else range(0)
