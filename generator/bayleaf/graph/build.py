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

    A step that is only for other variants is passed over, also by what leads to it. A target that does not exist
    is left out here; it is reported by its own rule.
    """
    steps, places = _steps(procedure, variant)
    edges: list[Edge] = []
    is_whole = True
    for index, step in enumerate(steps):
        callee = facts.get(step.action.procedure) if isinstance(step.action, actions.Perform) else None
        for exit, written, at in ways_out(step, callee.returns if callee is not None else ()):
            target = _target(written, index, len(steps), places, procedure)
            if target is None:
                is_whole = False
                continue
            effects = () if exit == "exhausted" else effects_of(step, exit)
            edges.append(Edge(index, exit, target, effects, at))
            is_whole = is_whole and (at is not None or not must_be_written(step, exit))
    return Graph(steps, tuple(edges), is_whole)


def _steps(procedure: Procedure, variant: str | None) -> tuple[tuple[Step, ...], dict[str, int]]:
    """The steps that a variant has, and where each id leads: that of a step passed over, to the one behind it."""
    steps: list[Step] = []
    places: dict[str, int] = {}
    for step in procedure.steps:
        if step.id is not None:
            places[step.id] = len(steps)
        if variant is None or not step.only_for or variant in step.only_for:
            steps.append(step)
    return tuple(steps), places


def must_be_written(step: Step, exit: str) -> bool:
    """Whether what follows an exit has to be said: each answer, and each conclusion that a callee comes back by."""
    if isinstance(step.action, actions.Ask):
        return exit != "exhausted"
    return isinstance(step.action, actions.Perform) and exit not in ("end", "exhausted")


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


def _target(written: str, index: int, count: int, places: Mapping[str, int], procedure: Procedure) -> Target | None:
    if written == NEXT:
        return index + 1 if index + 1 < count else End(None)
    if written == STOP:
        return Stop(None)
    if written == END:
        return End(None)
    if written in places:
        return places[written] if places[written] < count else End(None)
    conclusion = procedure.conclusions.get(written)
    if conclusion is None:
        return None
    return Stop(conclusion.id) if conclusion.stops else End(conclusion.id)
