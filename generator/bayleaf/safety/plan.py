"""A procedure as one circuit sees it: at each step what is asked of the circuit, and what each way out does to it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

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
from .things import Index
from .transfer import thing_off


class Way(NamedTuple):
    """A way out of a step; `performed` is how the performed procedure has to have come back (None: plainly)."""

    exit: str
    target: Target
    effects: tuple[Effect, ...]
    performed: str | None


class Stage(NamedTuple):
    """One step. `hands` and `beside` are asked where somebody works at the vehicle, of whatever circuit.

    `callee` is the procedure that is performed.
    """

    demands: tuple[Demand, ...]
    ways: tuple[Way, ...]
    hands: Demand | None
    beside: Beside | None
    callee: str | None


class _Event(NamedTuple):
    """A step that changes something: which circuits in all, and for each way out which effect changes which."""

    circuits: frozenset[str]
    ways: tuple[tuple[tuple[Effect, frozenset[str]], ...], ...]


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
        return frozenset(known.id for known in circuits if any(one.of(known, on=0) is not None for one in besides))

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
        found = list(self.bare)
        for index, stage in self.sights(circuit).items():
            found[index] = stage
        return tuple(found)

    def sights(self, circuit: str) -> Mapping[int, Stage]:
        """The steps that ask something of a circuit, or change it; the others are the same for all."""
        found = self._sights.get(circuit)
        if found is None:
            found = self._sights[circuit] = dict(self._seen_by(circuit))
        return found

    def _seen_by(self, circuit: str) -> Iterator[tuple[int, Stage]]:
        asked = self.demands.get(circuit, {})
        for index, demands in asked.items():
            if index not in self._eventful:
                yield index, self.bare[index]._replace(demands=demands)
        for index, event in self._eventful.items():
            demands, bare = asked.get(index, ()), self.bare[index]
            if circuit in event.circuits:
                some = (tuple(one for one, reached in effects if circuit in reached) for effects in event.ways)
                ways = tuple(way._replace(effects=own) for way, own in zip(bare.ways, some, strict=True))
                yield index, bare._replace(demands=demands, ways=ways)
            elif demands:
                yield index, bare._replace(demands=demands)

    @cached_property
    def _sights(self) -> dict[str, Mapping[int, Stage]]:
        return {}

    @cached_property
    def _eventful(self) -> Mapping[int, _Event]:
        """The steps that change anything, each with the circuits that it can change."""
        found = {}
        for index in dict.fromkeys(edge.source for edge in self.graph.edges if edge.effects):
            ways = [
                tuple((effect, self.reach.of(effect)) for effect in edge.effects) for edge in self.graph.leaving[index]
            ]
            found[index] = _Event(frozenset().union(*(reached for way in ways for _, reached in way)), tuple(ways))
        return found

    @cached_property
    def bare(self) -> tuple[Stage, ...]:
        """The steps as a circuit sees them that none of them concerns."""
        return tuple(self._stage(index, step) for index, step in enumerate(self.graph.steps))

    def _stage(self, index: int, step: Step) -> Stage:
        callee = step.action.procedure if isinstance(step.action, Perform) else None
        ways = tuple(
            Way(edge.exit, edge.target, (), None if callee is None or edge.exit == "end" else edge.exit)
            for edge in self.graph.leaving[index]
        )
        return Stage((), ways, self._hands(step), None if step.broken else beside(step, self.rig), callee)

    def _hands(self, step: Step) -> Demand | None:
        if NOT_DEAD in self.procedure.handles or not (works(step) or step.action.__class__ in PROVES):
            return None
        return Demand("not dead", "", "live", (*step.at, step.action.key), "")

    def _expected(self, step: Step) -> tuple[Demand, ...]:
        if not isinstance(step.action, Perform):
            return ()
        at = (*step.at, "perform")
        return tuple(
            Demand("expects", circuit, LEVEL_OF[word], at, word)
            for circuit, word in self.expects.get(step.action.procedure, ())
            if circuit in self.rig.circuits
        )
