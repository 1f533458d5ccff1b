"""From steps to the graph."""

from collections.abc import Iterator, Mapping

from ..diagnostics.place import Path
from ..model import actions
from ..model.facts import Facts
from ..model.procedure import END, NEXT, STOP, Procedure, Step
from .effects import effects_of
from .exits import default_target, exits_of
from .graph import Edge, End, Graph, Stop, Target


def build_graph(procedure: Procedure, facts: Mapping[str, Facts], variant: str | None = None) -> Graph:
    """The graph of a procedure, for one variant of the vehicle or for all.

    A step that is only for other variants is passed over. A target that does not exist is left out here; it
    is reported by its own rule.
    """
    steps = tuple(
        step for step in procedure.steps
        if variant is None or not step.only_for or variant in step.only_for
    )  # fmt: skip
    places: dict[str, int] = {step.id: index for index, step in enumerate(steps) if step.id is not None}
    edges: list[Edge] = []
    for index, step in enumerate(steps):
        returns: tuple[str, ...] = ()
        if isinstance(step.action, actions.Perform):
            callee = facts.get(step.action.procedure)
            returns = callee.returns if callee is not None else ()
        for exit, written, at in ways_out(step, returns):
            target = _target(written, index, len(steps), places, procedure)
            if target is not None:
                effects = () if exit == "exhausted" else effects_of(step, exit)
                edges.append(Edge(index, exit, target, effects, at))
    return Graph(steps, tuple(edges))


def ways_out(step: Step, returns: tuple[str, ...] = ()) -> Iterator[tuple[str, str, Path | None]]:
    """Every exit of a step with its target as written, and where that is written (None: the default).

    Exits that the author wrote but the step does not have are given too, so that what they lead to counts
    as reached; `exit-not-possible` reports them.
    """
    if isinstance(step.action, actions.Ask):
        for answer in step.action.answers:
            yield answer.text, answer.then or NEXT, (*answer.at, "then") if answer.then else None
    else:
        written = dict(step.outcomes)
        for exit in dict.fromkeys((*exits_of(step, returns), *written)):
            if exit in written:
                yield exit, written[exit], (*step.at, "outcomes", exit)
            else:
                jumps = step.then is not None and default_target(step, exit) == step.then
                yield exit, default_target(step, exit), (*step.at, "then") if jumps else None
    if step.repeat is not None:
        at = (*step.at, "exhausted") if step.exhausted else None
        yield "exhausted", step.exhausted or STOP, at


def _target(
    written: str, index: int, count: int, places: Mapping[str, int], procedure: Procedure
) -> Target | None:
    if written == NEXT:
        return index + 1 if index + 1 < count else End(None)
    if written == STOP:
        return Stop(None)
    if written == END:
        return End(None)
    if written in places:
        return places[written]
    conclusion = procedure.conclusions.get(written)
    if conclusion is None:
        return None
    return Stop(conclusion.id) if conclusion.stops else End(conclusion.id)
