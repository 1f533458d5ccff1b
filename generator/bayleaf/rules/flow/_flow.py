"""What the rules of this family ask of a procedure: the graphs of its variants, and what is reached in them."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from ...graph.build import graph_of_variant
from ...graph.graph import Edge, End, Graph, Stop
from ...graph.reach import reached_steps, steps_without_end
from ...graph.variants import variants_of
from ...model.procedure import Procedure, Step
from ..case import Case


@dataclass(frozen=True)
class Variant:
    """The flow for one variant of the vehicle; `reached` and `stuck` hold indexes of steps in its graph."""

    graph: Graph

    @cached_property
    def reached(self) -> frozenset[int]:
        """The steps that some path reaches."""
        return reached_steps(self.graph)

    @cached_property
    def stuck(self) -> frozenset[int]:
        """The steps that are reached and from which no end can be."""
        return steps_without_end(self.graph) & self.reached

    @cached_property
    def ends(self) -> frozenset[End | Stop]:
        """The ends that some path reaches."""
        targets = self.graph.targets
        found = [end for index in self.reached for end in targets[index] if end.__class__ is not int]
        return frozenset(found)  # type: ignore[arg-type]


#: The last procedure that was asked for, with its graph: the rules look at one file one after the other.
_last: tuple[Procedure | None, Graph | None, tuple[Variant, ...]] = (None, None, ())


def flow_of(procedure: Procedure, case: Case) -> tuple[Variant, ...]:
    """The flow for each variant that occurs; for all at once where no step is only for some."""
    global _last
    if _last[0] is not procedure or _last[1] is not case.graph:
        assert case.graph is not None
        variants = variants_of(procedure, case.vehicle)
        graphs = [case.graph]
        if variants != (None,):
            graphs = [graph_of_variant(case.graph, variant) for variant in variants if variant is not None]
        _last = procedure, case.graph, tuple(map(Variant, graphs))
    return _last[2]


def is_whole(flow: Iterable[Variant]) -> bool:
    """Whether every way out is written as it must be; else what follows from them is not judged."""
    return all(variant.graph.is_whole for variant in flow)


def step_name(step: Step) -> str:
    """How a step is called in a message: by its number, and its id where it has one."""
    return f"step {step.number}" + (f" (`{step.id}`)" if step.id is not None else "")


def jumps_back(graph: Graph) -> tuple[Edge, ...]:
    """The ways out that the author wrote and that lead to the same step or to one above."""
    return tuple(
        edge for edge in graph.edges
        if edge.at is not None and edge.target.__class__ is int and edge.target <= edge.source
    )  # fmt: skip
