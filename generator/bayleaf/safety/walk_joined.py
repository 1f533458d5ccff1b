"""The first walk: one state a step, of each component the least safe that any path brings. It never misses.

Several circuits go together, each by itself: a step that does not concern a circuit costs it nothing.
"""

from collections import deque
from collections.abc import Iterator, Sequence
from functools import partial
from heapq import heappop, heappush
from typing import TYPE_CHECKING

from ..graph.graph import End, Target
from .needs import unmet
from .passage import Hit, Leg, Passage, Path, Where, further, taken_over
from .plan import Stage, Way, origin_of
from .state import State, join, join_all
from .transfer import after

if TYPE_CHECKING:
    from .walk import Walker

#: The states of the circuits that walk together. None: it does not come here, or a need of it was not met before.
States = list[State | None]


class JoinedWalk:
    """A walk through one procedure; it goes through what is performed by asking the walker.

    `places` are alike in all but the circuit and the state on entry.
    """

    def __init__(self, walker: "Walker", places: Sequence[Where]) -> None:
        self._walker, self._places = walker, places
        self._scenes = [walker.scene(where) for where in places]
        self._bare = walker.plans[places[0].procedure].bare
        self._seen: list[list[tuple[int, Stage]]] = [[] for _ in self._bare]
        for slot, where in enumerate(places):
            for index, stage in walker.sights(where).items():
                self._seen[index].append((slot, stage))
        self._states: list[States | None] = [None] * len(self._bare)
        self._exits: dict[str | None, States] = {}
        self._hits: dict[tuple[int, str], tuple[Hit, ...]] = {}
        self._failed: set[int] = set()
        #: The circuits of which any step may ask something, since one is not dead or lies bare.
        self._wary = {slot for slot, where in enumerate(places) if self._is_wary(slot, where.entry)}
        self._reports = False

    def run(self) -> tuple[Passage | None, ...]:
        """To the fixed point; None for a circuit of which a need is not met."""
        pending: list[int] = []
        self._arrive(0 if self._bare else End(None), [where.entry for where in self._places], pending)
        while pending:
            index = heappop(pending)
            states = self._states[index]
            assert states is not None
            if self._wary or any(stage.demands for _, stage in self._seen[index]):
                states = self._asked(index, states)
            if self._bare[index].callee is None:
                for number, way in enumerate(self._bare[index].ways):
                    self._arrive(way.target, self._left(index, number, states), pending)
            else:
                for way, left in self._performed(index, states):
                    self._arrive(way.target, left, pending)
        return tuple(None if slot in self._failed else self._passage(slot) for slot in range(len(self._places)))

    def report(self) -> Passage:
        """Of one circuit, every need that is not met, and nothing taken as mended: less safe, never safer."""
        self._reports = True
        (passage,) = self.run()
        assert passage is not None
        paths = self._shortest_paths()
        hits = (hit._replace(path=paths[hit.step]) for found in self._hits.values() for hit in found)
        return Passage(passage.before, passage.exits, tuple(hits))

    def _passage(self, slot: int) -> Passage:
        before = (None if states is None else states[slot] for states in self._states)
        exits = {exit: states[slot] for exit, states in self._exits.items()}
        return Passage(
            tuple(() if state is None else (state,) for state in before),
            {exit: ((state, ()),) for exit, state in exits.items() if state is not None},
        )

    def _asked(self, index: int, states: States) -> States:
        """The states where what a step asks holds; where it does not, there is nothing to follow."""
        bare = self._bare[index]
        stages = {**dict.fromkeys(self._wary, bare), **dict(self._seen[index])}
        for slot, stage in stages.items():
            state = states[slot]
            if state is None or not (stage.demands or slot in self._wary):
                continue
            hits = tuple(Hit(index, demand, state, ()) for demand in unmet(stage, state, self._scenes[slot]))
            if hits and not self._reports:
                states = self._given_up(slot, states)
            self._hits[index, ""] = hits
        return states

    def _is_wary(self, slot: int, state: State) -> bool:
        known = self._scenes[slot].known
        return state.found or (known.category == "class B" and bool(known.covers & ~state.on))

    def _given_up(self, slot: int, states: States) -> States:
        self._failed.add(slot)
        return [*states[:slot], None, *states[slot + 1 :]]

    def _left(self, index: int, number: int, states: States) -> States:
        """The states behind a way out."""
        left = states
        for slot, stage in self._seen[index]:
            effects, state = stage.ways[number].effects, states[slot]
            if effects and state is not None:
                if left is states:
                    left = [*states]
                left[slot] = state = after(state, effects, self._scenes[slot])
                if self._is_wary(slot, state):
                    self._wary.add(slot)
        return left

    def _performed(self, index: int, states: States) -> Iterator[tuple[Way, States]]:
        """The ways out of a step that performs a procedure, each with the states behind it."""
        callee = self._bare[index].callee
        assert callee is not None
        called: dict[int, Where] = {}
        for slot, state in enumerate(states):
            where = None if state is None else self._walker.called(self._places[slot], callee, state)
            if where is not None:
                called[slot] = where
        passages = dict(zip(called, self._walker.joined_all(tuple(called.values())), strict=True))
        for slot, passage in passages.items():
            if passage is None and not self._reports:
                self._failed.add(slot)
            elif passage is None:
                found = passages[slot] = self._walker.exact(called[slot])
                inner = taken_over(found.hits, partial(origin_of, callee, plans=self._walker.plans))
                self._hits[index, callee] = tuple(Hit(index, hit.demand, hit.state, (), hit) for hit in inner)
        for way in self._bare[index].ways:
            left: States = [None] * len(states)
            for slot, passage in passages.items():
                exits = passage.exits.get(way.performed) if passage is not None else None
                if exits:
                    left[slot] = state = join_all(state for state, _ in exits)
                    if self._is_wary(slot, state):
                        self._wary.add(slot)
            if any(left):
                yield way, left

    def _arrive(self, target: Target, states: States, pending: list[int]) -> None:
        if isinstance(target, int):
            known = self._states[target]
            joined = states if known is None else _joined(known, states)
            if joined is not known:
                self._states[target] = joined
                if target not in pending:
                    heappush(pending, target)
        elif isinstance(target, End):
            known = self._exits.get(target.conclusion)
            self._exits[target.conclusion] = states if known is None else _joined(known, states)

    def _shortest_paths(self) -> dict[int, Path]:
        """A shortest path to each step that is reached, whatever the states on it."""
        paths: dict[int, Path] = {0: ()}
        waiting = deque([0] if self._bare else [])
        while waiting:
            here = waiting.popleft()
            for way in self._bare[here].ways:
                if isinstance(way.target, int) and way.target not in paths:
                    paths[way.target] = further(paths[here], Leg(here, way.exit))
                    waiting.append(way.target)
        return paths


def _joined(known: States, states: States) -> States:
    """What holds of both, circuit by circuit; what was known already where nothing is less safe."""
    if known is states:
        return known
    found: States = [
        one if one is other or other is None else other if one is None else join(one, other)
        for one, other in zip(known, states, strict=True)
    ]
    return known if found == known else found
