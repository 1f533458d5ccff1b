"""Standard threads: names as people write them, and laws. The figures stand in data/calculations/threads.py."""

from math import floor, isclose, log10

import pytest
from bayleaf.calculations import threads
from bayleaf.calculations.threads import INCH, METRIC, PRINTED_AREA, nearest_thread, read_thread
from hypothesis import given
from hypothesis import strategies as st
from screw_thread_lib import Assembly
from screw_thread_lib.data import ASME_M_6g6H_dict, ASME_UN_2A2B_dict

SIZES = (*METRIC, *INCH)

WRITTEN = [
    ("M8", "M8"),
    ("m8", "M8"),
    ("M 8", "M8"),
    (" M8 ", "M8"),
    ("M8x1.25", "M8"),
    ("M8 × 1.25", "M8"),
    ("M8X1.25", "M8"),
    ("M8*1.25", "M8"),
    ("M8-1.25", "M8"),
    ("m8×1,25", "M8"),
    ("M8 x 1", "M8x1"),
    ("M8x1.0", "M8x1"),
    ("M6 x .75", "M6x0.75"),
    ("M10x1,25", "M10x1.25"),
    ("M8x1.25-6g", "M8"),
    ("M8 - 6H", "M8"),
    ("M8x1-5g6g", "M8x1"),
    ("M12x1.25 LH", "M12x1.25"),
    ("M3.5", "M3.5"),
    ("M3.5x0.6", "M3.5"),
    ("3/8-16 UNC", "3/8-16 UNC"),
    ("3/8-16", "3/8-16 UNC"),
    ("3/8 - 16 unc", "3/8-16 UNC"),
    ("3/8–16", "3/8-16 UNC"),
    ("1/4-28 UNF", "1/4-28 UNF"),
    ("1/4 UNF", "1/4-28 UNF"),
    ('1/4"-20', "1/4-20 UNC"),
    ("1/4-20 UNC-2A", "1/4-20 UNC"),
    ("1/4-20 UNRC", "1/4-20 UNC"),
    ("10-32", "10-32 UNF"),
    ("#10-24", "10-24 UNC"),
    ("No. 10-24 UNC", "10-24 UNC"),
    ("1-8", "1-8 UNC"),
]

NO_THREAD = [
    "",
    "M",
    "8",
    "M0",
    "M7.5",
    "M9x3",
    "M8 x 1.75",
    "M8 x 30",
    "M8x1.25x30",
    "M8-8.8",
    "M08 mm",
    "G 1/4",
    "1/4",
    "1/4-20 UNF",
    "3/8-18",
    "1/2-30",
    "0/0-16",
    "Tr 8x1.5",
    "brass",
]


@pytest.mark.parametrize(("text", "name"), WRITTEN)
def test_a_thread_is_read_as_people_write_it(text: str, name: str) -> None:
    """Blanks, signs of multiplication, commas, a coarse pitch, tolerance classes and left hand do not matter."""
    assert name == read_thread(text)


@pytest.mark.parametrize("text", NO_THREAD)
def test_what_is_no_standard_thread_is_not_read(text: str) -> None:
    """A pitch that the diameter does not have, a length, a pipe thread, half a size."""
    assert read_thread(text) is None


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("M8 x 1.75", "M8"),
        ("M8 x 0.9", "M8x1"),
        ("M7.5", "M8"),
        ("M9x3", "M10"),
        ("M8 x 30", "M8"),
        ("M8-8.8", "M8"),
        ("M11x1.3", "M12x1.25"),
        ("3/8-18", "3/8-16 UNC"),
        ("3/8-22", "3/8-24 UNF"),
        ("3/8-0", None),
        ("1/0-8", None),
        ("M500", None),
        ("brass", None),
        ("", None),
    ],
)
def test_the_nearest_thread_is_suggested(text: str, name: str | None) -> None:
    """Of the nearest diameter, and of two as near the larger; then of the nearest pitch."""
    assert name == nearest_thread(text)


@pytest.mark.parametrize("size", SIZES)
def test_a_name_of_the_tables_is_read_as_itself(size: str) -> None:
    """What the tables call a thread is one of the ways to write it, and it is its own nearest."""
    assert size == read_thread(size)
    assert size.split("-")[0] == (nearest_thread(size) or size).split("-")[0]


@given(st.text(max_size=20))
def test_any_text_is_a_thread_or_none(text: str) -> None:
    """Nothing that is typed makes the reader fail."""
    assert read_thread(text) is None or read_thread(text) in SIZES
    assert nearest_thread(text) is None or nearest_thread(text) in SIZES


@pytest.mark.parametrize("size", SIZES)
def test_diameters_lie_in_order(size: str) -> None:
    """The core of the bolt is smaller than that of the nut, and the stress area lies between core and pitch diameter."""
    outer, pitch = threads.diameter_and_pitch(size)

    assert 0 < threads.bolt_core_diameter(size) < threads.nut_core_diameter(size)
    assert threads.nut_core_diameter(size) < threads.pitch_diameter(size) < outer
    assert threads.bolt_core_diameter(size) < threads.stress_diameter(size) < threads.pitch_diameter(size)
    assert isclose(outer - threads.pitch_diameter(size), 0.649519 * pitch, rel_tol=1e-6)


@pytest.mark.parametrize("size", METRIC)
def test_the_metric_stress_diameter_is_the_mean_of_two(size: str) -> None:
    """ISO 898-1: (d2 + d3) / 2."""
    mean = (threads.pitch_diameter(size) + threads.bolt_core_diameter(size)) / 2

    assert isclose(mean, threads.stress_diameter(size), rel_tol=1e-12)


@pytest.mark.parametrize("size", [one for one in METRIC if "x" in one])
def test_a_fine_thread_carries_more(size: str) -> None:
    """Than the coarse one of its diameter."""
    assert threads.stress_area(size) > threads.stress_area(size.split("x")[0])


@pytest.mark.parametrize(("size", "printed"), PRINTED_AREA.items())
def test_a_printed_area_is_the_formula_in_three_figures(size: str, printed: float) -> None:
    """So that a fine thread from memory has its digits held; M18 and M8 too."""
    area = threads.stress_area(size)
    places = 2 - floor(log10(area))

    assert printed == pytest.approx(round(area, places), abs=1e-9)


def test_a_thread_without_a_printed_area_has_its_computed_one() -> None:
    """ISO 898-1 has no M24x1.5."""
    assert threads.stress_area("M24x1.5") == threads.stated_area("M24x1.5")


UNIFIED = [(f"{name} {data['series']}", name) for name, data in ASME_UN_2A2B_dict.items() if data["series"] != "UNS"]


@pytest.mark.parametrize(("size", "name"), UNIFIED)
def test_inch_threads_agree_with_an_independent_library(size: str, name: str) -> None:
    """Stress area, pitch diameter and core of the nut, from ASME B1.1-2019."""
    other = Assembly.from_database("ASME_UN_2A2B", name)

    assert isclose(other.As_FEDSTD_1b() * 645.16, threads.stress_area(size), rel_tol=1e-9)
    assert isclose(other.d2bsc * 25.4, threads.pitch_diameter(size), rel_tol=1e-9)
    assert isclose(other.D1bsc * 25.4, threads.nut_core_diameter(size), rel_tol=1e-9)


@pytest.mark.parametrize("name", ASME_M_6g6H_dict)
def test_metric_threads_agree_with_an_independent_library(name: str) -> None:
    """Stress area of ISO/TR 16224, pitch diameter and core of the nut."""
    other = Assembly.from_database("ASME_M_6g6H", name)
    size = name.split("-")[0]

    assert isclose(other.As_ISO() * 645.16, threads.stress_area(size), rel_tol=1e-9)
    assert isclose(other.d2bsc * 25.4, threads.pitch_diameter(size), rel_tol=1e-9)
    assert isclose(other.D1bsc * 25.4, threads.nut_core_diameter(size), rel_tol=1e-9)


@pytest.mark.parametrize("size", ["M9", "m8", "M8 ", "3/8-16", ""])
def test_a_name_that_is_not_in_the_tables_is_refused(size: str) -> None:
    """The calculations take the names of the tables only; `read_thread` finds them."""
    with pytest.raises(ValueError, match="is no thread of the table"):
        threads.diameter_and_pitch(size)
