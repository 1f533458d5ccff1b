"""What a step needs of the isolation points themselves, whatever circuits they belong to."""

from itertools import product
from typing import NamedTuple

from bayleaf.graph import effects as e
from bayleaf.graph.graph import Edge
from bayleaf.model import actions
from bayleaf.model.common import MODE_OFF, MODES, Conditions
from bayleaf.model.contact import read_contact
from bayleaf.model.procedure import Procedure, Step

from .demands import WORDS
from .events import charging_points
from .facts import NOTHING, Facts, Names, is_securable, temporary

RESTING = frozenset({"off", "asleep"})


class Points(NamedTuple):
    """What is so on a path; `modes` are those that the vehicle may be in, `charged` plugs with a charge behind them."""

    open: Names = NOTHING
    secured: Names = NOTHING
    off: Names = NOTHING
    modes: Names = frozenset(MODES)
    charged: Names = NOTHING

    @property
    def all_open(self) -> Names:
        """The open points, the built-in one included."""
        return self.open | ({MODE_OFF} if self.modes <= RESTING else NOTHING)


class AllPoints:
    """The judge of the isolation points."""

    def __init__(self, facts: Facts) -> None:
        self.facts, self.vehicle = facts, facts.vehicle

    def starts(self, procedure: Procedure, faults: Names) -> list[Points]:
        """All closed; or as the least states say that the procedure expects, one for each choice of sets."""
        choices = []
        for name, word in procedure.expects:
            circuit = self.vehicle.circuits[name]
            level = WORDS.index(word)
            if level == 1:
                choices.append([(frozenset({MODE_OFF}), NOTHING)])
            elif level > 1:
                ways = self.facts.ways_off(circuit, frozenset({name}), faults)
                chosen = [frozenset().union(*some) for some in product(*(sets for sets in ways if sets))]
                locks = level > 2 and (self.facts.category(circuit) == "B" or circuit.lock)
                choices.append([(points, points if locks else NOTHING) for points in chosen])
        found = []
        for choice in product(*choices):
            opened = frozenset().union(*(points for points, _ in choice))
            secured = frozenset().union(*(points for _, points in choice))
            modes = RESTING if MODE_OFF in opened else frozenset(MODES)
            found.append(Points(opened - {MODE_OFF}, secured - {MODE_OFF}, NOTHING, modes))
        return found

    def enter(self, state: Points, faults: Names) -> Points:
        """A fault changes nothing of the points themselves."""
        return state

    def arrive(
        self, procedure: Procedure, step: Step, state: Points, faults: Names, callee: Procedure | None
    ) -> tuple[list[tuple[str, str]], list[Points]]:
        """Which points are not as the step needs them; and the state that is gone on with."""
        charged = self._joined_to(step) & state.charged
        if charged:
            return [(name, "charged") for name in sorted(charged)], [state._replace(charged=state.charged - charged)]
        match step.action:
            case actions.Secure(points):
                return [(point, "secure") for point in points if point not in state.all_open], [state]
            case actions.Reconnect(points):
                return [(point, "reconnect") for point in points if point in state.secured], [state]
            case actions.Disconnect(points):
                unmet = []
                now = state
                for point in points:  # one after the other, as they are written
                    if not self._may_be_opened(point, now):
                        unmet.append((point, "disconnect"))
                        state, now = self._made_ready(point, state), self._made_ready(point, now)
                    now = now._replace(open=now.open | {point})
                return unmet, [state]
        return [], [state]

    def _joined_to(self, step: Step) -> Names:
        """The plugs behind which a charge would be touched, or joined to something."""
        action = step.action
        touched = [read_contact(text) for text in step.on]
        found = {one.connector for one in touched if one is not None and one.side == "device"}
        match action:
            case actions.Plug(connectors):
                found.update(connectors)
            case actions.Remove(parts):
                known = filter(None, map(self.vehicle.parts.get, parts))
                found.update(name for part in known for name in part.connectors)
            case actions.Measure() if action.quantity not in ("insulation resistance", "voltage"):
                found.update(one.connector for pair in action.pairs for one in pair if one.side == "device")
        return frozenset(found)

    def _may_be_opened(self, name: str, state: Points) -> bool:
        point = self.vehicle.isolation_points.get(name)
        if point is None or name in state.open:
            return True
        asked = point.only_when
        return set(point.first) <= state.all_open and (asked is None or self._holds(asked, state))

    def _holds(self, asked: Conditions, state: Points) -> bool:
        off = {*asked.unplugged, *asked.removed}
        on = {*asked.plugged, *asked.fitted}
        return (
            (asked.mode is None or state.modes == {asked.mode})
            and state.all_open.issuperset(asked.open)
            and state.all_open.isdisjoint(asked.closed)
            and state.off.issuperset(off)
            and state.off.isdisjoint(on)
        )

    def _made_ready(self, name: str, state: Points) -> Points:
        """As if what the point asks for had been done."""
        point = self.vehicle.isolation_points[name]
        asked = point.only_when
        needed = set(point.first) | set(asked.open if asked is not None else ())
        modes = state.modes & RESTING or RESTING if MODE_OFF in needed else state.modes
        state = state._replace(open=state.open | (needed - {MODE_OFF}), modes=modes)
        if asked is None:
            return state
        closed = frozenset(asked.closed)
        off = (state.off | {*asked.unplugged, *asked.removed}) - {*asked.plugged, *asked.fitted}
        modes = frozenset({asked.mode}) if asked.mode is not None else state.modes
        return Points(state.open - closed, state.secured - closed, off, modes, state.charged)

    def leave(self, step: Step, edge: Edge, state: Points, faults: Names) -> tuple[list[tuple[str, str]], Points]:
        """The points after leaving a step by one of its exits."""
        for effect in edge.effects:
            state = self._event(state, effect, isinstance(step.action, actions.Command))
        return [], state

    def _event(self, state: Points, effect: e.Effect, by_command: bool) -> Points:
        match effect:
            case e.Opened(point):
                return state._replace(open=state.open | {point}, off=state.off - self._own_fasteners(point))
            case e.Secured(point):
                locks = {point} if is_securable(self.vehicle, point) else NOTHING
                return state._replace(open=state.open | {point}, secured=state.secured | locks)
            case e.Released(point):
                return state._replace(secured=state.secured - {point})
            case e.Closed(point):
                return self._closed(state, frozenset({point}))._replace(off=state.off | self._own_fasteners(point))
            case e.TestVoltageApplied(pairs, voltage, discharged):
                if discharged or (voltage is not None and voltage.si <= 60):
                    return state
                sides = {one.connector for pair in pairs for one in pair if one.side == "device"}
                # A side that is probed is taken as out: that it may not be is told by a rule of its own.
                return state._replace(charged=state.charged | sides, off=state.off | sides)
            case e.Discharged(_, pairs):
                sides = {one.connector for pair in pairs for one in pair if one.side == "device"}
                return state._replace(charged=state.charged - sides)
            case e.ModeSet(mode):
                if mode == "charging":
                    leads = [charging_points(self.facts, frozenset({name})) for name in self.vehicle.circuits]
                    state = self._closed(state, frozenset().union(*leads))
                return state._replace(modes=frozenset({mode}))
            case e.Energised(circuit):
                points = self.facts.points([circuit]) if circuit in self.vehicle.circuits else NOTHING
                if by_command:
                    points = frozenset(point for point in points if not self.facts.is_real_break(point))
                pumped = circuit in self.vehicle.circuits and self.vehicle.circuits[circuit].energy == "pressure"
                wakes = by_command or not pumped
                modes = frozenset(MODES) if wakes and state.modes & RESTING else state.modes
                return self._closed(state, points)._replace(modes=modes)
            case e.Unplugged(name) | e.TakenOff(name) | e.Loosened(name):
                return state._replace(off=state.off | {name})
            case e.PutBack(name) | e.Tightened(name) | e.Plugged(name):
                return state._replace(off=state.off - {name})
            case e.TemporaryFitted(name):
                return state._replace(off=state.off | {temporary(name)})
            case e.TemporaryRemoved(name):
                return state._replace(off=state.off - {temporary(name)})
        return state

    def _own_fasteners(self, point: str) -> Names:
        return frozenset(name for name, one in self.vehicle.fasteners.items() if one.point == point)

    def _closed(self, state: Points, points: Names) -> Points:
        return state._replace(open=state.open - points, secured=state.secured - points)
