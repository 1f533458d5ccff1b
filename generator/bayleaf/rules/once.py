"""One mistake in a name, many places where the name stands: told once a file, with the other places beside it."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from ..diagnostics.place import Path
from .fault import Fault, Spot

#: So many other places are shown; of more, their number.
_SHOWN = 3


def once(faults: Iterable[Fault], file: str) -> Iterator[Fault]:
    """The faults, of those with the same words only the first; the others are places that belong to it."""
    alike: dict[str, dict[Path, Fault]] = {}
    for fault in faults:
        alike.setdefault(fault.message, {}).setdefault(fault.at, fault)
    for same in alike.values():
        first, *others = same.values()
        more = len(others) - _SHOWN
        shown = others if more <= 1 else others[:_SHOWN]
        spots = [Spot(file, fault.at, "here too", fault.key) for fault in shown]
        if more > 1:
            spots[-1] = spots[-1]._replace(text=f"here too, and at {more} more places")
        yield replace(first, see=(*first.see, *spots))
