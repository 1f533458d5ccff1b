"""Order of tightening: which bolt after which, and in how many passes.

Bolts are numbered clockwise, from 1; a cover with rows of bolts row by row, from the top left. An order names
positions. The other style in print writes the rank of each bolt beside it: for 4, 8 and 16 bolts both lists look the
same, for 12, 20 and others they differ.

Cross: from 4 bolts on, where the number can be divided by four, groups of four of which each bolt lies opposite the one
before, or a quarter turn from it. Other even numbers: pairs of opposite bolts, each pair nearly a quarter turn from the
one before. Odd numbers: a star, each bolt the nearest to opposite the one before.

Rows, or the edge of a cover that is not round: from the middle outwards, each bolt followed by the one opposite.

Source: ASME PCC-1, table 3 (4 to 20 bolts; open code, confirmed for 4, 8 and 12) and table 1 (passes), as restated; 24
bolts from memory; other numbers by the rule above. From the middle outwards: what RCSC 2004, 8.2.1, asks of plates, as
a steel institute explains it, carried over to covers.
"""

from .checked import above_zero
from .formula import Formula, Input, Output

#: The first bolt of each group of four, where it is not the odd ones and then the even ones. Source: ASME PCC-1, table
#: 3, restated (12); from memory (24).
GROUP_STARTS: dict[str, list[int]] = {"12": [1, 2, 3], "24": [1, 4, 2, 5, 3, 6]}
#: Most bolts that an order is made for.
MOST = 200


def cross_order(bolts: float) -> list[int]:
    """Positions in the order of a cross pattern; a star for an odd number."""
    count = _count("number of bolts", bolts)
    if count % 4 == 0:
        quarter = count // 4
        starts = [one for one in range(1, quarter + 1) if one % 2 == 1]
        starts.extend([one for one in range(1, quarter + 1) if one % 2 == 0])
        if str(count) in GROUP_STARTS:
            starts = GROUP_STARTS[str(count)]
        order = []
        for start in starts:
            order.extend([start, start + 2 * quarter, start + quarter, start + 3 * quarter])
        return order
    if count % 2 == 0:
        half = count // 2
        pairs = [(one * ((half + 1) // 2)) % half + 1 for one in range(half)]
        order = []
        for first in pairs:
            order.extend([first, first + half])
        return order
    return [(one * ((count - 1) // 2)) % count + 1 for one in range(count)] if count > 1 else [1]


def in_turn(bolts: float) -> list[int]:
    """Positions one after the other, clockwise: the last pass, until no nut moves."""
    return list(range(1, _count("number of bolts", bolts) + 1))


def ranks(order: list[int]) -> list[int]:
    """What the other style writes beside the bolts, clockwise: for each position, when its turn comes."""
    positions = list(range(1, len(order) + 1))
    if len([one for one in positions if one not in order]) > 0:
        raise ValueError("an order has every bolt once")
    return [order.index(one) + 1 for one in positions]


def middle_out(rows: float, columns: float, edge_only: bool) -> list[int]:
    """Positions from the middle outwards: of all bolts, row by row; or of those along the edge, clockwise.

    Both are counted from the top left. Of bolts as far from the middle the one with the lower number comes first.
    """
    down, across = _count("number of rows", rows), _count("number of columns", columns)
    if down * across > MOST:
        raise ValueError(f"an order is made for up to {MOST} bolts")
    places = _edge(down, across) if edge_only else [[row, column] for row in range(down) for column in range(across)]
    left = sorted(range(len(places)), key=lambda one: _distance(places[one], down, across) * MOST + one)
    order = []
    while len(left) > 0:
        first = left[0]
        opposite = places.index([down - 1 - places[first][0], across - 1 - places[first][1]])
        taken = [first] if opposite == first else [first, opposite]
        order.extend([one + 1 for one in taken])
        left = [one for one in left if one not in taken]
    return order


def passes(torque: float) -> list[tuple[str, float, float, str]]:
    """Passes of a gasketed joint: name, torque from and to (N·m), and the order of the pass."""
    above_zero("torque", torque)
    fifth = 0.2 * torque
    return [
        ("install, hand tight before", min(15.0, fifth), min(30.0, fifth), "cross"),
        ("pass 1", 0.2 * torque, 0.3 * torque, "cross"),
        ("pass 2", 0.5 * torque, 0.7 * torque, "cross"),
        ("pass 3", torque, torque, "cross"),
        ("pass 4", torque, torque, "in turn, clockwise, until no nut moves"),
        ("pass 5, if wanted, 4 h later or more", torque, torque, "in turn, clockwise, until no nut moves"),
    ]


def _count(name: str, value: float) -> int:
    above_zero(name, value)
    if int(value) != value or value > MOST:
        raise ValueError(f"the {name} is a whole number from 1 to {MOST}")
    return int(value)


def _edge(down: int, across: int) -> list[list[int]]:
    """Row and column of the places along the edge, clockwise from the top left."""
    if down == 1 or across == 1:
        return [[row, column] for row in range(down) for column in range(across)]
    top = [[0, column] for column in range(across)]
    right = [[row, across - 1] for row in range(1, down)]
    bottom = [[down - 1, across - 2 - column] for column in range(across - 1)]
    left = [[down - 2 - row, 0] for row in range(down - 2)]
    return top + right + bottom + left


def _distance(place: list[int], down: int, across: int) -> int:
    """Four times the square of the distance from the middle, in steps of the grid."""
    return (2 * place[0] - down + 1) ** 2 + (2 * place[1] - across + 1) ** 2


def _written(order: list[int]) -> str:
    return ", ".join([str(one) for one in order])


def _order(bolts: float, pattern: str) -> tuple[str, str, str]:
    order = in_turn(bolts) if pattern == "in turn" else cross_order(bolts)
    said = "each bolt after its neighbour"
    if pattern != "in turn":
        odd = "star: each bolt the nearest to opposite the one before"
        even = "groups of four" if len(order) % 4 == 0 else "pairs of opposite bolts"
        said = odd if len(order) % 2 == 1 else even
    return _written(order), _written(ranks(order)), said


def _cover(rows: float, columns: float, bolts: str) -> tuple[str, str]:
    order = middle_out(rows, columns, bolts == "along the edge")
    return _written(order), _written(ranks(order))


def _passes(torque: float) -> tuple[str, str, str, str, str, str]:
    one = [f"{low:.1f} to {high:.1f} N·m, {order}" for _, low, high, order in passes(torque)]
    return one[0], one[1], one[2], one[3], one[4], one[5]


_ORDER_SOURCE = "ASME PCC-1, tables 1 and 3, as restated; other numbers of bolts by the same rule"

FORMULAS = (
    Formula(
        "tightening order",
        "Order of tightening on a circle",
        (Input("bolts", "Number of bolts"), Input("pattern", "Pattern", "", "cross", ("cross", "in turn"))),
        (Output("Positions in order"), Output("Rank to write beside each bolt, clockwise"), Output("Pattern")),
        _order,
        "opposite, then a quarter turn",
        "Bolts evenly on a circle, numbered clockwise from 1. The maker's order goes before this one.",
        _ORDER_SOURCE,
        {"bolts": "12"},
    ),
    Formula(
        "cover order",
        "Order of tightening of a rectangular cover",
        (
            Input("rows", "Rows"),
            Input("columns", "Columns"),
            Input("bolts", "Where the bolts are", "", "along the edge", ("along the edge", "all over")),
        ),
        (Output("Positions in order"), Output("Rank to write beside each bolt")),
        _cover,
        "from the middle outwards, each bolt followed by the one opposite",
        "Numbered from the top left: row by row, or clockwise along the edge. The maker's order goes before this one.",
        "RCSC 2004, 8.2.1, as a steel institute explains it, carried over to covers",
        {"rows": "4", "columns": "6"},
    ),
    Formula(
        "tightening passes",
        "Passes of a joint with a gasket",
        (Input("torque", "Torque in the end", "N·m"),),
        (
            Output("Install, hand tight before"),
            Output("Pass 1"),
            Output("Pass 2"),
            Output("Pass 3"),
            Output("Pass 4"),
            Output("Pass 5, if wanted, 4 h later or more"),
        ),
        _passes,
        "15 to 30 N·m and at most 20 %; 20 to 30 %; 50 to 70 %; 100 %; 100 % in turn",
        "Flanges with a gasket. The maker's steps go before these.",
        _ORDER_SOURCE,
        {"torque": "60 N·m"},
    ),
)
