"""How much room a step is given before it is laid out: by what stands in it."""

import re

import pytest
from bayleaf.manual import Manual
from bayleaf.pages.all import all_pages
from bayleaf.pages.room import room

TEXT = "<p>Take the lid off.</p>"


@pytest.mark.parametrize(
    ("less", "more"),
    [
        (TEXT, TEXT * 2),
        (TEXT, TEXT.replace(".", " of the box, and lay it where nobody steps on it.")),
        (TEXT, TEXT + '<svg class="bl-map-drawing" viewBox="0 0 340 200"><text>X1</text></svg>'),
        (TEXT, TEXT + '<img alt="" width="800" height="600">'),
    ],
)
def test_more_takes_more_room(less: str, more: str) -> None:
    """Letters, blocks, drawings and pictures all count."""
    assert room(less) < room(more)


@pytest.mark.parametrize(
    "hidden", ['<p class="job-paper">Reading</p>', "<svg><text>a sign with many letters</text></svg>"]
)
def test_what_is_not_seen_on_the_screen_takes_none(hidden: str) -> None:
    """Lines for the pen are on paper only; letters within a drawing lie in its own room."""
    assert room(TEXT) == room(TEXT + hidden)


def test_a_drawing_wider_than_a_phone_is_shown_smaller() -> None:
    """Twice as wide and twice as high is the same height on a phone."""
    drawn = '<svg class="bl-map-drawing" viewBox="0 0 {} {}"></svg>'

    assert room(drawn.format(340, 200)) == room(drawn.format(680, 400))


def test_every_step_has_room_of_its_own(demo: Manual) -> None:
    """None is given next to nothing, and they differ."""
    page = next(page for page in all_pages(demo) if page.url == "larkway-m12/find-insulation-fault.html")
    rooms = [int(one) for one in re.findall(r'<section class="bl-step [^>]*style="--room: (\d+)"', page.make().html)]

    assert len(rooms) > 100 and min(rooms) > 8 and len(set(rooms)) > 20
