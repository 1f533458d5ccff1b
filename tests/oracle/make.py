"""Random manuals: sound procedures, then changed in the ways in which safety is lost or only seems to be.

Ordinary random graphs are nearly blind: nothing is isolated in them, so nothing can be lost again on a way back.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import ceil, inf
from random import Random

from bayleaf.model import actions
from bayleaf.model.procedure import Conclusion, Procedure, Step
from bayleaf.model.vehicle import Circuit, Vehicle

from . import changes
from .facts import STUCK
from .steps import (
    ask,
    chosen_points,
    conclusion,
    discharge,
    in_order,
    measure,
    perform,
    pins,
    procedure,
    prove,
    putting_on,
    step,
    taking_off,
    tighten,
    wait,
    work,
)
from .vehicles import POOL, vehicle
from .wait import required_wait

MAIN, CALLEE, OTHER = "van/job", "van/callee", "van/other"


@dataclass(frozen=True, slots=True)
class Case:
    """A small manual. `roots` are the procedures that are judged; `made` tells how it came about."""

    vehicle: Vehicle
    procedures: Mapping[str, Procedure]
    roots: tuple[str, ...]
    made: tuple[str, ...] = ()

    @property
    def size(self) -> int:
        """The steps of all procedures."""
        return sum(len(one.steps) for one in self.procedures.values())


@dataclass(slots=True)
class Draft:
    """A sound procedure in its parts, before it is changed."""

    targets: list[Circuit]
    isolate: list[Step]
    show: list[Step]
    work: list[Step]
    close: list[Step]
    live: list[Step]

    @property
    def steps(self) -> list[Step]:
        """All of it."""
        return [*self.isolate, *self.show, *self.work, *self.close, *self.live]


def make(seed: int, index: int) -> Case:
    """The case of a seed and an index: always the same one."""
    rng = Random(f"{seed}/{index}")
    profile = vehicle(rng.randrange(POOL))
    kind = rng.choices((_plain, _callee, _two_callers, _twice, _expects), (30, 14, 26, 24, 6))[0]
    draft = _draft(rng, profile)
    return kind(rng, profile, draft)


def _draft(rng: Random, profile: Vehicle) -> Draft:
    circuits = list(profile.circuits.values())
    targets = rng.sample(circuits, 2) if rng.random() < 0.2 else [rng.choice(circuits)]
    isolate = [step(actions.SetMode("off"))]
    points = chosen_points(rng, profile, targets)
    arms = _arms(rng, profile, targets[0], points) if rng.random() < 0.4 else None
    if arms is None:
        isolate += taking_off(points)
    else:
        opened, points = arms
        isolate += opened
    show, close = _shown(rng, targets), []
    for circuit in targets:
        close.append(step(actions.Refit((f"{circuit.id}-cover",), False)))
        if rng.random() < 0.4:
            show.insert(-2, step(actions.Loosen((f"{circuit.id}-cover-screws",))))
            close.append(tighten(f"{circuit.id}-cover-screws"))
    done = [one for _ in range(rng.randint(1, 2)) for one in work(rng, rng.choice(targets))]
    if rng.random() < 0.15:
        circuit = rng.choice(targets)
        done += [measure("insulation resistance", [pins(circuit)], "500 V", discharged=True), prove(circuit)]
    live = putting_on(points) + ([step(actions.SetMode("ready"))] if rng.random() < 0.5 else [])
    return Draft(targets, isolate, show, done, close, live if rng.random() < 0.8 else [])


def _shown(rng: Random, targets: list[Circuit]) -> list[Step]:
    """The wait or the discharge, then each circuit proved dead behind its cover."""
    waits = {circuit.id: required_wait(circuit) for circuit in targets}
    longest = max((seconds for seconds in waits.values() if seconds < inf), default=0)
    found = [wait(ceil(longest) + 1)] if longest else []
    if longest and rng.random() < 0.15:
        found = [wait(ceil(longest / 2) + 1)] * 2
    found += [discharge(circuit) for circuit in targets if waits[circuit.id] == inf]
    for circuit in targets:
        found.append(step(actions.Remove((f"{circuit.id}-cover",))))
        pairs = [point.pair for point in circuit.dead_at]
        if rng.random() < 0.15:
            found += [prove(circuit, tuple(pairs[:1])), prove(circuit, tuple(pairs[1:]))]
        else:
            found.append(prove(circuit))
    return found


def _arms(rng: Random, profile: Vehicle, circuit: Circuit, points: list[str]) -> tuple[list[Step], list[str]] | None:
    """Two ways to take off one source, each on an arm of its own; and all points of both."""
    several = [source for source in circuit.sources if len(source.taken_off_by) > 1]
    if not several:
        return None
    one, other = several[0].taken_off_by[:2]
    needed = set(points) - set(one) - set(other)
    for source in circuit.sources:
        if source.kind == "points" and source is not several[0]:
            needed |= set(source.taken_off_by[0])
    first, second = taking_off(in_order(profile, one)), taking_off(in_order(profile, other))
    first[-1] = replace(first[-1], then="both")
    second[0] = replace(second[0], id="other-way")
    common = taking_off(in_order(profile, needed)) if needed else [step(actions.Do())]
    common[0] = replace(common[0], id="both")
    question = ask(("this way", "next"), ("the other way", "other-way"))
    return [question, *first, *second, *common], in_order(profile, {*one, *other, *needed})


def _finished(
    rng: Random, profile: Vehicle, lists: dict[str, list[Step]], roots: tuple[str, ...], made: list[str],
    ends: dict[str, list[Conclusion]] | None = None, expects: tuple[tuple[str, str], ...] = (), often: float = 0.32,
) -> Case:  # fmt: skip
    """The case, with changes made to some of its procedures."""
    if rng.random() < often:
        for _ in range(rng.choice((1, 1, 1, 2, 2, 3))):
            name = rng.choice(list(lists))
            lists[name], how = changes.change(rng, profile, lists[name])
            made.append(how)
    if rng.random() < 0.45:
        name = rng.choice(list(lists))
        lists[name] = changes.loop(rng, profile, lists[name])
        made.append("loop")
    faults = (STUCK,) if rng.random() < 0.08 else ()
    built = {}
    for name, steps in lists.items():
        handles = ("not dead",) if rng.random() < 0.1 else ()
        own = expects if name == CALLEE else ()
        own_faults = faults if rng.random() < 0.6 else ()
        built[name] = procedure(
            name, steps, (ends or {}).get(name, ()), handles=handles, expects=own, faults=own_faults
        )
    return Case(profile, built, roots, tuple(made))


def _plain(rng: Random, profile: Vehicle, draft: Draft) -> Case:
    return _finished(rng, profile, {MAIN: draft.steps}, (MAIN,), ["plain"])


def _callee(rng: Random, profile: Vehicle, draft: Draft) -> Case:
    """A part is put into a procedure of its own, which may also come back without having done it."""
    head, inner, rest = rng.choice((
        ([], draft.isolate + draft.show, draft.work + draft.close + draft.live),
        (draft.isolate, draft.show, draft.work + draft.close + draft.live),
        (draft.isolate, draft.show + draft.work, draft.close + draft.live),
        (draft.isolate + draft.show, draft.work, draft.close + draft.live),
        (draft.isolate + draft.show, draft.work + draft.close, draft.live),
        (draft.isolate + draft.show + draft.work, draft.close + draft.live, []),
    ))  # fmt: skip
    outcomes, ends = (), {}
    if rng.random() < 0.3:
        place = rng.randint(0, len(inner))
        inner = [*inner[:place], ask(("it can be done", "next"), ("it cannot", "given-up")), *inner[place:]]
        ends = {CALLEE: [conclusion("given-up", stops=False)]}
        outcomes = (("given-up", rng.choice(("stop", "stop", "next"))),)
    lists = {MAIN: [*head, perform(CALLEE, *outcomes), *rest], CALLEE: inner}
    if rng.random() < 0.2:
        lists[CALLEE] = changes.one_pair_too_few(rng, lists[CALLEE])
    return _finished(rng, profile, lists, (MAIN,), ["callee"], ends)


def _two_callers(rng: Random, profile: Vehicle, draft: Draft) -> Case:
    """Two procedures perform the same one, and one of them has left something out."""
    inner, before = (draft.work, draft.isolate + draft.show) if rng.random() < 0.6 else (
        draft.show + draft.work, draft.isolate)  # fmt: skip
    after = draft.close + draft.live if rng.random() < 0.5 else []
    lists = {MAIN: [*before, perform(CALLEE), *after], OTHER: [*before, perform(CALLEE), *after], CALLEE: inner}
    if rng.random() < 0.7:
        short = changes.drop(rng, before) if rng.random() < 0.8 else []
        lists[OTHER] = [*short, perform(CALLEE), *after]
    roots, expects = (MAIN, OTHER), ()
    if rng.random() < 0.4:
        word = rng.choice(("disconnected", "secured", "waited", "proved dead"))
        roots, expects = (MAIN, OTHER, CALLEE), ((draft.targets[0].id, word),)
    return _finished(rng, profile, lists, roots, ["two callers"], expects=expects, often=0.15)


def _twice(rng: Random, profile: Vehicle, draft: Draft) -> Case:
    """The same procedure is performed twice, with something in between."""
    between = [rng.choice((changes.undo, changes.undo, changes.event))(rng, profile)] if rng.random() < 0.8 else []
    steps = [*draft.isolate, *draft.show, perform(CALLEE), *between, perform(CALLEE), *draft.close, *draft.live]
    return _finished(rng, profile, {MAIN: steps, CALLEE: draft.work}, (MAIN,), ["twice"], often=0.1)


def _expects(rng: Random, profile: Vehicle, draft: Draft) -> Case:
    """The work alone, which expects a state; nobody performs it, so the least safe of those states counts."""
    word = rng.choice(("switched off", "disconnected", "secured", "waited", "proved dead"))
    steps = draft.work if word == "proved dead" else draft.show + draft.work
    steps = steps + (draft.close + draft.live if rng.random() < 0.5 else [])
    expects = tuple((circuit.id, word) for circuit in draft.targets)
    return _finished(rng, profile, {CALLEE: steps}, (CALLEE,), ["expects"], expects=expects)
