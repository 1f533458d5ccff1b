"""A record followed through its procedure, entry by entry: where the job stands, what is proved, what cannot be.

The path is followed by the verdicts that were shown, since by them the work went on; that a verdict is wrong is one
fault, and does not make the rest of the record wrong. A step without an entry is passed over where it decides nothing,
and is told as missing; so are readings that a step still lacks when the work goes on as those that there are lead.
After a break, and from a barred exit on, nothing counts as proved until it is proved again; nor does what was proved
longer ago than a proof holds, or what rested on a tick that was taken back. A figure that is put right leads where it
now leads. `job_flow.js` of the page goes the same way.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from ..model import actions
from ..model.record import Entry, Record
from ..safety.demands import demands_of
from ..safety.rig import Rig
from .computed import computed_from
from .job_steps import Ended, JobStep, Target
from .passing import GOOD, Passing, decides, proved_by, together
from .proof_ages import ProofAges
from .readings import Weighed, residual_of, wanted_of, weigh
from .surroundings import Surroundings
from .torques import tightened, torques_of
from .way import Followed, Way


def follow(record: Record, around: Surroundings) -> Way:
    """The record followed; where the procedure is another one than was worked by, only its readings are judged."""
    if not around.agrees or not around.steps:
        return Way(tuple(_alone(entry, around) for entry in record.entries), None, (), (), ())
    walk = _Walk(record, around)
    entries = tuple(walk.take(entry) for entry in record.entries)
    ends = [one for one in walk.places if isinstance(one, Ended)]
    following = [walk.passing.by_path[one] for one in walk.places if isinstance(one, str)]
    end = next((one for one in ends if one.conclusion == record.conclusion), ends[0] if ends else None)
    return Way(entries, end, tuple(following), tuple(walk.missing()), tuple(walk.lost))


def _alone(entry: Entry, around: Surroundings) -> Followed:
    step = around.names.get("/".join(entry.step))
    has_reading = entry.reading is not None or entry.no_reading
    return Followed(entry, step, weigh(entry, step, (), around) if has_reading else None)


@dataclass
class _State:
    """What has been done of a step on the present visit; `ever`: on some visit; `turn`: by which entry it was left."""

    visits: int = 0
    ever: bool = False
    complete: bool = False
    exit: str | None = None
    turn: int = 0
    readings: dict[int, tuple[Entry, Weighed]] = field(default_factory=dict)
    torques: list[int] = field(default_factory=list)


class _Walk:
    """The entries one after the other. `places` are where the job may go on; more than one where that is not known."""

    def __init__(self, record: Record, around: Surroundings) -> None:
        self.around = around
        variants = around.vehicle.variants if around.vehicle is not None else {}
        self.passing = Passing(around.steps, record.variant, variants)
        self.states = {step.path: _State() for step in around.steps}
        self.rig = Rig(around.vehicle) if around.vehicle is not None else None
        self.places: list[Target] = []
        self.ages = ProofAges(self.rig, around.workshop)
        self.lost: dict[str, str | None] = {}  # with the time of the proof that has grown old, else None
        self.proved: dict[str, int] = {}  # with the entry that proved it
        self.turn = 0
        self.origin: JobStep | None = None  # the step that led to where the job stands
        self.undone: tuple[JobStep, list[Target], JobStep | None] | None = (
            None  # a tick taken back, and what stood then
        )
        self.skipped: dict[str, JobStep] = {}
        self.done: set[str] = set()
        self.last: JobStep | None = None
        self.off_the_path = False
        self._move([around.steps[0].path])

    def take(self, entry: Entry) -> Followed:
        """One entry."""
        self.turn += 1
        step = self.around.names.get("/".join(entry.step))
        if self.undone is not None and not (entry.done and self.undone[0] is step):
            self.undone = None
        if step is None:  # told by a rule of its own; what follows is not known
            self.off_the_path = True
            return _alone(entry, self.around)
        self._grow_old(entry.time)
        if entry.paused is not None:
            return self._pause(entry, step)
        blocked, follows = self._come_to(step, entry)
        before, self.last = self.last, step
        lost = tuple(self.lost)
        unproved = self._unproved(step) if entry.exit is None and entry.done is not False else ()
        aged = {name: old for name in unproved if (old := self.lost[name])}
        found = self._act(entry, step)
        self.done.add(step.path)
        return Followed(
            entry, step, found.weighed, found.computed, found.torque, follows, before, blocked, found.barred,
            found.not_there, unproved, lost, aged,
        )  # fmt: skip

    def missing(self) -> Iterator[tuple[JobStep, str]]:
        """Steps on the way without an entry, and steps with too few readings or torques."""
        for step in self.around.steps:
            state = self.states[step.path]
            wanted = len(wanted_of(step, self.around))
            torques = len(torques_of(step, None, self.around))
            if step.path in self.skipped and step.path not in self.done and not step.step.only_for:
                yield step, "no entry"
            elif step.path in self.done and wanted and len(state.readings) < wanted and not state.ever:
                yield step, f"{len(state.readings)} of {wanted} readings"
            elif step.path in self.done and torques and len(state.torques) < torques and not state.ever:
                yield step, f"{len(state.torques)} of {torques} torques"

    # ---- where the job stands ---------------------------------------------------------------------------

    def _come_to(self, step: JobStep, entry: Entry) -> tuple[JobStep | None, bool]:
        """The step that blocks the way to an entry, if any, and whether the entry can follow."""
        if step.path in self.places or step is self.last:
            return None, True
        proved = proved_by(step)
        if proved is not None and (step.path in self.done or proved in self.lost):  # proved anew, at any time
            return None, True
        if entry.done is not None and step.path in self.done:
            return None, True
        if self.off_the_path:
            self.off_the_path = False
            self._move([step.path])
            return None, True
        places = [*self.places, *self._so_far()]
        passed = self.passing.over(places, step)
        blocked = None if passed is not None else self.passing.blocking(places, step)
        for one in passed or ():
            self.skipped.setdefault(one.path, one)
        self._move([step.path])
        return blocked, passed is not None

    def _so_far(self) -> Iterator[Target]:
        """Where the readings lead that there are of a step which lacks others."""
        for place in self.places:
            step = self.passing.by_path.get(place) if isinstance(place, str) else None
            readings = {at: one for at, (_, one) in self.states[step.path].readings.items()} if step is not None else {}
            after = residual_of(step, self.around) if step is not None else frozenset()
            exit = together(step, readings, readings, True, after) if step is not None and readings else None
            target = step.target(exit) if step is not None and exit is not None else None
            if target is not None:
                yield target

    def _move(self, targets: Iterable[Target]) -> None:
        """Go on at these targets: past steps for other vehicles, into what is performed, round a loop only so often."""
        self.places = list(dict.fromkeys(self._arrive(target) for target in targets))

    def _arrive(self, target: Target) -> Target:
        for _ in self.around.steps:
            if isinstance(target, Ended):
                return target
            step = self.passing.by_path[target]
            if not self.passing.fits(step):
                target = step.behind
                continue
            old = self.states[target]
            self.states[target] = _State(old.visits + 1, old.ever)
            exhausted = step.target("exhausted")
            if step.step.repeat is not None and old.visits > step.step.repeat and exhausted is not None:
                target = exhausted
            elif step.first is not None:
                for path, state in self.states.items():
                    if path.startswith(f"{step.path}/"):
                        self.states[path] = _State(0, state.ever)
                target = step.first
            else:
                return target
        return target

    # ---- what an entry does -------------------------------------------------------------------------------

    def _pause(self, entry: Entry, step: JobStep) -> Followed:
        self._lose()
        before, blocked, follows = self.last, None, True
        if isinstance(step.step.action, actions.Pause):
            blocked, follows = self._come_to(step, entry)
            self.last = step
            self.done.add(step.path)
            self._finish(step, "next")
        return Followed(entry, step, follows=follows, before=before, blocked=blocked)

    def _lose(self) -> None:
        """Nothing counts as proved any more, and a proof begins anew with its first reading."""
        for circuit in tuple(self.proved):
            self._unprove(circuit)
        self.ages.end()
        self._begin_anew(circuit for _, circuit in self._proofs())

    def _unprove(self, circuit: str) -> None:
        self.proved.pop(circuit, None)
        self.lost[circuit] = None
        self.ages.end_of(circuit)

    def _begin_anew(self, circuits: Iterable[str]) -> None:
        """The proofs of these circuits begin with their first reading."""
        wanted = set(circuits)
        for state, circuit in self._proofs():
            if circuit in wanted:
                state.readings.clear()
                state.complete = False

    def _proofs(self) -> Iterator[tuple[_State, str]]:
        """The states of the proving steps, with the circuit that each proves."""
        for step in self.around.steps:
            circuit = proved_by(step)
            if circuit is not None:
                yield self.states[step.path], circuit

    def _grow_old(self, now: str | None) -> None:
        """What was proved too long before this time does not count any more, nor a reading of a proof begun then."""
        old = self.ages.come_to(now)
        for circuit, proved in old.items():
            self.proved.pop(circuit, None)
            self.lost[circuit] = proved
        for state, circuit in self._proofs():
            begun = [] if state.complete else [entry for entry, _ in state.readings.values()]
            too_old = self.ages.oldest_too_old(circuit, begun, now)
            if too_old is not None and circuit not in self.proved:
                self.lost[circuit] = too_old
            if too_old is not None or circuit in old:
                state.readings.clear()
                state.complete = False

    def _act(self, entry: Entry, step: JobStep) -> Followed:
        found = Followed(entry, step)
        if entry.reading is not None or entry.no_reading:
            found = self._read(entry, step)
        elif entry.torque is not None:
            found = self._tighten(entry, step)
        elif entry.answer is not None:
            found = self._leave(entry, step, entry.answer)
        elif entry.done is False:
            self._undo(step)
        elif entry.done or entry.exit is None:  # with nothing that could be read, what it led to is not known
            self._tick(step)
        if entry.exit is None:
            return found
        barred = self._open(entry, step, entry.exit)
        return Followed(
            entry, step, found.weighed, found.computed, found.torque, barred=barred.barred, not_there=barred.not_there
        )

    def _read(self, entry: Entry, step: JobStep) -> Followed:
        state = self.states[step.path]
        weighed = weigh(entry, step, tuple(state.readings), self.around)
        computed = None
        if isinstance(step.step.action, actions.Compute):
            taken = {path: [one for one, _ in other.readings.values()] for path, other in self.states.items()}
            computed = computed_from(step, taken)
        wanted = wanted_of(step, self.around)
        if not wanted:
            self._tick(step)
        elif weighed.elsewhere:  # told by a rule of its own; what the step had as its result is not known
            self.off_the_path = True
        else:
            state.readings[weighed.place] = entry, weighed
            self._judge(step, {place: one for place, (_, one) in state.readings.items()})
        return Followed(entry, step, weighed, computed)

    def _judge(self, step: JobStep, readings: Mapping[int, Weighed]) -> None:
        """What the readings of a step lead to; where another verdict was shown, either way may have been taken."""
        places, after = range(len(wanted_of(step, self.around))), residual_of(step, self.around)
        both = {together(step, places, readings, shown, after) for shown in (True, False)}
        exits = sorted((exit for exit in both if exit is not None), key=lambda exit: exit not in GOOD)
        if exits:
            self._finish(step, exits[0])
        else:
            self._undecide(step, any(place in after and one.exit(True) != "within" for place, one in readings.items()))
        more = [target for target in map(step.target, exits[1:]) if target is not None]
        if more:
            self._move([*self.places, *more])

    def _undecide(self, step: JobStep, is_charged: bool) -> None:
        """What was entered leads nowhere any more, or not yet; nobody goes on from what a test has charged."""
        state, circuit = self.states[step.path], proved_by(step)
        if state.complete and circuit is not None:
            self._unprove(circuit)
        state.complete = False
        if self.origin is step or is_charged:
            self.places = [step.path]

    def _undo(self, step: JobStep) -> None:
        """A tick is taken back: what was proved since then rested on it."""
        state = self.states[step.path]
        rested = [circuit for circuit, turn in self.proved.items() if state.complete and turn > state.turn]
        for circuit in rested:
            self._unprove(circuit)
        self._begin_anew(rested)
        self.undone = (step, self.places, self.origin) if state.complete else None
        self.states[step.path] = _State(state.visits, state.ever)
        self.places = [step.path]

    def _tighten(self, entry: Entry, step: JobStep) -> Followed:
        state = self.states[step.path]
        torque = tightened(entry, step, tuple(state.torques), self.around)
        state.torques.append(torque.place)
        if len(set(state.torques)) >= len(torques_of(step, entry, self.around)):
            self._tick(step)
        return Followed(entry, step, torque=torque)

    def _tick(self, step: JobStep) -> None:
        """A step that is done; what follows is not known where it decides something."""
        if decides(step):
            self._move(target for name, target in step.exits if name != "exhausted")
        else:
            self._finish(step, step.exits[0][0])

    def _leave(self, entry: Entry, step: JobStep, answer: str) -> Followed:
        if isinstance(step.step.action, actions.Ask) and step.target(answer) is not None:
            self._finish(step, answer)
            return Followed(entry, step)
        self._tick(step)
        return Followed(entry, step, not_there=answer)

    def _open(self, entry: Entry, step: JobStep, written: str) -> Followed:
        """Another exit than the verdict takes; from there on nothing counts as proved."""
        exit = written if step.target(written) is not None else written.replace(" ", "_")
        state, target = self.states[step.path], step.target(exit)
        if target is None:
            return Followed(entry, step, not_there=written)
        if state.complete and state.exit == exit:
            return Followed(entry, step)
        self._lose()
        state.complete, state.ever, state.exit, state.turn = True, True, exit, self.turn
        self.origin = step
        self._move([target])
        return Followed(entry, step, barred=True)

    def _finish(self, step: JobStep, exit: str) -> None:
        """A step is done. Done again it leads on only if it now leads elsewhere: a proof that is renewed takes nobody
        back, a figure that is put right does."""
        state, target, before = self.states[step.path], step.target(exit), self.states[step.path].exit
        leads = step.path in self.places or exit not in GOOD or before not in (None, exit)
        state.complete, state.ever, state.exit, state.turn = True, True, exit, self.turn
        circuit = proved_by(step)
        if circuit is not None:
            self._prove(step, circuit, exit in GOOD)
        self.ages.left(step.step, exit)
        if self.undone is not None and self.undone[0] is step:
            _, self.places, self.origin = self.undone
        elif target is not None and leads:
            self.origin = step
            self._move([target])

    def _prove(self, step: JobStep, circuit: str, good: bool) -> None:
        if not good:
            return self._unprove(circuit)
        self.lost.pop(circuit, None)
        self.proved[circuit] = self.turn
        action = step.step.action
        if isinstance(action, actions.ProveDead | actions.ProveSafe):
            self.ages.proved(action, [entry for entry, _ in self.states[step.path].readings.values()])
        return None

    def _unproved(self, step: JobStep) -> tuple[str, ...]:
        """What a step touches as dead although it does not count as proved any more."""
        if not self.lost or self.rig is None or proved_by(step) is not None:
            return ()
        asked = {one.circuit for one in demands_of(step.step, self.rig) if one.level == "dead" and not one.opened}
        return tuple(name for name in self.lost if name in asked)
