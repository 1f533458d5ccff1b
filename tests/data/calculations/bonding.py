"""Bonds between exposed parts and the chassis."""

from data.row import Row

_RULE = "UN R100, 5.1.2.2 (text of a national clone)"
_OHM = "U = I·R at the limit"
_LEADS = "article of a maker of meters"

ROWS = (
    Row("is_bonded", (0.0999,), True, _RULE, "read"),
    Row("is_bonded", (0.1,), False, _RULE + ": below, not at", "read"),
    Row("current_suffices", (0.2,), True, _RULE, "read"),
    Row("current_suffices", (0.199,), False, _RULE, "read"),
    Row("voltage_drop", (0.1, 0.2), 0.020, _OHM, "computed"),
    Row("voltage_drop", (0.1, 25), 2.5, _OHM + "; 25 A as tests of appliances have it", "computed"),
    Row("resistance", (0.020, 0.2), 0.1, _OHM, "computed"),
    Row("shown_by_two_wires", (0.1, 0.2), 0.3, _LEADS + ": 0.2 Ω and more", "computed"),
    Row("shown_by_two_wires", (0.1, 0.5), 0.6, _LEADS + ": 0.5 Ω at most", "computed"),
    Row("judged_leads", (0.2,), "not less than the limit itself: measure with four wires, or take off their zero", _LEADS, "restated"),
    Row("judged_leads", (0.5,), "not less than the limit itself: measure with four wires, or take off their zero", _LEADS, "restated"),
    Row("judged_leads", (1.0,), "not less than the limit itself: measure with four wires, or take off their zero", _LEADS, "restated"),
    Row("judged_leads", (0.1,), "not less than the limit itself: measure with four wires, or take off their zero", _LEADS, "computed"),
    Row("judged_leads", (0.05,), "less than the limit; take off their zero", _LEADS, "computed"),
    Row("judged_leads", (1.01,), "worn out: replace them", _LEADS, "restated"),
    Row("highest_reading", (30.0,), 0.07692, "± 30 % of IEC 61557-4", "from memory", 1e-5),
)  # fmt: skip
