"""Circuits walk together, and see only the steps that concern them; neither changes what is found."""

from collections.abc import Iterator

from bayleaf.safety.reach import Reach
from bayleaf.safety.survey import Survey, Surveyor
from bayleaf.safety.transfer import after
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


def test_what_an_effect_does_not_reach_it_does_not_change() -> None:
    """Every state that the walks come to, after every effect that is left out for its circuit, is the same as before."""
    tried = 0
    for surveyor, survey in surveys():
        reach, effects = Reach(surveyor.rig), []
        for name in (survey.procedure.id, *surveyor.called(survey.procedure.id)):
            effects += [one for edge in surveyor.graph(name).edges for one in edge.effects]
        reached = [(effect, reach.of(effect)) for effect in effects]
        for circuit, walked in survey.every_circuit.items():
            left_out = [effect for effect, circuits in reached if circuit not in circuits]
            for where, passage in walked:
                scene = survey.walker.scene(where)
                for state in {state for states in passage.before for state in states}:
                    for effect in left_out:
                        own = after(state, (effect,), scene)
                        points = scene.known.points | scene.rig.mode_off

                        assert own._replace(open=own.open & points, secured=own.secured & points) == state._replace(
                            open=state.open & points, secured=state.secured & points
                        ), (circuit, effect)
                        tried += 1
    assert tried > 1_000
