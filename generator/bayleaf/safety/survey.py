"""Walks the procedures of a vehicle: every circuit that one asks something of, every variant whose paths differ."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import product

from ..graph.build import graph_of_variant
from ..graph.graph import Graph
from ..graph.variants import variants_of
from ..model.actions import FitTemporary, Perform
from ..model.procedure import Procedure
from ..model.vehicle import Vehicle
from .holds import LEVEL_OF, made_to_hold, ways_to_hold
from .passage import Passage, Where
from .plan import Plan
from .reach import Reach
from .rig import Known, Rig, union
from .state import State
from .walk import Walker
from .walk_things import ThingPassage, ThingWalker
from .whole import UNTOUCHED, Index, Whole, entry_of

_ONLY_LIVE = frozenset({"made live"})


@dataclass(frozen=True)
class Survey:
    """One procedure walked for one variant: for each circuit the walks from its states on entry, and the things.

    `idle` are the entries of circuits of which nothing can be wrong: they are walked only where their states are told.
    """

    procedure: Procedure
    variant: str | None
    circuits: Mapping[str, tuple[tuple[Where, Passage], ...]]
    idle: Mapping[str, tuple[Where, ...]]
    things: tuple[tuple[Whole, ThingPassage], ...]
    walker: Walker
    thing_walker: ThingWalker

    @cached_property
    def every_circuit(self) -> Mapping[str, tuple[tuple[Where, Passage], ...]]:
        """All circuits that the procedure has to do with, in the order of the profile."""
        found = {**self.circuits, **self.walker.walk_all(self.idle)}
        return {name: found[name] for name in self.walker.rig.circuits if name in found}


class Surveyor:
    """Walks the procedures of one vehicle. `graph` gives the graph of a procedure."""

    def __init__(
        self, vehicle: Vehicle, procedures: Mapping[str, Procedure], graph: Callable[[Procedure], Graph]
    ) -> None:
        self.vehicle = vehicle
        whole = {name: one for name, one in procedures.items() if one.shape_is_whole}
        self.procedures = {name: one if one.id == name else replace(one, id=name) for name, one in whole.items()}
        steps = (step.action for one in self.procedures.values() for step in one.steps)
        self.rig = Rig(vehicle, [action for action in steps if isinstance(action, FitTemporary)])
        self._graph = graph
        self._walkers: dict[str | None, tuple[Walker, ThingWalker]] = {}
        self._surveys: dict[str, tuple[Survey, ...]] = {}
        self._called: dict[str, tuple[str, ...]] = {}

    def graph(self, name: str) -> Graph:
        """The graph of a procedure, for all variants at once."""
        return self._walkers_of(None)[0].plans[name].graph

    def surveys(self, name: str) -> tuple[Survey, ...]:
        """The walks of a procedure, one for each variant of the vehicle whose paths differ."""
        if name not in self._surveys:
            tree = [self.procedures[name], *(self.procedures[callee] for callee in self.called(name))]
            together = replace(tree[0], steps=tuple(step for one in tree for step in one.steps))
            variants = variants_of(together, self.vehicle)
            alike = self._surveyed_alike(name) if variants != (None,) else None
            self._surveys[name] = alike or tuple(self._survey(name, variant) for variant in variants)
        return self._surveys[name]

    def _surveyed_alike(self, name: str) -> tuple[Survey, ...] | None:
        """One walk for all variants, where the steps that are only for some change nothing and nothing is found.

        With something found the variants are walked one by one: what is taken as met at a step that is only for one
        would hide what follows in another.
        """
        walker, things = self._walkers_of(None)
        if not all(walker.plans[one].variants_only_look(things.index) for one in (name, *self.called(name))):
            return None
        survey = self._survey(name, None)
        found = any(passage.hits for walked in survey.circuits.values() for _, passage in walked)
        return None if found or any(passage.hits for _, passage in survey.things) else (survey,)

    def entries(self, procedure: Procedure, known: Known) -> tuple[State, ...]:
        """The least safe states in which a procedure may be begun: live, or what it expects."""
        states: tuple[State, ...] = (State(on=known.things),)
        word = dict(procedure.expects).get(known.id)
        return states if word is None else made_to_hold(LEVEL_OF[word], states[0], known, self.rig)

    def _survey(self, name: str, variant: str | None) -> Survey:
        walker, things = self._walkers_of(variant)
        procedure = self.procedures[name]
        stuck = walker.plans[name].announces_stuck
        places: dict[str, tuple[Where, ...]] = {}
        idle: dict[str, tuple[Where, ...]] = {}
        for circuit in self._asked(name, walker):
            entries = self.entries(procedure, self.rig.known(circuit, stuck))
            kept = idle if self._is_idle(name, circuit, walker) else places
            kept[circuit] = tuple(Where(name, circuit, stuck, entry) for entry in entries)
        circuits = walker.walk_all(places)
        walked = tuple((entry, things.walk(name, False, entry)) for entry in self._found_as(procedure, stuck, things))
        return Survey(procedure, variant, circuits, idle, walked, walker, things)

    def _found_as(self, procedure: Procedure, stuck: bool, things: ThingWalker) -> tuple[Whole, ...]:
        """How the things may be found when a procedure is begun.

        Every way of isolating counts, not the least safe alone: a lock that is on where another way would have
        done without it is a lock that has to come off.
        """
        if not procedure.expects:
            return (UNTOUCHED,)
        choices = [
            ways_to_hold(LEVEL_OF[word], State(), self.rig.known(name, stuck), self.rig)
            for name, word in procedure.expects
            if name in self.rig.circuits and word != "live"
        ]
        found = []
        for choice in product(*choices):
            open_, secured = union(state.open for state in choice), union(state.secured for state in choice)
            found.append(entry_of(open_, secured, things.index))
        return tuple(dict.fromkeys(found))

    def _walkers_of(self, variant: str | None) -> tuple[Walker, ThingWalker]:
        found = self._walkers.get(variant)
        if found is None and variant is None:
            expects = {name: one.expects for name, one in self.procedures.items()}
            reach = Reach(self.rig)
            plans = {
                name: Plan(one, self._graph(one), self.rig, reach, expects) for name, one in self.procedures.items()
            }
            found = Walker(self.rig, plans), ThingWalker(self.rig, plans, Index(self.rig))
        elif found is None and variant is not None:
            walker, things = self._walkers_of(None)
            plans = {name: self._for(plan, variant) for name, plan in walker.plans.items()}
            alike = {
                name for name in plans if all(plans[one] is walker.plans[one] for one in (name, *self.called(name)))
            }
            found = (
                Walker(self.rig, plans, walker, alike),
                ThingWalker(self.rig, plans, things.index, things, alike, things.asked),
            )
        assert found is not None
        self._walkers[variant] = found
        return found

    def _for(self, plan: Plan, variant: str) -> Plan:
        """The plan for one variant: the same one where no step is only for some."""
        if not any(step.only_for for step in plan.procedure.steps):
            return plan
        return replace(plan, graph=graph_of_variant(plan.graph, variant))

    def _asked(self, name: str, walker: Walker) -> tuple[str, ...]:
        """The circuits of which a procedure asks something, or what it performs, or that it says something of."""
        found: set[str] = set()
        for one in (name, *self.called(name)):
            found.update(walker.plans[one].demands)
            found.update(walker.plans[one].worked_beside)
        procedure = self.procedures[name]
        found.update(circuit for circuit, _ in (*procedure.expects, *procedure.leaves))
        for end in procedure.conclusions.values():
            found.update(circuit for circuit, _ in end.leaves)
        return tuple(circuit for circuit in self.rig.circuits if circuit in found)

    def _is_idle(self, name: str, circuit: str, walker: Walker) -> bool:
        """Whether nothing can be wrong: it is only made live, nothing of it is ever open, and nothing is said of it."""
        procedure = self.procedures[name]
        said = (procedure.expects, procedure.leaves, *(end.leaves for end in procedure.conclusions.values()))
        if any(circuit == own and word != "live" for words in said for own, word in words):
            return False
        plans = [walker.plans[one] for one in (name, *self.called(name))]
        closed = self.rig.known(circuit).closed
        only_live = (plan.asked_kinds.get(circuit, _ONLY_LIVE) <= _ONLY_LIVE for plan in plans)
        return all(only_live) and not any(plan.taken_off & closed for plan in plans)

    def called(self, name: str) -> tuple[str, ...]:
        """Every procedure that is performed on the way, by itself or through another one."""
        if name not in self._called:
            self._called[name] = self._performed_by(name)
        return self._called[name]

    def _performed_by(self, name: str) -> tuple[str, ...]:
        found: dict[str, None] = {}
        waiting = [name]
        while waiting:
            for step in self.procedures[waiting.pop()].steps:
                if isinstance(step.action, Perform):
                    callee = step.action.procedure
                    if callee in self.procedures and callee not in found and callee != name:
                        found[callee] = None
                        waiting.append(callee)
        return tuple(found)
