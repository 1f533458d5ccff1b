"""A procedure as one circuit sees it: at each step what is asked of the circuit, and what each way out does to it."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from ..graph.effects import Effect
from ..graph.graph import Graph, Target
from ..model.actions import Perform
from ..model.procedure import Procedure, Step
from .demands import PROVES, Demand, demands_of, works
from .faults import announces_stuck
from .holds import LEVEL_OF
from .rig import NOT_DEAD, Rig
from .transfer import Scene, concerns


class Way(NamedTuple):
    """A way out of a step; `performed` is how the performed procedure has to have come back (None: plainly)."""

    exit: str
    target: Target
    effects: tuple[Effect, ...]
    performed: str | None


class Stage(NamedTuple):
    """One step. `hands` is asked where somebody works at the vehicle; `callee` is the procedure that is performed."""

    demands: tuple[Demand, ...]
    ways: tuple[Way, ...]
    hands: Demand | None
    callee: str | None


@dataclass(frozen=True)
class Plan:
    """A procedure with its graph, for one variant of the vehicle; `expects` of all procedures of the manual."""

    procedure: Procedure
    graph: Graph
    rig: Rig
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
    def callees(self) -> tuple[str, ...]:
        """The procedures that are performed."""
        found = (step.action.procedure for step in self.graph.steps if isinstance(step.action, Perform))
        return tuple(dict.fromkeys(found))

    @cached_property
    def announces_stuck(self) -> bool:
        """Whether a contactor may be stuck when this procedure is done."""
        return announces_stuck(self.procedure, self.rig.vehicle)

    def stages(self, scene: Scene) -> tuple[Stage, ...]:
        """The steps as a circuit sees them."""
        demands = self.demands.get(scene.known.id, {})
        steps = enumerate(self.graph.steps)
        return tuple(self._stage(index, step, demands.get(index, ()), scene) for index, step in steps)

    def _stage(self, index: int, step: Step, demands: tuple[Demand, ...], scene: Scene) -> Stage:
        callee = step.action.procedure if isinstance(step.action, Perform) else None
        ways = []
        for edge in self.graph.leaving[index]:
            effects = tuple(effect for effect in edge.effects if concerns(effect, scene))
            performed = None if callee is None or edge.exit == "end" else edge.exit
            ways.append(Way(edge.exit, edge.target, effects, performed))
        return Stage(demands, tuple(ways), self._hands(step, scene), callee)

    def _hands(self, step: Step, scene: Scene) -> Demand | None:
        if NOT_DEAD in self.procedure.handles or not (works(step) or step.action.__class__ in PROVES):
            return None
        return Demand("not dead", scene.known.id, "live", (*step.at, step.action.key), scene.known.id)

    def _expected(self, step: Step) -> tuple[Demand, ...]:
        if not isinstance(step.action, Perform):
            return ()
        at = (*step.at, "perform")
        return tuple(
            Demand("expects", circuit, LEVEL_OF[word], at, word)
            for circuit, word in self.expects.get(step.action.procedure, ())
            if circuit in self.rig.circuits
        )
