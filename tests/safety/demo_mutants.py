"""The sound procedures of the demo with one thing done wrong, each kind at each place, and who finds it.

`python -m safety.demo_mutants` in the folder of the tests prints for every kind and procedure: found / places, and how
many of the places change nothing that matters. Exit code 1 where a kind is never found, or walk and judge part.
"""

import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, NamedTuple

from bayleaf.model import actions
from bayleaf.model.procedure import Procedure, Step
from bayleaf.model.vehicle import Vehicle
from bayleaf.safety.breaches import Court
from bayleaf.safety.demands import Demand, works
from bayleaf.safety.survey import Surveyor
from demo_kit import demo
from oracle.judge import Judge
from oracle.judges import NAMES, _surveyor

ROOT = Path(__file__).resolve().parents[2]
Steps = tuple[Step, ...]
#: Gives every procedure with the mistake made at one place, and the index of the step there.
Kind = Callable[[Steps, Vehicle], Iterator[tuple[int, Steps]]]
#: A step of a procedure: the id and the number.
Place = tuple[str, str]


class Mutant(NamedTuple):
    """A procedure with one thing wrong: which kind of mistake, and at what step."""

    kind: str
    procedure: str
    number: str
    steps: Steps


def _blank(step: Step) -> Step:
    """Nothing is done where the step was; the jumps to it and its plain way on stay."""
    target = dict(step.outcomes).get("dead", step.then)
    blank = replace(step, action=actions.Do(), on=("nothing",), when=None, repeat=None, exhausted=None)
    return replace(blank, outcomes=(), then=target)


def _with(steps: Steps, index: int, *new: Step) -> Steps:
    return (*steps[:index], *new, *steps[index + 1 :])


def leaving_out(kind: type, things: str = "") -> Kind:
    """The step is left out; of several things that it names, each by itself."""

    def places(steps: Steps, vehicle: Vehicle) -> Iterator[tuple[int, Steps]]:
        for index, step in enumerate(steps):
            if not isinstance(step.action, kind):
                continue
            action: Any = step.action
            names = getattr(action, things) if things else ()
            for name in names if len(names) > 1 else ():
                fewer = replace(action, **{things: tuple(one for one in names if one != name)})
                yield index, _with(steps, index, replace(step, action=fewer))
            if len(names) < 2:
                yield index, _with(steps, index, _blank(step))

    return places


def shortened(steps: Steps, vehicle: Vehicle) -> Iterator[tuple[int, Steps]]:
    """A tenth of a wait."""
    for index, step in enumerate(steps):
        if isinstance(step.action, actions.Wait) and step.action.time is not None:
            time = step.action.time
            tenth = replace(step.action, time=replace(time, value=time.value / 10))
            yield index, _with(steps, index, replace(step, action=tenth))


def one_pair(steps: Steps, vehicle: Vehicle) -> Iterator[tuple[int, Steps]]:
    """A proof at one of its pairs, each in turn."""
    for index, step in enumerate(steps):
        if isinstance(step.action, actions.ProveDead):
            circuit = vehicle.circuits[step.action.circuit]
            pairs = step.action.pairs or tuple(point.pair for point in circuit.dead_at)
            for pair in pairs if len(pairs) > 1 else ():
                yield index, _with(steps, index, replace(step, action=replace(step.action, pairs=(pair,))))


def before_hands(new: Callable[[Vehicle], Iterable[actions.Action]]) -> Kind:
    """Something is done just before a step at which somebody works with the hands; jumps lead to it as well."""

    def places(steps: Steps, vehicle: Vehicle) -> Iterator[tuple[int, Steps]]:
        for index, step in enumerate(steps):
            for action in new(vehicle) if works(step) else ():
                before = Step(step.at, step.number + "-", step.id, action, only_for=step.only_for)
                yield index, _with(steps, index, before, replace(step, id=None))

    return places


def cover_before_wait(steps: Steps, vehicle: Vehicle) -> Iterator[tuple[int, Steps]]:
    """A cover comes off before the wait that stands before it."""
    for index, step in enumerate(steps):
        if isinstance(step.action, actions.Remove):
            waits = [at for at in range(index) if isinstance(steps[at].action, actions.Wait) and not steps[at].then]
            if waits:
                here = waits[-1]
                yield index, (*steps[:here], *steps[here + 1 : index + 1], steps[here], *steps[index + 1 :])


def not_dead_to_next(steps: Steps, vehicle: Vehicle) -> Iterator[tuple[int, Steps]]:
    """Somebody goes on though the circuit was found not dead."""
    for index, step in enumerate(steps):
        if isinstance(step.action, actions.ProveDead):
            outcomes = {**dict(step.outcomes), "not_dead": "next"}
            yield index, _with(steps, index, replace(step, outcomes=tuple(outcomes.items())))


KINDS: Mapping[str, Kind] = {
    "no lock": leaving_out(actions.Secure, "points"),
    "no wait": leaving_out(actions.Wait),
    "a tenth of a wait": shortened,
    "no proof": leaving_out(actions.ProveDead),
    "not opened": leaving_out(actions.Disconnect, "points"),
    "one pair proved": one_pair,
    "not refitted": leaving_out(actions.Refit, "parts"),
    "not plugged": leaving_out(actions.Plug, "connectors"),
    "not tightened": leaving_out(actions.Tighten, "fasteners"),
    "pause before hands": before_hands(lambda vehicle: [actions.Pause("break")]),
    "ready before hands": before_hands(lambda vehicle: [actions.SetMode("ready")]),
    "reconnected before hands": before_hands(
        lambda vehicle: (actions.Reconnect((one,)) for one in vehicle.isolation_points)
    ),
    "cover before the wait": cover_before_wait,
    "on though not dead": not_dead_to_next,
}


def mutants(kind: str, name: str) -> list[Mutant]:
    """All mutants of a kind of one procedure of the demo."""
    procedure = demo().procedures[name]
    made = KINDS[kind](procedure.steps, demo().vehicles[procedure.folder])
    return [Mutant(kind, name, procedure.steps[index].number, steps) for index, steps in made]


@dataclass(frozen=True)
class Verdict:
    """Where the walk and the judge find what both judge, and what else the walk finds: kinds of breaches."""

    walk: frozenset[Place]
    judge: frozenset[Place]
    others: frozenset[str]

    @property
    def is_found(self) -> bool:
        """Whether anything at all is said."""
        return bool(self.walk or self.others)

    @property
    def parts(self) -> bool:
        """Whether the walk and the judge are not of one mind."""
        return self.walk != self.judge


def judged(mutant: Mutant) -> Verdict:
    """What is found in the mutant and in all that perform it."""
    folder = demo().procedures[mutant.procedure].folder
    procedures = {name: one for name, one in demo().procedures.items() if one.folder == folder}
    procedures[mutant.procedure] = replace(procedures[mutant.procedure], steps=mutant.steps)
    return _verdict(procedures, demo().vehicles[folder], mutant.procedure)


def _verdict(procedures: Mapping[str, Procedure], vehicle: Vehicle, changed: str) -> Verdict:
    surveyor = _surveyor(procedures, vehicle)
    court, judge = Court(surveyor), Judge(procedures, vehicle)
    roots = [name for name in procedures if name == changed or changed in surveyor.called(name)]
    told = {one for root in roots for name in (root, *surveyor.called(root)) for one in _told(court, name, surveyor)}
    by_judge = {
        _place(root, one.path, one.demand, procedures)
        for root in roots
        for one in judge.judge(root, visits=None)
        if not _is_beyond(one.subject, surveyor)
    }
    return Verdict(
        frozenset(place for kind, place in told if kind in NAMES),
        frozenset(by_judge),
        frozenset(kind for kind, _ in told if kind not in NAMES),
    )


def _told(court: Court, name: str, surveyor: Surveyor) -> Iterator[tuple[str, Place]]:
    """The breaches with the steps that they stand at; that a proof is old is no breach of safety."""
    for breach in court.breaches(name):
        if breach.kind != "relied":
            last = breach.spots[-1] if breach.spots else None
            place = (last.procedure.id, last.step.number) if last is not None else (name, "")
            subject = breach.demand.circuit if isinstance(breach.demand, Demand) else breach.demand.name
            beyond = _is_beyond(subject, surveyor)
            yield ("beyond the judge" if beyond else breach.kind), _once(place, breach.kind)


def _is_beyond(subject: str, surveyor: Surveyor) -> bool:
    """What the two are not compared in: fused 12 and 24 V."""
    return subject in surveyor.rig.circuits and surveyor.rig.known(subject).category == "low"


def _once(place: Place, demand: str) -> Place:
    """What is open when a circuit is made live is told where that first happens, by each judge in its own order."""
    return ("made live", "") if demand == "made live" else place


def _place(root: str, path: tuple[str, ...], demand: str, procedures: Mapping[str, Procedure]) -> Place:
    for number in path[:-1]:
        action = next(step.action for step in procedures[root].steps if step.number == number)
        assert isinstance(action, actions.Perform)
        root = action.procedure
    return _once((root, path[-1]), demand)


@dataclass
class Cell:
    """A kind and a procedure: all places, those judged, found, and those that neither finds anything wrong with."""

    places: int = 0
    judged: int = 0
    found: int = 0
    parting: list[tuple[Mutant, Verdict]] = field(default_factory=list)
    silent: list[str] = field(default_factory=list)

    def __str__(self) -> str:
        return f"{self.found}/{self.judged}" if self.places else "n/a"


def cell(kind: str, name: str, most: int | None = None) -> Cell:
    """Judges the mutants of a cell: all of them, or `most` spread evenly and more until one is found."""
    made = mutants(kind, name)
    result = Cell(len(made))
    count = len(made) if most is None else min(most, len(made))
    chosen = [(2 * index + 1) * len(made) // (2 * count) for index in range(count)]
    for index in (*chosen, *(one for one in range(len(made)) if one not in chosen)):
        if result.judged >= count and result.found:
            break
        verdict = judged(made[index])
        result.judged += 1
        result.found += verdict.is_found
        if verdict.parts:
            result.parting.append((made[index], verdict))
        if not verdict.is_found:
            result.silent.append(made[index].number)
    return result


def table(cells: Mapping[tuple[str, str], Cell]) -> str:
    """Found of judged for each kind and procedure."""
    names = list(dict.fromkeys(name for _, name in cells))
    kinds = list(dict.fromkeys(kind for kind, _ in cells))
    lines = [f"  {number}: {name}" for number, name in enumerate(names, 1)]
    lines.append(" " * 26 + "".join(f"{number:>9}" for number in range(1, len(names) + 1)))
    lines += [f"{kind:<26}" + "".join(f"{cells[kind, name]!s:>9}" for name in names) for kind in kinds]
    return "\n".join(lines)


def main() -> int:
    """Judges every mutant and prints where nothing is found or walk and judge part, then the table."""
    cells: dict[tuple[str, str], Cell] = {}
    for kind in KINDS:
        for name in demo().procedures:
            one = cells[kind, name] = cell(kind, name)
            if one.silent:
                print(f"nothing found: {kind}, {name}: {' '.join(one.silent)}", flush=True)
            for mutant, verdict in one.parting:
                print(f"parting: {kind}, {name} at {mutant.number}: {verdict}", flush=True)
    print(table(cells))
    return int(any(one.parting or (one.places and not one.found) for one in cells.values()))


if __name__ == "__main__":
    sys.exit(main())
