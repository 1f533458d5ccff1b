"""The second walk: the least safe states at each step one by one, nearest first. It is exact, and gives the path.

A state is dropped only where one that is at most as safe has been at the step before; so what is left out could find
nothing more. A need that is not met is noted once for a step, and the walk goes on as if it had been met. Where that is
mended in a way that makes a state safer than the one it stood for (`EITHER_WAY`), every state is followed.
"""

from collections import deque
from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING

from ..graph.graph import End, Target
from .needs import mended
from .passage import Hit, Leg, Passage, Path, Where, further, taken_over
from .plan import Stage, Way, origin_of
from .state import State, at_most_as_safe, least_safe
from .transfer import after

if TYPE_CHECKING:
    from .walk import Walker

#: States that are followed at one step before the joined verdict stands. Ordinary procedures stay far below.
BUDGET = 50

#: Needs that can be met in two ways, and are taken as met in one: what is open when a circuit is made live is taken as
#: put back, not the circuit as isolated; what was found not dead is taken as dead, and not only as looked into; what is
#: read or measured live is taken as dead, and not as read through an adapter, or the housing as read before.
EITHER_WAY = frozenset({"made live", "not dead", "probe", "housing"})


class ExactWalk:
    """A walk through one procedure; it goes through what is performed by asking the walker."""

    def __init__(self, walker: "Walker", where: Where, follows_all: bool = False) -> None:
        self._walker, self._where, self._follows_all = walker, where, follows_all
        self._scene = walker.scene(where)
        self._stages = walker.stages(where)
        self._before: list[list[State]] = [[] for _ in self._stages]
        self._exits: dict[str | None, list[tuple[State, Path]]] = {}
        self._hits: dict[tuple[object, ...], Hit] = {}
        self._waiting: deque[tuple[int, State, Path]] = deque()

    def run(self) -> Passage | None:
        """Follows all states; None where they become too many at a step."""
        self._arrive(0 if self._stages else End(None), self._where.entry, ())
        while self._waiting:
            index, state, path = self._waiting.popleft()
            if len(self._before[index]) > BUDGET:
                return None
            stage = self._stages[index]
            faults, states = mended(stage, state, self._scene)
            for demand in faults:
                self._note(Hit(index, demand, state, path))
            for one in states:
                for way, left in self._left(index, stage, one, path):
                    self._arrive(way.target, left, further(path, Leg(index, way.exit)))
        exits = {exit: tuple(found) for exit, found in self._exits.items()}
        return Passage(tuple(map(least_safe, self._before)), exits, tuple(self._hits.values()))

    def _left(self, index: int, stage: Stage, state: State, path: Path) -> Iterator[tuple[Way, State]]:
        """The ways out of a step, each with the states after it."""
        if stage.callee is None:
            for way in stage.ways:
                yield way, after(state, way.effects, self._scene)
            return
        where = self._walker.called(self._where, stage.callee, state)
        if where is None:
            return
        passage = self._walker.exact(
            where, self._follows_all
        )  # joined, its ways out would hide one state behind another
        for hit in taken_over(passage.hits, partial(origin_of, stage.callee, plans=self._walker.plans)):
            self._note(Hit(index, hit.demand, hit.state, path, hit))
        for way in stage.ways:
            for left, _ in passage.exits.get(way.performed, ()):
                yield way, left

    def _note(self, hit: Hit) -> None:
        self._hits.setdefault((*steps_of(hit), hit.demand.kind), hit)

    def _stands_for(self, a: State, b: State) -> bool:
        """Whether following one state finds all that following the other would."""
        return a == b if self._follows_all else at_most_as_safe(a, b)

    def _arrive(self, target: Target, state: State, path: Path) -> None:
        if isinstance(target, int):
            known = self._before[target]
            if not any(self._stands_for(other, state) for other in known):
                known.append(state)
                self._waiting.append((target, state, path))
        elif isinstance(target, End):
            found = self._exits.setdefault(target.conclusion, [])
            if not any(self._stands_for(other, state) for other, _ in found):
                found.append((state, path))


def steps_of(hit: Hit) -> tuple[int, ...]:
    """The step of a need that is not met, through the procedures that are performed."""
    return (hit.step, *(steps_of(hit.inner) if hit.inner is not None else ()))
