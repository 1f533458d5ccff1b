"""A row that a calculation is held to."""

from typing import Any, Literal, NamedTuple

#: How a figure came here. Read: in the standard, the regulation or the maker's data sheet itself. Restated: in a second
#: source. Computed: here, from the formula alone, to hold the digits. From memory: not seen. Conflicting: sources differ.
Certainty = Literal["read", "restated", "computed", "from memory", "conflicting"]


class Row(NamedTuple):
    """A call of a function of the family's module, and what it has to give.

    `gives` is a number, a text, or a tuple of them; a number may differ by `within`, or by the share `share` of it.
    `source` says where the figures were printed (edition, clause, kind of page), `certainty` how sure they are.
    """

    function: str
    given: tuple[Any, ...]
    gives: Any
    source: str
    certainty: Certainty
    within: float = 0.0
    share: float = 1e-9
