"""Orders of tightening."""

from data.row import Row

_PCC = "ASME PCC-1, table 3, cross pattern, as written down in open code"
_PASSES = "ASME PCC-1, table 1"

#: Positions, clockwise from 1.
CROSS = {
    4: [1, 3, 2, 4],
    8: [1, 5, 3, 7, 2, 6, 4, 8],
    12: [1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12],
    16: [1, 9, 5, 13, 3, 11, 7, 15, 2, 10, 6, 14, 4, 12, 8, 16],
    20: [1, 11, 6, 16, 3, 13, 8, 18, 5, 15, 10, 20, 2, 12, 7, 17, 4, 14, 9, 19],
}
CROSS_24 = [1, 13, 7, 19, 4, 16, 10, 22, 2, 14, 8, 20, 5, 17, 11, 23, 3, 15, 9, 21, 6, 18, 12, 24]

ROWS = (
    *(Row("cross_order", (bolts,), order, _PCC, "restated") for bolts, order in CROSS.items()),
    Row("cross_order", (24,), CROSS_24, "ASME PCC-1, table 3", "from memory"),
    Row("cross_order", (5,), [1, 3, 5, 2, 4], "star of a wheel with five nuts, training pages", "restated"),
    Row("cross_order", (6,), [1, 4, 3, 6, 2, 5], "pairs of opposite bolts, own rule", "computed"),
    Row("in_turn", (6,), [1, 2, 3, 4, 5, 6], _PASSES + ", pass 4", "restated"),
    Row("ranks", (CROSS[8],), [1, 5, 3, 7, 2, 6, 4, 8], "the other style in print, 8 bolts", "from memory"),
    Row("middle_out", (1, 5, False), [3, 2, 4, 1, 5], "from the stiffest part to the free edge", "computed"),
    Row("middle_out", (3, 3, False), [5, 2, 8, 4, 6, 1, 9, 3, 7], "from the middle outwards", "computed"),
)
