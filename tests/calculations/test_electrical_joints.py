"""Joints that carry current: what holds for the tables. The figures stand in data/calculations/electrical_joints.py."""

from inspect import signature

import pytest
from bayleaf.calculations import electrical_joints, tightening
from bayleaf.calculations.electrical_joints import BUSBAR, HOLES, INCH_BOLT, SOURCES, STUD, TERMINAL, TORQUES
from bayleaf.calculations.threads import METRIC
from bayleaf.quantities import UNITS


@pytest.mark.parametrize("joint", TORQUES)
def test_a_larger_thread_takes_more(joint: str) -> None:
    """In the order of the table."""
    torques = list(TORQUES[joint].values())

    assert sorted(set(torques)) == torques


def test_every_table_says_where_it_is_from() -> None:
    """Only what was seen in print may be a limit: not the screw terminals of IEC 60947-1."""
    assert list(TORQUES) == list(SOURCES)
    assert [STUD, BUSBAR, INCH_BOLT] == [one for one in TORQUES if electrical_joints.may_be_limit(one)]
    assert electrical_joints.joint_torque(TERMINAL, "M8") == 6.0
    assert "from memory" in electrical_joints.FORMULAS[0].function(TERMINAL, "M8")[1]


@pytest.mark.parametrize("size", TORQUES[BUSBAR])
def test_the_check_torque_is_about_four_fifths(size: str) -> None:
    """As printed, in whole newton metres: 75 % to 80 %."""
    share = electrical_joints.check_torque(size) / electrical_joints.busbar_torque(size)

    assert 0.75 <= share <= 0.80


@pytest.mark.parametrize("size", TORQUES[BUSBAR])
def test_brass_takes_less_than_a_busbar_and_a_busbar_less_than_steel(size: str) -> None:
    """M8: 6, 20 and 24.5 N·m. A stud that is tightened as a bolt of 8.8 breaks or is stretched."""
    steel = tightening.class_torque(size, "8.8", 0.12, 0.9)

    assert electrical_joints.stud_torque(size) < electrical_joints.busbar_torque(size) < steel


def test_a_stud_has_no_property_class() -> None:
    """Nothing lets one be asked for by class, and the table of steel bolts knows no brass."""
    assert ["size"] == list(signature(electrical_joints.stud_torque).parameters)
    with pytest.raises(ValueError, match="metric threads and classes only"):
        tightening.class_torque("M8", "brass", 0.12, 0.9)


@pytest.mark.parametrize("size", HOLES)
def test_a_hole_lets_its_bolt_through(size: str) -> None:
    """With up to 1.5 mm of play."""
    assert 0 < electrical_joints.busbar_hole(size) - METRIC[size][0] <= 1.5


def test_the_pound_inch_is_that_of_the_table_of_units() -> None:
    """One factor in the whole program."""
    assert float(UNITS["lbf·in"].factor) == electrical_joints.NEWTON_METRES_PER_POUND_INCH


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: electrical_joints.stud_torque("M3"), "has M4, M5, .*, not M3"),
        (lambda: electrical_joints.stud_torque("M24"), "M24x2, not M24"),
        (lambda: electrical_joints.busbar_torque("M5"), "not M5"),
        (lambda: electrical_joints.check_torque("M5"), "not M5"),
        (lambda: electrical_joints.joint_torque("aluminium stud", "M8"), "joint `aluminium stud`"),
        (lambda: electrical_joints.breaker_torque("spring washer"), "washer `spring washer`"),
        (lambda: electrical_joints.busbar_hole("M16"), "thread `M16`"),
        (lambda: electrical_joints.may_be_limit("any"), "joint `any`"),
    ],
)
def test_what_is_not_in_a_table_is_refused(call, named: str) -> None:
    """Never the figure of another size or another kind of joint."""
    with pytest.raises(ValueError, match=named):
        call()
