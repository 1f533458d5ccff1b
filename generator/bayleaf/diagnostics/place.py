"""Where something stands in a file."""

from typing import NamedTuple


class Place(NamedTuple):
    """A span of one file. Lines and columns count from 1, columns in code points; the end is exclusive.

    `file` is relative to the folder of the manual and written with `/` on every system.
    """

    file: str
    line: int
    column: int
    end_line: int
    end_column: int


#: The way from the top of a file to one value: keys and indexes, as `("steps", 3, "limits")`.
#: Models carry paths, not places: a path costs nothing to keep, and the place behind it is
#: looked up only where a finding needs it (`loading.tree.Source.place`).
Path = tuple[str | int, ...]
