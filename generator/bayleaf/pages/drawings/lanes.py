"""Lanes beside a spine: upright lines that do not lie on one another, short ones nearest to it."""

from collections.abc import Sequence
from typing import NamedTuple


class Span(NamedTuple):
    """What an upright line reaches over. `key` names it."""

    key: int
    top: float
    bottom: float


def allotted(spans: Sequence[Span], lanes: int) -> dict[int, int]:
    """The lane of each line, 0 nearest to the spine. Lines for which none is free are left out."""
    taken: list[list[Span]] = [[] for _ in range(lanes)]
    found: dict[int, int] = {}
    for span in sorted(spans, key=lambda one: (one.bottom - one.top, one.top, one.key)):
        for lane, others in enumerate(taken):
            if all(span.bottom < one.top or one.bottom < span.top for one in others):
                others.append(span)
                found[span.key] = lane
                break
    return found
