"""Whatever texts a draft holds, the file says them again."""

from typing import Any

import pytest
from bayleaf.drafts.asked import as_said
from bayleaf.drafts.yaml_text import Remark, yaml_text
from bayleaf.loading.load import load
from hypothesis import example, given
from hypothesis import strategies as st

WORDS = st.text(st.characters(max_codepoint=0x24F))


def again(data: dict[str, Any]) -> Any:
    text = yaml_text("procedures/v/n.yml", data, "procedure")
    return load("procedures/v/n.yml", text.encode(), "procedure").source.data


@given(WORDS.map(as_said).filter(bool))
@example("no")
@example("~")
@example("null")
@example("a: b # c")
@example("- x")
@example("'")
@example('"')
@example("\\")
@example(" ".join(["word"] * 60))
@example("? " + " ".join(["word: #"] * 40))
def test_every_text_is_read_again(text: str) -> None:
    """As a value, in a list, in a map in one line, in a long text."""
    data = {
        "title": text, "symptoms": [text, "two"], "people": {"who": text},
        "steps": [{"do": text, "on": "nothing"}, {"ask": text, "answers": [{"answer": text, "then": "next"}]}],
    }  # fmt: skip
    assert data == again(data)


@pytest.mark.parametrize(
    ("data", "line"),
    [
        ({"tools": ["a", "b"]}, "tools: [a, b]"),
        ({"people": {"at_least": "2"}}, "people: {at_least: 2}"),
        ({Remark("TODO: say more"): "", "title": "x"}, "# TODO: say more"),
        ({"steps": [{"prove_dead": "t", "tester_proved": {"before": "u", "after": "u"}}]},
         "    tester_proved: {before: u, after: u}"),
    ],
)  # fmt: skip
def test_lines(data: dict[str, Any], line: str) -> None:
    """As the procedures of the demo write them."""
    assert line in yaml_text("procedures/v/n.yml", data, "procedure").splitlines()
