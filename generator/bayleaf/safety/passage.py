"""What a walk gives: states, ways out, and needs that are not met, each with the path that leads there."""

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple, TypeVar

from .demands import Demand
from .state import State


class Leg(NamedTuple):
    """A step of a path and the exit by which it was left."""

    step: int
    exit: str


@dataclass(frozen=True, slots=True, eq=False)
class Trail:
    """A path that shares all but its last leg with others: the longest costs no more to make than the shortest."""

    before: "Trail | None"
    last: Leg

    def __iter__(self) -> Iterator[Leg]:
        legs = []
        here: Trail | None = self
        while here is not None:
            legs.append(here.last)
            here = here.before
        return reversed(legs)


#: The legs of a path, from its beginning; none where it has not begun.
Path = Trail | tuple[()]


def further(path: Path, leg: Leg) -> Trail:
    """A path with one more leg."""
    return Trail(path if isinstance(path, Trail) else None, leg)


Found = TypeVar("Found")

#: So many needs of what is performed are told of a step one by one.
_MANY = 100


def taken_over(found: Sequence[Found], origin: Callable[[Found], Hashable]) -> Sequence[Found]:
    """What is told of a step that performs a procedure: all that is found there; of many, the first of each origin.

    A chain of procedures that each perform the next one twice has as many ways to the last as two to the power of its
    length.
    """
    if len(found) <= _MANY:
        return found
    firsts: dict[Hashable, Found] = {}
    for one in found:
        firsts.setdefault(origin(one), one)
    return tuple(firsts.values())


class Hit(NamedTuple):
    """A need that is not met. `path` leads to the step; inside a performed procedure `inner` has the rest of it."""

    step: int
    demand: Demand
    state: State
    path: Path
    inner: "Hit | None" = None


class Where(NamedTuple):
    """Which walk this is: of what procedure, for which circuit, with a stuck contactor or not, from which state."""

    procedure: str
    circuit: str
    stuck: bool
    entry: State


@dataclass(frozen=True)
class Passage:
    """What a walk through a procedure found for one circuit, from one state on entry.

    `before` are the least safe states at each step, `exits` those by which it comes back, each with a path to it.
    """

    before: tuple[tuple[State, ...], ...]
    exits: Mapping[str | None, tuple[tuple[State, Path], ...]]
    hits: tuple[Hit, ...] = ()
