"""Asks the walk over the things what each step takes for granted; nothing is walked again."""

from collections import deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property, partial
from typing import NamedTuple

from ..graph.graph import Target
from ..model import actions
from ..model.procedure import Procedure
from .passage import Leg, Path, further, taken_over
from .plan import origin_of
from .premises import Premise, is_given, premises_of
from .rig import Rig
from .walk_things import ThingWalker, ThingWhere
from .whole import ALL_MODES, Whole


class Doubt(NamedTuple):
    """A premise that may not hold; inside a performed procedure `inner` has the rest of the path."""

    step: int
    demand: Premise
    path: Path
    inner: "Doubt | None" = None


class PremiseWalker(ThingWalker):
    """Shares all that the walk over the things has found."""

    def __init__(self, things: ThingWalker) -> None:
        super().__init__(things.rig, things.plans, things.index, things.base, things.alike, things.asked, things.walked)
        self._asked: dict[str, tuple[tuple[int, tuple[Premise, ...]], ...]] = {}
        self._doubts: dict[ThingWhere, tuple[Doubt, ...]] = {}
        self._about: dict[tuple[ThingWhere, int, bool], Mapping[Target, Sequence[tuple[Whole, Path]]]] = {}

    def doubts(self, procedure: str, stuck: bool, entry: Whole) -> tuple[Doubt, ...]:
        """The premises of a procedure, and of what it performs, that may not hold."""
        where = ThingWhere(procedure, stuck or self.plans[procedure].announces_stuck, entry)
        if where not in self._doubts:
            self._doubts[where] = ()  # whoever comes back here performs itself
            self._doubts[where] = tuple(self._found(where))
        return self._doubts[where]

    def _found(self, where: ThingWhere) -> Iterator[Doubt]:
        before = self.walk(where.procedure, where.stuck, where.entry).before
        for index, premises in self._premises(where.procedure):
            state = before[index] if index < len(before) else None
            if state is None:
                continue
            for premise in premises:
                if not is_given(premise, state):
                    yield Doubt(index, premise, self._shortest(where, index, premise))
            action = self.plans[where.procedure].graph.steps[index].action
            if isinstance(action, actions.Perform):
                inner = self.doubts(action.procedure, where.stuck, state)
                for doubt in taken_over(inner, partial(origin_of, action.procedure, plans=self.plans)):
                    yield Doubt(index, doubt.demand, self._shortest(where, index, doubt.demand), doubt)

    def _premises(self, procedure: str) -> tuple[tuple[int, tuple[Premise, ...]], ...]:
        """The steps that take something for granted, and those that perform a procedure."""
        if procedure not in self._asked:
            found = []
            for index, step in enumerate(self.plans[procedure].graph.steps):
                premises = tuple(premises_of(step, self.rig, self.index, self._made_live))
                performs = isinstance(step.action, actions.Perform) and step.action.procedure in self.plans
                if premises or performs:
                    found.append((index, premises))
            self._asked[procedure] = tuple(found)
        return self._asked[procedure]

    @cached_property
    def _made_live(self) -> frozenset[str]:
        return made_live((plan.procedure for plan in self.plans.values()), self.rig)

    def _shortest(self, where: ThingWhere, step: int, premise: Premise) -> Path:
        """A shortest path on which a premise does not hold; to the step at all where it fails further in."""
        if premise.fed:
            return ()  # no path is worse than another
        first: Path | None = None
        for state, path in self._ways_about(where, premise).get(step, ()):
            first = path if first is None else first
            if not is_given(premise, state):
                return path
        return first or ()

    def _ways_about(self, where: ThingWhere, premise: Premise) -> Mapping[Target, Sequence[tuple[Whole, Path]]]:
        """Every step with each state of what a premise is about, nearest first, and the path there."""
        key = where, premise.bits, bool(premise.modes)
        found = self._about.get(key)
        if found is not None:
            return found
        start = _about(premise, where.entry)
        place = where._replace(entry=start)
        waiting: deque[tuple[Target, Whole, Path]] = deque([(0, start, ())])
        seen: set[tuple[Target, Whole]] = {(0, start)}
        ways: dict[Target, list[tuple[Whole, Path]]] = {}
        while waiting:
            here, state, path = waiting.popleft()
            ways.setdefault(here, []).append((state, path))
            if isinstance(here, int):
                for edge, left in self.left(place, here, state):
                    now = _about(premise, left)
                    if (edge.target, now) not in seen:
                        seen.add((edge.target, now))
                        waiting.append((edge.target, now, further(path, Leg(here, edge.exit))))
        self._about[key] = ways
        return ways


def _about(premise: Premise, state: Whole) -> Whole:
    """The state of what a premise is about, and of nothing else."""
    modes = state.modes if premise.modes else ALL_MODES
    return Whole(state.on & premise.bits, state.off & premise.bits, modes)


def made_live(procedures: Iterable[Procedure], rig: Rig) -> frozenset[str]:
    """The circuits that a procedure of the vehicle makes live, or joins to something for the time being."""
    found: set[str] = set()
    for procedure in procedures:
        for step in procedure.steps:
            if isinstance(step.action, actions.Energise):
                found.update(step.action.circuits)
            elif isinstance(step.action, actions.Command):
                found.update(step.action.energises)
    for fitted in rig.temporaries:
        found.update(circuit for contact in fitted.joins or () for circuit in rig.circuits_at(contact))
    return frozenset(found)
