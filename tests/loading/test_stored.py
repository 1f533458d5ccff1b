"""What a circuit stores: a figure, a word that tells why there is none, or nothing at all. The three are told apart."""

import json

import pytest
from bayleaf.loading.load import load
from bayleaf.loading.schema import validator
from bayleaf.model.vehicle import Stored
from kit import PLACES, VEHICLE
from yaml import BaseLoader
from yaml import load as plain

WRITTEN = "stored: {capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: 5 min, to_chassis: 0.4 µF}"


def profile(stored: str) -> str:
    """The profile of the tests with another `stored` of its traction circuit."""
    assert VEHICLE.count(WRITTEN) == 1
    return VEHICLE.replace(WRITTEN, f"stored: {{{stored}}}")


def read(stored: str) -> tuple[Stored, list[str]]:
    """What is read of it, and the rules of what is found."""
    loaded = load(PLACES["vehicle"], profile(stored).encode("utf-8"), "vehicle")
    found = loaded.model.circuits["traction"].stored
    assert found is not None
    return found, [finding.rule for finding in loaded.findings]


@pytest.mark.parametrize(
    ("stored", "says", "none", "not_known"),
    [
        ("capacitance: 1.1 mF, bleed: 47 kΩ", {"capacitance", "bleed"}, set(), set()),
        ("bleed: none, stated_wait: none", {"bleed", "stated_wait"}, {"bleed", "stated_wait"}, set()),
        ("capacitance: not known, bleed: not known", {"capacitance", "bleed"}, set(), {"capacitance", "bleed"}),
        ("stated_wait: 5 min", {"stated_wait"}, set(), set()),
    ],
)
def test_words_are_told_from_what_is_not_written(
    stored: str, says: set[str], none: set[str], not_known: set[str]
) -> None:
    """A missing key counts as the worst, a word does not: so the model keeps both."""
    found, rules = read(stored)

    assert [] == rules
    assert (says, none, not_known) == (found.says, found.none, found.not_known)


@pytest.mark.parametrize(
    "stored", ["capacitance: none", "stated_wait: not known", "capacitance: unknown", "to_chassis: none", "bleed: no"]
)
def test_other_words_are_told(stored: str) -> None:
    """One mistake, one finding; the key counts as written, so that nothing is said of it again."""
    found, rules = read(stored)

    assert ["number-unreadable"] == rules
    assert {stored.split(":")[0]} == found.says


@pytest.mark.parametrize(
    ("stored", "accepted"),
    [
        ("capacitance: not known, bleed: not known, stated_wait: none", True),
        ("bleed: none", True),
        ("capacitance: unknown", False),
        ("stated_wait: not known", False),
        ("bleed: nothing", False),
    ],
)
def test_editors_accept_the_same_words(stored: str, accepted: bool) -> None:
    """The schema alone says what an editor underlines."""
    data = json.loads(json.dumps(plain(profile(stored), BaseLoader)))

    assert accepted == validator("vehicle").is_valid(data)
