"""Where a value stands: lines and columns from 1, columns in code points, the end exclusive."""

import pytest
from bayleaf.diagnostics.place import Place
from bayleaf.loading.tree import read_source
from bayleaf.loading.yaml_reader import SlowTextLoader, TextLoader

TEXT = """\
# remark
format: 1
limits: {at_least: 5 MΩ, source: 'it''s here'}
steps:
  - do: "a\\tb \\u00e9 c"   # remark
    on: nothing
  - [X7/1, chassis]
  -
empty:
say: |
  first line
    second
fold: >-
  one
  two three

  four
plain: Park and
  secure it
"""

PLACES = {
    "the whole file": ((), {}, (1, 1, 1, 1)),
    "a text": (("format",), {}, (2, 9, 2, 10)),
    "a key": (("format",), {"key": True}, (2, 1, 2, 7)),
    "a map in braces": (("limits",), {}, (3, 9, 3, 47)),
    "a text in braces": (("limits", "at_least"), {}, (3, 20, 3, 24)),
    "a part of a text": (("limits", "at_least"), {"start": 2, "end": 4}, (3, 22, 3, 24)),
    "a part to the end": (("limits", "at_least"), {"start": 2}, (3, 22, 3, 24)),
    "a part of a text in single quotes": (("limits", "source"), {"start": 5, "end": 9}, (3, 41, 3, 45)),
    "a list over several lines: its first line": (("steps",), {}, (5, 3, 5, 24)),
    "a map over several lines: its first line": (("steps", 0), {}, (5, 5, 5, 24)),
    "a text in double quotes": (("steps", 0, "do"), {}, (5, 9, 5, 24)),
    "a part behind an escape": (("steps", 0, "do"), {"start": 4, "end": 5}, (5, 15, 5, 21)),
    "a part behind two escapes": (("steps", 0, "do"), {"start": 6, "end": 7}, (5, 22, 5, 23)),
    "an entry of a list": (("steps", 1, 1), {}, (7, 12, 7, 19)),
    "an empty list entry: its dash": (("steps", 2), {}, (8, 3, 8, 4)),
    "an empty value: its key": (("empty",), {}, (9, 1, 9, 6)),
    "a block of text: its first line": (("say",), {}, (10, 6, 10, 7)),
    "a part of a block of text": (("say",), {"start": 13, "end": 19}, (12, 5, 12, 11)),
    "a part of a folded text": (("fold",), {"start": 8, "end": 13}, (15, 7, 15, 12)),
    "a part behind an empty line": (("fold",), {"start": 14, "end": 18}, (17, 3, 17, 7)),
    "a part of a text over two lines": (("plain",), {"start": 9, "end": 15}, (19, 3, 19, 9)),
    "a part over two lines: its first line": (("plain",), {"start": 5, "end": 15}, (18, 13, 18, 16)),
    "an empty part: the whole": (("format",), {"start": 1, "end": 1}, (2, 9, 2, 10)),
    "a path that is not there: the key above": (("limits", "at_most", "x"), {}, (3, 1, 3, 7)),
    "an index that is not there": (("steps", 9), {}, (4, 1, 4, 6)),
    "a key that is not there at the top": (("nothing",), {"key": True}, (1, 1, 1, 1)),
    "a step into a text": (("format", "x"), {"start": 0, "end": 1}, (2, 1, 2, 7)),
}  # fmt: skip


@pytest.mark.parametrize("loader", [TextLoader, SlowTextLoader])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize(("path", "options", "place"), PLACES.values(), ids=PLACES)
def test_place_of_a_value(path, options, place, end, loader):
    """The same whatever ends the lines, and from both readers."""
    source = read_source("a.yml", TEXT.replace("\n", end).encode(), loader)

    assert source.findings == ()
    assert Place("a.yml", *place) == source.place(path, **options)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_columns_count_code_points(encoding):
    """A sign beyond U+FFFF, a tab and a combining mark are one column each; the byte order mark is none."""
    source = read_source("a.yml", "\U0001f6e0e\u0301:\t\U0001f50b [x]\n".encode(encoding))

    assert Place("a.yml", 1, 6, 1, 11) == source.place(("\U0001f6e0e\u0301",))
    assert Place("a.yml", 1, 8, 1, 11) == source.place(("\U0001f6e0e\u0301",), 2)


def test_places_stay_true_in_a_mended_text():
    """Places are those of the author's text, not of the text as it was mended to read on."""
    text = "a:b\nc: P0A0D: x\n\td: e\n"
    source = read_source("a.yml", text.replace("\td", "d").encode())

    assert source.data == {"a": "b", "c": "P0A0D: x", "d": "e"}
    assert Place("a.yml", 1, 3, 1, 4) == source.place(("a",))
    assert Place("a.yml", 2, 11, 2, 12) == source.place(("c",), 7, 8)

    tabbed = read_source("a.yml", b"a:\n\tb: c\n\td:\n\t\te: fgh\n")
    assert Place("a.yml", 4, 6, 4, 9) == tabbed.place(("a", "d", "e"))
    assert Place("a.yml", 4, 7, 4, 8) == tabbed.place(("a", "d", "e"), 1, 2)


def test_a_file_that_could_not_be_read_has_one_place():
    """Whatever is asked for."""
    source = read_source("a.yml", b"\xff")

    assert Place("a.yml", 1, 1, 1, 1) == source.place(("steps", 3), 1, 2)
