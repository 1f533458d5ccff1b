"""Circuits that may have become one: sets of them as bits, none of which has a circuit in common with another."""

from collections.abc import Iterable

Groups = tuple[int, ...]


def merged(groups: Iterable[int]) -> Groups:
    """The groups, those with a circuit in common made one."""
    found: list[int] = []
    for group in groups:
        apart = []
        for other in found:
            if other & group:
                group |= other
            else:
                apart.append(other)
        found = [*apart, group]
    return tuple(sorted(found))


def group_of(groups: Groups, number: int) -> int:
    """The circuits that one of them may be joined to, itself included."""
    own = 1 << number
    return next((group for group in groups if group & own), own)


def is_within(groups: Groups, others: Groups) -> bool:
    """Whether everything that is joined here is joined there too."""
    return all(any(not group & ~other for other in others) for group in groups)
