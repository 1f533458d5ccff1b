"""Every rule has a page, and the examples on the page do what they say."""

import re

import pytest
from bayleaf.rules.rule import Rule, all_rules
from kit import BASES, EXAMPLE, PLACES, check, completed
from photo_kit import PHOTOS

SECTIONS = ("Why it matters", "Fails", "Passes", "Source")
_MARK = re.compile(r"(?:#|<!--) <- (.*?)(?: -->)?$")

RULES = all_rules()
EXAMPLES = [
    pytest.param(rule, *found, id=f"{rule.name}-{found[0]}-{index}")
    for rule in RULES
    for index, found in enumerate(EXAMPLE.findall(rule.page))
]


def test_every_page_has_title_and_sections_in_order() -> None:
    """A page begins with one line that states the fault, and then has the four sections."""
    for rule in RULES:
        assert list(SECTIONS) == re.findall(r"^## (.+)$", rule.page, re.MULTILINE), rule.name
        assert re.match(r".+\.\n\n", rule.page), f"{rule.name}: first a line with one sentence, then an empty one"


def test_every_page_shows_what_fails_and_what_passes() -> None:
    """A rule shows at least one file that it objects to, and one that it does not."""
    shown = {rule.name: {found[0] for found in EXAMPLE.findall(rule.page)} for rule in RULES}
    by_file = {rule.name for rule in RULES if "file by file" in rule.page}

    assert [] == [name for name, kinds in shown.items() if kinds != {"fails", "passes"} and name not in by_file]


@pytest.mark.parametrize(("rule", "outcome", "kind", "whole", "text"), EXAMPLES)
def test_example(tmp_path, rule: Rule, outcome: str, kind: str, whole: str, text: str) -> None:
    """An example raises exactly what is marked in it, on the marked line, and nothing else anywhere."""
    expected = [
        (number, rule.name, mark[1].rstrip())
        for number, line in enumerate(text.splitlines(), start=1)
        if (mark := _MARK.search(line))
    ]
    file = text if whole else completed(text, BASES[kind])
    beside = {f"procedures/test-van/photos/{name}": make() for name, make in PHOTOS.items() if f"photos/{name}" in text}

    manual = check(tmp_path, {PLACES[kind]: file, **beside})

    found = [
        (finding.place.line, finding.rule, finding.message)
        if finding.place.file == PLACES[kind]
        else (finding.place.file, finding.place.line, finding.rule, finding.message)
        for finding in manual.findings
    ]
    assert bool(expected) == (outcome == "fails")
    assert expected == found
