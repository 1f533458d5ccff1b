"""Ranges of supply voltage."""

from math import inf

from data.row import Row

_CODES = "ISO 16750-2:2012, tables 1 and 2"
_48 = "VDA 450 of 2023, in line with ISO 21780:2020"
_RANGES = (
    ("12 V", "A", 6, 16), ("12 V", "B", 8, 16), ("12 V", "C", 9, 16), ("12 V", "D", 10.5, 16),
    ("24 V", "E", 10, 32), ("24 V", "F", 16, 32), ("24 V", "G", 22, 32), ("24 V", "H", 18, 32),
)  # fmt: skip
#: Volts, seconds, at both ends of each range.
_TIMES = (
    (36, inf), (52, inf), (52.01, 120), (54, 120), (54.01, 0.640), (58, 0.640), (58.01, 0.040), (69.99, 0.040),
    (70, 0), (100, 0), (35.99, 2), (31, 2), (30.99, 100e-6), (0, 100e-6),
)  # fmt: skip

ROWS = (
    *(Row("supply_range", row[:2], row[2:], _CODES, "from memory") for row in _RANGES),
    *(Row("certainty_of_range", row[:2], "from memory", _CODES, "from memory") for row in _RANGES),
    Row("supply_range", ("48 V", "unlimited"), (36, 52), _48, "restated"),
    Row("certainty_of_range", ("48 V", "unlimited"), "restated", _48, "restated"),
    *(Row("time_allowed_48", (volts,), seconds, _48, "restated") for volts, seconds in _TIMES),
)
