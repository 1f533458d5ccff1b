"""The order of bolts: each has its turn, opposite ones follow each other, nothing covers another thing."""

from itertools import pairwise
from math import hypot

import pytest
from bayleaf.pages.drawings.bolt_order import CROSS, FEWEST, MIDDLE, MOST, TURN, Bolts, bolt_order, order_words, turns
from bayleaf.pages.drawings.shapes import Drawing
from drawing_kit import faults_of, texts


def drawn(bolts: Bolts) -> Drawing:
    """A drawing that there is."""
    found = bolt_order(bolts)
    assert found is not None
    return found


def middles(drawing: Drawing) -> dict[int, tuple[float, float]]:
    """Where the bolt of each turn stands."""
    return {
        int(box.of.removeprefix("bolt:")): (box.rect.x + box.rect.width / 2, box.rect.y + box.rect.height / 2)
        for box in drawing.boxes
    }


@pytest.mark.parametrize("order", [CROSS, MIDDLE, TURN])
def test_every_bolt_has_its_turn_and_none_lies_on_another(order: str) -> None:
    """From 3 to 60 bolts, on a phone."""
    for count in range(FEWEST, MOST + 1):
        bolts = Bolts(order, count, 2, "6 N·m")
        drawing = drawn(bolts)
        assert [] == faults_of(drawing)
        assert list(range(1, count + 1)) == sorted(middles(drawing))
        assert all(str(turn) == texts(drawing, f"bolt:{turn}") for turn in range(1, count + 1))


@pytest.mark.parametrize(
    ("order", "count", "expected"),
    [
        # ASME PCC-1, table 3, as restated: positions 1 7 4 10 2 8 5 11 3 9 6 12; here the turn of each position
        (CROSS, 12, [1, 5, 9, 3, 7, 11, 2, 6, 10, 4, 8, 12]),
        (CROSS, 4, [1, 3, 2, 4]),
        (TURN, 5, [1, 2, 3, 4, 5]),
        # by the rule of RCSC 2004, 8.2.1: the middle pair of each row before its ends
        (MIDDLE, 8, [5, 1, 3, 7, 8, 4, 2, 6]),
        (MIDDLE, 3, [2, 1, 3]),
    ],
)
def test_turns_in_the_order_in_which_they_are_drawn(order: str, count: int, expected: list[int]) -> None:
    """Clockwise, or row by row."""
    assert expected == turns(Bolts(order, count, None, ""))


@pytest.mark.parametrize("count", [4, 6, 12, 20, 24])
def test_crosswise_the_second_bolt_is_opposite_the_first(count: int) -> None:
    """And so on by pairs: they lie farther apart than any two neighbours in turn of an order round the ring."""
    found = middles(drawn(Bolts(CROSS, count, None, "")))
    width = max(x for x, _ in found.values()) - min(x for x, _ in found.values())
    for turn in range(1, count, 2):
        (ax, ay), (bx, by) = found[turn], found[turn + 1]
        assert hypot(ax - bx, ay - by) == pytest.approx(width, rel=0.16)  # a ring of 6 is 0.87 times as wide as high


def test_in_turn_neighbours_follow_each_other() -> None:
    """Round the ring."""
    found = middles(drawn(Bolts(TURN, 8, None, "")))
    steps = [hypot(found[a][0] - found[b][0], found[a][1] - found[b][1]) for a, b in pairwise(sorted(found))]
    assert steps == pytest.approx([steps[0]] * 7)


@pytest.mark.parametrize(("count", "order"), [(2, CROSS), (1, TURN), (61, CROSS), (6, "as marked")])
def test_nothing_is_drawn_where_an_order_has_no_use_or_is_not_known(count: int, order: str) -> None:
    """Two bolts, more than a drawing holds, an order of another kind."""
    assert bolt_order(Bolts(order, count, None, "")) is None


def test_passes_are_told_as_far_as_they_are_known() -> None:
    """Two passes are told by number; the shares of a joint with a gasket come from the table, for three."""
    two, three = (texts(drawn(Bolts(CROSS, 12, passes, "6 N·m")), "words") for passes in (2, 3))

    assert "In 2 passes, each in this order, the last with 6 N·m." in two and "%" not in two
    assert "20 to 30 %, then 50 to 70 %, then all of the torque (ASME PCC-1, table 1, as restated)" in three
    assert "passes" not in texts(drawn(Bolts(CROSS, 12, None, "6 N·m")), "words")


def test_the_text_alternative_says_the_same() -> None:
    """The turns and the sentences."""
    words = order_words(Bolts(CROSS, 4, 2, "6 N·m"))
    assert words.startswith("4 bolts; their turns, clockwise: 1, 3, 2, 4. Crosswise: the number in a bolt is its turn.")
    assert "In 2 passes" in words
