"""Property classes: reading them, and laws. The figures stand in data/calculations/property_classes.py."""

from math import isclose

import pytest
from bayleaf.calculations import property_classes
from bayleaf.calculations.property_classes import SAE, STAINLESS, STEEL, read_class
from bayleaf.calculations.threads import METRIC, stated_area
from hypothesis import given
from hypothesis import strategies as st

WRITTEN = [
    ("8.8", "8.8"),
    ("8,8", "8.8"),
    (" 10.9 ", "10.9"),
    ("class 10.9", "10.9"),
    ("Property class 12.9", "12.9"),
    ("A2-70", "A2-70"),
    ("a4-80", "A4-80"),
    ("A2 70", "A2-70"),
    ("A2–50", "A2-50"),
    ("grade 5", "grade 5"),
    ("Grade 8", "grade 8"),
    ("SAE grade 8", "grade 8"),
    ("SAE J429 grade 2", "grade 2"),
    ("Gr. 5", "grade 5"),
    ("gr 1", "grade 1"),
]
NO_CLASS = [
    "",
    "8",
    "5",
    "10",
    "8.9",
    "88",
    "A2",
    "A2-60",
    "A5-70",
    "grade 3",
    "grade",
    "brass",
    "8.8.8",
    "class",
    "HV",
]


@pytest.mark.parametrize(("text", "name"), WRITTEN)
def test_a_class_is_read_as_people_write_it(text: str, name: str) -> None:
    """With or without the words, with a comma, in any case."""
    assert name == read_class(text)


@pytest.mark.parametrize("text", NO_CLASS)
def test_what_is_no_class_is_not_read(text: str) -> None:
    """A nut's mark, digits that no standard has, half a mark."""
    assert read_class(text) is None


@pytest.mark.parametrize("name", [*STEEL, *STAINLESS, *SAE])
def test_a_name_of_the_tables_is_read_as_itself(name: str) -> None:
    """What the tables call a class is one of the ways to write it."""
    assert name == read_class(name)


@given(st.text(max_size=20))
def test_any_text_is_a_class_or_none(text: str) -> None:
    """Nothing that is typed makes the reader fail."""
    assert read_class(text) in (None, *STEEL, *STAINLESS, *SAE)


@given(st.sampled_from([*STEEL, *SAE]), st.floats(3, 16))
def test_proof_is_below_yield_and_yield_below_strength(name: str, diameter: float) -> None:
    """Of every class with all three."""
    proof = property_classes.proof_stress(name, diameter)
    limit = property_classes.yield_strength(name, diameter)

    assert 0 < proof < limit < property_classes.tensile_strength(name, diameter)


@given(st.sampled_from(["4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "10.9", "12.9"]), st.sampled_from(list(METRIC)))
def test_a_load_is_strength_times_stress_area(name: str, size: str) -> None:
    """N from MPa and mm², told in kN."""
    diameter = METRIC[size][0]
    strength = property_classes.tensile_strength(name, diameter)

    assert isclose(strength * stated_area(size), 1000 * property_classes.breaking_load(size, name), rel_tol=1e-12)
    assert property_classes.proof_load(size, name) < property_classes.yield_load(size, name)
    assert property_classes.yield_load(size, name) < property_classes.breaking_load(size, name)


def test_class_8_8_is_stronger_above_16_mm() -> None:
    """The table has two columns: 640 and 660 MPa."""
    assert 640 == property_classes.yield_strength("8.8", 16)
    assert 660 == property_classes.yield_strength("8.8", 16.01)


def test_grade_5_is_weaker_above_an_inch() -> None:
    """92 000 psi up to 1 in, 81 000 psi above."""
    up_to, above = (property_classes.yield_strength("grade 5", inches * 25.4) for inches in (1, 1.01))

    assert isclose(92 / 81, up_to / above, rel_tol=1e-12)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: property_classes.proof_stress("A2-70", 8), "no proof load"),
        (lambda: property_classes.proof_load("M8", "A2-70"), "no proof load"),
        (lambda: property_classes.breaking_load("M8", "grade 5"), "for inch threads"),
        (lambda: property_classes.yield_load("3/8-16 UNC", "8.8"), "for metric threads"),
        (lambda: property_classes.yield_load("3/8-16 UNC", "A2-70"), "for metric threads"),
        (lambda: property_classes.yield_strength("9.8", 18), "ends at 16.0 mm"),
        (lambda: property_classes.yield_strength("12.9", 40), "ends at 39.0 mm"),
        (lambda: property_classes.yield_strength("grade 8", 40), "ends at 38.1 mm"),
        (lambda: property_classes.yield_strength("A2-70", 27), "up to M24"),
        (lambda: property_classes.yield_strength("8.9", 8), "8.9 is no property class"),
        (lambda: property_classes.yield_strength("8.8", 0), "above 0 mm"),
        (lambda: property_classes.yield_strength("8.8", float("nan")), "above 0 mm"),
        (lambda: property_classes.breaking_load("M9", "8.8"), "M9 is no thread"),
    ],
)
def test_what_has_no_figure_is_refused(call, named: str) -> None:
    """Never the figure of another class, size or series."""
    with pytest.raises(ValueError, match=named):
        call()
