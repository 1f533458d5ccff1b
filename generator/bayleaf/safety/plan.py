"""A procedure as one circuit sees it: at each step what is asked of the circuit, and what each way out does to it."""

from collections.abc import Hashable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple, Protocol

from ..diagnostics.place import Path as At
from ..graph.effects import Effect
from ..graph.graph import End, Graph, Target
from ..model.actions import Perform
from ..model.procedure import Procedure, Step
from .demands import PROVES, Beside, Demand, beside, demands_of, works
from .faults import announces_stuck
from .holds import LEVEL_OF
from .reach import Reach
from .rig import NOT_DEAD, Rig, union
from .thing_demands import thing_demands
from .transfer import thing_off
from .whole import Index


class Nested(Protocol):
    """Something found at a step; in a performed procedure `inner` has the rest of the way to it."""

    @property
    def step(self) -> int: ...
    @property
    def demand(self) -> Hashable: ...
    @property
    def inner(self) -> "Nested | None": ...


class Way(NamedTuple):
    """A way out of a step; `performed` is how the performed procedure has to have come back (None: plainly)."""

    exit: str
    target: Target
    effects: tuple[Effect, ...]
    performed: str | None


class Stage(NamedTuple):
    """One step; `at` is its place. `hands`: somebody lays hands on the vehicle; `beside` is asked of what lies bare.

    `callee` is the procedure that is performed.
    """

    demands: tuple[Demand, ...]
    ways: tuple[Way, ...]
    at: At
    hands: bool
    beside: Beside | None
    callee: str | None


class _Event(NamedTuple):
    """A step that changes something: which circuits anything of it can change, and which all of it.

    `ways` are its ways out with all effects, `reached` for each way the circuits that its effects can change.
    """

    circuits: frozenset[str]
    alike: frozenset[str]
    ways: tuple[Way, ...]
    reached: tuple[tuple[frozenset[str], ...], ...]

    def ways_of(self, circuit: str) -> tuple[Way, ...]:
        """The ways out with what they change of one circuit."""
        if circuit in self.alike:
            return self.ways
        return tuple(
            way._replace(effects=tuple(one for one, into in zip(way.effects, reached, strict=True) if circuit in into))
            for way, reached in zip(self.ways, self.reached, strict=True)
        )


def origin_of(procedure: str, found: Nested, plans: Mapping[str, "Plan"]) -> Hashable:
    """Where something arises: in which procedure that is performed on the way, at which step, and what it is."""
    while found.inner is not None:
        action = plans[procedure].graph.steps[found.step].action
        assert isinstance(action, Perform)
        procedure, found = action.procedure, found.inner
    return procedure, found.step, found.demand


@dataclass(frozen=True)
class Plan:
    """A procedure with its graph, for one variant of the vehicle; `expects` of all procedures of the manual."""

    procedure: Procedure
    graph: Graph
    rig: Rig
    reach: Reach
    expects: Mapping[str, tuple[tuple[str, str], ...]]

    @cached_property
    def demands(self) -> Mapping[str, Mapping[int, tuple[Demand, ...]]]:
        """For each circuit of which something is asked, the steps that ask it."""
        found: dict[str, dict[int, tuple[Demand, ...]]] = {}
        for index, step in enumerate(self.graph.steps):
            if not step.broken:
                for demand in (*self._expected(step), *demands_of(step, self.rig)):
                    at = found.setdefault(demand.circuit, {})
                    at[index] = (*at.get(index, ()), demand)
        return found

    @cached_property
    def asked_kinds(self) -> Mapping[str, frozenset[str]]:
        """For each circuit what kinds of need there are of it."""
        return {
            circuit: frozenset(demand.kind for demands in steps.values() for demand in demands)
            for circuit, steps in self.demands.items()
        }

    @cached_property
    def worked_beside(self) -> frozenset[str]:
        """The circuits that must not lie bare beside what is worked at."""
        besides = [stage.beside for stage in self.bare if stage.beside is not None]
        circuits = (self.rig.known(name) for name in self.rig.dangerous)
        return frozenset(known.id for known in circuits if any(one.of(known, 0, ()) is not None for one in besides))

    @cached_property
    def taken_off(self) -> int:
        """The bits of the things that a step takes out of its place."""
        effects = (effect for edge in self.graph.edges for effect in edge.effects)
        return union(self.rig.thing(thing_off(effect) or "") for effect in effects)

    @cached_property
    def announces_stuck(self) -> bool:
        """Whether a contactor may be stuck when this procedure is done."""
        return announces_stuck(self.procedure, self.rig.vehicle)

    def variants_only_look(self, index: Index) -> bool:
        """Whether the steps that are only for some change nothing, ask for no thing, and lead to the next step."""
        for number, step in enumerate(self.graph.steps):
            if step.only_for:
                edges = self.graph.leaving[number]
                goes_on = len(edges) == 1 and edges[0].target in (number + 1, End(None)) and not edges[0].effects
                if not goes_on or isinstance(step.action, Perform):
                    return False
                if any(thing_demands(step, self.rig, index, self.announces_stuck)):
                    return False
        return True

    def stages(self, circuit: str) -> tuple[Stage, ...]:
        """The steps as a circuit sees them."""
        found = self._stages.get(circuit)
        if found is None:
            seen = self.sights(circuit)
            found = self._stages[circuit] = tuple(seen.get(index, stage) for index, stage in enumerate(self.bare))
        return found

    def sights(self, circuit: str) -> Mapping[int, Stage]:
        """The steps that ask something of a circuit, or change it; the others are the same for all."""
        found = self._sights.get(circuit)
        if found is None:
            found = self._sights[circuit] = dict(self._seen_by(circuit))
        return found

    def _seen_by(self, circuit: str) -> Iterator[tuple[int, Stage]]:
        asked, events = self.demands.get(circuit, {}), self._eventful
        for index, demands in asked.items():
            bare = self.bare[index]
            ways = events[index].ways_of(circuit) if index in events else bare.ways
            yield index, Stage(demands, ways, bare.at, bare.hands, bare.beside, bare.callee)
        for index, event in events.items():
            if circuit in event.circuits and index not in asked:
                bare = self.bare[index]
                yield index, Stage((), event.ways_of(circuit), bare.at, bare.hands, bare.beside, bare.callee)

    @cached_property
    def _sights(self) -> dict[str, Mapping[int, Stage]]:
        return {}

    @cached_property
    def _stages(self) -> dict[str, tuple[Stage, ...]]:
        return {}

    @cached_property
    def _eventful(self) -> Mapping[int, _Event]:
        """The steps that change anything."""
        found = {}
        for index, stage in enumerate(self.bare):
            edges = self.graph.leaving[index]
            reached = tuple(tuple(map(self.reach.of, edge.effects)) for edge in edges)
            each = [one for some in reached for one in some]
            if any(each):
                ways = tuple(
                    Way(way.exit, way.target, edge.effects, way.performed)
                    for way, edge in zip(stage.ways, edges, strict=True)
                )
                found[index] = _Event(each[0].union(*each), each[0].intersection(*each), ways, reached)
        return found

    @cached_property
    def bare(self) -> tuple[Stage, ...]:
        """The steps as a circuit sees them that none of them concerns."""
        return tuple(self._stage(index, step) for index, step in enumerate(self.graph.steps))

    def _stage(self, index: int, step: Step) -> Stage:
        action, edges = step.action, self.graph.leaving[index]
        if isinstance(action, Perform):
            callee = action.procedure
            ways = [Way(edge.exit, edge.target, (), None if edge.exit == "end" else edge.exit) for edge in edges]
        else:
            callee = None
            ways = [Way(edge.exit, edge.target, (), None) for edge in edges]
        beside_ = None if step.broken else beside(step, self.rig)
        return Stage((), tuple(ways), (*step.at, action.key), self._is_hands_on(step), beside_, callee)

    def _is_hands_on(self, step: Step) -> bool:
        return NOT_DEAD not in self.procedure.handles and (step.action.__class__ in PROVES or works(step))

    def _expected(self, step: Step) -> tuple[Demand, ...]:
        if not isinstance(step.action, Perform):
            return ()
        at = (*step.at, "perform")
        return tuple(
            Demand("expects", circuit, LEVEL_OF[word], at, word)
            for circuit, word in self.expects.get(step.action.procedure, ())
            if circuit in self.rig.circuits
        )
