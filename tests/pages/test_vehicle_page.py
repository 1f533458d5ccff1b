"""What the page of a vehicle says of a circuit."""

import pytest
from bayleaf.pages.show import lead_words
from bayleaf.pages.vehicle_page import vehicle_body
from kit import PLACES, VEHICLE, check
from markupsafe import Markup

WRITTEN = "stored: {capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: 5 min, to_chassis: 0.4 µF}"


@pytest.mark.parametrize(
    ("stored", "words"),
    [
        ("capacitance: not known, bleed: 47 kΩ, stated_wait: 5 min", "Capacitance not published by the maker"),
        ("capacitance: 1.1 mF, bleed: not known, stated_wait: 5 min", "Bleed resistance not published by the maker"),
        ("capacitance: 1.1 mF, bleed: none, stated_wait: 5 min", "Bleed resistance none: nothing discharges it"),
        ("capacitance: 1.1 mF, bleed: 47 kΩ, stated_wait: none", "Waiting time stated none"),
    ],
)
def test_a_figure_that_the_author_did_not_get_is_said(tmp_path, stored: str, words: str) -> None:
    """The reader sees that it was asked for, not only that it is missing."""
    assert WRITTEN in VEHICLE
    text = VEHICLE.replace(WRITTEN, f"stored: {{{stored}}}")

    manual = check(tmp_path, {PLACES["vehicle"]: text})

    html = vehicle_body(manual.vehicles["test-van"], "test-van", manual).html
    assert words in " ".join(Markup(html.replace("<", " <")).striptags().split())


@pytest.mark.parametrize(
    ("said", "words"),
    [("4 weeks", "takes 4 weeks"), ("in stock", "in stock"), ("not known", "not known"), (None, None)],
)
def test_a_lead_time_takes_so_long_only_where_it_is_a_time(said: str | None, words: str | None) -> None:
    """A part on the shelf does not “take in stock”."""
    assert lead_words(said) == words
