"""The flow of a procedure as a drawing at the head of its page, and in parts on paper, where it branches."""

from typing import NamedTuple

from markupsafe import Markup

from ..graph.graph import End, Graph, Stop, Target
from ..manual import Manual
from ..model import actions
from ..model.procedure import Procedure, Step
from .drawings.flow import FlowStep, Way, flow, flow_words
from .drawings.flow_parts import FlowPart, flow_parts
from .drawings.shapes import Drawing, svg, svg_between
from .naming import lower
from .step_parts import StepView, exit_words


class PaperPart(NamedTuple):
    """A part of the flow on paper: which steps it holds, and what is drawn of them."""

    words: str
    drawing: Markup


class FlowView(NamedTuple):
    """The flow as it is drawn on the screen, and its parts on paper."""

    screen: Markup
    paper: tuple[PaperPart, ...]


def flow_drawing(procedure: Procedure, manual: Manual, views: tuple[StepView, ...]) -> FlowView | None:
    """The drawing; nothing where every step leads to the next, to the end or to a plain stop."""
    steps = flow_of(procedure, manual, views)
    if not any(way.url for step in steps for way in step.ways):
        return None
    drawing = flow(steps)
    screen = svg(drawing, "flow", f"Flow of {procedure.title}", flow_words(steps))
    parts = flow_parts(drawing)
    return FlowView(
        screen, tuple(_paper(part, number, len(parts), drawing, steps) for number, part in enumerate(parts, 1))
    )


def _paper(part: FlowPart, number: int, count: int, drawing: Drawing, steps: tuple[FlowStep, ...]) -> PaperPart:
    first, last = steps[part.first].number, steps[part.last].number
    words = f"Step {first}" if first == last else f"Steps {first} to {last}"
    html = svg_between(drawing, part.top, part.height)
    return PaperPart(words if count == 1 else f"{words} (part {number} of {count})", html)


def drawn_flow(procedure: Procedure, manual: Manual, views: tuple[StepView, ...], page: str, key: str) -> Markup:
    """The same on another page, whether it branches or not: `page` leads to the procedure's own."""
    steps = flow_of(procedure, manual, views, page)
    return svg(flow(steps), key, f"Flow of {procedure.title}", flow_words(steps))


def flow_of(procedure: Procedure, manual: Manual, views: tuple[StepView, ...], page: str = "") -> tuple[FlowStep, ...]:
    """Every step with where it leads, exits to one and the same target together; `page` stands before each anchor."""
    graph = manual.graph(procedure)
    return tuple(
        _flow_step(index, step, view, graph, procedure, manual, page)
        for index, (step, view) in enumerate(zip(procedure.steps, views, strict=True))
    )


def _flow_step(
    index: int, step: Step, view: StepView, graph: Graph, procedure: Procedure, manual: Manual, page: str
) -> FlowStep:  # fmt: skip
    callee = manual.procedures.get(step.action.procedure) if isinstance(step.action, actions.Perform) else None
    cases: dict[Target, list[str]] = {}
    for edge in graph.leaving[index]:
        cases.setdefault(edge.target, []).append(exit_words(edge.exit, callee))
    following: Target = index + 1 if index + 1 < len(procedure.steps) else End(None)
    goes_on = _together(cases.pop(following)) if following in cases else None
    ways = tuple(_way(_together(found), target, procedure, page) for target, found in cases.items())
    return FlowStep(view.number, view.title, f"{page}#{view.anchor}", ways, "" if goes_on and not ways else goes_on)


def _together(cases: list[str]) -> str:
    """Several exits in one: "Above, not decided"."""
    return ", ".join([cases[0], *(lower(case) for case in cases[1:])])


def _way(case: str, target: Target, procedure: Procedure, page: str) -> Way:
    if isinstance(target, int):
        step = procedure.steps[target]
        return Way(case, target, f"step\u00a0{step.number}", f"{page}#{step.anchor}")
    stops = isinstance(target, Stop)
    end = procedure.conclusions.get(target.conclusion or "")
    if end is None:
        return Way(case, None, "stop" if stops else "end", "", stops)
    return Way(case, None, f"{'stop' if stops else 'end'}: {end.finding}", f"{page}#conclusion-{end.id}", stops)
