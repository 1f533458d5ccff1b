"""The flow of a procedure: every step and exit is there, joined to what it leads to, and nothing covers another thing."""

import re
from html import unescape
from itertools import combinations

import pytest
from bayleaf.pages.drawings.flow import LEFT_LANES, RIGHT_LANES, FlowStep, Way, flow, flow_words, way_words
from bayleaf.pages.drawings.flow_parts import flow_parts
from bayleaf.pages.drawings.lanes import Span, allotted
from bayleaf.pages.drawings.shapes import Drawing, Rect, Wire, svg, svg_between
from drawing_kit import faults_of, texts
from hypothesis import given, settings
from hypothesis import strategies as st

TITLES = (
    "Switch the vehicle off",
    "Measure: Insulation of the whole bus, both poles to chassis, all units joined",
    "Wait",
)
CASES = (
    "Below",
    "Above, not decided",
    "P0AA6 together with another code of the insulation monitor, or a lamp that flickers",
)


def step(number: int, *ways: Way, goes_on: str | None = "") -> FlowStep:
    """A step with these ways out."""
    return FlowStep(str(number), TITLES[number % 3], f"#step-{number}", ways, goes_on)


def to(target: int, case: str = "Below") -> Way:
    """A way to a step by its index."""
    return Way(case, target, f"step {target + 1}", f"#step-{target + 1}")


STOP = Way("Not dead", None, "stop", "", True)
END = Way("Within limits", None, "end: The heater leaks to its housing", "#conclusion-heater")


@st.composite
def flows(draw: st.DrawFn) -> tuple[FlowStep, ...]:
    """Up to 40 steps with up to six exits each, to any step, to ends and to stops."""
    count = draw(st.integers(1, 40))
    busy = draw(st.sampled_from([1, 3, 6]))
    steps = []
    for number in range(count):
        targets = draw(st.lists(st.integers(-2, count - 1), max_size=busy, unique=True))
        ways = [
            STOP if target == -2 else END if target == -1 else to(target, draw(st.sampled_from(CASES)))
            for target in targets
            if target != number + 1
        ]
        goes_on = draw(st.sampled_from(["Within limits", None])) if ways else ""
        steps.append(step(number + 1, *ways, goes_on=goes_on))
    return tuple(steps)


def place(drawing: Drawing, of: str) -> Rect:
    """The box of one thing."""
    found = [box.rect for box in drawing.boxes if box.of == of]
    assert 1 == len(found)
    return found[0]


def uprights(wires: list[Wire]) -> list[tuple[float, float, float]]:
    """The lanes: x, top, bottom."""
    found = []
    for wire in wires:
        if len(wire.points) == 4:
            (x, a), (_, b) = wire.points[1:3]
            found.append((x, min(a, b), max(a, b)))
    return found


def led_to(drawing: Drawing, of: str) -> set[float]:
    """The heights at which the line that begins at an exit comes to the steps; empty where none begins there."""
    rect = place(drawing, of)
    level = rect.y + rect.height / 2
    lines = [wire for wire in drawing.wires if wire.look in ("jump", "loop")]
    own = [wire for wire in lines if abs(wire.points[0][1] - level) < 0.01 and wire.points[0][0] <= rect.right + 0.01]
    found = set()
    for wire in own:
        if len(wire.points) == 4:
            found.add(wire.points[-1][1])
        for other in lines:
            if len(wire.points) == 2 and len(other.points) == 4 and other.points[1][0] == wire.points[1][0]:
                low, high = sorted((other.points[1][1], other.points[2][1]))
                if low <= level <= high:
                    found.add(other.points[-1][1])
    return found


@settings(max_examples=40, deadline=None)
@given(flows())
def test_nothing_overlaps(steps: tuple[FlowStep, ...]) -> None:
    """However many exits there are; and no two lanes lie on one another."""
    drawing = flow(steps)

    assert [] == faults_of(drawing)
    lanes = uprights([wire for wire in drawing.wires if wire.look in ("jump", "loop")])
    assert [] == [(a, b) for a, b in combinations(lanes, 2) if a[0] == b[0] and a[1] <= b[2] and b[1] <= a[2]]


@settings(max_examples=40, deadline=None)
@given(flows())
def test_every_exit_is_joined_to_its_step_or_names_it_in_a_box(steps: tuple[FlowStep, ...]) -> None:
    """By a line that comes to the middle of its step, else, where no lane was free, by a box with its number."""
    drawing = flow(steps)
    looks = {box.of: box.look for box in drawing.boxes}
    for index, one in enumerate(steps):
        assert one.number in texts(drawing, f"step:{index}").split()
        for number, way in enumerate(one.ways):
            of = f"way:{index}:{number}"
            if way.target is None:
                assert ("halt" if way.stops else "end") == looks[of]
            elif looks[of] == "end":
                assert set() == led_to(drawing, of)
            else:
                target = place(drawing, f"step:{way.target}")
                assert {target.y + target.height / 2} == led_to(drawing, of)


@settings(max_examples=40, deadline=None)
@given(flows())
def test_every_step_and_every_exit_is_a_link(steps: tuple[FlowStep, ...]) -> None:
    """To the anchor of the step, the step or the conclusion it leads to; a plain stop leads nowhere."""
    links = [(link.of, link.url) for link in flow(steps).links]
    expected = []
    for index, one in enumerate(steps):
        expected.append((f"step:{index}", one.url))
        expected += [(f"way:{index}:{number}", way.url) for number, way in enumerate(one.ways) if way.url]
    assert expected == links


@settings(max_examples=40, deadline=None)
@given(flows())
def test_the_text_alternative_says_the_same(steps: tuple[FlowStep, ...]) -> None:
    """Every exit of every step that divides the flow."""
    words = flow_words(steps)
    for one in steps:
        if one.ways:
            assert f"Step {one.number}: {'; '.join(way_words(way) for way in one.ways)}" in words


def test_jumps_go_right_and_loops_go_left_dashed() -> None:
    """Step 1 jumps to 3; step 3 goes back to 2, and is followed by the end."""
    drawing = flow(
        (step(1, to(2), goes_on="Within limits"), step(2), step(3, to(1, "Not decided"), goes_on="Within limits"))
    )
    jump, loop = (next(wire for wire in drawing.wires if wire.look == look) for look in ("jump", "loop"))
    boxes = [place(drawing, f"step:{index}") for index in range(3)]

    assert jump.points[-1] == (boxes[2].right, boxes[2].y + boxes[2].height / 2)
    assert loop.points[-1] == (boxes[1].x, boxes[1].y + boxes[1].height / 2)
    assert jump.points[1][0] > boxes[0].right and loop.points[1][0] < boxes[0].x
    assert "Below: step 3" == texts(drawing, "way:0:0")
    assert ["down", "down", "down"] == [sign.kind for sign in drawing.signs if sign.kind == "down"]
    assert "End: the last step is done" == texts(drawing, "end")


def test_the_spine_ends_where_no_way_leads_on() -> None:
    """A step whose only ways out are jumps and ends is not joined to the next one."""
    drawing = flow((step(1, END, goes_on=None), step(2)))
    first, second = place(drawing, "step:0"), place(drawing, "step:1")
    reach = max(y for wire in drawing.wires for _, y in wire.points if wire.points[0][1] < second.y)

    assert first.bottom < reach < second.y


def test_exits_to_one_step_share_a_lane() -> None:
    """The second joins the first with a dot."""
    drawing = flow((step(1, to(3), goes_on="x"), step(2, to(3), goes_on="x"), step(3), step(4)))

    assert 1 == len(uprights([wire for wire in drawing.wires if wire.look == "jump"]))
    assert 1 == len([sign for sign in drawing.signs if sign.kind == "join"])


def test_a_jump_without_a_free_lane_is_a_box() -> None:
    """One more than there are lanes, all of them side by side: the longest has none."""
    count = RIGHT_LANES + 1
    jumps = [step(number + 1, to(3 * count - number), goes_on="x") for number in range(count)]
    drawing = flow((*jumps, *(step(number) for number in range(count + 1, 3 * count + 2))))

    assert ["way:0:0"] == [box.of for box in drawing.boxes if box.look == "end" and box.of.startswith("way")]
    assert set() == led_to(drawing, "way:0:0") and led_to(drawing, "way:1:0")


def test_lanes_hold_lines_apart() -> None:
    """Short ones come first; what touches takes another lane; what finds none is left out."""
    found = allotted([Span(1, 0, 100), Span(2, 10, 20), Span(3, 20, 40), Span(4, 50, 60)], 2)
    assert {2: 0, 4: 0, 3: 1} == found
    assert LEFT_LANES < RIGHT_LANES, "a procedure jumps forward more often than it goes back"


def test_links_are_reached_in_the_svg() -> None:
    """What lies in an image cannot be reached by keys; so it is a group, and every link has its words in full."""
    drawn = svg(flow((step(1, to(2), goes_on="Within limits"), step(2), step(3))), "flow", "Flow", "words")

    assert 'role="group"' in drawn and 'role="img"' not in drawn
    assert f'<a href="#step-1" aria-label="Step 1: {TITLES[1]}">' in drawn
    assert '<a href="#step-3" aria-label="Below: step 3">' in drawn


@settings(max_examples=60, deadline=None)
@given(flows(), st.floats(60, 900))
def test_parts_on_paper_cut_nothing_but_lines(steps: tuple[FlowStep, ...], most: float) -> None:
    """Together they are the whole drawing; each box and text lies in one; only a single step may be higher than asked."""
    drawing = flow(steps)
    parts = flow_parts(drawing, most)
    edges = [part.top for part in parts] + [drawing.height]

    assert [0.0, *(part.top + part.height for part in parts)] == pytest.approx(edges)
    assert [] == [part for part in parts if part.height > most and part.first != part.last]
    assert list(range(len(steps))) == [at for part in parts for at in range(part.first, part.last + 1)]
    whole = [*(box.rect for box in drawing.boxes), *(text.rect for text in drawing.texts)]
    assert [] == [(edge, rect) for edge in edges[1:-1] for rect in whole if rect.y < edge < rect.bottom]
    drawn = "".join(svg_between(drawing, part.top, part.height) for part in parts)
    assert len(drawing.boxes) == drawn.count('<g class="bl-map-box')
    assert sorted(text.lines for text in drawing.texts) == sorted(_texts(drawn))
    assert len(drawing.wires) <= drawn.count("bl-map-wire")


def _texts(drawn: str) -> list[tuple[str, ...]]:
    """The lines of each text in a drawing."""
    found = re.findall(r"<text[^>]*>(.*?)</text>", drawn)
    return [tuple(map(unescape, re.findall(r"<tspan[^>]*>(.*?)</tspan>", one) or [one])) for one in found]
