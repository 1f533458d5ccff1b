"""Circuits walk together, and see only the steps that concern them; neither changes what is found."""

from collections.abc import Iterable, Iterator

from bayleaf.safety.passage import Passage
from bayleaf.safety.reach import Reach
from bayleaf.safety.rig import union
from bayleaf.safety.state import State
from bayleaf.safety.survey import Survey, Surveyor
from bayleaf.safety.transfer import Scene, after, settle
from bayleaf.safety.walk_joined import JoinedWalk
from oracle.judges import _surveyor
from oracle.make import make

MANUALS = 60
SEED = 5


def surveys() -> Iterator[tuple[Surveyor, Survey]]:
    """The walks through random manuals, about a third of them sound."""
    for index in range(MANUALS):
        case = make(SEED, index)
        surveyor = _surveyor(case.procedures, case.vehicle)
        for root in case.roots:
            yield from ((surveyor, survey) for survey in surveyor.surveys(root))


def test_circuits_that_walk_together_find_what_each_finds_alone() -> None:
    """A fault of one circuit, or a proof of it that failed, is none of another's."""
    compared, failed = 0, 0
    for _, survey in surveys():
        places = [where for walked in survey.every_circuit.values() for where, _ in walked]
        if len(places) > 1:
            together = JoinedWalk(survey.walker, places).run()

            assert together == tuple(JoinedWalk(survey.walker, (where,)).run()[0] for where in places)
            compared, failed = compared + len(places), failed + together.count(None)
    assert compared > 100
    assert 10 < failed < compared


def states_of(scene: Scene, passages: Iterable[Passage]) -> set[State]:
    """Every state that the walks come to, and the safest one: by itself, and joined to all that it can be joined to."""
    known, rig = scene
    mates = union(1 << rig.circuits[name] for name in rig.circuits if rig.known(name).mates)
    every = union(rig.points.values())
    safest = State(every, every, known.enough, known.whole_proof, known.things, 0)
    found = {state for passage in passages for states in passage.before for state in states}
    return {*found, settle(safest, scene), settle(safest._replace(joined=(mates,) if known.mates else ()), scene)}


def about(state: State, scene: Scene) -> State:
    """A state with the points that matter for its circuit, and no other."""
    points = scene.rig.points_of(scene.known, state.joined) | scene.rig.mode_off
    return state._replace(open=state.open & points, secured=state.secured & points)


def test_what_an_effect_does_not_reach_it_does_not_change() -> None:
    """An effect that is left out for a circuit leaves each of its states as it is."""
    tried = 0
    for surveyor, survey in surveys():
        reach, effects = Reach(surveyor.rig), []
        for name in (survey.procedure.id, *surveyor.called(survey.procedure.id)):
            effects += [one for edge in surveyor.graph(name).edges for one in edge.effects]
        reached = [(effect, reach.of(effect)) for effect in dict.fromkeys(effects)]
        for circuit, walked in survey.every_circuit.items():
            scene = Scene(surveyor.rig.known(circuit), surveyor.rig)
            for state in states_of(scene, (passage for _, passage in walked)):
                for effect, circuits in reached:
                    if circuit not in circuits:
                        assert about(after(state, (effect,), scene), scene) == about(state, scene), (circuit, effect)
                        tried += 1
    assert tried > 1_000
