"""The walk: every path of a procedure, and of what it performs, for one circuit.

First all paths are joined at every step: that never misses anything. Only where it finds something, the least safe
states are followed one by one: that is exact, and gives the shortest path.
"""

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass, field

from .needs import mended
from .passage import Leg, Passage, Where
from .plan import Plan, Stage
from .rig import Rig
from .state import State
from .transfer import Scene, after, settle
from .walk_exact import EITHER_WAY, ExactWalk
from .walk_joined import JoinedWalk


@dataclass
class Walker:
    """Walks the procedures of a vehicle, for one variant of it. What was walked once from a state is remembered.

    `alike` are the procedures that every variant goes through alike; `base` walks those for all of them.
    """

    rig: Rig
    plans: Mapping[str, Plan]
    base: "Walker | None" = None
    alike: Set[str] = frozenset()
    _joined: dict[Where, Passage | None] = field(default_factory=dict)
    _exact: dict[tuple[Where, bool], Passage] = field(default_factory=dict)

    def walk(self, where: Where) -> Passage:
        """What happens to a circuit."""
        return self.joined(where) or self.exact(where)

    def walk_all(self, places: Mapping[str, tuple[Where, ...]]) -> Mapping[str, tuple[tuple[Where, Passage], ...]]:
        """What happens to several circuits in one procedure, each from its states on entry."""
        self.joined_all(tuple(where for some in places.values() for where in some))
        return {name: tuple((where, self.walk(where)) for where in some) for name, some in places.items()}

    def joined(self, where: Where) -> Passage | None:
        """All paths joined at every step; None as soon as a need is not met."""
        return self.joined_all((where,))[0]

    def joined_all(self, places: Sequence[Where]) -> tuple[Passage | None, ...]:
        """The same for several circuits, or states on entry, of one procedure."""
        if self.base is not None and places and places[0].procedure in self.alike:
            return self.base.joined_all(places)
        new = tuple(dict.fromkeys(where for where in places if where not in self._joined))
        if new:
            again = Passage((), {})  # whoever comes back here performs itself: reported elsewhere
            self._joined.update(dict.fromkeys(new, again))
            self._joined.update(zip(new, JoinedWalk(self, new).run(), strict=True))
        return tuple(self._joined[where] for where in places)

    def exact(self, where: Where, follows_all: bool = False) -> Passage:
        """The least safe states one by one, or all; joined, and nothing taken as mended, where they become too many."""
        if self.base is not None and where.procedure in self.alike:
            return self.base.exact(where, follows_all)
        key = where, follows_all
        if key not in self._exact:
            self._exact[key] = Passage((), {})
            found = ExactWalk(self, where, follows_all).run()
            if not follows_all and found is not None and any(hit.demand.kind in EITHER_WAY for hit in found.hits):
                found = self.exact(where, follows_all=True)
            elif follows_all and found is None:
                found = ExactWalk(self, where).run()
            self._exact[key] = found or JoinedWalk(self, (where,)).report()
        return self._exact[key]

    def stages(self, where: Where) -> tuple[Stage, ...]:
        """The steps of a procedure as the circuit sees them."""
        return self.plans[where.procedure].stages(where.circuit)

    def sights(self, where: Where) -> Mapping[int, Stage]:
        """Those of them that concern the circuit."""
        return self.plans[where.procedure].sights(where.circuit)

    def scene(self, where: Where) -> Scene:
        """The circuit of a walk."""
        return Scene(self.rig.known(where.circuit, where.stuck), self.rig)

    def called(self, where: Where, callee: str, entry: State) -> Where | None:
        """The walk of a performed procedure; none where it does not exist or cannot be read."""
        plan = self.plans.get(callee)
        if plan is None:
            return None
        found = Where(callee, where.circuit, where.stuck or plan.announces_stuck, entry)
        if found.stuck == where.stuck:
            return found
        return found._replace(entry=settle(entry, self.scene(found)))  # a point that may be stuck is open no more

    def left_by(self, where: Where, leg: Leg, state: State) -> State:
        """The state behind a leg of a path; what is performed is walked, and its least safe way back taken."""
        stage, scene = self.stages(where)[leg.step], self.scene(where)
        way = next(way for way in stage.ways if way.exit == leg.exit)
        _, states = mended(stage, state, scene)
        if stage.callee is None:
            return after(states[0], way.effects, scene)
        called = self.called(where, stage.callee, states[0])
        exits = self.walk(called).exits.get(way.performed, ()) if called is not None else ()
        return exits[0][0] if exits else state
