"""Answers are taken by number, by name and by title; of anything else it is said what was probably meant."""

import pytest
from bayleaf.drafts.asked import name_from
from bayleaf.drafts.choosing import chosen

OFFERED = {"cabin-heater": "Cabin heater for coolant, 5 kW", "X7": "Cabin heater HV inlet", "X10": "Charger outlet"}


@pytest.mark.parametrize(
    ("answer", "expected"),
    [
        ("1", ("cabin-heater",)),
        ("2, 3", ("X7", "X10")),
        ("3 2", ("X10", "X7")),
        ("x7", ("X7",)),
        ("X7;cabin-heater", ("X7", "cabin-heater")),
        ("cabin heater hv inlet", ("X7",)),
        ("Cabin heater for coolant, 5 kW", ("cabin-heater",)),
        ("X7, 2, X7", ("X7",)),
        (" , ", ()),
        ("", ()),
    ],
)
def test_answers(answer: str, expected: tuple[str, ...]) -> None:
    """In the order of the answer, each once."""
    assert expected == chosen(answer, OFFERED).names
    assert chosen(answer, OFFERED).unknown is None


@pytest.mark.parametrize(
    ("answer", "unknown", "meant"),
    [
        ("cabin-heatre", "cabin-heatre", "cabin-heater"),
        ("cabin heeter", "cabin heeter", "cabin-heater"),
        ("X7, outlet", "outlet", "X10"),
        ("4", "4", None),
        ("0", "0", None),
        ("gearbox", "gearbox", None),
    ],
)
def test_what_is_not_there(answer: str, unknown: str, meant: str | None) -> None:
    """The first word that is nothing, and the name that was probably meant."""
    found = chosen(answer, OFFERED)
    assert (unknown, meant) == (found.unknown, found.meant)


@pytest.mark.parametrize(
    ("title", "expected"),
    [
        ("Replace the cabin heater!", "replace-cabin-heater"),
        ("Wärmetauscher für Öl prüfen", "warmetauscher-fur-ol-prufen"),
        ("  P0AA6: find it ", "p0aa6-find-it"),
        ("漢字", ""),
    ],
)
def test_names_from_titles(title: str, expected: str) -> None:
    """Lower-case letters, digits and hyphens; nothing where a title has none of them."""
    assert expected == name_from(title)
