"""The walk over the things: what is off, open, loose or fitted on some path, at every step and at every end.

What one path asks of a thing does not hang on another thing, but for the points: one that is open already asks
nothing. So a fault of a point that the joined walk finds is confirmed by following the points exactly.
"""

from collections import deque
from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, field
from functools import cached_property, partial
from heapq import heappop, heappush
from typing import NamedTuple

from ..graph.effects import Secured
from ..graph.graph import Edge, End, Target
from ..model.actions import Perform
from ..model.procedure import Step
from .bonds import bond_thing, bonded_in, measured_thing
from .passage import Leg, Path, further, taken_over
from .plan import Plan, origin_of
from .rig import Rig
from .thing_demands import thing_demands
from .things import ThingDemand, ThingKind, holds_of, made_to_hold_of, whole_after
from .whole import Index, Whole, charge_thing, join_whole, point_thing  # fmt: skip

#: What is asked of a point only while it is closed.
_OF_OPENING = ("first", "only when", "stuck")


class ThingHit(NamedTuple):
    """Something asked of a thing that does not hold; inside a performed procedure `inner` has the rest of the path."""

    step: int
    demand: ThingDemand
    path: Path
    inner: "ThingHit | None" = None


@dataclass(frozen=True)
class ThingPassage:
    """What may be off at each step (None: never reached) and at each end by which the procedure comes back."""

    before: tuple[Whole | None, ...]
    exits: Mapping[str | None, Whole]
    hits: tuple[ThingHit, ...] = ()


class ThingWhere(NamedTuple):
    """Which walk over the things this is."""

    procedure: str
    stuck: bool
    entry: Whole


@dataclass
class ThingWalker:
    """Walks the things through the procedures of a vehicle, for one variant of it.

    `alike` are the procedures that every variant goes through alike; `base` walks those for all of them.
    """

    rig: Rig
    plans: Mapping[str, Plan]
    index: Index
    base: "ThingWalker | None" = None
    alike: Set[str] = frozenset()
    asked: dict[tuple[str, bool], dict[str, tuple[ThingDemand, ...]]] = field(default_factory=dict)
    walked: dict[ThingWhere, ThingPassage] = field(default_factory=dict)
    _ends: dict[tuple[ThingWhere, int], frozenset[tuple[str | None, Whole]]] = field(default_factory=dict)
    _ways_of: dict[tuple[ThingWhere, int], Mapping[Target, Sequence[tuple[Whole, Path]]]] = field(default_factory=dict)
    _taken_out: dict[tuple[str, int, int], bool] = field(default_factory=dict)

    def walk(self, procedure: str, stuck: bool, entry: Whole) -> ThingPassage:
        """From a state on entry through everything that is performed."""
        if self.base is not None and procedure in self.alike:
            return self.base.walk(procedure, stuck, entry)
        where = ThingWhere(procedure, stuck or self.plans[procedure].announces_stuck, entry)
        if where not in self.walked:
            self.walked[where] = ThingPassage((), {})  # whoever comes back here performs itself
            self.walked[where] = self._run(where)
        return self.walked[where]

    @cached_property
    def charges(self) -> tuple[str, ...]:
        """The charges that may be left behind a plug."""
        return tuple(map(charge_thing, self.rig.vehicle.connectors))

    @cached_property
    def followed(self) -> Mapping[str, int]:
        """What has to be back in its place at an end that does not say otherwise."""
        points = map(point_thing, self.rig.vehicle.isolation_points)
        return {name: self.index[name] for name in (*self.rig.things, *points, *self.charges, *self.bonds)}

    @cached_property
    def bonds(self) -> Mapping[str, str]:
        """What was touched after its bond was measured, with the part."""
        steps = (step for plan in self.plans.values() for step in plan.graph.steps)
        parts = dict.fromkeys(name for step in steps for name in bonded_in(step) if name in self.rig.vehicle.parts)
        return {bond_thing(part): part for part in parts}

    def path_to_end(self, procedure: str, entry: Whole, end: str | None, demand: ThingDemand) -> tuple[Path, int]:
        """A shortest path on which a thing is out of its place at an end, and the step that took it out last."""
        where = ThingWhere(procedure, self.plans[procedure].announces_stuck, entry)
        bits = demand.bit | self._measured(demand)
        found = (path for state, path in self._ways(where, bits).get(End(end), ()) if not holds_of(demand, state))
        path = next(found, ())
        followed = bits | self.index.points
        state, last = _about(followed, entry), 0
        for leg in path:
            was_off = state.off & demand.bit
            lefts = [
                left for edge, left in self._left_exactly(where, leg.step, state, followed) if edge.exit == leg.exit
            ]
            state = max(lefts, key=lambda left: left.off & demand.bit, default=state)
            if state.off & demand.bit and not was_off:
                last = leg.step
        return path, last

    def kind_left(self, thing: str) -> ThingKind:
        """As what a thing is told that is not back in its place at an end."""
        return "bond left" if thing in self.bonds else "left charged" if thing in self.charges else "left"

    def _measured(self, demand: ThingDemand) -> int:
        """What decides beside the thing itself: a bond that nobody has measured is not spoilt by touching it."""
        return self.index[measured_thing(demand.name)] if demand.kind == "bond left" else 0

    def takes_out(self, procedure: str, step: int, bit: int) -> bool:
        """Whether a step, or what it performs, takes a thing out of its place; not all that is out was taken out."""
        key = procedure, step, bit
        if key not in self._taken_out:
            self._taken_out[key] = False  # whoever comes back here performs itself
            self._taken_out[key] = self._takes_out(procedure, step, bit)
        return self._taken_out[key]

    def _takes_out(self, procedure: str, step: int, bit: int) -> bool:
        graph = self.plans[procedure].graph
        action = graph.steps[step].action
        if isinstance(action, Perform):
            inner = self.plans.get(action.procedure)
            steps = range(len(inner.graph.steps)) if inner is not None else ()
            return any(self.takes_out(action.procedure, index, bit) for index in steps)
        here = Whole(-1, self.index.named("measured "), 0)
        done = ([one for one in edge.effects if not isinstance(one, Secured)] for edge in graph.leaving[step])
        return any(whole_after(here, effects, self.index).off & bit for effects in done)

    def _run(self, where: ThingWhere) -> ThingPassage:
        plan = self.plans[where.procedure]
        if not plan.graph.steps:
            return ThingPassage((), {None: where.entry})
        before: list[Whole | None] = [None] * len(plan.graph.steps)
        exits: dict[str | None, Whole] = {}
        pending = [0]
        before[0] = where.entry
        while pending:
            index = heappop(pending)
            state = before[index]
            assert state is not None
            for edge, left in self.left(where, index, state):
                target = edge.target
                if isinstance(target, int):
                    known = before[target]
                    joined = left if known is None or known is left else join_whole(known, left)
                    if joined != known:
                        before[target] = joined
                        if target not in pending:
                            heappush(pending, target)
                elif isinstance(target, End):
                    known = exits.get(target.conclusion)
                    exits[target.conclusion] = left if known is None else join_whole(known, left)
        return ThingPassage(tuple(before), exits, tuple(self._hits(where, tuple(before))))

    def left(self, where: ThingWhere, index: int, state: Whole) -> Iterator[tuple[Edge, Whole]]:
        """The ways out of a step, each with the things after it."""
        plan = self.plans[where.procedure]
        step = plan.graph.steps[index]
        if not isinstance(step.action, Perform):
            state = self._mended(where, step, state)
            for edge in plan.graph.leaving[index]:
                yield edge, whole_after(state, edge.effects, self.index) if edge.effects else state
        elif step.action.procedure in self.plans:
            passage = self.walk(step.action.procedure, where.stuck, state)
            for edge in plan.graph.leaving[index]:
                left = passage.exits.get(None if edge.exit == "end" else edge.exit)
                if left is not None:
                    yield edge, left

    def _mended(self, where: ThingWhere, step: Step, state: Whole, followed: int = -1) -> Whole:
        """The things as if what a step asks of them held; only what is followed changes.

        A condition under which a reading is worth something brings no point into another state, and no mode: a
        worthless reading must not hide that a point is opened too early behind it.
        """
        for demand in self._unmet(where, step, state):
            if (
                demand.kind == "bond"
                or demand.kind == "when"
                and (demand.wants == "mode" or demand.bit & self.index.points)
            ):
                continue
            if demand.wants == "mode" or not demand.bit & ~followed:
                mended = made_to_hold_of(demand, state)
                may_be_open = demand.kind in _OF_OPENING and state.off & self.index[point_thing(demand.name)]
                state = join_whole(state, mended) if may_be_open else mended
        return state

    def _unmet(self, where: ThingWhere, step: Step, state: Whole) -> Sequence[ThingDemand]:
        asked = self.asked.setdefault((where.procedure, where.stuck), {})
        demands = asked.get(step.number)
        if demands is None:
            demands = asked[step.number] = tuple(thing_demands(step, self.rig, self.index, where.stuck))
        if not demands:
            return demands
        return [one for one in demands if not holds_of(one, state) and not self._is_open_already(one, state)]

    def _hits(self, where: ThingWhere, before: tuple[Whole | None, ...]) -> Iterator[ThingHit]:
        plan = self.plans[where.procedure]
        for index, (step, state) in enumerate(zip(plan.graph.steps, before, strict=True)):
            if state is None or step.broken:
                continue
            if isinstance(step.action, Perform) and step.action.procedure in self.plans:
                inner = self.walk(step.action.procedure, where.stuck, state).hits
                for hit in taken_over(inner, partial(origin_of, step.action.procedure, plans=self.plans)):
                    path = self._path(where, index, hit.demand, hit)
                    if path is not None:
                        yield ThingHit(index, hit.demand, path, hit)
            for demand in self._unmet(where, step, state):
                path = self._path(where, index, demand)
                if path is not None:
                    yield ThingHit(index, demand, path)

    def _is_open_already(self, demand: ThingDemand, state: Whole) -> bool:
        """`disconnect` of a point that is surely open only means: see that it is open."""
        if demand.kind not in _OF_OPENING:
            return False
        return not state.on & self.index[point_thing(demand.name)]

    def _path(self, where: ThingWhere, step: int, demand: ThingDemand, inner: ThingHit | None = None) -> Path | None:
        """A shortest path to a step on which what is asked does not hold; None where there is none at all.

        What fails further in, in a performed procedure, is followed there from each state in which it is come to.
        """
        action = self.plans[where.procedure].graph.steps[step].action
        for state, path in self._ways(where, demand.bit if demand.wants != "mode" else 0).get(step, ()):
            if inner is None:
                fails = not holds_of(demand, state) and not self._is_open_already(demand, state)
            else:
                assert isinstance(action, Perform)
                stuck = where.stuck or self.plans[action.procedure].announces_stuck
                place = ThingWhere(action.procedure, stuck, state)
                fails = self._path(place, inner.step, demand, inner.inner) is not None
            if fails:
                return path
        return None

    def _ways(self, where: ThingWhere, bits: int) -> Mapping[Target, Sequence[tuple[Whole, Path]]]:
        """Every step and end with each state of some things and of all points, nearest first, and the path there."""
        followed = bits | self.index.points
        found = self._ways_of.get((where, followed))
        if found is None:
            found = self._ways_of[where, followed] = self._all_ways(where, followed)
        return found

    def _all_ways(self, where: ThingWhere, followed: int) -> dict[Target, list[tuple[Whole, Path]]]:
        start = _about(followed, where.entry)
        place = where._replace(entry=start)
        first: Target = 0 if self.plans[where.procedure].graph.steps else End(None)
        waiting: deque[tuple[Target, Whole, Path]] = deque([(first, start, ())])
        seen: set[tuple[Target, Whole]] = {(first, start)}
        ways: dict[Target, list[tuple[Whole, Path]]] = {}
        while waiting:
            here, state, path = waiting.popleft()
            ways.setdefault(here, []).append((state, path))
            if not isinstance(here, int):
                continue
            for edge, left in self._left_exactly(place, here, state, followed):
                now = _about(followed, left)
                if (edge.target, now) not in seen:
                    seen.add((edge.target, now))
                    waiting.append((edge.target, now, further(path, Leg(here, edge.exit))))
        return ways

    def _left_exactly(self, where: ThingWhere, index: int, state: Whole, followed: int) -> Iterator[tuple[Edge, Whole]]:
        """The ways out of a step with every state after it, not joined, of what is followed."""
        plan = self.plans[where.procedure]
        step = plan.graph.steps[index]
        if not isinstance(step.action, Perform):
            state = self._mended(where, step, state, followed)
            for edge in plan.graph.leaving[index]:
                yield edge, whole_after(state, edge.effects, self.index)
        elif step.action.procedure in self.plans:
            stuck = where.stuck or self.plans[step.action.procedure].announces_stuck
            ends = self._ends_of(ThingWhere(step.action.procedure, stuck, state), followed)
            for edge in plan.graph.leaving[index]:
                for end, left in ends:
                    if end == (None if edge.exit == "end" else edge.exit):
                        yield edge, left

    def _ends_of(self, where: ThingWhere, followed: int) -> frozenset[tuple[str | None, Whole]]:
        """Every state in which a performed procedure comes back."""
        key = where, followed
        if key not in self._ends:
            self._ends[key] = frozenset()
            ways = self._ways(where, followed).items()
            ends = ((end.conclusion, state) for end, some in ways if isinstance(end, End) for state, _ in some)
            self._ends[key] = frozenset(ends)
        return self._ends[key]


def _about(bits: int, state: Whole) -> Whole:
    """The state of some things and the modes, and of nothing else."""
    return Whole(state.on & bits, state.off & bits, state.modes)
