"""Resistance of cables: laws that hold for all. The figures stand in data/calculations/conductor.py."""

from math import isclose

import pytest
from bayleaf.calculations import conductor
from bayleaf.calculations.conductor_tables import CLASS_2, CLASS_5, KINDS
from bayleaf.calculations.formula import formula_named
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

TABLES = st.sampled_from(list(KINDS))
AREAS = st.floats(10, 120)  # inside every table
SMALL_AREAS = st.floats(0.14, 120)
LENGTHS = st.floats(0, 1000)


@given(TABLES, AREAS, AREAS)
def test_a_larger_area_never_has_more_resistance(kind: str, one: float, other: float) -> None:
    """Also between two sizes of the table, and across one."""
    assert conductor.ohms_per_km(max(one, other), kind) <= conductor.ohms_per_km(min(one, other), kind)


@given(SMALL_AREAS, SMALL_AREAS)
def test_the_same_holds_for_small_flexible_sizes(one: float, other: float) -> None:
    """From 0.14 mm² on, where the ratio to copper is another."""
    assert conductor.ohms_per_km(max(one, other)) <= conductor.ohms_per_km(min(one, other))


@given(TABLES, AREAS)
def test_a_cable_is_never_better_than_its_metal(kind: str, area: float) -> None:
    """Nor better than the next larger size of its own table: a drop is not computed too small."""
    found = conductor.ohms_per_km(area, kind)

    assert conductor.ohms_per_km(area, "pure aluminium" if kind == "aluminium" else "pure copper") < found
    assert max((ohms for size, ohms in KINDS[kind] if size >= area), default=0) <= found


def test_class_5_lies_between_4_and_16_per_cent_above_copper() -> None:
    """Every size of the standard: 1.104 to 1.157 times 17.241 over the area; the estimate takes the worst."""
    ratios = [size * ohms / 17.241 for size, ohms in CLASS_5 if size >= 0.5]

    assert pytest.approx((1.104, 1.157), abs=5e-4) == (min(ratios), max(ratios))
    assert isclose(max(ratios) * 17.241 / 5.26, conductor.ohms_per_km(5.26), rel_tol=1e-4)


def test_at_50_mm2_class_5_is_below_class_2() -> None:
    """No error of the table; at every other size it is above."""
    both = {size: (dict(CLASS_5)[size], ohms) for size, ohms in CLASS_2}

    assert [50.0] == [size for size, (flexible, stranded) in both.items() if flexible < stranded]


@given(LENGTHS, TABLES, AREAS, st.floats(-40, 150), st.integers(0, 20), st.floats(0, 0.1))
def test_length_and_joints_add_up(length, kind, area, celsius, joints, each) -> None:
    """Two halves have what the whole has; each joint adds its own, at any temperature."""
    whole = conductor.cable_resistance(length, area, kind, celsius, joints, each)
    half = conductor.cable_resistance(length / 2, area, kind, celsius)

    assert isclose(2 * half + joints * each, whole, rel_tol=1e-9, abs_tol=1e-15)


def test_two_routes_give_one_resistance() -> None:
    """5 m of 2.5 mm² at 60 °C with two joints, by the library `uncertainties`: it carries the value through as well."""
    copper = ufloat(7.98, 0.1) * 5 / 1000 * (1 + ufloat(0.00393, 1e-5) * (60 - 20)) + 2 * ufloat(0.001, 1e-4)

    assert isclose(copper.nominal_value, conductor.cable_resistance(5, 2.5, celsius=60, joints=2, ohms_a_joint=0.001))


def test_where_nothing_is_said_a_cable_has_no_joints_and_20_degrees() -> None:
    """Joints without a resistance add nothing, and a resistance without joints."""
    assert 0.0399 == pytest.approx(conductor.cable_resistance(5, 2.5))
    assert 0.0399 == pytest.approx(conductor.cable_resistance(5, 2.5, joints=3))
    assert 0.0399 == pytest.approx(conductor.cable_resistance(5, 2.5, ohms_a_joint=0.01))


def test_identities_of_the_gauge() -> None:
    """Six sizes double the diameter, three the area, ten make the area tenfold: nearly."""
    for number in range(7, 30):
        thick, thin = conductor.gauge_diameter(str(number - 6)), conductor.gauge_diameter(str(number))
        assert pytest.approx(2, rel=0.003) == thick / thin
    assert pytest.approx(2, rel=0.006) == conductor.gauge_area("10") / conductor.gauge_area("13")
    assert pytest.approx(10, rel=0.04) == conductor.gauge_area("10") / conductor.gauge_area("20")


@given(st.floats(0.01, 120))
def test_the_next_size_is_not_smaller(area: float) -> None:
    """And no listed size lies between."""
    size = conductor.next_size(area)

    assert area <= size
    assert [] == [one for one, _ in CLASS_5 if one >= 0.5 and area <= one < size]


def test_a_table_from_memory_is_never_the_default() -> None:
    """The road-vehicle table has to be asked for."""
    kind = next(one for one in formula_named("cable resistance").inputs if one.name == "cable")

    assert "class 5" == kind.default
    assert 13.3 == conductor.ohms_per_km(1.5)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: conductor.ohms_per_km(0), "cross-section is 0; it has to be above 0"),
        (lambda: conductor.ohms_per_km(6, "aluminium"), "6 mm² lies outside the table, 10 mm² to 120 mm²"),
        (lambda: conductor.ohms_per_km(150), "150 mm² lies outside the table, 0.14 mm² to 120 mm²"),
        (lambda: conductor.ohms_per_km(6, "silver"), "cable `silver` is not known"),
        (lambda: conductor.cable_resistance(-1, 6), "length is -1"),
        (lambda: conductor.cable_resistance(1, 6, joints=-1), "number of joints is -1"),
        (lambda: conductor.cable_resistance(1, 6, ohms_a_joint=-1), "resistance of a joint is -1"),
        (lambda: conductor.cable_resistance(1, 6, celsius=300.5), "300.5 °C lies outside"),
        (lambda: conductor.factor_to_20(-230), "-230 °C lies outside"),
        (lambda: conductor.gauge_diameter("5/0"), "gauge `5/0` is not known"),
        (lambda: conductor.next_size(121), "more than the largest size listed, 120 mm²"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """The sentence names what is wrong."""
    with pytest.raises(ValueError, match=named):
        call()
