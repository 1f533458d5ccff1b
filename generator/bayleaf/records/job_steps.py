"""The steps of a job as its page and its record have them: those that are performed behind the step that performs them.

Where an exit leads is worked out through all that is performed: to a step by its path, or to an end of the job.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from itertools import product

from ..graph.build import ways_out
from ..model import actions
from ..model.facts import facts_of
from ..model.procedure import END, NEXT, RESERVED_TARGETS, STOP, Procedure, Step

#: As deep as a page unfolds what is performed.
DEEPEST = 4


@dataclass(frozen=True, slots=True)
class Ended:
    """An end of the job. `conclusion` is one of its own procedure; a stop within what is performed has none."""

    conclusion: str | None
    stops: bool
    finding: str | None = None


#: What an exit leads to: a step by its path, or an end.
Target = str | Ended


@dataclass(frozen=True, slots=True)
class JobStep:
    """A step in its place, with its path, the number on the page and all ways to write the path.

    `first` is the path of the first step of what it performs; `behind` is what follows it in the file.
    """

    path: str
    number: str
    names: tuple[str, ...]
    procedure: Procedure
    step: Step
    exits: tuple[tuple[str, Target], ...]
    behind: Target
    first: str | None

    def target(self, exit: str) -> Target | None:
        """Where an exit leads; None where the step has no such exit."""
        return next((target for name, target in self.exits if name == exit), None)


def job_steps(procedure: Procedure, known: Mapping[str, Procedure]) -> tuple[JobStep, ...]:
    """Every step of a job in the order of its page."""
    return tuple(_steps(procedure, known, _Frame(("",), "", Ended(None, False), {}, (procedure.id,))))


def can_be_followed(steps: tuple[JobStep, ...], known: Mapping[str, Procedure]) -> bool:
    """Whether every exit leads somewhere, every step on to an end, and nothing performs itself.

    What is wrong with the flow is told at the procedure; a record of it is not held against what may have been meant.
    """
    for one in steps:
        performs = isinstance(one.step.action, actions.Perform)
        if performs and one.first is None and one.step.action.procedure in known:  # type: ignore[union-attr]
            return False
        ids = {step.id for step in one.procedure.steps} | one.procedure.conclusions.keys() | RESERVED_TARGETS
        if any(target not in ids for _, target, _ in ways_out(one.step)):
            return False
    ending: set[str] = set()
    left = len(steps) + 1
    while len(steps) - len(ending) < left:
        left = len(steps) - len(ending)
        for one in reversed(steps):
            ways = [one.first] if one.first is not None else [target for _, target in one.exits]
            if any(isinstance(way, Ended) or way in ending for way in ways):
                ending.add(one.path)
    return left == 0


def by_name(steps: tuple[JobStep, ...]) -> dict[str, JobStep]:
    """The steps by all that a record may call them: ids or numbers along the path, or the number on the page."""
    found = {step.path: step for step in steps}
    for step in steps:
        for name in step.names:
            found.setdefault(name, step)
    for step in steps:
        found.setdefault(step.number, step)
    return found


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where a procedure stands in the job, and what follows it; `before` are the ways to write the path to it."""

    before: tuple[str, ...]
    number: str
    end: Target
    returns: Mapping[str, Target]
    inside: tuple[str, ...]


def _steps(procedure: Procedure, known: Mapping[str, Procedure], frame: _Frame) -> Iterator[JobStep]:
    for index, step in enumerate(procedure.steps):
        callee = _callee(step, known, frame)
        comes_back = facts_of(callee).comes_back if callee is not None else ("end",)
        to = partial(_target, procedure, frame, index)
        exits = tuple((exit, to(target)) for exit, target, _ in ways_out(step, comes_back))
        own = tuple(dict.fromkeys((step.id or step.number, step.number)))
        names = tuple(before + name for before, name in product(frame.before, own))
        first = None if callee is None else f"{names[0]}/{callee.steps[0].id or callee.steps[0].number}"
        number = frame.number + step.number
        yield JobStep(names[0], number, names, procedure, step, exits, to(NEXT), first)
        if callee is not None:
            leads = dict(exits)
            inner = _Frame(
                tuple(f"{name}/" for name in names),
                f"{number}.",
                leads.get("end", Ended(None, True)),
                leads,
                (*frame.inside, callee.id),
            )
            yield from _steps(callee, known, inner)


def _callee(step: Step, known: Mapping[str, Procedure], frame: _Frame) -> Procedure | None:
    if not isinstance(step.action, actions.Perform):
        return None
    callee = known.get(step.action.procedure)
    if callee is None or not callee.steps or callee.id in frame.inside or len(frame.inside) > DEEPEST:
        return None
    return callee


def _target(procedure: Procedure, frame: _Frame, index: int, written: str) -> Target:
    """Where a target leads from a step, out of what is performed where it ends there."""
    before = frame.before[0]
    if written == NEXT and index + 1 < len(procedure.steps):
        following = procedure.steps[index + 1]
        return before + (following.id or following.number)
    if written in (NEXT, END):
        return frame.end
    if written == STOP:
        return Ended(None, True)
    if any(step.id == written for step in procedure.steps):
        return before + written
    found = procedure.conclusions.get(written)
    if found is None or found.stops:
        own = written if found is not None and not before else None
        return Ended(own, True, None if found is None else found.finding)
    return frame.returns.get(written, frame.end) if before else Ended(written, False, found.finding)
