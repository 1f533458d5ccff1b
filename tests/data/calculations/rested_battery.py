"""Rested lead-acid batteries: each published set, point by point."""

from data.row import Row

_SETS = (
    ("rule of thumb", "several pages", "restated", ((100, 12.6), (75, 12.4), (50, 12.2), (25, 12.0), (0, 11.6))),
    ("magazine", "answer of a magazine", "restated", ((100, 12.66), (75, 12.45), (50, 12.30), (25, 12.15))),
    (
        "common table",
        "table of unknown origin",
        "from memory",
        ((100, 12.65), (75, 12.45), (50, 12.24), (25, 12.06), (0, 11.89)),
    ),
)

ROWS = (
    *(
        Row("charge_in_set", (volts, name), (charge, charge), source, certainty, 1e-9)
        for name, source, certainty, points in _SETS
        for charge, volts in points
    ),
    Row("charge_range", (12.4,), (66.6667, 75.0), "the three sets at 12.4 V", "computed", 1e-4),
    Row("charge_range", (12.15,), (25.0, 43.75), "the three sets at 12.15 V", "computed", 1e-9),
)
