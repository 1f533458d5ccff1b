"""How old a proof may be: the longest time that the steps between it and a step that relies on it take together.

Times are those that the steps state, and the waits. A loop counts as often as its `repeat` allows, a loop within a loop
not once more for each round of the outer one. A step that states no time counts as none.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from ..diagnostics.place import Path as At
from ..graph import effects as events
from ..graph.graph import Edge, End, Graph, Target
from ..model import actions
from ..model.procedure import Step
from .demands import Demand
from .plan import Plan
from .rig import Known, Rig
from .transfer import QUIET

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


class _Where(NamedTuple):
    procedure: str
    circuit: str
    entry: Age | None


class _Out(NamedTuple):
    """A way out of a step with what matters of it; `callee` is what is performed, `leads_back` closes a loop."""

    source: int
    target: Target
    seconds: float
    effects: tuple[events.Effect, ...]
    callee: str | None
    returned: str | None
    leads_back: bool


class _Outline(NamedTuple):
    """The ways out in an order in which each step comes before those behind it; and those that lead back."""

    ways: tuple[_Out, ...]
    loops: tuple[_Out, ...]


class _Aged(NamedTuple):
    exits: Mapping[str | None, Age]
    relied: tuple[Relied, ...]


@dataclass
class AgeWalk:
    """Reckons the age of proofs through the procedures of a vehicle, for one variant of it."""

    rig: Rig
    plans: Mapping[str, Plan]
    _found: dict[_Where, _Aged] = field(default_factory=dict)
    _outlines: dict[str, _Outline] = field(default_factory=dict)

    def oldest(self, procedure: str, circuit: str) -> Iterator[Relied]:
        """The steps that touch a circuit with a proof older than at each such step before, in the order of the file."""
        most = 0.0
        for relied in self._walked(_Where(procedure, circuit, None)).relied:
            if relied.age.seconds > most:
                most = relied.age.seconds
                yield relied

    def _walked(self, where: _Where) -> _Aged:
        if where not in self._found:
            self._found[where] = _Aged({}, ())  # whoever comes back here performs itself
            self._found[where] = self._walk(where)
        return self._found[where]

    def _walk(self, where: _Where) -> _Aged:
        steps = self.plans[where.procedure].graph.steps
        if not steps:
            return _Aged({} if where.entry is None else {None: where.entry}, ())
        outline = self._outlined(where.procedure)
        before: dict[int, Age | None] = {0: where.entry}
        exits: dict[str | None, Age] = {}
        for done in range(_ROUNDS + 1):
            self._forward(where, outline, before, exits)
            again = [way for way in outline.loops if done < (steps[_index(way)].repeat or 1)]
            if not [way for way in again if self._back(where, way, before)]:
                break
        return _Aged(exits, tuple(self._relied(where, before)))

    def _outlined(self, procedure: str) -> _Outline:
        found = self._outlines.get(procedure)
        if found is None:
            found = self._outlines[procedure] = _outline(self.plans[procedure].graph, self.plans)
        return found

    def _forward(
        self, where: _Where, outline: _Outline, before: dict[int, Age | None], exits: dict[str | None, Age]
    ) -> None:
        for way in outline.ways:
            age = before.get(way.source)
            if way.effects or way.callee is not None or age is not None:
                age = self._left(where, way, age)
            if isinstance(way.target, int):
                before[way.target] = _older(before.get(way.target), age)
            elif age is not None and isinstance(way.target, End):
                known = exits.get(way.target.conclusion)
                exits[way.target.conclusion] = age if known is None else max(known, age)

    def _back(self, where: _Where, way: _Out, before: dict[int, Age | None]) -> bool:
        """Goes a loop once more; whether that has made a proof older."""
        target = _index(way)
        known = before.get(target)
        before[target] = _older(known, self._left(where, way, before.get(way.source)))
        return before[target] != known

    def _left(self, where: _Where, way: _Out, age: Age | None) -> Age | None:
        """The age behind a way out."""
        if way.callee is not None:
            return self._walked(_Where(way.callee, where.circuit, age)).exits.get(way.returned)
        if age is not None and way.seconds:
            age = age._replace(seconds=age.seconds + way.seconds)
        for effect in way.effects:
            known = self.rig.known(where.circuit)
            if isinstance(effect, events.ProvedDead):
                if effect.circuit != where.circuit:
                    continue
                if age is None or not effect.pairs or _pairs_of(effect) >= known.pairs.keys():
                    plan = self.plans[where.procedure]
                    step = plan.graph.steps[way.source]
                    age = Age(0.0, plan.procedure.file, (*step.at, step.action.key), step.number)
            elif age is not None and _ends(effect, known, self.rig):
                age = None
        return age

    def _relied(self, where: _Where, before: Mapping[int, Age | None]) -> Iterator[Relied]:
        plan = self.plans[where.procedure]
        demands = plan.demands.get(where.circuit, {})
        for index, step in enumerate(plan.graph.steps):
            age = before.get(index)
            if age is not None:
                touches = (one for one in demands.get(index, ()) if one.kind == "touch" and not one.opened)
                yield from (Relied(index, one, age) for one in touches)
            if isinstance(step.action, actions.Perform) and step.action.procedure in self.plans:
                for inner in self._walked(_Where(step.action.procedure, where.circuit, age)).relied:
                    yield Relied(index, inner.demand, inner.age, inner)


def _index(way: _Out) -> int:
    assert isinstance(way.target, int)
    return way.target


def _older(one: Age | None, other: Age | None) -> Age | None:
    if one is None or other is None:
        return one or other
    return max(one, other)


def _time_of(step: Step) -> float:
    """The longer of what a step says that it takes, and of its wait."""
    stated = 0.0 if step.time is None else float(step.time.si)
    waited = step.action.time if isinstance(step.action, actions.Wait) else None
    return stated if waited is None else max(stated, float(waited.si))


def _pairs_of(effect: events.ProvedDead) -> set[object]:
    return {frozenset(map(str, pair)) for pair in effect.pairs}


def _ends(effect: events.Effect, known: Known, rig: Rig) -> bool:
    """Whether an effect ends a proof, so that its age no longer matters: another is asked for anyway."""
    if isinstance(effect, events.ModeSet):
        return effect.mode not in QUIET
    if isinstance(effect, events.Closed | events.Released):
        return bool(rig.point(effect.point) & known.points)
    if isinstance(effect, events.Energised):
        return effect.circuit == known.id
    return isinstance(effect, events.Interrupted)


#: The effects that begin a proof or end it.
_MATTERS = (
    events.ProvedDead, events.ModeSet, events.Closed, events.Released, events.Energised, events.Interrupted,
)  # fmt: skip


def _outline(graph: Graph, plans: Mapping[str, Plan]) -> _Outline:
    order, back = _order(graph)
    seconds = [_time_of(step) for step in graph.steps]
    ways = [
        _way(edge, graph.steps[index], seconds[index], back, plans) for index in order for edge in graph.leaving[index]
    ]
    return _Outline(tuple(way for way in ways if not way.leads_back), tuple(way for way in ways if way.leads_back))


def _way(edge: Edge, step: Step, seconds: float, back: set[tuple[int, str]], plans: Mapping[str, Plan]) -> _Out:
    is_done = edge.exit != "exhausted"
    performed = step.action.procedure if isinstance(step.action, actions.Perform) and is_done else None
    return _Out(
        source=edge.source,
        target=edge.target,
        seconds=seconds if is_done else 0.0,
        effects=tuple(effect for effect in edge.effects if isinstance(effect, _MATTERS)),
        callee=performed if performed in plans else None,
        returned=None if edge.exit == "end" else edge.exit,
        leads_back=(edge.source, edge.exit) in back,
    )


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
