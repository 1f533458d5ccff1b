"""Decisions on readings with an uncertainty."""

from math import inf

from data.row import Row

_JCGM = "JCGM 106:2012, example; its inputs from memory"
_ILAC = "ILAC-G8:09/2019, table 1; the share computed"
_TRAINING = "setting of a post on metrology, computed"
_METHOD_6 = "formula of Z540.3 method 6 as its handbook is restated"

ROWS = (
    Row("conformity", (-5.47, 0.05, -inf, -5.40), 0.9192, _JCGM + " (Zener diode, printed 0.92)", "from memory", 5e-5),
    Row(
        "conformity",
        (509.7, 8.6, 490.0, inf),
        0.9890,
        _JCGM + " (bursting pressure, printed 0.99)",
        "from memory",
        5e-5,
    ),
    Row("normal_share", (0.8416,), 0.80, "table of the normal distribution", "computed", 2e-5),
    Row("normal_share", (1.2816,), 0.90, "table of the normal distribution", "computed", 2e-5),
    Row("normal_share", (1.6449,), 0.95, "table of the normal distribution", "computed", 1e-5),
    Row("normal_share", (2.3263,), 0.99, "table of the normal distribution", "computed", 1e-5),
    Row("normal_share", (3.0902,), 0.999, "table of the normal distribution", "computed", 1e-6),
    Row("specific_risk", (3.0,), 9.9e-10, _ILAC + " (printed: below 1 ppm)", "restated", 0.05e-10),
    Row("specific_risk", (1.5,), 0.00135, _ILAC + " (printed: below 0.16 %)", "restated", 1e-6),
    Row("specific_risk", (1.0,), 0.0228, _ILAC + " (printed: below 2.5 %)", "restated", 5e-5),
    Row("specific_risk", (0.83,), 0.0485, _ILAC + " (printed: below 5 %)", "restated", 5e-5),
    Row("specific_risk", (0.0,), 0.5, _ILAC + " (printed: at most 50 %)", "restated"),
    Row(
        "specific_risk",
        (-1.0,),
        0.977,
        "ILAC-G8, uncritical rule, from memory; the share computed",
        "from memory",
        5e-4,
    ),
    Row("acceptance_limits", (9.0, 11.0, 0.2, 1.0), (9.2, 10.8), _TRAINING, "restated", 1e-9),
    Row("acceptance_limits", (9.0, 11.0, 0.2, 0.83), (9.166, 10.834), _TRAINING, "restated", 1e-9),
    Row("acceptance_limits", (9.0, 11.0, 0.2, 1.5), (9.3, 10.7), _TRAINING, "restated", 1e-9),
    Row("acceptance_limits", (9.0, 11.0, 0.2, 3.0), (9.6, 10.4), _TRAINING, "restated", 1e-9),
    Row(
        "acceptance_limits",
        (-0.003, 0.003, 0.001, 1.0),
        (-0.002, 0.002),
        "page of a guide to ISO 14253-1",
        "restated",
        1e-12,
    ),
    Row(
        "acceptance_limits",
        (-0.5, 0.5, 0.1, 1.0),
        (-0.4, 0.4),
        "post on training: 0.5 Ω, guard band 20 %",
        "restated",
        1e-12,
    ),
    Row("acceptance_limits", (9.95, 10.05, 0.04, 1.0), (9.99, 10.01), "restatement of ISO 14253-1", "restated", 1e-9),
    Row("uncertainty_ratio", (9.0, 11.0, 0.2), 5.0, _TRAINING, "restated", 1e-9),
    Row("one_sided_ratio", (60.0, 0.0, 0.5774), 103.9, "|T − nominal| / U", "computed", 0.05),
    Row("managed_guard_factor", (1.0,), 0.4573, _METHOD_6, "computed", 5e-5),
    Row("managed_guard_factor", (1.5,), 0.3602, _METHOD_6, "computed", 5e-5),
    Row("managed_guard_factor", (2.0,), 0.2816, _METHOD_6, "computed", 5e-5),
    Row("managed_guard_factor", (3.0,), 0.1553, _METHOD_6, "computed", 5e-5),
    Row("managed_guard_factor", (4.0,), 0.0531, _METHOD_6, "computed", 5e-5),
    Row("managed_guard_factor", (4.6,), 0.0, _METHOD_6 + ", which is −0.0007 there: no negative band", "computed"),
)
