"""Marks of what is still to be filled in are counted, wherever they stand in a file."""

import pytest
from bayleaf.loading.unfilled import unfilled


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("title: Done\n", []),
        ("title: TODO\n", [(1, 8, 12)]),
        ("# TODO: ask the maker\ntitle: x TODO y TODO\n", [(1, 3, 7), (2, 10, 14), (2, 17, 21)]),
        ("title: todo list\nabout: TODOS, MYTODO\n", []),
    ],
)
def test_each_mark_is_told_at_its_place(text: str, expected: list[tuple[int, int, int]]) -> None:
    """In a text and in a comment; only the word by itself, in capitals."""
    assert [(one.place.line, one.place.column, one.place.end_column) for one in unfilled("a.yml", text)] == expected


def test_the_marks_are_counted() -> None:
    """Each one says how many there are, and none is an error."""
    found = list(unfilled("a.yml", "a: TODO\nb: TODO\n"))

    assert [one.message.split("(")[1] for one in found] == ["1 of 2 in this file)", "2 of 2 in this file)"]
    assert {one.severity for one in found} == {"advice"}
