"""How old the proofs of a job are, from the times of its entries. The page reckons alike (`job_ages.js`)."""

from collections.abc import Iterable

from ..graph.effects import effects_of
from ..model import actions
from ..model.procedure import Step
from ..model.record import Entry
from ..model.workshop import Workshop
from ..safety.proof_holds import ended_by, growing_old, holds_in, is_too_old, renews
from ..safety.rig import Rig


class ProofAges:
    """The times of the proofs that stand, by circuit. Without a profile nothing grows old here."""

    def __init__(self, rig: Rig | None, workshop: Workshop) -> None:
        self._rig = rig
        self._holds = holds_in(workshop)
        self._aging = {known.id: known for known in growing_old(rig)} if rig is not None else {}
        self._times: dict[str, str] = {}

    def proved(self, action: actions.ProveDead | actions.ProveSafe, entries: Iterable[Entry]) -> None:
        """A proof rests on these entries: it is as old as the oldest of them, and makes no other one older."""
        known = self._aging.get(action.circuit)
        times = [entry.time.replace("T", " ") for entry in entries if entry.time is not None]
        if known is None or not times:
            return
        before = self._times.get(known.id)
        if before is None or renews(action, known):
            self._times[known.id] = max(min(times), before or "")

    def left(self, step: Step, exit: str) -> None:
        """A step was left: proofs end with what makes a circuit live again."""
        if self._rig is not None and self._times:
            for name in ended_by(effects_of(step, exit), self._aging.values(), self._rig):
                self._times.pop(name, None)

    def end(self) -> None:
        """Every proof ends."""
        self._times.clear()

    def end_of(self, circuit: str) -> None:
        """The proof of one circuit ends."""
        self._times.pop(circuit, None)

    def come_to(self, now: str | None) -> dict[str, str]:
        """The circuits whose proof is too old now, with the time of that proof; these proofs end."""
        old = {name: time for name, time in self._times.items() if is_too_old(time, now, self._holds)}
        for name in old:
            del self._times[name]
        return old

    def oldest_too_old(self, circuit: str, entries: Iterable[Entry], now: str | None) -> str | None:
        """The time of the oldest reading of a circuit's proof that is not complete, where it is too old for it."""
        times = [entry.time for entry in entries if entry.time is not None] if circuit in self._aging else []
        return min((time for time in times if is_too_old(time, now, self._holds)), default=None)
