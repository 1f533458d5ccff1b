"""The states of the circuits as the checker has proved them, step by step, ready for the pages.

The same words as the trace of the walk gives, but put together so that what many pages share is reckoned once: a
performed procedure that is entered in the same states looks the same on every page.
"""

from collections.abc import Hashable, Iterable, Iterator, Mapping
from copy import copy
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from ..graph import effects
from ..graph.graph import Target
from ..manual import Manual
from ..model import actions
from ..model.procedure import Procedure, Step
from ..model.vehicle import Vehicle
from ..safety.holds import Word, word_of
from ..safety.needs import asked, bared, mended
from ..safety.passage import Where
from ..safety.plan import Stage
from ..safety.rig import Known
from ..safety.state import State
from ..safety.survey import Surveyor
from ..safety.told import WORDS
from ..safety.transfer import Scene, after
from ..safety.walk import Walker

_GRAVITY = {word: number for number, word in enumerate(WORDS)}
_AT_POINTS = (effects.Opened, effects.Closed, effects.Secured, effects.Released)


class Walk(NamedTuple):
    """One walk of a procedure: for a variant, and in it for one circuit from one state on entry."""

    variant: str | None
    where: Where


#: All walks by which a procedure is done at one place: for every variant, circuit and state on entry.
Visit = frozenset[Walk]
Words = dict[str, Word]


@dataclass(slots=True)
class StepStates:
    """For each circuit the least safe word before a step and behind each exit; `touched` those that it acts on.

    `inner` are the walks of what the step performs.
    """

    before: Words = field(default_factory=dict)
    after: dict[str, Words] = field(default_factory=dict)
    touched: set[str] = field(default_factory=set)
    inner: Visit = frozenset()


@dataclass(slots=True)
class Table:
    """A procedure at one place: its steps by number, and the states in which it ends."""

    steps: dict[str, StepStates] = field(default_factory=dict)
    ends: dict[Target, Words] = field(default_factory=dict)


class _Row(NamedTuple):
    """One step for one walk."""

    number: str
    before: Word
    after: tuple[tuple[str, Target, Word], ...]
    touched: bool
    called: tuple[Walk, ...]


class StateBook:
    """The proved states of the procedures of one vehicle; the walks see less of its profile than a page shows."""

    def __init__(self, surveyor: Surveyor, vehicle: Vehicle) -> None:
        self.surveyor = surveyor
        self.vehicle = vehicle
        self.rig = surveyor.rig
        #: For whoever derives more from the states: what comes out alike for many procedures.
        self.shared: dict[Hashable, Any] = {}
        self._whole: dict[str, bool] = {}
        self._walkers: dict[str | None, Walker] = {}
        self._visits: dict[str, Visit] = {}
        self._rows: dict[Walk, tuple[_Row, ...]] = {}
        self._tables: dict[Visit, Table] = {}
        self._passed: dict[tuple[int, Word], _Row] = {}
        self._words: dict[tuple[str, bool, State], Word] = {}

    def for_profile(self, vehicle: Vehicle) -> "StateBook":
        """The same states for a profile that differs in nothing that the walks see."""
        if vehicle is self.vehicle:
            return self
        book = copy(self)
        book.vehicle, book.shared = vehicle, {}
        return book

    def is_whole(self, name: str) -> bool:
        """Whether everything that a procedure performs, by itself or through another one, could be read."""
        if name not in self._whole:
            own = self.surveyor.procedures
            performed = (_performed_by(own[one]) for one in (name, *self.surveyor.called(name)))
            self._whole[name] = all(names <= own.keys() for names in performed)
        return self._whole[name]

    def visit(self, name: str) -> Visit:
        """The walks of a procedure that is begun by itself."""
        if name not in self._visits:
            found = []
            for survey in self.surveyor.surveys(name):
                self._walkers[survey.variant] = survey.walker
                found += [Walk(survey.variant, where) for one in survey.every_circuit.values() for where, _ in one]
            self._visits[name] = frozenset(found)
        return self._visits[name]

    def circuits(self, name: str) -> tuple[str, ...]:
        """The circuits of which a procedure asks something, in the order of the profile."""
        met = {walk.where.circuit for walk in self.visit(name)}
        return tuple(one for one in self.rig.circuits if one in met)

    def table(self, visit: Visit) -> Table:
        """What is told of a procedure at one place."""
        found = self._tables.get(visit)
        if found is None:
            found = self._tables[visit] = Table()
            inner: dict[str, set[Walk]] = {}
            for walk in visit:
                self._add(walk, found, inner)
            for number, walks in inner.items():
                found.steps[number].inner = frozenset(walks)
        return found

    def _add(self, walk: Walk, table: Table, inner: dict[str, set[Walk]]) -> None:
        circuit = walk.where.circuit
        for row in self._rows_of(walk):
            step = table.steps.setdefault(row.number, StepStates())
            _note(step.before, circuit, row.before)
            for exit, target, word in row.after:
                _note(step.after.setdefault(exit, {}), circuit, word)
                if not isinstance(target, int):
                    _note(table.ends.setdefault(target, {}), circuit, word)
            if row.touched:
                step.touched.add(circuit)
            if row.called:
                inner.setdefault(row.number, set()).update(row.called)

    def _rows_of(self, walk: Walk) -> tuple[_Row, ...]:
        if walk not in self._rows:
            self._rows[walk] = tuple(self._walked(walk, self._walkers[walk.variant]))
        return self._rows[walk]

    def _walked(self, walk: Walk, walker: Walker) -> Iterator[_Row]:
        where = walk.where
        known = self.rig.known(where.circuit, where.stuck)
        scene = walker.scene(where)
        steps = walker.plans[where.procedure].graph.steps
        for step, stage, states in zip(steps, walker.stages(where), walker.walk(where).before, strict=False):
            if not states:
                continue
            before = self._least(states, known, where)
            if self._is_passed(stage, states, scene):
                yield self._unchanged(step, stage, before)
                continue
            left = states
            if any(asked(stage, one, scene) for one in states):
                left = tuple(found for one in states for found in mended(stage, one, scene)[1])  # as if it were met
            held = before if left is states else self._least(left, known, where)
            if stage.callee is not None:
                behind, called = self._performed(walk, stage, left, known, walker)
            else:
                called = ()
                behind = tuple(
                    (way.exit, way.target, self._least([after(one, way.effects, scene) for one in left], known, where))
                    if way.effects
                    else (way.exit, way.target, held)
                    for way in stage.ways
                )
            yield _Row(step.number, before, behind, _acts_on(step, stage, states, scene), called)

    @staticmethod
    def _is_passed(stage: Stage, states: tuple[State, ...], scene: Scene) -> bool:
        """Whether a step neither asks anything of a circuit nor changes it: most steps, for most circuits."""
        if stage.demands or stage.callee is not None or any(way.effects for way in stage.ways):
            return False
        return not any(asked(stage, one, scene) for one in states)

    def _unchanged(self, step: Step, stage: Stage, word: Word) -> _Row:
        key = id(stage), word  # the walker keeps its stages
        row = self._passed.get(key)
        if row is None:
            behind = tuple((way.exit, way.target, word) for way in stage.ways)
            row = self._passed[key] = _Row(step.number, word, behind, False, ())
        return row

    def _performed(
        self, walk: Walk, stage: Stage, states: tuple[State, ...], known: Known, walker: Walker
    ) -> tuple[tuple[tuple[str, Target, Word], ...], tuple[Walk, ...]]:
        """The states in which a performed procedure comes back, and the walks of it."""
        assert stage.callee is not None
        entered = [walker.called(walk.where, stage.callee, one) for one in states]
        inner = [one for one in entered if one is not None]
        exits = [walker.walk(one).exits for one in inner]
        behind = []
        for way in stage.ways:
            found = [state for one in exits for state, _ in one.get(way.performed, ())]
            if found:
                behind.append((way.exit, way.target, self._least(found, known, walk.where)))
        return tuple(behind), tuple(Walk(walk.variant, one) for one in inner)

    def _least(self, states: Iterable[State], known: Known, where: Where) -> Word:
        words = []
        for state in states:
            key = (where.circuit, where.stuck, state)
            word = self._words.get(key)
            if word is None:
                word = self._words[key] = word_of(state, known, self.rig)
            words.append(word)
        return words[0] if len(words) == 1 else min(words, key=_GRAVITY.__getitem__)


class States:
    """The proved states of all procedures of a manual.

    Of `before`, those of the same manual before a save, they take over what is of vehicles that are walked as before.
    """

    def __init__(self, manual: Manual, before: "States | None" = None) -> None:
        self._surveyors, self._vehicles = manual.surveyors, manual.vehicles
        self._faulty = frozenset(
            file for file, found in manual.by_file.items() if any(finding.severity == "error" for finding in found)
        )
        self._books: dict[str, StateBook] = {}
        for name, book in before._books.items() if before is not None else ():
            if manual.surveyors.get(name) is book.surveyor:
                self._books[name] = book.for_profile(manual.vehicles[name])

    def of(self, procedure: Procedure) -> StateBook | None:
        """What is proved of a procedure; nothing where the profile, it, or what it performs has an error.

        The walk goes on behind an error as if what is asked were met: what it tells then is not what holds.
        """
        folder = procedure.folder
        surveyor = self._surveyors.get(folder)
        if surveyor is None or procedure.id not in surveyor.procedures or surveyor.vehicle.file in self._faulty:
            return None
        own = surveyor.procedures
        if any(own[name].file in self._faulty for name in (procedure.id, *surveyor.called(procedure.id))):
            return None
        if folder not in self._books:
            self._books[folder] = StateBook(surveyor, self._vehicles[folder])
        book = self._books[folder]
        return book if book.is_whole(procedure.id) else None


def _performed_by(procedure: Procedure) -> set[str]:
    return {step.action.procedure for step in procedure.steps if isinstance(step.action, actions.Perform)}


def least_of(words: Iterable[Mapping[str, Word]]) -> Words:
    """For each circuit the least safe of several words."""
    found: Words = {}
    for one in words:
        for circuit, word in one.items():
            _note(found, circuit, word)
    return found


def is_safer(one: Word, other: Word) -> bool:
    """Whether a word stands for more safety than another."""
    return _GRAVITY[one] > _GRAVITY[other]


def _note(words: Words, circuit: str, word: Word) -> None:
    known = words.get(circuit)
    if known is None or _GRAVITY[word] < _GRAVITY[known]:
        words[circuit] = word


def _acts_on(step: Step, stage: Stage, states: Iterable[State], scene: Scene) -> bool:
    """Whether a step acts on a circuit: asks something of it, moves a point of it, waits for it, or reads it."""
    known = scene.known
    if stage.demands or any(bared(stage, one, scene) is not None for one in states):
        return True
    if isinstance(step.action, actions.Wait):
        return known.id in step.action.what_for
    for way in stage.ways:
        for effect in way.effects:
            if isinstance(effect, _AT_POINTS):
                if effect.point in _points_of(known):
                    return True
            elif getattr(effect, "circuit", None) == known.id or isinstance(
                effect, (effects.VoltageRead, effects.TestVoltageApplied)
            ):
                return True
    return False


def _points_of(known: Known) -> set[str]:
    return {name for source in known.circuit.sources for way in source.taken_off_by for name in way}
