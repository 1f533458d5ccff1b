"""Tags in the Markdown of free pages: where they are found, where they are left alone, and at which place."""

import re

import markdown
import pytest
from bayleaf.loading.free_page import read_free_page, tags_in
from bayleaf.loading.prose import CODE, prose
from hypothesis import given, settings
from hypothesis import strategies as st


def written(text: str) -> list[tuple[object, ...]]:
    """What was found: the word, the names, whether it is alone on its line, what is wrong with it."""
    return [(tag.word, *(name.text for name in tag.names), tag.alone, tag.fault) for tag in tags_in(text)]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("[[energy: larkway-m12]]", [("energy", "larkway-m12", True, "")]),
        ("[[ energy:larkway-m12 ]]", [("energy", "larkway-m12", True, "")]),
        ("  [[energy:  larkway-m12   traction]]  ", [("energy", "larkway-m12", "traction", True, "")]),
        ("See [[code: P0AA6]].", [("code", "P0AA6", False, "")]),
        ("[[code: P0AA6]] [[code: P0AA1]]", [("code", "P0AA6", False, ""), ("code", "P0AA1", False, "")]),
        ("[[isolation point: van plug]]", [("isolation point", "van", "plug", True, "")]),
        ("[[energy: van]] <!-- the whole -->", [("energy", "van", True, "")]),
        ("| [[face: van X7]] |", [("face", "van", "X7", False, "")]),
        ("[[enrgy: van]]", [("enrgy", "van", True, "")]),
        ("[[step:]]", [("step", True, "")]),
        ("[[step van/job 3]]", [("step", False, "no colon")]),
        ("Do [[step: van/job 3] first", [("step", False, "not closed")]),
        ("Do [[step: van/job 3\nfirst]]", [("step", False, "not closed")]),
    ],
)
def test_what_is_a_tag(text: str, found: list[tuple[object, ...]]) -> None:
    """Two brackets, a word, a colon, names; a known word also where the colon or the end is forgotten."""
    assert found == written(text)


@pytest.mark.parametrize(
    "text",
    [
        "[[service-plug]]",
        "taken_off_by: [[service-plug], [charge-lead]]",
        r"\[[energy: van]]",
        "[[energy: van]](page.md)",
        "[[energy: van]][there]",
        "[[https://example.org]]",
        "`[[energy: van]]`",
        "``a ` [[energy: van]]``",
        "`begun\n[[energy: van]] done`",
        "```\n[[energy: van]]\n```",
        "~~~ yaml\n```\n[[energy: van]]\n~~~",
        "- item\n\n    ```\n    [[energy: van]]\n    ```",
        "Text\n\n    [[energy: van]]",
        "Text\n\n\t[[energy: van]]\n\n\t[[energy: van]]",
        "- item\n\n        [[energy: van]]",
        "<!-- [[energy: van]] -->",
        "<!-- begun\n\n[[energy: van]]\n-->",
        "<pre>\n[[energy: van]]\n</pre>",
        "<code>[[energy: van]]</code>",
        "---\ntitle: '[[energy: van]]'\n---\nText",
        "[[energy: `van`]]",
    ],
)
def test_what_is_no_tag(text: str) -> None:
    """Code, remarks, what stands before the text, links of Markdown, and what a backslash stands before."""
    assert [] == written(text)


@pytest.mark.parametrize(
    "text",
    [
        "- item\n\n    [[energy: van]]",
        "1. item\n    - inner\n\n        [[energy: van]]",
        "!!! note\n\n    [[energy: van]]",
        "Text\n    [[energy: van]]",
        "`code` and\n\n[[energy: van]]\n\n`code`",
        "a ` lone sign\n\n[[energy: van]]\n\nand ` another",
        "```\ncode\n```\n[[energy: van]]",
    ],
)
def test_what_is_still_a_tag(text: str) -> None:
    """Below an item or a note four spaces are its content, and a lone sign begins no code."""
    assert [("energy", "van", True, "")] == written(text)


def test_a_name_has_its_place() -> None:
    """Line and column count from 1, columns in characters; lines end as Windows ends them."""
    source, page = read_free_page("procedures/a.md", "# Überblick\r\n\r\nÄ [[step: van/job  7]]\r\n".encode())
    name = page.tags[0].names[1]

    assert ("procedures/a.md", 3, 20, 3, 21) == source.place(("tags", 0), name.start, name.end)
    assert ("procedures/a.md", 3, 3, 3, 23) == source.place(("tags", 0))


@pytest.mark.parametrize("data", [b"[[energy: van\xe4]]", b"\xff\xfe\x00\x00"])
def test_a_page_that_is_no_text_is_told(data: bytes) -> None:
    """As every other file of the manual."""
    source, page = read_free_page("procedures/a.md", data)

    assert (["not-utf-8"], ()) == ([one.rule for one in source.findings], page.tags)


@settings(deadline=None)
@given(st.text(alphabet="[]`~ \n\t:#-*!<>\\aenrgy\0|=1.", max_size=60))
def test_nothing_makes_it_fail(text: str) -> None:
    """Whatever stands in a page; the blanked text is as long as before, and has the same lines."""
    blanked = prose(text)

    assert (len(text), text.splitlines(True).__len__()) == (len(blanked), blanked.splitlines(True).__len__())
    assert all(one == other or one in " \0" for one, other in zip(blanked, text, strict=True))
    tags_in(text)


#: Pieces of a page; each `@` becomes a word of its own.
PIECES = (
    "Text @ more.", "Text `@` more.", "Text ``a ` @`` more @.", "```\n@\n```", "~~~ yaml\n@\n\n@\n~~~", "    @", "\t@\n\n    @",
    "- @\n- `@`\n- @", "- item\n\n    @", "- item\n\n        @", "1. item\n\n    - @\n\n        @\n\n            @",
    "!!! note\n\n    @\n\n        @", "# Heading @", "> quoted @ and `@`", "<!-- @ -->", "<pre>\n@\n</pre>",
    "| a | b |\n| - | - |\n| @ | `@` |", "Line\n    @", r"Escaped \` @ and \` @", "A ` lone @ sign", "Text\n@\nmore",
)  # fmt: skip


@settings(deadline=None)
@given(st.lists(st.sampled_from(PIECES), min_size=1, max_size=6))
def test_code_is_what_the_pages_show_as_code(pieces: list[str]) -> None:
    """Python-Markdown and the blanking agree on every word: what is shown as text is looked at, and nothing else."""
    count = iter(range(999))
    text = re.sub("@", lambda _: f"word{next(count)}q", "\n\n".join(pieces))
    extensions = ["toc", "tables", "fenced_code", "admonition"]
    html = re.sub(
        r"<!--.*?-->|<(pre|code)\b.*?</\1>|<[^>]+>", "", markdown.markdown(text, extensions=extensions), flags=re.DOTALL
    )

    assert re.findall(r"word\d+q", html) == re.findall(r"word\d+q", prose(text).replace(CODE, " "))
