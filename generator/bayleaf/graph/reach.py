"""What can be reached in a graph, and from where an end can be reached."""

from collections.abc import Sequence, Set

from .graph import End, Graph, Stop, Target


def reached_steps(graph: Graph) -> frozenset[int]:
    """The steps that some path from the first one reaches."""
    return _closure(0, graph.targets) if graph.steps else frozenset()


def reached_without_bound(graph: Graph, start: int) -> frozenset[int]:
    """The steps that some path from a step reaches without coming to one that may only be repeated so often."""
    bounded = {index for index, step in enumerate(graph.steps) if step.repeat is not None and index != start}
    return _closure(start, graph.targets, bounded) - bounded


def reached_ends(graph: Graph) -> frozenset[End | Stop]:
    """The ends that some path from the first step reaches."""
    return frozenset(
        target for index in reached_steps(graph) for target in graph.targets[index] if not isinstance(target, int)
    )


def steps_without_end(graph: Graph) -> frozenset[int]:
    """The steps from which no end and no stop can be reached."""
    waiting = list(range(len(graph.steps) - 1, -1, -1))
    ending: set[Target] = set()
    while True:  # from the last step up one round finds nearly all; jumps back need another
        left = []
        for index in waiting:
            for target in graph.targets[index]:
                if target in ending or target.__class__ is not int:
                    ending.add(index)
                    break
            else:
                left.append(index)
        if len(left) in (0, len(waiting)):
            return frozenset(left)
        waiting = left


def loops_within(graph: Graph, steps: frozenset[int]) -> tuple[tuple[int, ...], ...]:
    """Sets of these steps that lie in one loop and that nothing leaves, each in the order of a round.

    Each begins with its first step in the file; a loop is a shortest round through that step. Steps that only
    lead into such a set are in none.
    """
    reach = {step: _closure(step, graph.targets) for step in steps}
    found: dict[frozenset[int], tuple[int, ...]] = {}
    for step in sorted(steps):
        if all(step in reach[other] for other in reach[step] if other in reach):
            found.setdefault(reach[step], round_through(graph, step))
    return tuple(loop for loop in found.values() if loop)


def round_through(graph: Graph, step: int) -> tuple[int, ...]:
    """A shortest way from a step back to it, without the return; empty where there is none."""
    came_from: dict[int, int] = {}
    waiting = [step]
    for here in waiting:  # grows while it is walked: the nearest first
        for there in graph.targets[here]:
            if not isinstance(there, int):
                continue
            if there == step:
                way = [here]
                while way[-1] != step:
                    way.append(came_from[way[-1]])
                return tuple(reversed(way))
            if there not in came_from:
                came_from[there] = here
                waiting.append(there)
    return ()


def _closure(start: int, targets: Sequence[Sequence[Target]], closed: Set[int] = frozenset()) -> frozenset[int]:
    """Everything that is come to from a step; what is closed is come to, but not left."""
    seen = {start}
    waiting = [start]
    while waiting:
        here = waiting.pop()
        if here in closed:
            continue
        for there in targets[here]:
            if there.__class__ is int and there not in seen:
                seen.add(there)
                waiting.append(there)
    return frozenset(seen)
