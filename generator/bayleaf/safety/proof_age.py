"""How old a proof may be: the longest time that the steps between it and a step that relies on it take together.

Times are those that the steps state, and the waits. A loop counts as often as its `repeat` allows, a loop within a loop
not once more for each round of the outer one. A step that states no time counts as none.
"""

from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property, partial
from typing import NamedTuple

from ..diagnostics.place import Path as At
from ..graph import effects as events
from ..graph.graph import Edge, End, Graph, Target
from ..model import actions
from ..model.procedure import Step
from .demands import Demand
from .passage import taken_over
from .plan import Plan, origin_of
from .proof_holds import MATTERS, ended_by, growing_old, is_whole
from .rig import Known, Rig

#: Rounds of a loop that are counted at most.
_ROUNDS = 20


class Age(NamedTuple):
    """Seconds since a proof, and where that stands: the file, the place in it, and the number of the step."""

    seconds: float
    file: str
    at: At
    number: str


class Relied(NamedTuple):
    """A step that relies on a proof; inside a performed procedure `inner` has the rest of the path."""

    step: int
    demand: Demand
    age: Age
    inner: "Relied | None" = None


#: The ages of the proofs that stand, by circuit. Never changed once it is made.
Ages = Mapping[str, Age]


class _Where(NamedTuple):
    procedure: str
    entry: tuple[tuple[str, Age], ...]


class _Out(NamedTuple):
    """A way out of a step with what matters of it; `callee` is what is performed."""

    source: int
    target: Target
    seconds: float
    effects: tuple[events.Effect, ...]
    callee: str | None
    returned: str | None


class _Outline(NamedTuple):
    """The ways out in an order in which each step comes before those behind it; and those that lead back.

    `begin` tells where the ways out of a step begin. `relying` are the steps that rely on proofs, each with what it
    touches and what it performs.
    """

    ways: tuple[_Out, ...]
    loops: tuple[_Out, ...]
    begin: Mapping[int, int]
    relying: tuple[tuple[int, tuple[Demand, ...], str | None], ...]


class _Aged(NamedTuple):
    exits: Mapping[str | None, Ages]
    relied: tuple[Relied, ...]


@dataclass
class AgeWalk:
    """Reckons the age of proofs through the procedures of a vehicle, for one variant of it."""

    rig: Rig
    plans: Mapping[str, Plan]
    _found: dict[_Where, _Aged] = field(default_factory=dict)
    _outlines: dict[str, _Outline] = field(default_factory=dict)

    def too_old(self, procedure: str, holds: Fraction) -> Iterator[Relied]:
        """The steps that touch a circuit with a proof of more than these seconds, and older than at each one before."""
        most: dict[str, float] = {}
        for relied in self._walked(_Where(procedure, ())).relied:
            circuit, seconds = relied.demand.circuit, relied.age.seconds
            if seconds > most.get(circuit, holds):
                most[circuit] = seconds
                yield relied

    @cached_property
    def _proved(self) -> tuple[Known, ...]:
        """The circuits whose proofs grow old."""
        return growing_old(self.rig)

    def _walked(self, where: _Where) -> _Aged:
        if where not in self._found:
            self._found[where] = _Aged({}, ())  # whoever comes back here performs itself
            self._found[where] = self._walk(where)
        return self._found[where]

    def _walk(self, where: _Where) -> _Aged:
        steps, entry = self.plans[where.procedure].graph.steps, dict(where.entry)
        if not steps:
            return _Aged({None: entry}, ())
        outline = self._outlined(where.procedure)
        before: dict[int, Ages] = {0: entry}
        exits: dict[str | None, Ages] = {}
        first = 0
        for done in range(_ROUNDS + 1):
            self._forward(where.procedure, outline.ways[first:], before, exits)
            again = (way for way in outline.loops if done < (steps[_index(way)].repeat or 1))
            older = [outline.begin[_index(way)] for way in again if self._back(where.procedure, way, before)]
            if not older:
                break
            first = min(older)
        return _Aged(exits, tuple(self._relied(outline, before)))

    def _outlined(self, procedure: str) -> _Outline:
        found = self._outlines.get(procedure)
        if found is None:
            circuits = {known.id for known in self._proved}
            found = self._outlines[procedure] = _outline(self.plans[procedure], circuits, self.plans)
        return found

    def _forward(
        self, procedure: str, ways: tuple[_Out, ...], before: dict[int, Ages], exits: dict[str | None, Ages]
    ) -> None:
        for way in ways:
            ages = before.get(way.source)
            if ages or way.effects or way.callee is not None:
                left = self._left(procedure, way, ages or {})
                if isinstance(way.target, int):
                    before[way.target] = _older(before.get(way.target), left)
                elif isinstance(way.target, End):
                    exits[way.target.conclusion] = _older(exits.get(way.target.conclusion), left)

    def _back(self, procedure: str, way: _Out, before: dict[int, Ages]) -> bool:
        """Goes a loop once more; whether that has made a proof older."""
        target = _index(way)
        known = before.get(target, {})
        before[target] = _older(known, self._left(procedure, way, before.get(way.source, {})))
        return before[target] != known

    def _left(self, procedure: str, way: _Out, ages: Ages) -> Ages:
        """The ages behind a way out."""
        if way.callee is not None:
            return self._walked(_Where(way.callee, tuple(ages.items()))).exits.get(way.returned, {})
        seconds = way.seconds
        if ages and seconds:
            ages = {one: Age(age.seconds + seconds, age.file, age.at, age.number) for one, age in ages.items()}
        for effect in way.effects:
            ages = self._changed(procedure, way.source, effect, ages)
        return ages

    def _changed(self, procedure: str, index: int, effect: events.Effect, ages: Ages) -> Ages:
        if not isinstance(effect, events.ProvedDead):
            ended = ended_by((effect,), (known for known in self._proved if known.id in ages), self.rig)
            return {one: age for one, age in ages.items() if one not in ended} if ended else ages
        known = next((one for one in self._proved if one.id == effect.circuit), None)
        if known is None or (known.id in ages and not is_whole(effect.pairs, known)):
            return ages
        plan = self.plans[procedure]
        step = plan.graph.steps[index]
        return {**ages, known.id: Age(0.0, plan.procedure.file, (*step.at, step.action.key), step.number)}

    def _relied(self, outline: _Outline, before: Mapping[int, Ages]) -> Iterator[Relied]:
        for index, touches, callee in outline.relying:
            ages = before.get(index, {})
            yield from (Relied(index, one, ages[one.circuit]) for one in touches if one.circuit in ages)
            if callee is not None:
                relied = self._walked(_Where(callee, tuple(ages.items()))).relied
                for inner in taken_over(relied, partial(origin_of, callee, plans=self.plans)):
                    yield Relied(index, inner.demand, inner.age, inner)


def _index(way: _Out) -> int:
    assert isinstance(way.target, int)
    return way.target


def _older(one: Ages | None, other: Ages) -> Ages:
    """Of each circuit the older proof."""
    if not one:
        return other
    if not other:
        return one
    return {**one, **{circuit: max(age, one.get(circuit, age)) for circuit, age in other.items()}}


def _time_of(step: Step) -> float:
    """The longer of what a step says that it takes, and of its wait."""
    stated = 0.0 if step.time is None else float(step.time.si)
    waited = step.action.time if isinstance(step.action, actions.Wait) else None
    return stated if waited is None else max(stated, float(waited.si))


def _outline(plan: Plan, circuits: Set[str], plans: Mapping[str, Plan]) -> _Outline:
    graph = plan.graph
    order, back = _order(graph)
    ways: list[_Out] = []
    loops: list[_Out] = []
    begin: dict[int, int] = {}
    for index in order:
        begin[index] = len(ways)
        step = graph.steps[index]
        seconds = _time_of(step)
        for edge in graph.leaving[index]:
            way = _way(edge, step, seconds, plans)
            (loops if (index, edge.exit) in back else ways).append(way)
    return _Outline(tuple(ways), tuple(loops), begin, tuple(_relying(plan, circuits, plans)))


def _relying(
    plan: Plan, circuits: Set[str], plans: Mapping[str, Plan]
) -> Iterator[tuple[int, tuple[Demand, ...], str | None]]:
    touched: dict[int, list[Demand]] = {}
    for circuit in circuits & plan.demands.keys():
        for index, demands in plan.demands[circuit].items():
            touched.setdefault(index, []).extend(one for one in demands if one.kind == "touch" and not one.opened)
    for index, step in enumerate(plan.graph.steps):
        performed = step.action.procedure if isinstance(step.action, actions.Perform) else None
        callee = performed if performed in plans else None
        if callee is not None or touched.get(index):
            yield index, tuple(touched.get(index, ())), callee


def _way(edge: Edge, step: Step, seconds: float, plans: Mapping[str, Plan]) -> _Out:
    effects = tuple(effect for effect in edge.effects if isinstance(effect, MATTERS)) if edge.effects else ()
    if edge.exit == "exhausted":
        return _Out(edge.source, edge.target, 0.0, effects, None, None)
    performed = step.action.procedure if isinstance(step.action, actions.Perform) else None
    returned = None if edge.exit == "end" else edge.exit
    return _Out(edge.source, edge.target, seconds, effects, performed if performed in plans else None, returned)


def _order(graph: Graph) -> tuple[tuple[int, ...], set[tuple[int, str]]]:
    """The steps so that each stands before those behind it, and the edges that lead back in a loop."""
    back: set[tuple[int, str]] = set()
    left: list[int] = []
    on_path: set[int] = {0}
    seen: set[int] = {0}
    stack = [(0, iter(graph.leaving[0]))]
    while stack:
        index, edges = stack[-1]
        edge = next(edges, None)
        if edge is None:
            on_path.discard(index)
            left.append(index)
            stack.pop()
        elif isinstance(edge.target, int):
            if edge.target in on_path:
                back.add((edge.source, edge.exit))
            elif edge.target not in seen:
                seen.add(edge.target)
                on_path.add(edge.target)
                stack.append((edge.target, iter(graph.leaving[edge.target])))
    return tuple(reversed(left)), back
