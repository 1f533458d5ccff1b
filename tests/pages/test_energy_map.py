"""The energy map: every source, gap, circuit and live place is drawn where it belongs, and nothing covers anything."""

from itertools import product
from pathlib import Path

import demo_kit
import pytest
from bayleaf.manual import Manual
from bayleaf.model.vehicle import LivePlace, Rotation, Source, Vehicle
from bayleaf.pages.drawings.circuit_parts import branches
from bayleaf.pages.drawings.energy_map import energy_map, ways
from bayleaf.pages.drawings.shapes import SIZE
from bayleaf.pages.drawings.wrapping import width_of, wrapped
from bayleaf.pages.energy_words import class_words, fed_by, is_fixed, live_words, point_words, source_words
from drawing_kit import carries, circuit, faults_of, part, point, texts, vehicle, volts
from hypothesis import given, settings
from hypothesis import strategies as st

ROOT = Path(__file__).resolve().parents[2]


DRAWN = [
    (folder, name)
    for folder, profile in demo_kit.demo().vehicles.items()
    for name in profile.circuits
]  # fmt: skip


@pytest.mark.parametrize(("folder", "name"), DRAWN)
def test_the_map_shows_each_source_with_its_points_and_what_stays_live(demo: Manual, folder: str, name: str) -> None:
    """Each source has a box beside its own gaps, each gap its name, each live place its voltage; the circuit ends it."""
    profile = demo.vehicles[folder]
    one = profile.circuits[name]
    drawing = ways(profile, one)

    boxes = {box.of: box.rect for box in drawing.boxes}
    sources = fed_by(one)
    assert [of for of in boxes if of.startswith("source:")] == [f"source:{source.name}" for source in sources]
    tops = [boxes[f"source:{source.name}"].y for source in sources] + [boxes[f"circuit:{name}"].y]
    for index, source in enumerate(sources):
        here = [gap.of for gap in drawing.gaps if tops[index] <= gap.y < tops[index + 1]]
        assert here == [f"point:{one}" for way in source.taken_off_by for one in way]
        assert source_words(source) in texts(drawing, f"source:{source.name}")
        assert ("Cannot be taken off" in texts(drawing, f"source:{source.name}")) == is_fixed(source)
        for named in (named for way in source.taken_off_by for named in way):
            written = texts(drawing, f"point:{named}")
            assert point_words(profile, named) in written
            found = profile.isolation_points.get(named)
            for place in found.leaves_live if found else ():
                assert live_words(place, found).replace("\u00a0", " ") in written
    assert class_words(one) in texts(drawing, f"circuit:{name}")
    assert ("turning" in boxes) == (one.rotation is not None)
    if one.sealed_in:
        assert boxes[f"sealed:{one.sealed_in}"].holds(boxes[f"circuit:{name}"])


@pytest.mark.parametrize(("folder", "name"), DRAWN)
def test_every_part_cover_and_connector_of_a_circuit_is_drawn_once(demo: Manual, folder: str, name: str) -> None:
    """What lies on the circuit hangs on it; connectors are named where they part it."""
    profile = demo.vehicles[folder]
    drawing = branches(profile, profile.circuits[name])
    boxes = [box.of for box in drawing.boxes] if drawing else []
    sealed_in = profile.circuits[name].sealed_in

    carrying = [f"part:{one.id}" for one in profile.parts.values() if name in one.circuits and one.id != sealed_in]
    over = [f"cover:{one.id}" for one in profile.parts.values() if name in one.exposes and name not in one.circuits]
    assert [of for of in boxes if not of.startswith("connector:")] == carrying + over
    for connector in profile.connectors.values():
        if any(name in (pin.device_circuit, pin.cable_circuit) for pin in connector.pins.values()):
            assert drawing and any(
                connector.id in text.lines[index].replace(",", " ").split()
                for text in drawing.texts
                for index in range(len(text.lines))
            )


@pytest.mark.parametrize(("folder", "name"), DRAWN)
def test_nothing_of_the_demo_covers_anything(demo: Manual, folder: str, name: str) -> None:
    """Boxes and texts lie apart and within the drawing; no line runs through a text."""
    profile = demo.vehicles[folder]

    assert faults_of(ways(profile, profile.circuits[name])) == []
    lower = branches(profile, profile.circuits[name])
    assert lower is None or faults_of(lower) == []


# ---- ways in a row and beside each other -----------------------------------------------------------


@pytest.mark.parametrize(
    ("sets", "off_at"),
    [
        ((("a",),), [{"a"}]),
        ((("a",), ("b",)), [{"a"}, {"b"}]),
        ((("a", "b"),), [{"a", "b"}]),
        ((("a", "b"), ("c",)), [{"a", "b"}, {"c"}]),
        ((("c",), ("a", "b")), [{"a", "b"}, {"c"}]),
        ((("a", "b", "c"), ("d", "e")), [{"a", "b", "c"}, {"d", "e"}]),
    ],
)
def test_the_lines_say_what_the_sets_say(sets: tuple[tuple[str, ...], ...], off_at: list[set[str]]) -> None:
    """With every choice of open points, current passes the drawing just where no set is wholly open.

    So sets lie one behind the other, and the points of one set beside each other.
    """
    names = sorted({one for way in sets for one in way})
    one = circuit(sources=(Source((), "battery", "points", sets),))
    drawing = ways(vehicle(one, *map(point, names)), one)

    for choice in product((True, False), repeat=len(names)):
        opened = {name for name, is_open in zip(names, choice, strict=True) if is_open}
        expected = not any(needed <= opened for needed in off_at)
        assert expected == carries(drawing, "battery", set(names) - opened), opened


@pytest.mark.parametrize(
    ("sets", "said"),
    [
        ((("a", "b"),), "only both together:"),
        ((("a", "b", "c"),), "only all 3 together:"),
        ((("a",), ("b",)), "or, instead, at"),
    ],
)
def test_words_say_the_same_as_the_lines(sets: tuple[tuple[str, ...], ...], said: str) -> None:
    """Who does not read a circuit diagram reads which points are needed."""
    one = circuit(sources=(Source((), "battery", "points", sets),))

    assert said in texts(ways(vehicle(one, *map(point, "abc")), one), "source:battery")


def test_the_drawing_is_named_and_described_for_those_who_do_not_see_it() -> None:
    """An SVG with a title and one sentence for each source."""
    one = circuit(sources=(Source((), "battery", "points", (("pole",),)), Source((), "cells", "never")))

    drawn = energy_map(vehicle(one, point("pole")), one, "one")

    assert 'role="img" aria-labelledby="title:one text:one"' in drawn
    assert "Battery is taken off at Point pole. Cells cannot be taken off." in drawn


# ---- any vehicle -----------------------------------------------------------------------------------

NAMES = st.text(st.sampled_from("abW mili-Ω\u00a0語.,<&"), min_size=1, max_size=60)
POINT_IDS = ("a", "b", "c", "mode-off", "missing")
SETS = st.lists(st.lists(st.sampled_from(POINT_IDS), min_size=1, max_size=3, unique=True).map(tuple), max_size=3)


@st.composite
def vehicles(draw: st.DrawFn) -> Vehicle:
    """A small vehicle with one circuit and whatever names an author may think of."""
    kinds = st.sampled_from(["none", "never", "points", "points"])
    sources = tuple(
        Source((), draw(NAMES) + str(index), draw(kinds), tuple(draw(SETS))) for index in range(draw(st.integers(0, 4)))
    )
    live = st.lists(st.builds(LivePlace, NAMES, st.sampled_from([None, volts("205 V")])), max_size=2).map(tuple)
    points = [
        point(one, *draw(live), name=draw(NAMES), secure_with=draw(st.sampled_from([None, "padlock"]))) for one in "abc"
    ]
    parts = tuple(
        part(f"part-{index}", name=draw(NAMES), circuits=draw(st.sampled_from([(), ("supply",)])), exposes=("supply",))
        for index in range(draw(st.integers(0, 3)))
    )
    turning = st.builds(Rotation, st.just(()), NAMES, st.just(volts("80 V per 1000 rpm")), st.just(volts("300 rpm")))
    one = circuit(
        name=draw(NAMES), sources=sources, rotation=draw(st.none() | turning), energy=draw(st.sampled_from(["electrical", "heat"])),
        sealed_in=draw(st.sampled_from([None, "part-0", "no-such-part"])), fused=draw(st.sampled_from([True, False, None])),
    )  # fmt: skip
    return vehicle(one, *points, parts=parts)


@settings(max_examples=150, deadline=None)
@given(vehicles())
def test_whatever_the_names_nothing_covers_anything(profile: Vehicle) -> None:
    """Boxes and texts lie apart and within the drawing; no line runs through a text or a box."""
    one = profile.circuits["supply"]
    lower = branches(profile, one)

    assert faults_of(ways(profile, one)) == []
    assert lower is None or faults_of(lower) == []


@settings(max_examples=100, deadline=None)
@given(vehicles())
def test_no_source_is_left_out(profile: Vehicle) -> None:
    """As many boxes as there are sources, as many gaps as points are named."""
    one = profile.circuits["supply"]
    drawing = ways(profile, one)

    boxes = [box.of for box in drawing.boxes if box.of.startswith("source:")]
    assert boxes == [f"source:{source.name}" for source in fed_by(one)]
    named = [name for source in fed_by(one) if not is_fixed(source) for way in source.taken_off_by for name in way]
    assert [gap.of for gap in drawing.gaps] == [f"point:{name}" for name in named]


@given(NAMES, st.floats(20, 300), st.booleans())
def test_wrapped_lines_fit_and_lose_nothing(text: str, width: float, bold: bool) -> None:
    """Every line fits into the width, and together they hold every letter."""
    lines = wrapped(text, width, SIZE, bold)

    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    assert [line for line in lines if width_of(line, SIZE, bold) > width] == []


@pytest.mark.parametrize(
    ("text", "width", "expected"),
    [
        ("service plug", 200, ("service plug",)),
        ("service plug", 70, ("service", "plug")),
        ("starter-generator", 85, ("starter-", "generator")),
        ("205\u00a0V at most", 60, ("205\u00a0V", "at most")),
        ("", 60, ()),
    ],
)
def test_lines_break_where_a_reader_expects_it(text: str, width: float, expected: tuple[str, ...]) -> None:
    """At blanks, else behind a hyphen; a figure keeps its unit."""
    assert expected == wrapped(text, width, SIZE)
