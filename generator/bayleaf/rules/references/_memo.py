"""Remembers one result, since the rules of a family look at the same file one after the other."""

from collections.abc import Callable
from functools import wraps
from typing import Any, TypeVar

T = TypeVar("T")


def of_last(function: Callable[..., T]) -> Callable[..., T]:
    """The same function, not run again while it is given the same objects (told by identity, not by value).

    Nothing can go stale: what it is given is frozen, and is kept, so that no other object takes its place.
    """
    kept: tuple[tuple[Any, ...], T] | None = None

    @wraps(function)
    def remembering(*given: Any) -> T:
        nonlocal kept
        last = kept
        if last is None or any(one is not other for one, other in zip(last[0], given, strict=True)):
            last = kept = (given, function(*given))
        return last[1]

    return remembering
