"""What the walks find in a procedure, put together: every need that is not met, with the shortest path to it."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import NamedTuple

from ..diagnostics.place import Path as At
from ..model.actions import Perform
from ..model.procedure import Conclusion, Procedure, Step
from .bonds import bond_thing
from .demands import Demand
from .holds import LEVEL_OF, Word, holds, is_as_said, lacks_halves_only, word_of
from .lacks import Lacks, lacks
from .passage import Hit, Passage, Path, Where
from .plan import Plan
from .premises import Premise, without_caller
from .proof_age import Age, AgeWalk, Relied
from .proof_holds import HOLDS
from .proof_wait import Waits
from .rig import Known, Rig, temporary_thing, union
from .state import State
from .survey import Survey, Surveyor
from .things import ThingDemand
from .walk import Walker
from .walk_premises import Doubt, PremiseWalker
from .walk_things import ThingHit
from .whole import point_thing


class Spot(NamedTuple):
    """A step and the procedure that it stands in."""

    procedure: Procedure
    step: Step


class Turn(NamedTuple):
    """A step of the path that matters: left by `exit` where there are several, or `undoes` what is asked."""

    step: Step
    exit: str | None
    undoes: bool


class Breach(NamedTuple):
    """A need that is not met.

    `spots` leads from the procedure that was walked to the step, through those that are performed. `way` is the
    shortest path in words. `word` is the least safe state possible there; None where no circuit is concerned. `lacks`
    is what is missing of what is asked, `turns` are the places of the path where a choice was made or the circuit lost
    what is asked. `ends` are the conclusions at which it shows, for what is asked of an end ("" is the plain one).
    `age` is that of a proof which is relied on. `mended_before` is the number of a step further back before which the
    mend belongs.
    """

    kind: str
    spots: tuple[Spot, ...]
    demand: Demand | ThingDemand | Premise
    way: str
    word: Word | None
    lacks: Lacks | None = None
    out: tuple[str, ...] = ()
    turns: tuple[Turn, ...] = ()
    ends: tuple[str, ...] = ()
    variant: str | None = None
    age: Age | None = None
    mended_before: str | None = None

    @property
    def identity(self) -> tuple[object, ...]:
        """What makes it the same need, whatever the variant and the path."""
        steps = tuple((spot.procedure.id, spot.step.number) for spot in self.spots)
        subject = self.demand.circuit if isinstance(self.demand, Demand) else (self.demand.name, self.demand.thing)
        return self.kind, steps, subject, self.demand.at if not steps else None


class Court:
    """Gives the breaches of each procedure of a vehicle, each once: where it is made.

    `holds` are the seconds after which a proof is too old to be relied on.
    """

    def __init__(self, surveyor: Surveyor, holds: Fraction = HOLDS) -> None:
        self._surveyor = surveyor
        self._beyond = Beyond(surveyor, holds)
        self._found: dict[str, tuple[Breach, ...]] = {}

    def breaches(self, name: str) -> tuple[Breach, ...]:
        """What is wrong in a procedure; what a performed one gets wrong by itself is told there."""
        if name not in self._found:
            self._found[name] = ()  # a procedure that performs itself is reported elsewhere
            found: dict[object, Breach] = {}
            for survey in self._surveyor.surveys(name):
                for breach in (*_of_survey(survey, self._surveyor), *self._beyond.of(survey)):
                    found.setdefault(breach.identity, breach)
            own = {_inner(breach) for callee in self._surveyor.called(name) for breach in self.breaches(callee)}
            told = (breach for breach in found.values() if len(breach.spots) < 2 or _inner(breach) not in own)
            self._found[name] = tuple(told)
        return self._found[name]


def _inner(breach: Breach) -> tuple[object, ...]:
    """The need as the procedure sees it that holds the step."""
    return breach._replace(spots=breach.spots[-1:]).identity


class Beyond:
    """What makes a step worthless or unwise though nothing live is touched: what it takes for granted, and time."""

    def __init__(self, surveyor: Surveyor, holds: Fraction) -> None:
        self._surveyor, self._holds = surveyor, holds
        self._waits = Waits(surveyor)
        self._walkers: dict[str | None, tuple[PremiseWalker, AgeWalk]] = {}

    def of(self, survey: Survey) -> Iterator[Breach]:
        """The breaches of a procedure, for one variant."""
        plans, name, variant = survey.walker.plans, survey.procedure.id, survey.variant
        if variant not in self._walkers:
            self._walkers[variant] = PremiseWalker(survey.thing_walker), AgeWalk(self._surveyor.rig, plans)
        premises, ages = self._walkers[variant]
        alone = without_caller(survey.procedure, self._surveyor.procedures.values())
        if alone is not None:
            yield Breach(alone.kind, (), alone, "", None)
        for doubt in dict.fromkeys(one for entry, _ in survey.things for one in premises.doubts(name, False, entry)):
            way = "" if doubt.demand.fed else way_to(name, doubt, plans)
            yield Breach(doubt.demand.kind, _spots(name, doubt, plans), doubt.demand, way, None, variant=variant)
        for relied in ages.too_old(name, self._holds):
            spots = _spots(name, relied, plans)
            yield Breach("relied", spots, relied.demand, "", None, variant=variant, age=relied.age)
        for index, demand in self._waits.too_early(survey):
            spot = Spot(plans[name].procedure, plans[name].graph.steps[index])
            yield Breach("early", (spot,), demand, "", None, variant=variant)


def _of_survey(survey: Survey, surveyor: Surveyor) -> Iterator[Breach]:
    plans, name = survey.walker.plans, survey.procedure.id
    for circuit, walked in survey.circuits.items():
        for where, passage in walked:
            known = surveyor.rig.known(circuit, where.stuck)
            for hit in passage.hits:
                yield Breach(
                    kind=_kind(hit.demand, hit.state, known, surveyor.rig),
                    spots=_spots(name, hit, plans),
                    demand=hit.demand,
                    way=way_to(name, hit, plans),
                    word=word_of(hit.state, known, surveyor.rig),
                    lacks=lacks(hit.demand.level, hit.state, known, surveyor.rig),
                    out=_out(hit, known, surveyor.rig),
                    turns=_turns(where, hit.path, hit.demand, survey.walker),
                    variant=survey.variant,
                )
            yield from _of_ends(where, passage, survey, surveyor)
    for thing in dict.fromkeys(hit for _, passage in survey.things for hit in passage.hits):
        spots = _spots(name, thing, plans)
        turns = _choices(name, thing.path, plans)
        yield Breach(
            thing.demand.kind,
            spots,
            thing.demand,
            way_to(name, thing, plans),
            None,
            turns=turns,
            variant=survey.variant,
        )
    yield from _left(survey)


def _kind(demand: Demand, state: State, known: Known, rig: Rig) -> str:
    """Of what sort a need is that is not met; by itself stands what is proved but for half a connector."""
    return "half" if lacks_halves_only(demand.level, state, known, rig) else demand.kind


def _out(hit: Hit, known: Known, rig: Rig) -> tuple[str, ...]:
    """What may be out of its place when a circuit is made live."""
    if hit.demand.kind != "made live":
        return ()
    open_ = known.closed & ~hit.demand.spared & ~hit.state.on
    return tuple(name.removeprefix("temporary ") for name, bit in rig.things.items() if bit & open_)


def _turns(where: Where, path: Path, demand: Demand, walker: Walker) -> tuple[Turn, ...]:
    """The steps of a path where a choice was made, and the last one after which what is asked no longer holds."""
    scene, stages = walker.scene(where), walker.stages(where)
    steps = walker.plans[where.procedure].graph.steps
    state, undone = where.entry, -1
    for leg in path:
        before, state = state, walker.left_by(where, leg, state)
        if holds(demand.level, before, *scene) and not holds(demand.level, state, *scene):
            undone = leg.step
    return tuple(
        Turn(steps[leg.step], leg.exit if len(stages[leg.step].ways) > 1 else None, leg.step == undone)
        for leg in path
        if leg.step == undone or len(stages[leg.step].ways) > 1
    )


def _choices(name: str, path: Path, plans: Mapping[str, Plan]) -> tuple[Turn, ...]:
    graph = plans[name].graph
    return tuple(Turn(graph.steps[leg.step], leg.exit, False) for leg in path if len(graph.leaving[leg.step]) > 1)


def _of_ends(where: Where, passage: Passage, survey: Survey, surveyor: Surveyor) -> Iterator[Breach]:
    """The ends at which a circuit is less safe than the procedure says that it leaves it."""
    known, rig = surveyor.rig.known(where.circuit, where.stuck), surveyor.rig
    for end, states in passage.exits.items():
        at, word = declared(survey.procedure, end, where.circuit)
        level = LEVEL_OF[word]
        if level == "live" or all(is_as_said(level, state, known, rig) for state, _ in states):
            continue
        for state, path in survey.walker.exact(where).exits.get(end, ()):
            if not is_as_said(level, state, known, rig):
                demand = Demand("leaves", where.circuit, level, at, word)
                yield Breach(
                    kind=_kind(demand, state, known, rig),
                    spots=(),
                    demand=demand,
                    way=in_words(where.procedure, path, survey.walker.plans, end or "end"),
                    word=word_of(state, known, rig),
                    lacks=lacks(level, state, known, rig),
                    turns=_turns(where, path, demand, survey.walker),
                    ends=(end or "",),
                    variant=survey.variant,
                )
                break


def declared(procedure: Procedure, end: str | None, circuit: str) -> tuple[At, str]:
    """In which state an end says that it leaves a circuit, and where; as on entry where nothing is said."""
    conclusion = procedure.conclusions.get(end or "")
    if conclusion is not None and circuit in dict(conclusion.leaves):
        return (*conclusion.at, "leaves", circuit), dict(conclusion.leaves)[circuit]
    for key in ("leaves", "expects"):
        said = dict(getattr(procedure, key))
        if circuit in said:
            return (key, circuit), said[circuit]
    return ("title",), "live"


def _left(survey: Survey) -> Iterator[Breach]:
    """What is still off, open, loose or fitted at an end that does not say so."""
    procedure, things = survey.procedure, survey.thing_walker
    followed = things.followed
    seen: dict[str, Breach] = {}
    for entry, end, state in ((entry, end, state) for entry, one in survey.things for end, state in one.exits.items()):
        conclusion = procedure.conclusions.get(end or "")
        left = state.off & ~entry.off & union(followed.values())
        allowed = _allowed(procedure, conclusion, things.rig) if left else ()
        for thing, bit in followed.items() if left else ():
            if not left & bit or thing in allowed:
                continue
            if thing in seen:
                ends = dict.fromkeys((*seen[thing].ends, end or ""))
                seen[thing] = seen[thing]._replace(ends=tuple(ends))
                continue
            demand = ThingDemand(things.kind_left(thing), ("steps",), thing.split(" ", 1)[-1], thing, bit, "on")
            path, index = things.path_to_end(procedure.id, entry, end, demand)
            if not things.takes_out(procedure.id, index, bit):
                continue  # taken as out of its place where something was asked of it: that is told there
            last = things.plans[procedure.id].graph.steps[index]
            demand = demand._replace(at=(*last.at, last.action.key))
            way = in_words(procedure.id, path, things.plans, end or "end")
            seen[thing] = Breach(
                demand.kind, (Spot(procedure, last),), demand, way, None, ends=(end or "",), variant=survey.variant
            )
    yield from seen.values()


def _allowed(procedure: Procedure, conclusion: Conclusion | None, rig: Rig) -> frozenset[str]:
    """The things that an end may leave out of their place; a part that stays loose or off has no bond to be read."""
    names = conclusion.stays_off if conclusion is not None and conclusion.stays_off else procedure.stays_off
    screws = (rig.vehicle.fasteners[name].part for name in names if name in rig.vehicle.fasteners)
    bonds = (bond_thing(part) for part in (*names, *screws) if part is not None)
    return frozenset(way(name) for name in names for way in (str, point_thing, temporary_thing)) | frozenset(bonds)


def _spots(name: str, hit: Hit | ThingHit | Doubt | Relied, plans: Mapping[str, Plan]) -> tuple[Spot, ...]:
    plan = plans[name]
    step = plan.graph.steps[hit.step]
    here = Spot(plan.procedure, step)
    if hit.inner is None or not isinstance(step.action, Perform):
        return (here,)
    return (here, *_spots(step.action.procedure, hit.inner, plans))


def way_to(name: str, hit: Hit | ThingHit | Doubt, plans: Mapping[str, Plan], before: str = "") -> str:
    """The path to a need that is not met, in words: `1 → 2 → 5 below → 9`, steps of what is performed as `7.1`."""
    steps = plans[name].graph.steps
    legs = [*_legs(hit.path, steps, plans[name], before), f"{before}{steps[hit.step].number}"]
    action = steps[hit.step].action
    if hit.inner is not None and isinstance(action, Perform):
        legs.append(way_to(action.procedure, hit.inner, plans, f"{before}{steps[hit.step].number}."))
    return " → ".join(legs)


def in_words(name: str, path: Path, plans: Mapping[str, Plan], last: str) -> str:
    """A path to an end, in words."""
    return " → ".join([*_legs(path, plans[name].graph.steps, plans[name], ""), last])


def _legs(path: Path, steps: tuple[Step, ...], plan: Plan, before: str) -> list[str]:
    """The steps of a path, with the exit where a step has several; a long run without a choice is cut short."""
    found: list[str] = []
    run: list[str] = []
    for leg in path:
        number = f"{before}{steps[leg.step].number}"
        if len(plan.graph.leaving[leg.step]) > 1:
            found += [*_short(run), f"{number} {leg.exit}"]
            run = []
        else:
            run.append(number)
    return [*found, *_short(run)]


def _short(run: list[str]) -> list[str]:
    return run if len(run) < 5 else [run[0], "…", run[-1]]
