"""A job record as the steps that were done, in the order in which they were done: one visit after the other.

What was done only because somebody had been away is no part of the work: breaks, and proofs that were repeated since
nothing counted as proved any more. What is performed is one visit, whichever of its steps were entered.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from ..model import actions
from ..records.evaluate import Evaluation
from ..records.job_steps import JobStep
from ..records.passing import GOOD
from ..records.way import Followed

_OUTSIDE = ("above", "below", "not_dead")


@dataclass(frozen=True, slots=True)
class Visit:
    """A step of the job's own procedure with its entries; none where it was passed over without one.

    `step` is None where the procedure has no such step any more: `name` is what the record calls it. `exit` is the way
    out that was taken, None where it cannot be told; `answer` the answer.
    """

    name: str
    step: JobStep | None
    entries: tuple[Followed, ...] = ()
    exit: str | None = None
    answer: str | None = None


def visits_of(evaluation: Evaluation) -> tuple[Visit, ...]:
    """What was done, with what has no entry put in its place."""
    done = [visit for visit in _grouped(evaluation) if _is_work(visit)]
    kept: list[Visit] = []
    for visit in done:
        again = any(visit.name == before.name for before in kept)
        if not (again and _is_proved_anew(visit)):
            kept.append(visit)
    return tuple(_with_missing(kept, evaluation))


def _grouped(evaluation: Evaluation) -> Iterator[Visit]:
    names = evaluation.around.names
    name, entries = "", list[Followed]()
    for one in evaluation.way.entries:
        found = names.get("/".join(one.entry.step))
        own = (found.path if found is not None else "/".join(one.entry.step)).split("/")[0]
        if entries and (own != name or _begins_anew(entries, one)):
            yield _visit(name, entries, evaluation)
            entries = []
        name = own
        entries.append(one)
    if entries:
        yield _visit(name, entries, evaluation)


def _begins_anew(entries: list[Followed], one: Followed) -> bool:
    """Whether a step that was done already is done once more: two ticks or answers of one step are two visits."""
    last, now = entries[-1].entry, one.entry
    return last.step == now.step and (
        (last.done is not None and now.done is not None) or (last.answer is not None and now.answer is not None)
    )


def _visit(name: str, entries: list[Followed], evaluation: Evaluation) -> Visit:
    step = evaluation.around.names.get(name)
    answer = next((one.entry.answer for one in reversed(entries) if one.entry.answer is not None), None)
    performs = step is not None and isinstance(step.step.action, actions.Perform)
    return Visit(name, step, tuple(entries), None if performs else _exit(entries), None if performs else answer)


def _exit(entries: list[Followed]) -> str | None:
    """The exit that was chosen; else that of the readings: the first outside, then one that was not decided."""
    chosen = next((one.entry.exit for one in reversed(entries) if one.entry.exit is not None), None)
    if chosen is not None:
        return chosen
    exits = [one.weighed.exit(shown=True) for one in entries if one.weighed is not None]
    outside = next((exit for exit in exits if exit in _OUTSIDE), None)
    if outside is not None:
        return outside
    return "not_decided" if "not_decided" in exits else next((exit for exit in exits if exit in GOOD), None)


def _is_work(visit: Visit) -> bool:
    """Not what was only broken off at, and not what is said not to have been done."""
    if visit.step is not None and isinstance(visit.step.step.action, actions.Pause):
        return True
    return any(one.entry.paused is None and one.entry.done is not False for one in visit.entries)


def _is_proved_anew(visit: Visit) -> bool:
    action = visit.step.step.action if visit.step is not None else None
    return isinstance(action, actions.ProveDead) and any(action.circuit in one.lost for one in visit.entries)


def _with_missing(done: list[Visit], evaluation: Evaluation) -> Iterator[Visit]:
    """Steps that were passed over without an entry, before the first later step that follows an earlier one."""
    order = {step.path: index for index, step in enumerate(evaluation.around.steps)}
    missing = [step for step, what in evaluation.way.missing if what == "no entry" and "/" not in step.path]
    before = -1
    for visit in done:
        here = order.get(visit.name, before)
        for step in [one for one in missing if before < order[one.path] < here]:
            missing.remove(step)
            yield Visit(step.path, step)
        yield visit
        before = here
    yield from (Visit(step.path, step) for step in missing if order[step.path] > before)
