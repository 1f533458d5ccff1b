"""The graph itself: steps, labelled edges, ends. Frozen values."""

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from ..diagnostics.place import Path
from ..model.procedure import Step
from .effects import Effect


@dataclass(frozen=True, slots=True)
class End:
    """The procedure is done, by a conclusion or plainly (None). It returns to whoever performed it."""

    conclusion: str | None


@dataclass(frozen=True, slots=True)
class Stop:
    """Nobody goes on (quarantine), by a conclusion or plainly. It never returns."""

    conclusion: str | None


#: A step by its index, or one of the two kinds of end.
Target = int | End | Stop


class Edge(NamedTuple):
    """A way out of a step. `at` is the place where the author wrote it; None where it is the default."""

    source: int
    exit: str
    target: Target
    effects: tuple[Effect, ...]
    at: Path | None


@dataclass(frozen=True)
class Graph:
    """All steps in the order of the file and all ways out of them, in the order of their exits.

    `is_whole` is False where a way out is missing or guessed: something leads to a step that does not exist, or
    what follows is not written where it must be. Those are reported by themselves; what they would have reached
    is not.
    """

    steps: tuple[Step, ...]
    edges: tuple[Edge, ...]
    is_whole: bool = True

    @cached_property
    def leaving(self) -> tuple[tuple[Edge, ...], ...]:
        """The edges that leave each step, by its index."""
        found: list[list[Edge]] = [[] for _ in self.steps]
        for edge in self.edges:
            found[edge.source].append(edge)
        return tuple(map(tuple, found))

    @cached_property
    def targets(self) -> tuple[tuple[Target, ...], ...]:
        """Where the edges of each step lead, by its index."""
        found: list[list[Target]] = [[] for _ in self.steps]
        for edge in self.edges:
            found[edge.source].append(edge.target)
        return tuple(map(tuple, found))
