"""How long a proof holds, for which circuits that counts, what renews it and what ends it.

One place for the walk, for the page that is worked with and for the record. A proof that has ended is no old proof: the
circuit is live again by the plan or was read as not dead, and another proof is asked for anyway.
"""

from collections.abc import Iterable
from datetime import datetime
from fractions import Fraction

from ..graph import effects as events
from ..model import actions
from ..model.actions import Pair
from ..model.common import QUIET
from ..model.workshop import Workshop
from .rig import Known, Rig

#: Seconds that a proof holds where the workshop says nothing. Source: a decision of this format.
HOLDS = Fraction(60 * 60)

#: The effects that begin a proof or end it.
MATTERS = (
    events.ProvedDead, events.ModeSet, events.Closed, events.Released, events.Energised, events.Interrupted,
    events.FoundNotDead, events.ProofLost,
)  # fmt: skip

_MINUTE = 60


def holds_in(workshop: Workshop | None) -> Fraction:
    """The seconds that a proof holds in a workshop, which may ask for less than the floor, never for more."""
    said = workshop.policy.proof_holds if workshop is not None else None
    return HOLDS if said is None else min(HOLDS, said.si)


def growing_old(rig: Rig) -> tuple[Known, ...]:
    """The circuits whose proofs grow old."""
    every = (rig.known(name) for name in rig.dangerous)
    return tuple(known for known in every if known.category == "class B")


def is_whole(pairs: Iterable[Pair], known: Known) -> bool:
    """Whether a proof at these pairs stands for the whole circuit, so that it makes an older one new; none: all."""
    read = {frozenset(map(str, pair)) for pair in pairs}
    return not read or read >= known.pairs.keys()


def ends(effect: events.Effect, known: Known, rig: Rig) -> bool:
    """Whether an effect ends a proof, so that its age no longer matters: another is asked for anyway."""
    if isinstance(effect, events.ModeSet):
        return effect.mode not in QUIET
    if isinstance(effect, events.Closed | events.Released):
        return bool(rig.point(effect.point) & known.points)
    if isinstance(effect, events.Energised | events.FoundNotDead | events.ProofLost):
        return effect.circuit == known.id
    return isinstance(effect, events.Interrupted)


def ended_by(effects: Iterable[events.Effect], aging: Iterable[Known], rig: Rig) -> tuple[str, ...]:
    """The circuits of whose proofs these effects are the end."""
    mattering = [one for one in effects if isinstance(one, MATTERS) and not isinstance(one, events.ProvedDead)]
    return tuple(known.id for known in aging if any(ends(one, known, rig) for one in mattering)) if mattering else ()


def renews(action: actions.ProveDead | actions.ProveSafe, known: Known) -> bool:
    """Whether a proving step makes an older proof of this circuit new."""
    return not isinstance(action, actions.ProveDead) or is_whole(action.pairs, known)


def is_too_old(proved: str | None, now: str | None, holds: Fraction) -> bool:
    """Whether a proof of one time of a record is too old at another; nothing is said where one of them is not known.

    Records hold whole minutes, so the oldest that the proof may be counts. A proof from the future is of no known age.
    """
    if proved is None or now is None:
        return False
    try:
        since = datetime.fromisoformat(now) - datetime.fromisoformat(proved)
    except ValueError:  # told by a rule of its own: there is no such day
        return False
    return since.total_seconds() < 0 or int(since.total_seconds()) + _MINUTE > holds
