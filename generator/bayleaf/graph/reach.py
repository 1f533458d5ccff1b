"""What can be reached in a graph, and from where an end can be reached."""

from .graph import End, Graph, Stop


def reached_steps(graph: Graph) -> frozenset[int]:
    """The steps that some path from the first one reaches."""
    if not graph.steps:
        return frozenset()
    seen, open_ = {0}, [0]
    while open_:
        for edge in graph.leaving[open_.pop()]:
            if isinstance(edge.target, int) and edge.target not in seen:
                seen.add(edge.target)
                open_.append(edge.target)
    return frozenset(seen)


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
    open_ = list(ending)
    while open_:
        for source in before.get(open_.pop(), ()):
            if source not in ending:
                ending.add(source)
                open_.append(source)
    return frozenset(range(len(graph.steps))) - ending
