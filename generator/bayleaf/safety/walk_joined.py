"""The first walk: one state a step, of each component the least safe that any path brings. It never misses."""

from collections import deque
from collections.abc import Iterator
from heapq import heappop, heappush
from typing import TYPE_CHECKING

from ..graph.graph import End, Target
from .needs import unmet
from .passage import Hit, Leg, Passage, Path, Where
from .plan import Stage, Way
from .state import State, join
from .transfer import after

if TYPE_CHECKING:
    from .walk import Walker


class JoinedWalk:
    """A walk through one procedure; it goes through what is performed by asking the walker."""

    def __init__(self, walker: "Walker", where: Where) -> None:
        self._walker, self._where = walker, where
        self._scene = walker.scene(where)
        self._stages = walker.stages(where)
        self._states: list[State | None] = [None] * len(self._stages)
        self._exits: dict[str | None, State] = {}
        self._hits: dict[tuple[int, str], tuple[Hit, ...]] = {}
        self._reports = False

    def run(self) -> Passage | None:
        """To the fixed point; None as soon as a need is not met."""
        if not self._stages:
            return Passage((), {None: ((self._where.entry, ()),)})
        pending: list[int] = []
        self._arrive(0, self._where.entry, pending)
        while pending:
            index = heappop(pending)
            stage, state = self._stages[index], self._states[index]
            assert state is not None
            if stage.demands or state.found:
                hits = tuple(Hit(index, demand, state, ()) for demand in unmet(stage, state, self._scene))
                if hits and not self._reports:
                    return None
                self._hits[index, ""] = hits
            for way, left in self._left(index, stage, state):
                if left is None:
                    return None
                self._arrive(way.target, left, pending)
        before = tuple(() if state is None else (state,) for state in self._states)
        return Passage(before, {exit: ((state, ()),) for exit, state in self._exits.items()})

    def report(self) -> Passage:
        """To the fixed point, every need that is not met noted and nothing taken as mended: less safe, never safer."""
        self._reports = True
        passage = self.run()
        assert passage is not None
        paths = self._shortest_paths()
        hits = (hit._replace(path=paths[hit.step]) for found in self._hits.values() for hit in found)
        exits = {exit: tuple((state, ()) for state, _ in found) for exit, found in passage.exits.items()}
        return Passage(passage.before, exits, tuple(hits))

    def _left(self, index: int, stage: Stage, state: State) -> Iterator[tuple[Way, State | None]]:
        """The ways out of a step, each with the state after it; None where what is performed has a fault."""
        if stage.callee is None:
            for way in stage.ways:
                yield way, after(state, way.effects, self._scene) if way.effects else state
            return
        where = self._walker.called(self._where, stage.callee, state)
        if where is None:
            return
        passage = self._walker.joined(where)
        if passage is None and self._reports:
            passage = self._walker.exact(where)
            self._hits[index, stage.callee] = tuple(Hit(index, hit.demand, hit.state, (), hit) for hit in passage.hits)
        for way in stage.ways:
            if passage is None:
                yield way, None
            else:
                for left, _ in passage.exits.get(way.performed, ()):
                    yield way, left

    def _arrive(self, target: Target, state: State, pending: list[int]) -> None:
        if isinstance(target, int):
            known = self._states[target]
            joined = state if known is None else join(known, state)
            if joined != known:
                self._states[target] = joined
                if target not in pending:
                    heappush(pending, target)
        elif isinstance(target, End):
            known = self._exits.get(target.conclusion)
            self._exits[target.conclusion] = state if known is None else join(known, state)

    def _shortest_paths(self) -> dict[int, Path]:
        """A shortest path to each step that is reached, whatever the states on it."""
        paths: dict[int, Path] = {0: ()}
        waiting = deque([0] if self._stages else [])
        while waiting:
            here = waiting.popleft()
            for way in self._stages[here].ways:
                if isinstance(way.target, int) and way.target not in paths:
                    paths[way.target] = (*paths[here], Leg(here, way.exit))
                    waiting.append(way.target)
        return paths
