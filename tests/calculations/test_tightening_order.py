"""Orders of tightening: laws. The figures stand in data/calculations/tightening_order.py."""

from itertools import pairwise

import pytest
from bayleaf.calculations import tightening_order
from bayleaf.calculations.tightening_order import cross_order, in_turn, middle_out, passes, ranks
from hypothesis import given
from hypothesis import strategies as st

COUNT = st.integers(1, 200)


def degrees(bolts: int, one: int, other: int) -> float:
    """The angle between two positions on a circle, 0° to 180°."""
    steps = abs(one - other) % bolts
    return 360 * min(steps, bolts - steps) / bolts


@given(COUNT)
def test_every_bolt_has_its_turn_once(bolts: int) -> None:
    """In any pattern, and the first is bolt 1."""
    for order in (cross_order(bolts), in_turn(bolts)):
        assert list(range(1, bolts + 1)) == sorted(order)
        assert 1 == order[0]


@given(st.integers(1, 50))
def test_groups_of_four_lie_opposite_and_a_quarter_turn_apart(groups: int) -> None:
    """Where the number can be divided by four: 180°, 90°, 180° within each group."""
    bolts = 4 * groups
    order = cross_order(bolts)
    for first in range(0, bolts, 4):
        assert [180, 90, 180] == [degrees(bolts, *both) for both in pairwise(order[first : first + 4])]


@given(st.integers(1, 49))
def test_other_even_numbers_go_in_pairs_that_lie_opposite(half: int) -> None:
    """Each pair at least 60° from the one before, and from 10 bolts on 72° or more: as near a quarter turn as it goes."""
    bolts = 4 * half + 2
    order = cross_order(bolts)
    pairs = [order[first : first + 2] for first in range(0, bolts, 2)]

    assert {180} == {degrees(bolts, *pair) for pair in pairs}
    for one, other in pairwise(pairs):
        nearest = min(degrees(bolts, one[0], other[0]), degrees(bolts, one[0], other[1]))
        assert nearest >= (60 if bolts == 6 else 72)


@given(st.integers(1, 99))
def test_an_odd_number_makes_a_star(half: int) -> None:
    """Each bolt is as near to opposite the one before as an odd number lets it."""
    bolts = 2 * half + 1

    for both in pairwise(cross_order(bolts)):
        assert pytest.approx(180 - 180 / bolts) == degrees(bolts, *both)


@given(COUNT)
def test_ranks_and_order_undo_each_other(bolts: int) -> None:
    """The rank beside a bolt says when its turn comes."""
    order = cross_order(bolts)

    assert order == ranks(ranks(order))
    assert all(rank == order.index(position) + 1 for position, rank in enumerate(ranks(order), start=1))


@given(st.integers(1, 12), st.integers(1, 16), st.booleans())
def test_a_cover_is_tightened_from_the_middle_outwards(rows: int, columns: int, edge: bool) -> None:
    """Every bolt once; never nearer to the middle than the one before; each pair opposite."""
    order = middle_out(rows, columns, edge)
    places = clockwise(rows, columns) if edge else [(row, column) for row in range(rows) for column in range(columns)]
    away = [abs(complex(places[one - 1][0] - (rows - 1) / 2, places[one - 1][1] - (columns - 1) / 2)) for one in order]

    assert list(range(1, len(places) + 1)) == sorted(order)
    assert sorted(away) == pytest.approx(away)
    alone = len(order) % 2
    for first, second in zip(order[alone::2], order[alone + 1 :: 2], strict=True):
        (row, column), other = places[first - 1], places[second - 1]
        assert (rows - 1 - row, columns - 1 - column) == other


def clockwise(rows: int, columns: int) -> list[tuple[int, int]]:
    """Places along the edge, by walking round: turn right where the next place is outside or was there before."""
    seen, place, step = [], (0, 0), (0, 1)
    while place not in seen:
        seen.append(place)
        ahead = (place[0] + step[0], place[1] + step[1])
        if not (0 <= ahead[0] < rows and 0 <= ahead[1] < columns):
            step = (step[1], -step[0])
            ahead = (place[0] + step[0], place[1] + step[1])
        if not (0 <= ahead[0] < rows and 0 <= ahead[1] < columns):
            break
        place = ahead
    return seen


def test_a_long_cover_begins_in_the_middle_of_its_long_sides() -> None:
    """3 rows and 9 columns, 20 bolts along the edge: the corners, 1, 9, 11 and 19, come last."""
    order = middle_out(3, 9, True)

    assert [5, 15] == order[:2]
    assert {1, 9, 11, 19} == set(order[-4:])


def test_passes_of_a_gasket() -> None:
    """100 N·m: 15 to 20 N·m to begin with, then 20 to 30, 50 to 70, 100, and 100 in turn."""
    given = passes(100)

    assert [(15, 20), (20, 30), (50, 70), (100, 100), (100, 100), (100, 100)] == [
        (pytest.approx(low), pytest.approx(high)) for _, low, high, _ in given
    ]
    assert ["cross"] * 4 == [pattern for _, _, _, pattern in given[:4]]
    assert all("in turn" in pattern for _, _, _, pattern in given[4:])


@given(st.floats(0.1, 5000))
def test_no_first_pass_is_above_a_fifth_or_above_30_newton_metres(torque: float) -> None:
    """And no pass turns back."""
    given_passes = passes(torque)
    highs = [high for _, _, high, _ in given_passes]

    assert highs[0] <= min(30, 0.2 * torque)
    assert sorted(highs) == highs
    assert all(low <= high for _, low, high, _ in given_passes)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: cross_order(0), "number of bolts is 0"),
        (lambda: cross_order(4.5), "whole number from 1 to 200"),
        (lambda: cross_order(201), "whole number from 1 to 200"),
        (lambda: cross_order(float("nan")), "number of bolts is nan"),
        (lambda: cross_order(float("inf")), "has no end"),
        (lambda: in_turn(-1), "number of bolts is -1"),
        (lambda: middle_out(0, 3, True), "number of rows is 0"),
        (lambda: middle_out(3, 2.5, True), "number of columns is a whole number"),
        (lambda: middle_out(20, 20, False), "up to 200 bolts"),
        (lambda: ranks([1, 1, 3]), "every bolt once"),
        (lambda: ranks([2, 3, 4]), "every bolt once"),
        (lambda: passes(0), "torque is 0"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """No half bolts."""
    with pytest.raises(ValueError, match=named):
        call()


def test_the_calculator_names_its_pattern() -> None:
    """Groups of four, pairs, a star, or none."""
    order = tightening_order.FORMULAS[0].function

    assert ("1, 3, 2, 4", "1, 3, 2, 4", "groups of four") == order(4.0, "cross")
    assert "pairs of opposite bolts" == order(6.0, "cross")[2]
    assert "star: each bolt the nearest to opposite the one before" == order(5.0, "cross")[2]
    assert ("1, 2, 3", "1, 2, 3", "each bolt after its neighbour") == order(3.0, "in turn")
