"""The rules about job records: examples of two files, and what examples cannot show."""

import re

import pytest
from bayleaf.rules.rule import Rule, all_rules
from kit import BASES, PLACES, check, completed

RULES = [rule for rule in all_rules() if rule.family == "records"]

#: Two files that belong together, as a page shows them one after the other.
_BESIDE = re.compile(
    r"^```yaml (fails|passes) beside procedure\n(.*?)^```\n\n```yaml \1 beside record\n(.*?)^```$",
    re.MULTILINE | re.DOTALL,
)
_MARK = re.compile(r"# <- (.*)$")
EXAMPLES = [
    pytest.param(rule, *found, id=f"{rule.name}-{found[0]}") for rule in RULES for found in _BESIDE.findall(rule.page)
]


@pytest.mark.parametrize(("rule", "outcome", "procedure", "record"), EXAMPLES)
def test_example_of_two_files(tmp_path, rule: Rule, outcome: str, procedure: str, record: str) -> None:
    """The record raises exactly what is marked in it; the procedure beside it is right."""
    expected = [
        (number, rule.name, mark[1])
        for number, line in enumerate(record.splitlines(), start=1)
        if (mark := _MARK.search(line))
    ]
    files = {
        PLACES["procedure"]: completed(procedure, BASES["procedure"]),
        PLACES["record"]: completed(record, BASES["record"]),
    }

    found = check(tmp_path, files).findings

    assert bool(expected) == (outcome == "fails")
    assert expected == [(one.place.line, one.rule, one.message) for one in found]
