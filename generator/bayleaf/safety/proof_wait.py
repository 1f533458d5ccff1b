"""Whether a proof is waited for long enough to succeed: its limit may lie below what the required wait reaches.

Nobody is hurt: the proof fails, and says so. Then it is waited again, or a fault is looked for that is none.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from math import ceil, inf

from ..model import actions
from ..model.actions import FitTemporary
from ..model.vehicle import Circuit, Vehicle
from ..quantities.quantity import Quantity
from .demands import Demand
from .passage import Where
from .plan import Plan
from .rig import Known, Rig
from .survey import Survey, Surveyor
from .wait import required_wait, time_to, voltage_after
from .walk import Walker


class PatientRig(Rig):
    """The vehicle, with one circuit that is waited for longer than is asked."""

    def __init__(self, vehicle: Vehicle, temporaries: Iterable[FitTemporary], circuit: str, seconds: int) -> None:
        super().__init__(vehicle, temporaries)
        self._patient = circuit, seconds
        self._longer: dict[bool, Known] = {}

    def known(self, name: str, stuck: bool = False) -> Known:
        """A circuit as the walk sees it."""
        if name != self._patient[0]:
            return super().known(name, stuck)
        if stuck not in self._longer:
            self._longer[stuck] = replace(super().known(name, stuck), enough=float(self._patient[1]))
        return self._longer[stuck]


class Waits:
    """Finds the proofs of a vehicle that come too early to succeed at worst."""

    def __init__(self, surveyor: Surveyor) -> None:
        self._surveyor = surveyor
        self._walkers: dict[tuple[str | None, str, int], Walker] = {}
        self._longer: dict[tuple[str, Quantity | None], int | None] = {}

    def too_early(self, survey: Survey) -> Iterator[tuple[int, Demand]]:
        """The proofs, by the index of their step, before which some path has not the time that their limit asks for."""
        plan = survey.walker.plans[survey.procedure.id]
        for index, step in enumerate(plan.graph.steps):
            proof = step.action
            circuit = self._surveyor.vehicle.circuits.get(getattr(proof, "circuit", ""))
            if not isinstance(proof, actions.ProveDead) or circuit is None or step.broken:
                continue
            key = circuit.id, proof.limit.high if proof.limit is not None else None
            if key not in self._longer:
                self._longer[key] = longer_wait(circuit, key[1])
            seconds = self._longer[key]
            if seconds is not None and self._is_early(survey, circuit.id, index, seconds):
                yield index, Demand("prove", circuit.id, "access", (*step.at, proof.key), circuit.id)

    def _is_early(self, survey: Survey, circuit: str, index: int, seconds: int) -> bool:
        """A shorter time than the required one is a danger, and told by itself."""
        walker = self._walker(survey, circuit, seconds)
        stuck = walker.plans[survey.procedure.id].announces_stuck
        entries = self._surveyor.entries(survey.procedure, walker.rig.known(circuit, stuck))
        enough = self._surveyor.rig.known(circuit, stuck).enough
        for entry in entries:
            passage = walker.walk(Where(survey.procedure.id, circuit, stuck, entry))
            # A cover that comes off before is told first by this walk, and then the time is taken as waited.
            states = (*passage.before[index], *(hit.state for hit in passage.hits))
            if any(enough <= state.waited < seconds for state in states):
                return True
        return False

    def _walker(self, survey: Survey, circuit: str, seconds: int) -> Walker:
        key = survey.variant, circuit, seconds
        if key not in self._walkers:
            known = self._surveyor.rig
            rig = PatientRig(known.vehicle, known.temporaries, circuit, seconds)
            self._walkers[key] = Walker(rig, _with(rig, survey.walker.plans))
        return self._walkers[key]


def _with(rig: Rig, plans: Mapping[str, Plan]) -> dict[str, Plan]:
    return {name: replace(plan, rig=rig) for name, plan in plans.items()}


def longer_wait(circuit: Circuit, limit: Quantity | None) -> int | None:
    """Seconds until a circuit is below the limit of a proof at worst; None where the required wait is enough."""
    required = required_wait(circuit).seconds
    if not circuit.is_class_b or required is None or limit is None:
        return None
    left = voltage_after(circuit, required)
    if left is None or left <= limit.si:
        return None
    seconds = time_to(circuit, limit.si)
    return None if seconds is None or seconds == inf else ceil(seconds)
