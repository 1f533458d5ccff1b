"""What is reached in a graph, held against a plain listing of all its paths."""

from collections.abc import Iterator
from itertools import pairwise

from bayleaf.graph.graph import Edge, End, Graph, Stop, Target
from bayleaf.graph.reach import (
    loops_within,
    reached_ends,
    reached_steps,
    reached_without_bound,
    round_through,
    steps_without_end,
)
from bayleaf.model.actions import Do
from bayleaf.model.procedure import Step
from hypothesis import given
from hypothesis import strategies as st

ENDS: tuple[Target, ...] = (End(None), End("good"), Stop(None), Stop("bad"))


def graph_of(targets: list[list[Target]], bounded: frozenset[int] = frozenset()) -> Graph:
    """A graph whose step n leads to the targets of entry n; the bounded ones may only be repeated so often."""
    steps = tuple(
        Step(("steps", index), str(index + 1), None, Do(), repeat=2 if index in bounded else None)
        for index in range(len(targets))
    )
    return Graph(steps, tuple(Edge(index, "next", to, (), None) for index, some in enumerate(targets) for to in some))


@st.composite
def graphs(draw: st.DrawFn) -> Graph:
    """Up to seven steps, each with up to three ways out."""
    size = draw(st.integers(1, 7))
    target = st.one_of(st.integers(0, size - 1), st.sampled_from(ENDS))
    ways = draw(st.lists(st.lists(target, max_size=3), min_size=size, max_size=size))
    return graph_of(ways, draw(st.frozensets(st.integers(0, size - 1))))


def paths(graph: Graph, start: int) -> Iterator[list[Target]]:
    """Every path that visits no step twice, ends included; a path of one step to begin with."""
    waiting: list[list[Target]] = [[start]]
    while waiting:
        path = waiting.pop()
        yield path
        if isinstance(path[-1], int):
            for edge in graph.edges:
                if edge.source == path[-1] and edge.target not in path:
                    waiting.append([*path, edge.target])


@given(graphs())
def test_reached_is_what_some_path_visits(graph: Graph) -> None:
    """Steps and ends alike."""
    visited = {place for path in paths(graph, 0) for place in path}

    assert {place for place in visited if isinstance(place, int)} == reached_steps(graph)
    assert {place for place in visited if not isinstance(place, int)} == reached_ends(graph)


@given(graphs())
def test_a_step_without_end_has_no_path_to_one(graph: Graph) -> None:
    """For each step by itself."""
    expected = {
        step for step in range(len(graph.steps))
        if all(isinstance(place, int) for path in paths(graph, step) for place in path)
    }  # fmt: skip

    assert expected == steps_without_end(graph)


@given(graphs())
def test_a_round_is_shortest_and_real(graph: Graph) -> None:
    """It leads along edges back to where it began, and no path back is shorter."""
    ways = {(edge.source, edge.target) for edge in graph.edges}
    for step in range(len(graph.steps)):
        back = [len(path) for path in paths(graph, step) if (path[-1], step) in ways]
        found = round_through(graph, step)

        assert min(back, default=0) == len(found)
        assert all(pair in ways for pair in pairwise((*found, step) if found else ()))


@given(graphs())
def test_loops_are_the_sets_that_nothing_leaves(graph: Graph) -> None:
    """Each begins with its first step in the file; together with what leads into them they are all that is stuck."""
    stuck = frozenset(step for step in steps_without_end(graph) if any(e.source == step for e in graph.edges))
    reach = {step: {place for path in paths(graph, step) for place in path} for step in steps_without_end(graph)}
    closed = {frozenset(reach[step]) for step in reach if all(step in reach[other] for other in reach[step])}

    found = loops_within(graph, steps_without_end(graph))
    assert {min(places) for places in closed if min(places) in stuck} == {loop[0] for loop in found}
    assert all(set(loop) <= reach[loop[0]] for loop in found)


@given(graphs(), st.integers(0, 6))
def test_without_bound_avoids_steps_that_are_bounded(graph: Graph, start: int) -> None:
    """A path counts only while it comes to no step with `repeat`; the one it starts from is not asked."""
    start %= len(graph.steps)
    expected = {
        path[-1] for path in paths(graph, start)
        if all(isinstance(place, int) and graph.steps[place].repeat is None for place in path[1:])
    }  # fmt: skip

    assert expected == reached_without_bound(graph, start)


def test_nothing_is_reached_without_steps() -> None:
    """An empty procedure has no first step."""
    assert frozenset() == reached_steps(graph_of([]))
