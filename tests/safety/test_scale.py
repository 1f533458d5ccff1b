"""What the walk costs grows with steps and circuits, and with nothing else. Counted, never timed."""

from itertools import pairwise

import pytest
from safety.scale import CIRCUITS, KINDS, chain, cost, long


@pytest.mark.parametrize("kind", KINDS)
def test_twice_the_steps_cost_twice_as_much(kind: str) -> None:
    """With a branch in eight steps, twenty circuits and six sources that are each taken off in one of two ways."""
    costs = [cost({"van/long": long(steps, kind)}, "van/long").states / steps / CIRCUITS for steps in (125, 500, 2000)]

    assert all(longer < 1.5 * shorter for shorter, longer in pairwise(costs))


def test_the_budget_is_at_work() -> None:
    """With that many ways to isolate, one by one they would be two to the power of six at a step."""
    found = cost({"van/long": long(500, "manifold")}, "van/long")

    assert found.exact > found.joined / 10
    assert found.given_up > 0


@pytest.mark.parametrize("length", [10, 60])
def test_a_chain_that_doubles_at_each_link_does_not(length: int) -> None:
    """Each procedure performs the next one twice; the last one touches something live."""
    found = cost(chain(length), "van/part-0")

    assert found.states < 100 * length * CIRCUITS
