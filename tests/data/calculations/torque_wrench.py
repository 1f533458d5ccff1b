"""Torque wrenches."""

from data.row import Row

_ISO = "ISO 6789:2003, tool maker's extract; unchanged in ISO 6789-1:2017 (from memory)"
_POINTS = "ISO 6789-1:2017, tool maker's article and a calibration laboratory's page"
_LEVER = "T · L / (L + E · cos θ)"

ROWS = (
    Row("permitted_deviation", (5,), 6, _ISO, "restated"),
    Row("permitted_deviation", (10,), 6, _ISO, "restated"),
    Row("permitted_deviation", (10.01,), 4, _ISO, "restated"),
    Row("permitted_deviation", (100,), 4, _ISO, "restated"),
    Row("test_points", (10, 100), (10, 60, 100), _POINTS, "restated"),
    Row("coarsest_step", (100, 100), 1.0, "tool maker's article: a quarter of the deviation", "restated"),
    Row("coarsest_step", (8, 8), 0.12, "tool maker's article: a quarter of the deviation", "restated"),
    Row("setting_for", (80, 400, 50, 0), 71.11, _LEVER + "; page of a calculator prints 71.1", "restated", share=1e-3),
    Row("setting_for", (80, 400, 50, 90), 80.00, _LEVER + "; across, nothing changes", "restated", share=1e-3),
    Row("setting_for", (50, 300, 150, 0), 33.33, _LEVER, "restated", share=1e-3),
    Row("setting_for", (100, 350, 75, 0), 82.35, _LEVER, "computed", share=1e-3),
    Row("torque_at_nut", (100, 500, 150, 0), 130, _LEVER + "; not corrected", "restated", share=1e-3),
    Row("in_range", (10, 10, 100), True, _POINTS, "restated"),
    Row("in_range", (9.9, 10, 100), False, _POINTS, "restated"),
    Row("in_range", (100.1, 10, 100), False, _POINTS, "restated"),
)
