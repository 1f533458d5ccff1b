"""What other files may know of a procedure, and nothing more. Hashable, and plain enough to be stored."""

from dataclasses import dataclass

from ..diagnostics.place import Path
from . import actions
from .procedure import END, NEXT, Procedure, Step


@dataclass(frozen=True, slots=True)
class Facts:
    """`returns` holds the conclusions by which the procedure comes back to whoever performs it.
    `ends_plainly`: it may also come back without one.

    `performed_at` holds for each of `performs` the place of the first step that does it, `step_numbers` the numbers of
    the steps as the page shows them, `qualification` says who may do it.
    """

    file: str
    id: str
    folder: str
    title: str
    kind: str
    system: str | None
    revision: int | None
    trouble_codes: tuple[str, ...]
    conclusions: tuple[str, ...]
    returns: tuple[str, ...]
    performs: tuple[str, ...]
    step_ids: tuple[str, ...]
    expects: tuple[tuple[str, str], ...]
    leaves: tuple[tuple[str, str], ...]
    handles: tuple[str, ...]
    readable: bool
    qualification: str | None = None
    performed_at: tuple[Path, ...] = ()
    step_numbers: tuple[str, ...] = ()
    ends_plainly: bool = True

    @property
    def comes_back(self) -> tuple[str, ...]:
        """By what it comes back: "end" is the plain end. Of what never does it is taken that it would."""
        return ("end", *self.returns) if self.ends_plainly or not self.returns else self.returns


def facts_of(procedure: Procedure) -> Facts:
    """The facts of a procedure. `readable` is False where something in it could not be read."""
    ends = procedure.conclusions.values()
    performs: dict[str, Path] = {}
    for step in procedure.steps:
        if isinstance(step.action, actions.Perform):
            performs.setdefault(step.action.procedure, (*step.at, "perform"))
    return Facts(
        file=procedure.file,
        id=procedure.id,
        folder=procedure.folder,
        title=procedure.title,
        kind=procedure.kind,
        system=procedure.system,
        revision=procedure.revisions[0].number if procedure.revisions else None,
        trouble_codes=procedure.trouble_codes,
        conclusions=tuple(procedure.conclusions),
        returns=tuple(end.id for end in ends if not end.stops),
        performs=tuple(performs),
        step_ids=tuple(step.id for step in procedure.steps if step.id is not None),
        expects=procedure.expects,
        leaves=procedure.leaves,
        handles=procedure.handles,
        readable=procedure.shape_is_whole and not procedure.broken,
        qualification=procedure.qualification,
        performed_at=tuple(performs.values()),
        step_numbers=tuple(step.number for step in procedure.steps),
        ends_plainly=_may_end_plainly(procedure),
    )


def _may_end_plainly(procedure: Procedure) -> bool:
    """Whether a way may lead to the end without a conclusion: one is written, or the last step may be gone on from."""
    if any(END in _targets(step) for step in procedure.steps) or not procedure.steps:
        return True
    last = procedure.steps[-1]
    if last.only_for or NEXT in _targets(last):
        return True
    return last.then is None and not isinstance(last.action, actions.Ask) and not _GOES_ON & dict(last.outcomes).keys()


#: The one exit by which a step goes on, by what it does; of what it performs, others may as well.
_GOES_ON = {"within", "dead", NEXT}


def _targets(step: Step) -> set[str]:
    """Where a step leads by what is written, with what an answer without a target does."""
    answers = step.action.answers if isinstance(step.action, actions.Ask) else ()
    written = (step.then, step.exhausted, *dict(step.outcomes).values())
    return {*filter(None, written), *(answer.then or NEXT for answer in answers)}
