"""The short form of the campaign, and that the campaign is not blind."""

from collections.abc import Callable, Mapping

import pytest
from bayleaf.graph import effects as e
from bayleaf.model.procedure import Procedure
from bayleaf.model.vehicle import Vehicle
from oracle.compare import run
from oracle.events import Look, State
from oracle.judge import Found, Judge, judge
from oracle.judges import joined_only, walk
from oracle.make import make
from oracle.quotas import is_for_one_caller

COUNT, SEED = 400, 1


def test_the_short_campaign() -> None:
    """Walk and oracle agree on every random manual, and there are enough of every kind."""
    report = run(COUNT, SEED, walk, joined_only)
    assert report.is_good, str(report)


def test_the_same_seed_makes_the_same_manuals() -> None:
    """A difference can be looked at again by its index."""
    assert make(7, 3) == make(7, 3)
    assert make(7, 3) != make(7, 4)


def without_bound(root: str, procedures: Mapping[str, Procedure], vehicle: Vehicle) -> frozenset[Found]:
    """The oracle with loops walked as often as one likes."""
    return judge(root, procedures, vehicle, visits=None)


def test_two_visits_show_as_much_as_any_number() -> None:
    """On these manuals no third round finds anything new."""
    report = run(100, 2, without_bound)
    assert [] == report.differing
    assert [] == report.longer


Event = Callable[[Look, State, e.Effect, object], State]


def _deaf_to(kind: type) -> Callable[[Event], Event]:
    return lambda right: (
        lambda look, state, effect, step: state if isinstance(effect, kind) else right(look, state, effect, step)
    )


def _keeps(field: str, kind: type) -> Callable[[Event], Event]:
    def wrong(right: Event) -> Event:
        def event(look: Look, state: State, effect: e.Effect, step: object) -> State:
            after = right(look, state, effect, step)
            return after._replace(**{field: getattr(state, field)}) if isinstance(effect, kind) else after

        return event

    return wrong


@pytest.mark.parametrize(
    "planted",
    [
        _deaf_to(e.Interrupted), _deaf_to(e.Turned), _deaf_to(e.TestVoltageApplied), _deaf_to(e.Closed),
        _deaf_to(e.Released), _deaf_to(e.Energised), _deaf_to(e.FoundNotDead), _deaf_to(e.ProofLost), _keeps("proved", e.ModeSet),
        _keeps("charged", e.TestVoltageApplied), _deaf_to(e.Plugged), _deaf_to(e.Waited),
    ],
)  # fmt: skip
def test_a_planted_mistake_is_found(planted: Callable[[Event], Event], monkeypatch: pytest.MonkeyPatch) -> None:
    """A judge that does not know what one event changes differs, and the smallest manual tells where."""
    right = Look._event

    def wrong(root: str, procedures: Mapping[str, Procedure], vehicle: Vehicle) -> frozenset[Found]:
        with monkeypatch.context() as patch:
            patch.setattr(Look, "_event", planted(right))
            return Judge(procedures, vehicle).judge(root)

    report = run(400, 1, wrong, enough=1)
    assert report.differing
    assert report.smallest is not None and report.smallest.case.size < 12
    assert "procedure van/" in str(report)


def test_a_judge_that_goes_no_way_back_is_found() -> None:
    """Back edges are in the manuals for this."""
    report = run(100, 1, lambda root, procedures, vehicle: judge(root, procedures, vehicle, visits=1))
    assert len(report.differing) >= 10


def test_a_finding_for_one_caller_is_told_from_one_for_all() -> None:
    """Both kinds are among the manuals."""
    cases = [make(1, index) for index in range(60)]
    kinds = {
        is_for_one_caller(case, {root: judge(root, case.procedures, case.vehicle) for root in case.roots})
        for case in cases
    }
    assert {True, False} == kinds
