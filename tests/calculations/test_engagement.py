"""Engagement: laws, and an independent library. The figures stand in data/calculations/engagement.py."""

from math import isclose, pi, sqrt

import pytest
from bayleaf.calculations import engagement
from bayleaf.calculations.engagement import RECOMMENDED
from bayleaf.calculations.property_classes import breaking_load, tensile_strength
from bayleaf.calculations.threads import (
    INCH,
    METRIC,
    diameter_and_pitch,
    nut_core_diameter,
    pitch_diameter,
    stress_area,
)
from data.calculations.engagement import LIMITS
from hypothesis import given
from hypothesis import strategies as st
from screw_thread_lib import Assembly
from screw_thread_lib.data import ASME_M_6g6H_dict, ASME_UN_2A2B_dict

SIZES = (*METRIC, *INCH)
SIZE = st.sampled_from(SIZES)
STRENGTH = st.floats(50, 1500)

LIBRARY = [
    *(("ASME_M_6g6H", name, name.split("-")[0], data) for name, data in ASME_M_6g6H_dict.items()),
    *(
        ("ASME_UN_2A2B", name, f"{name} {data['series']}", data)
        for name, data in ASME_UN_2A2B_dict.items()
        if data["series"] != "UNS"
    ),
]


@pytest.mark.parametrize(("base", "name", "size", "data"), LIBRARY, ids=[one[2] for one in LIBRARY])
def test_lengths_agree_with_an_independent_library(base: str, name: str, size: str, data: dict[str, float]) -> None:
    """Formulas 14 and 16 with printed limits of size, for the same stress area: within 1 %."""
    other = Assembly.from_database(base, name, UTSs=800, UTSn=260)
    same_area = stress_area(size) / (other.As_FEDSTD_1a() * 645.16)

    assert pytest.approx(other.LEr_FEDSTD_14() * 25.4 * same_area, rel=0.01) == engagement.length_for_bolt(size)
    assert pytest.approx(other.LEr_FEDSTD_16() * 25.4 * same_area, rel=0.01) == engagement.length_for_hole(
        size, 800, 260
    )


@pytest.mark.parametrize(("base", "name", "size", "data"), LIBRARY, ids=[one[2] for one in LIBRARY])
def test_the_limits_of_size_agree_with_print(base: str, name: str, size: str, data: dict[str, float]) -> None:
    """The formulas of both standards give their printed limits within 0.014 mm; print rounds, up to 0.001 in for D1."""
    printed = [data[one] * 25.4 for one in ("dmin", "d2min", "D1max", "D2max")]

    assert printed == pytest.approx(list(engagement.least_metal(size)), abs=0.014), base + name


@pytest.mark.parametrize("row", LIMITS, ids=[row[0] for row in LIMITS])
def test_small_metric_limits_agree_with_print(row: tuple[str, float | None, float | None, None, float]) -> None:
    """6g from a chart of ASME B1.13M and a supplier's table of ISO 965; 6H from a catalogue of a maker of taps."""
    for printed, ours in zip(row[1:], engagement.least_metal(row[0]), strict=True):
        assert printed is None or printed == pytest.approx(ours, abs=0.008)


@pytest.mark.parametrize("size", SIZES)
def test_the_least_metal_still_engages(size: str) -> None:
    """The smallest bolt is larger than the largest hole, and no larger than the basic size."""
    outer, _ = diameter_and_pitch(size)
    limits = engagement.least_metal(size)

    assert limits[2] < limits[0] < outer
    assert limits[1] < pitch_diameter(size) < limits[3]
    assert nut_core_diameter(size) < limits[2]


@given(SIZE, STRENGTH, STRENGTH, st.floats(1.01, 4))
def test_a_weaker_part_wants_a_longer_thread(size: str, bolt: float, hole: float, times: float) -> None:
    """In inverse proportion; the bolt's own thread asks for the same whatever is tapped."""
    length = engagement.length_for_hole(size, bolt, hole)

    assert isclose(times * length, engagement.length_for_hole(size, bolt, hole / times), rel_tol=1e-9)
    assert engagement.needed_length(size, bolt, hole) == max(length, engagement.length_for_bolt(size))


@given(SIZE, STRENGTH, STRENGTH)
def test_at_its_length_a_tapped_thread_strips_as_the_bolt_breaks(size: str, bolt: float, hole: float) -> None:
    """The stripping load is the breaking load of the bolt, As · R."""
    length = engagement.length_for_hole(size, bolt, hole)

    assert isclose(stress_area(size) * bolt / 1000, engagement.stripping_load(size, length, hole), rel_tol=1e-9)


@pytest.mark.parametrize(("size", "times"), [("M8", 1.65), ("M12", 1.63)])
def test_class_8_8_in_soft_aluminium_wants_more_than_one_and_a_half_diameters(size: str, times: float) -> None:
    """Computed elsewhere with the stress area of the inch formula, 1.3 % smaller: within 2 %."""
    outer, _ = diameter_and_pitch(size)

    assert pytest.approx(times, rel=0.02) == engagement.needed_length(size, 800, 260) / outer


@pytest.mark.parametrize("size", ["M6", "M8", "M12", "M16"])
def test_on_basic_sizes_the_thread_of_a_bolt_looks_a_fifth_to_a_third_stronger(size: str) -> None:
    """So that the limits of size have to be used."""
    pitch, core = diameter_and_pitch(size)[1], nut_core_diameter(size)
    basic = pi * core * (pitch / 2 + (pitch_diameter(size) - core) / sqrt(3)) / pitch

    assert 1.2 < basic / engagement.shear_area_of_bolt(size) < 1.34


@pytest.mark.parametrize("material", RECOMMENDED)
def test_what_suppliers_print_rises_with_the_class(material: str) -> None:
    """A stronger bolt is screwed in further."""
    lengths = [engagement.recommended_length(material, name) for name in ("8.8", "10.9", "12.9")]

    assert sorted(lengths) == lengths


def test_aluminium_is_not_among_the_lengths_to_rest_on() -> None:
    """Which column is which class is not certain in print; it is kept beside, and refused."""
    assert {"8.8": 2.0, "10.9": 2.5} == engagement.ALUMINIUM
    with pytest.raises(ValueError, match="aluminium above 180 MPa"):
        engagement.recommended_length("aluminium above 180 MPa", "8.8")


def test_what_gives_way_first_is_told() -> None:
    """M8 8.8 in 260 MPa: at 12 mm the thread, at 14 mm the bolt."""
    strip = engagement.FORMULAS[1].function

    assert "the tapped thread" == strip("M8", "8.8", 12, 260)[2]
    assert "the bolt, not the tapped thread" == strip("M8", "8.8", 14, 260)[2]
    assert breaking_load("M8", "8.8") == strip("M8", "8.8", 12, 260)[1]
    assert (
        engagement.needed_length("M8", tensile_strength("8.8", 8), 260)
        == engagement.FORMULAS[0].function("M8", "8.8", 260)[2]
    )


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: engagement.length_for_hole("M8", 0, 260), "strength of the bolt is 0"),
        (lambda: engagement.length_for_hole("M8", 800, 0), "strength of the tapped part is 0"),
        (lambda: engagement.stripping_load("M8", 0, 260), "length is 0"),
        (lambda: engagement.stripping_load("M8", 12, -1), "strength of the tapped part is -1"),
        (lambda: engagement.length_for_bolt("M9"), "M9 is no thread"),
        (lambda: engagement.recommended_length("wood", "8.8"), "material `wood`"),
        (lambda: engagement.recommended_length("steel above 360 MPa", "4.6"), "property class `4.6`"),
        (lambda: engagement.FORMULAS[0].function("M8", "grade 5", 260), "for inch threads"),
        (lambda: engagement.FORMULAS[1].function("3/8-16 UNC", "8.8", 12, 260), "for metric threads"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """No length without a strength."""
    with pytest.raises(ValueError, match=named):
        call()
