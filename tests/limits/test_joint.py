"""Bolted joints as they are read from a profile, and the torque that a rule computes for them."""

import pytest
from bayleaf.calculations.tightening import class_torque
from bayleaf.limits.joint import Friction, class_of, friction_of, is_no_thread, joint_of
from bayleaf.limits.limit_rule import Lack
from bayleaf.limits.torque import computed_torque
from bayleaf.loading.load import load
from bayleaf.model.cited import Computed
from bayleaf.model.vehicle import Fastener, Vehicle
from kit import VEHICLE


def fastener(text: str) -> Fastener:
    """The heater's bracket, described by these keys."""
    old = "heater-bracket: {part: cabin-heater, size: M8 × 1.25, class: 8.8, count: 4, torque: 20 N·m}"
    assert old in VEHICLE
    found = load(
        "procedures/test-van/vehicle.yml", VEHICLE.replace(old, f"heater-bracket: {{{text}}}").encode(), "vehicle"
    )
    assert isinstance(found.model, Vehicle)
    assert [] == [one.message for one in found.findings]
    return found.model.fasteners["heater-bracket"]


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("0.10 to 0.16", 0.10, 0.16), ("0,12", 0.12, 0.12), ("0.08-0.14", 0.08, 0.14), (".12", 0.12, 0.12),
        ("B", 0.08, 0.16), ("class b", 0.08, 0.16), ("A", 0.04, 0.10),  # friction classes of VDI 2230, restated
    ],
)  # fmt: skip
def test_friction(text: str, low: float, high: float) -> None:
    """A range, one value, or a friction class."""
    assert Friction(low, high) == friction_of(text)


@pytest.mark.parametrize("text", ["oiled", "0.16 to 0.10", "1.2", "0", "F", "10 %"])
def test_no_friction(text: str) -> None:
    """Words, a range that runs backwards, what no friction can be."""
    assert None is friction_of(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("8.8", "8.8"),
        ("8", "8.8"),
        ("10", "10.9"),
        ("12", "12.9"),
        ("A2-70", "A2-70"),
        ("grade 8", "grade 8"),
        ("8.9", None),
    ],
)
def test_class(text: str, expected: str | None) -> None:
    """A bolt by its mark; a nut by the bolts it goes with (ISO 898-2, from memory)."""
    assert expected == class_of(text)


@pytest.mark.parametrize(
    ("text", "refused"),
    [
        ("M8 × 1.75", True), ("M7.3", True), ("3/8-15", True), ("M8 × 1.25", False), ("M8x30", False),
        ("M8 × 1.25 × 40", False), ("M8 left-hand", False), ("M30 × 1.5", False), ("M2.5", False), ("M9", False),
        ("1/4 UNC", False), ("4.8 × 16", False), ("5 × 20 for plastic", False),
    ],
)  # fmt: skip
def test_what_is_no_thread(text: str, refused: bool) -> None:
    """A pitch or diameter that no standard knows; lengths, sizes beyond the tables and other screws are left alone."""
    assert refused == is_no_thread(text)


@pytest.mark.parametrize(
    ("text", "computable"),
    [
        ("size: M8 × 1.25, class: 8.8, torque: 20 N·m", True),
        ("size: M8, material: A2-70, torque: 15 N·m", True),
        ("size: M8, material: brass, torque: 6 N·m", False),  # a stud that conducts is never judged as 8.8
        ("size: M8, class: 8, material: brass, torque: 6 N·m", False),
        ("size: M8, torque: 20 N·m", False),
        ("size: 3/8-16 UNC, class: grade 5, torque: 30 N·m", False),
        ("class: 8.8, torque: 20 N·m", False),
    ],
)
def test_what_can_be_computed(text: str, computable: bool) -> None:
    """A metric bolt of a class in the tables, of steel."""
    assert computable == joint_of(fastener(text)).is_computable


def test_a_torque_without_tolerance_is_both_ends() -> None:
    """A range has two."""
    assert (20.0, 20.0) == joint_of(fastener("size: M8, torque: 20 N·m")).torque
    assert (18.0, 22.0) == joint_of(fastener("size: M8, torque: 20 N·m ± 10 %")).torque


def test_the_rule_gives_the_torque_at_the_lowest_friction() -> None:
    """M8, 8.8, 0.10: 21.57 N·m by VDI 2230 (computed, within 1.5 % of its tables), rounded down."""
    found = computed_torque(fastener("size: M8, class: 8.8, friction: 0.10 to 0.14, torque: {rule: tightening torque}"))

    assert isinstance(found, Computed)
    assert "21.5 N·m" == str(found.high)
    assert class_torque("M8", "8.8", 0.10, 0.9) == pytest.approx(21.57, rel=0.015)
    assert "VDI 2230" in found.source


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("size: M8, class: 8.8", "the friction of"),
        ("size: M8, friction: B", "thread and class of"),
        ("size: M8, class: 8, material: copper, friction: B", "is a stud of copper"),
    ],
)
def test_what_the_rule_lacks(text: str, message: str) -> None:
    """It is told, never assumed."""
    found = computed_torque(fastener(text + ", torque: {rule: tightening torque}"))

    assert isinstance(found, Lack)
    assert message in found.message
