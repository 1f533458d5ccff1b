"""What only follows from an isolation that is not performed: with it put in, it would not be found.

One mistake is one finding. An isolation brings more with it than the circuit that was about to be touched: the mode, the
12 V supply, covers. Where it is missing, everything that relies on these is wrong too, and says so in other words.
"""

from collections.abc import Callable
from dataclasses import replace

from ..graph.build import build_graph
from ..model.actions import Perform
from ..model.procedure import Procedure, Step
from ..safety.breaches import Breach, Court
from ..safety.survey import Surveyor
from .case import Case
from .safety._tell import isolation_asked


def without_consequences(
    name: str, breaches: tuple[Breach, ...], surveyor: Surveyor, case: Case, note: Callable[[str], None]
) -> tuple[Breach, ...]:
    """The breaches of a procedure, without those that are gone once a missing isolation is performed.

    The one that asks for it stays. `note` is told each file beyond those that the procedure performs on which that rests.
    """
    asked = ((one, isolation_asked(one, case)) for one in breaches if one.spots and len(breaches) > 1)
    wanted: dict[tuple[str, str], Breach] = {}
    for one, isolation in asked:
        if isolation is not None and isolation in surveyor.procedures:
            wanted.setdefault((one.spots[0].step.number, isolation), one)
    trial = _Trial(name, surveyor, case, note)
    for (number, isolation), breach in wanted.items():
        left = trial.left(number, isolation)
        if left is not None and breach.identity not in {one.identity for one in left}:
            still = set(map(_about, left))
            return tuple(one for one in breaches if one is breach or _about(one) in still)
    for (_, isolation), breach in [*wanted.items()][:1]:
        return _from_further_back(breach, isolation, breaches, trial)
    return breaches


def _from_further_back(
    breach: Breach, isolation: str, breaches: tuple[Breach, ...], trial: "_Trial"
) -> tuple[Breach, ...]:
    """The same where the isolation was missing before a step at which the way parts: several steps miss it then.

    Put in there it has to make nothing wrong, and the one that is told says before which step it belongs.
    """
    ways_part = [turn.step.number for turn in reversed(breach.turns) if turn.exit is not None]
    for number in ways_part[:_FURTHEST]:
        left = trial.left(number, isolation)
        if left is not None and {one.identity for one in left} <= {one.identity for one in breaches}:
            still = set(map(_about, left))
            if _about(breach) not in still:
                told = (breach._replace(mended_before=number) if one is breach else one for one in breaches)
                return tuple(one for one in told if one.mended_before is not None or _about(one) in still)
    return breaches


#: So many steps back where the way parts are tried.
_FURTHEST = 3


class _Trial:
    """One procedure with an isolation put in by way of trial."""

    def __init__(self, name: str, surveyor: Surveyor, case: Case, note: Callable[[str], None]) -> None:
        self._procedure, self._surveyor, self._case, self._note = surveyor.procedures[name], surveyor, case, note

    def left(self, number: str, isolation: str) -> tuple[Breach, ...] | None:
        """What is still wrong with the isolation performed before the step of this number; None without such a step."""
        steps = self._procedure.steps
        at = next((at for at, step in enumerate(steps) if step.number == number), None)
        if at is None:
            return None
        for one in (isolation, *self._surveyor.called(isolation)):
            self._note(self._surveyor.procedures[one].file)
        mended = _surveyor(self._surveyor, _with_performed(self._procedure, at, isolation), self._case)
        return Court(mended, self._case.proof_holds).breaches(self._procedure.id)


def _about(breach: Breach) -> tuple[object, object]:
    """What is wrong with what, at whatever step: a cover that is left off is so whoever took it off."""
    kind, _, subject, _ = breach.identity
    return kind, subject


def _with_performed(procedure: Procedure, at: int, isolation: str) -> Procedure:
    """The procedure with one step more before that at this place; it has no number of its own."""
    more = Step(at=procedure.steps[at].at, number="", id=None, action=Perform(isolation))
    return replace(procedure, steps=(*procedure.steps[:at], more, *procedure.steps[at:]))


def _surveyor(of: Surveyor, changed: Procedure, case: Case) -> Surveyor:
    procedures = {**of.procedures, changed.id: changed}
    return Surveyor(
        of.vehicle, procedures, lambda one: build_graph(one, case.facts) if one is changed else of.graph(one.id)
    )
