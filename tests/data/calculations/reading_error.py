"""Errors of readings."""

from math import sqrt

from data.row import Row

_ARTICLE = "article of a meter maker"
_PAGE = "page of a meter maker"
_FORMULA = "formula of GUM 4.3.7"

#: reading, percent, digits, resolution; greatest error
_ERRORS = (
    (100.0, 0.8, 2, 0.1, 1.000, _ARTICLE, "restated"),
    (100.0, 1.0, 2, 0.1, 1.200, _ARTICLE, "restated"),
    (2.000, 0.5, 3, 0.001, 0.0130, _ARTICLE, "restated"),
    (2.000, 0.08, 2, 0.001, 0.0036, _PAGE, "restated"),
    (5.02, 2.0, 3, 0.01, 0.1304, "page of a forum, recomputed (it prints a second, wrong value)", "restated"),
    (12.60, 0.5, 2, 0.01, 0.0830, _FORMULA, "computed"),
    (60.0, 0.5, 2, 0.1, 0.500, _FORMULA, "computed"),
    (400.0, 0.5, 2, 0.1, 2.200, _FORMULA, "computed"),
)

ROWS = (
    *(Row("greatest_error", given[:4], given[4], given[5], given[6], 1e-12) for given in _ERRORS),
    Row("standard_uncertainty", (1.0,), 0.5774, _ARTICLE, "restated", 5e-5),
    Row("standard_uncertainty", (1.2,), 0.6928, _ARTICLE, "restated", 5e-5),
    Row("standard_uncertainty", (0.0130,), 0.00751, _ARTICLE, "restated", 5e-6),
    Row("standard_uncertainty", (0.0036,), 0.00208, _PAGE, "restated", 5e-6),
    Row("standard_uncertainty", (0.1304,), 0.07529, _FORMULA, "computed", 5e-6),
    Row("standard_uncertainty", (0.083,), 0.0479, _FORMULA, "computed", 5e-5),
    Row("standard_uncertainty", (0.5,), 0.2887, _FORMULA, "computed", 5e-5),
    Row("standard_uncertainty", (2.2,), 1.2702, _FORMULA, "computed", 5e-5),
    Row("expanded_uncertainty", (1.0,), 1.1547, _ARTICLE, "restated", 5e-5),
    Row("expanded_uncertainty", (1.2,), 1.3856, _ARTICLE, "restated", 5e-5),
    Row("expanded_uncertainty", (0.0130,), 0.01501, _ARTICLE, "restated", 5e-6),
    Row("expanded_uncertainty", (0.0036,), 0.00416, _PAGE, "restated", 5e-6),
    Row("expanded_uncertainty", (0.1304,), 0.15057, _FORMULA, "computed", 5e-6),
    Row("expanded_uncertainty", (0.083,), 0.0958, _FORMULA, "computed", 5e-5),
    Row("expanded_uncertainty", (0.5,), 0.5774, _FORMULA, "computed", 5e-5),
    Row("expanded_uncertainty", (2.2,), 2.5403, _FORMULA, "computed", 5e-5),
    Row("highest_reading_below", (60.0, 0.5, 2, 0.1), 59.502, "r + 0.005·r + 0.2 = 60, solved", "computed", 5e-4),
    Row("band", (0.5, 0.0), 0.5, "the error itself is the least band", "computed"),
    Row("band", (0.5, 1.0), 1 / sqrt(3), "r·U, JCGM 106:2012", "computed"),
)
