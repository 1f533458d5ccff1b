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
    procedure = surveyor.procedures[name]
    asked = ((one, isolation_asked(one, case)) for one in breaches if one.spots and len(breaches) > 1)
    wanted = {
        (one.spots[0].step.number, isolation): one for one, isolation in reversed([*asked]) if isolation is not None
    }
    for (number, isolation), breach in reversed(wanted.items()):
        at = next((at for at, step in enumerate(procedure.steps) if step.number == number), None)
        if at is None or isolation not in surveyor.procedures:
            continue
        for one in (isolation, *surveyor.called(isolation)):
            note(surveyor.procedures[one].file)
        mended = _surveyor(surveyor, _with_performed(procedure, at, isolation), case)
        left = Court(mended, case.proof_holds).breaches(name)
        if breach.identity not in {one.identity for one in left}:
            still = set(map(_about, left))
            return tuple(one for one in breaches if one is breach or _about(one) in still)
    return breaches


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
