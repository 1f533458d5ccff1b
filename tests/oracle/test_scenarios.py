"""Every judge says of the scenarios what was written down by hand."""

import pytest
from oracle.judges import JUDGES
from oracle.quotas import Judging
from oracle.scenarios import SCENARIOS, Scenario


@pytest.mark.parametrize("scenario", SCENARIOS, ids=lambda one: one.name)
@pytest.mark.parametrize("judging", JUDGES.values(), ids=JUDGES.keys())
def test_a_scenario_is_judged_as_by_hand(judging: Judging, scenario: Scenario) -> None:
    """Nothing is missed, and nothing is found that the rules allow."""
    procedures, vehicle = scenario.read()
    assert sorted(scenario.findings) == sorted(judging("van/job", procedures, vehicle))


def test_there_are_enough_scenarios_and_each_is_another() -> None:
    """At least twenty-five, each with its source; some are sound."""
    assert len(SCENARIOS) >= 25
    assert len({one.name for one in SCENARIOS}) == len(SCENARIOS)
    assert all(one.source for one in SCENARIOS)
    assert sum(not one.expected for one in SCENARIOS) >= 8
