"""The steps of a procedure as they are really done: with those of the procedures that it performs in their place."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from ..graph.build import ways_out
from ..model import actions
from ..model.actions import Action
from ..model.procedure import Conclusion, Procedure, Step
from .states import StateBook, StepStates, Visit
from .templating import link

#: As deep as a page unfolds what is performed.
DEEPEST = 4


@dataclass(frozen=True, slots=True)
class Unfolded:
    """A step in its place: number and anchor as the page of the job has them, its states where they are proved."""

    owner: Procedure
    step: Step
    number: str
    anchor: str
    states: StepStates | None

    @property
    def action(self) -> Action:
        """What the step does."""
        return self.step.action

    def target(self, exit: str) -> str | None:
        """Where an exit leads, as written; nothing where there is no such exit."""
        return next((target for name, target, _ in ways_out(self.step) if name == exit), None)

    def conclusion(self, exit: str) -> Conclusion | None:
        """The conclusion that an exit leads to."""
        return self.owner.conclusions.get(self.target(exit) or "")


def unfolded(procedure: Procedure, known: Mapping[str, Procedure], book: StateBook | None) -> tuple[Unfolded, ...]:
    """Every step to which a path leads, in the order of the page; every step at all where no states are proved."""
    visit = None if book is None else book.visit(procedure.id)
    return tuple(_steps(procedure, known, book, visit, "", "step", ()))


def _steps(
    procedure: Procedure,
    known: Mapping[str, Procedure],
    book: StateBook | None,
    visit: Visit | None,
    prefix: str,
    anchor: str,
    above: tuple[str, ...],
) -> Iterator[Unfolded]:
    table = None if book is None or visit is None else book.table(visit)
    inside = (*above, procedure.id)
    for step in procedure.steps:
        states = None if table is None else table.steps.get(step.number)
        if table is not None and states is None and table.steps:
            continue
        number, place = prefix + step.number, anchor + step.anchor.removeprefix("step")
        yield Unfolded(procedure, step, number, place, states)
        callee = known.get(step.action.procedure) if isinstance(step.action, actions.Perform) else None
        if callee is not None and callee.id not in inside and len(above) < DEEPEST:
            inner = None if states is None else states.inner
            yield from _steps(callee, known, book, inner, f"{number}.", place, inside)


def step_links(steps: Iterable[Unfolded], page: str, whole: Mapping[str, int]) -> Markup:
    """Links to steps, three or more in a row as "4 to 9"; `whole` has the place of every step by its number."""
    runs: list[list[Unfolded]] = []
    for one in steps:
        if runs and whole[one.number] == whole[runs[-1][-1].number] + 1:
            runs[-1].append(one)
        else:
            runs.append([one])
    parts: list[Markup] = []
    for run in runs:
        if len(run) > 2:
            parts.append(Markup("{} to {}").format(step_link(run[0], page), step_link(run[-1], page)))
        else:
            parts += [step_link(one, page) for one in run]
    return Markup(", ").join(parts)


def step_link(one: Unfolded, page: str) -> Markup:
    """A link to a step on the page of the job."""
    return link(f"{page}#{one.anchor}", one.number)
