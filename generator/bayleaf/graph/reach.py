"""What can be reached in a graph, and from where an end can be reached."""

from collections.abc import Iterable, Mapping

from .graph import End, Graph, Stop


def reached_steps(graph: Graph) -> frozenset[int]:
    """The steps that some path from the first one reaches."""
    return _closure([0], _followers(graph)) if graph.steps else frozenset()


def reached_without_bound(graph: Graph, start: int) -> frozenset[int]:
    """The steps that some path from a step reaches without coming to one that may only be repeated so often."""
    unbounded = {
        step: [there for there in following if graph.steps[there].repeat is None]
        for step, following in _followers(graph).items()
    }
    return _closure([start], unbounded)


def reached_ends(graph: Graph) -> frozenset[End | Stop]:
    """The ends that some path from the first step reaches."""
    reached = reached_steps(graph)
    return frozenset(edge.target for edge in graph.edges if edge.source in reached and not isinstance(edge.target, int))


def steps_without_end(graph: Graph) -> frozenset[int]:
    """The steps from which no end and no stop can be reached."""
    before: dict[int, list[int]] = {}
    ending: set[int] = set()
    for edge in graph.edges:
        if isinstance(edge.target, int):
            before.setdefault(edge.target, []).append(edge.source)
        else:
            ending.add(edge.source)
    return frozenset(range(len(graph.steps))) - _closure(ending, before)


def loops_within(graph: Graph, steps: frozenset[int]) -> tuple[tuple[int, ...], ...]:
    """Sets of these steps that lie in one loop and that nothing leaves, each in the order of a round.

    Each begins with its first step in the file; a loop is a shortest round through that step. Steps that only
    lead into such a set are in none.
    """
    followers = _followers(graph)
    reach = {step: _closure([step], followers) for step in steps}
    found: dict[frozenset[int], tuple[int, ...]] = {}
    for step in sorted(steps):
        if all(step in reach[other] for other in reach[step] if other in reach):
            found.setdefault(reach[step], round_through(graph, step))
    return tuple(loop for loop in found.values() if loop)


def round_through(graph: Graph, step: int) -> tuple[int, ...]:
    """A shortest way from a step back to it, without the return; empty where there is none."""
    followers = _followers(graph)
    came_from: dict[int, int] = {}
    waiting = [step]
    for here in waiting:  # grows while it is walked: the nearest first
        for there in followers.get(here, ()):
            if there == step:
                way = [here]
                while way[-1] != step:
                    way.append(came_from[way[-1]])
                return tuple(reversed(way))
            if there not in came_from:
                came_from[there] = here
                waiting.append(there)
    return ()


def _followers(graph: Graph) -> Mapping[int, list[int]]:
    followers: dict[int, list[int]] = {}
    for edge in graph.edges:
        if edge.target.__class__ is int:
            followers.setdefault(edge.source, []).append(edge.target)  # type: ignore[arg-type]
    return followers


def _closure(start: Iterable[int], following: Mapping[int, Iterable[int]]) -> frozenset[int]:
    seen = set(start)
    waiting = list(seen)
    while waiting:
        for step in following.get(waiting.pop(), ()):
            if step not in seen:
                seen.add(step)
                waiting.append(step)
    return frozenset(seen)
