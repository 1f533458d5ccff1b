"""Tightening by a torque and an angle."""

from data.row import Row

LBF = 4.4482216152605e-3
MM = 25.4
MPA = 6894.757293168361e-6
_EXAMPLE = "tool maker's example: 1/2 in, 1/30 in of pitch, 60°, 4 in of grip, 65 % of the way stretches the bolt"
#: kN/mm of a bolt of 0.1436 in² and 4 in, modulus 30 million psi.
STIFFNESS = 0.1436 * MM**2 * 30e6 * MPA / (4 * MM) / 1000
_ISO = "ISO 5393, two articles and a tool maker's manual"

ROWS = (
    Row("bolt_stiffness", (0.1436 * MM**2, 4 * MM, 30e6 * MPA), STIFFNESS, _EXAMPLE, "computed"),
    Row("bolt_stiffness", (36.61, 60, 205000), 125.1, "E · A / l", "computed", 0.05),
    Row("way_of_nut", (MM / 30, 60), MM / 180, _EXAMPLE, "restated"),
    Row("way_of_nut", (1.25, 360), 1.25, "one turn is one pitch", "computed"),
    Row("shared_gain", (MM / 30, 60, STIFFNESS, 0.65), 3889 * LBF, _EXAMPLE, "restated", share=0.0005),
    Row("preload_gain", (MM / 30, 60, STIFFNESS, STIFFNESS * 0.65 / 0.35), 3889 * LBF, _EXAMPLE, "restated", share=0.0005),
    Row("joint_kind", (27,), "hard", _ISO, "restated"),
    Row("joint_kind", (30,), "hard", _ISO, "restated"),
    Row("joint_kind", (323,), "medium", _ISO, "restated"),
    Row("joint_kind", (324,), "soft", _ISO + ", edition of 2017", "restated"),
    Row("joint_kind", (650,), "soft", _ISO + ", edition of 1994", "restated"),
)  # fmt: skip
