"""The demo is the measure of the format: it uses all of it, and every rule is seen to fire."""

import re

import pytest
from bayleaf.diagnostics.finding import Finding
from bayleaf.loading.schema import schema
from bayleaf.loading.text import MAX_BYTES
from bayleaf.rules.rule import Rule, all_rules
from demo_count import BESIDE, NOT_AS_TEXT, WITH_THE_KEY, constructs, failing, fires, of_demo, used
from kit import BASES, PLACES, check, completed, link

_MARK = re.compile(r"# <- (.*)$", re.MULTILINE)
RULES = {rule.name: rule for rule in all_rules()}
PAIRS = [
    pytest.param(rule, *found, id=f"{rule.name}-{index}")
    for rule in RULES.values()
    for index, found in enumerate(BESIDE.findall(rule.page))
]


def test_the_demo_uses_every_construct_of_the_format() -> None:
    """A key, a word or an exit that is new comes with a place in the demo."""
    assert [] == sorted(constructs() - of_demo().keys())


def test_what_is_counted_is_in_the_schemas() -> None:
    """The demo is read by the same names as the schemas, so nothing that it uses is missed."""
    assert of_demo().keys() <= constructs()
    assert len(constructs()) > 600


@pytest.mark.parametrize("key", WITH_THE_KEY)
def test_a_list_that_counts_with_its_key_is_one_construct(key: str) -> None:
    """However many words it has; and it is a key of the schemas that has such a list."""
    workshop = {"protection": {"gloves": {"class": "class 0"}}, "policy": {"allow_vin": "no"}}
    counted = set(used(workshop, schema("workshop"), "workshop", "workshop"))

    assert [key] == [one for one in constructs() if one.startswith(key)]
    assert [key] == [one for one in counted if one.startswith(key)]


def test_every_rule_has_a_failing_example() -> None:
    """On its page or as a mistake; where its page says "file by file", by name in a test; two need what is no text."""
    counts = fires()

    assert {name for name, one in counts.items() if not any(one)} <= NOT_AS_TEXT
    for name, (examples, mistakes, _) in counts.items():
        assert examples + mistakes or name in NOT_AS_TEXT or "file by file" in RULES[name].page, name
    assert all(failing(RULES[name]) == 0 for name in NOT_AS_TEXT)


@pytest.mark.parametrize(("rule", "kind", "text", "other_kind", "other"), PAIRS)
def test_two_files_that_belong_together_fail(
    tmp_path, rule: Rule, kind: str, text: str, other_kind: str, other: str
) -> None:
    """What is marked in either is found, in the words of the page; the small manual beside them may have it too."""
    files = {PLACES[one]: completed(part, BASES[one]) for one, part in ((kind, text), (other_kind, other))}

    found = [one.message for one in check(tmp_path, files).findings if one.rule == rule.name]

    marked = _MARK.findall(text + other)
    assert marked
    assert set(marked) <= set(found)


def test_a_file_that_is_too_large_or_not_handed_out_is_told(tmp_path) -> None:
    """The two rules that no text shows."""
    check(tmp_path, {})
    folder = tmp_path / "procedures" / "test-van"
    (folder / "large.yml").write_bytes(b"#" * (MAX_BYTES + 1))
    link(folder / "gone.yml", "nowhere.yml")

    found: list[Finding] = list(check(tmp_path, {}).findings)

    assert {one.rule for one in found} >= NOT_AS_TEXT
