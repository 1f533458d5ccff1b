"""Torques of joints that carry current."""

from data.row import Row

_STUD = "terminal-board maker's table"
_BAR = "DIN 43673 and VDE 0220-2, technician's note"
_TERMINAL = "IEC 60947-1, column III"
_NEMA = "NEMA CC 1-2009, connector maker's catalogue"
LBF_IN = 0.1129848290276167

ROWS = (
    Row("stud_torque", ("M4",), 1.2, _STUD, "restated"),
    Row("stud_torque", ("M5",), 2.0, _STUD, "restated"),
    Row("stud_torque", ("M6",), 3.0, _STUD, "restated"),
    Row("stud_torque", ("M8",), 6.0, _STUD, "restated"),
    Row("stud_torque", ("M10",), 10, _STUD, "restated"),
    Row("stud_torque", ("M12",), 15.5, _STUD, "restated"),
    Row("stud_torque", ("M16",), 30, _STUD, "restated"),
    Row("stud_torque", ("M20",), 52, _STUD, "restated"),
    Row("stud_torque", ("M24x2",), 80, _STUD + ", copper", "restated"),
    Row("busbar_torque", ("M6",), 8, _BAR, "restated"),
    Row("busbar_torque", ("M8",), 20, _BAR, "restated"),
    Row("busbar_torque", ("M10",), 40, _BAR, "restated"),
    Row("busbar_torque", ("M12",), 70, _BAR, "restated"),
    Row("busbar_torque", ("M16",), 120, _BAR, "restated"),
    Row("check_torque", ("M6",), 6, _BAR, "restated"),
    Row("check_torque", ("M8",), 16, _BAR, "restated"),
    Row("check_torque", ("M10",), 32, _BAR, "restated"),
    Row("check_torque", ("M12",), 55, _BAR, "restated"),
    Row("check_torque", ("M16",), 96, _BAR, "restated"),
    Row("breaker_torque", ("flat washer",), 37.5, "switchgear maker's catalogue, M10 8.8", "restated"),
    Row("breaker_torque", ("contact washer",), 50, "switchgear maker's catalogue, M10 8.8", "restated"),
    Row("joint_torque", ("screw terminal", "M4"), 1.2, _TERMINAL, "from memory"),
    Row("joint_torque", ("screw terminal", "M5"), 2.0, _TERMINAL, "from memory"),
    Row("joint_torque", ("screw terminal", "M6"), 3.0, _TERMINAL + "; a drive maker prints 2.5", "conflicting"),
    Row("joint_torque", ("screw terminal", "M8"), 6.0, _TERMINAL, "from memory"),
    Row("joint_torque", ("screw terminal", "M10"), 10, _TERMINAL, "from memory"),
    Row("joint_torque", ("screw terminal", "M12"), 14, _TERMINAL, "from memory"),
    Row("joint_torque", ("lug or bar, inch bolt", "1/4"), 80 * LBF_IN, _NEMA, "restated"),
    Row("joint_torque", ("lug or bar, inch bolt", "5/16"), 180 * LBF_IN, _NEMA, "restated"),
    Row("joint_torque", ("lug or bar, inch bolt", "3/8"), 240 * LBF_IN, _NEMA, "restated"),
    Row("joint_torque", ("lug or bar, inch bolt", "1/2"), 480 * LBF_IN, _NEMA, "restated"),
    Row("joint_torque", ("lug or bar, inch bolt", "5/8"), 660 * LBF_IN, _NEMA, "restated"),
    Row("busbar_hole", ("M5",), 5.5, "DIN 43673, leaflet on busbars", "restated"),
    Row("busbar_hole", ("M6",), 6.6, "DIN 43673, leaflet on busbars", "restated"),
    Row("busbar_hole", ("M8",), 9, "DIN 43673, leaflet on busbars", "restated"),
    Row("busbar_hole", ("M10",), 11, "DIN 43673, leaflet on busbars", "restated"),
    Row("busbar_hole", ("M12",), 13.5, "DIN 43673, leaflet on busbars", "restated"),
    Row("may_be_limit", ("brass or copper stud",), True, _STUD, "restated"),
    Row("may_be_limit", ("screw terminal",), False, _TERMINAL, "from memory"),
)
