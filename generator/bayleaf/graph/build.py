"""From steps to the graph."""

from collections.abc import Iterator, Mapping
from itertools import accumulate, compress

from ..diagnostics.place import Path
from ..model import actions
from ..model.facts import Facts
from ..model.procedure import END, NEXT, STOP, Procedure, Step
from .effects import effects_of
from .exits import DECIDES, GOES_ON, default_target, exits_of
from .graph import Edge, End, Graph, Stop, Target

_PLAIN_END, _PLAIN_STOP = End(None), Stop(None)
#: By what a procedure comes back of which nothing is known.
_COMES_BACK = ("end",)


def build_graph(procedure: Procedure, facts: Mapping[str, Facts]) -> Graph:
    """The graph of a procedure, for all variants of the vehicle at once.

    A target that does not exist is left out here; it is reported by its own rule.
    """
    steps = procedure.steps
    places: dict[str, int] = {step.id: index for index, step in enumerate(steps) if step.id is not None}
    edges: list[Edge] = []
    is_whole, last = True, len(steps) - 1
    for index, step in enumerate(steps):
        if step.action.__class__ not in DECIDES and step.then is None and step.repeat is None and not step.outcomes:
            target = index + 1 if index < last else _PLAIN_END
            edges.append(Edge(index, NEXT, target, effects_of(step, NEXT), None))
            continue
        callee = facts.get(step.action.procedure) if isinstance(step.action, actions.Perform) else None
        for exit, written, at in ways_out(step, callee.comes_back if callee is not None else _COMES_BACK):
            found = _target(written, index, last, places, procedure)
            if found is None:
                is_whole = False
                continue
            effects = effects_of(step, exit) if exit != "exhausted" else ()
            edges.append(Edge(index, exit, found, effects, at))
            is_whole = is_whole and (at is not None or not must_be_written(step, exit))
    return Graph(steps, tuple(edges), is_whole)


def graph_of_variant(graph: Graph, variant: str) -> Graph:
    """The graph for one variant: a step that is only for others is passed over, also by what leads to it."""
    kept = [not step.only_for or variant in step.only_for for step in graph.steps]
    places = [0, *accumulate(map(int, kept))]  # of a step that is passed over, that of the one behind it
    steps = tuple(compress(graph.steps, kept))
    edges = []
    for edge in graph.edges:
        if kept[edge.source]:
            target = edge.target
            if isinstance(target, int):
                target = places[target] if places[target] < len(steps) else _PLAIN_END
            edges.append(Edge(places[edge.source], edge.exit, target, edge.effects, edge.at))
    return Graph(steps, tuple(edges), graph.is_whole)


def must_be_written(step: Step, exit: str) -> bool:
    """Whether what follows an exit has to be said: each answer, and each conclusion that a callee comes back by."""
    if isinstance(step.action, actions.Ask):
        return exit != "exhausted"
    return isinstance(step.action, actions.Perform) and exit not in ("end", "exhausted")


def ways_out(step: Step, comes_back: tuple[str, ...] = _COMES_BACK) -> Iterator[tuple[str, str, Path | None]]:
    """Every exit of a step with its target as written, and where that is written (None: the default).

    Exits that the author wrote but the step does not have are given too, so that what they lead to counts
    as reached; `exit-not-possible` reports them.
    """
    if step.action.__class__ is actions.Ask:
        for answer in step.action.answers:
            yield answer.text, answer.then or NEXT, (*answer.at, "then") if answer.then else None
    else:
        written = dict(step.outcomes)
        exits = exits_of(step, comes_back)
        for exit in exits if written.keys() <= set(exits) else dict.fromkeys((*exits, *written)):
            if exit in written:
                yield exit, written[exit], (*step.at, "outcomes", exit)
            elif exit in GOES_ON and step.then is not None:
                yield exit, step.then, (*step.at, "then")
            else:
                yield exit, default_target(step, exit), None
    if step.repeat is not None:
        at = (*step.at, "exhausted") if step.exhausted else None
        yield "exhausted", step.exhausted or STOP, at


def _target(written: str, index: int, last: int, places: Mapping[str, int], procedure: Procedure) -> Target | None:
    if written == NEXT:
        return index + 1 if index < last else _PLAIN_END
    if written == STOP:
        return _PLAIN_STOP
    if written == END:
        return _PLAIN_END
    if written in places:
        return places[written]
    conclusion = procedure.conclusions.get(written)
    if conclusion is None:
        return None
    return Stop(conclusion.id) if conclusion.stops else End(conclusion.id)
