"""What a walk gives: states, ways out, and needs that are not met, each with the path that leads there."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from .demands import Demand
from .state import State


class Leg(NamedTuple):
    """A step of a path and the exit by which it was left."""

    step: int
    exit: str


Path = tuple[Leg, ...]


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
