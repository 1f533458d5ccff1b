"""What each event does to one circuit, on one path. Nothing is joined here: a path is a list of events."""

from math import inf
from typing import NamedTuple

from bayleaf.graph import effects as e
from bayleaf.graph.graph import Edge
from bayleaf.model import actions
from bayleaf.model.common import MODE_OFF
from bayleaf.model.contact import Contact
from bayleaf.model.procedure import Step
from bayleaf.model.vehicle import Circuit

from .facts import NOTHING, Facts, Names, OtherHalf, is_securable, temporary
from .wait import required_wait

#: Stands among the points, and among the pairs, for what is taken as given once it was told that nothing can do it.
ASSUMED = "(assumed)"


class State(NamedTuple):
    """What is so on a path. `groups` are circuits that were joined."""

    open: Names = NOTHING
    secured: Names = NOTHING
    waited: float = 0
    proved: frozenset = NOTHING
    charged: bool = False
    found: bool = False
    groups: frozenset[Names] = NOTHING
    off: Names = NOTHING


class Look:
    """One circuit under a set of faults: the questions that are asked of a state of it."""

    def __init__(self, facts: Facts, circuit: Circuit, faults: Names) -> None:
        self.facts, self.circuit, self.faults = facts, circuit, faults
        self.category = facts.category(circuit)
        self.pairs = facts.pairs(circuit)
        self.poles = facts.poles(circuit)
        self.enough = facts.pairs_are_enough(circuit)
        self.halves = facts.other_halves(circuit) if self.category != "other" else ()
        self.needs_lock = self.category == "B" or circuit.lock
        self._alone = frozenset({circuit.id})
        self._ways: dict[Names, list[list[Names]]] = {}
        self._points: dict[Names, Names] = {}
        self._waits: dict[Names, float] = {}
        self._others = facts.points(
            one.id for one in facts.vehicle.circuits.values() if one.energy == "electrical" and one.id != circuit.id
        )

    def group(self, state: State) -> Names:
        """The circuit with all that it was joined to."""
        if not state.groups:
            return self._alone
        return next((some for some in state.groups if self.circuit.id in some), self._alone)

    def ways(self, state: State) -> list[list[Names]]:
        """For each source the sets of points that take it off."""
        group = self.group(state)
        if group not in self._ways:
            self._ways[group] = self.facts.ways_off(self.circuit, group, self.faults)
        return self._ways[group]

    def points(self, state: State) -> Names:
        """The points of the circuit, and of those joined to it."""
        group = self.group(state)
        if group not in self._points:
            self._points[group] = self.facts.points(group)
        return self._points[group]

    def required(self, state: State) -> float:
        """The wait; of circuits that were joined the longest."""
        group = self.group(state)
        if group not in self._waits:
            self._waits[group] = max(required_wait(self.facts.vehicle.circuits[name]) for name in group)
        return self._waits[group]

    def isolated(self, state: State) -> bool:
        """Every source is taken off by some set."""
        return all(_has_one(sets, state.open) for sets in self.ways(state))

    def locked(self, state: State) -> bool:
        """The same with the locks, where locks are needed."""
        if not self.needs_lock:
            return self.isolated(state)
        return all(_has_one(sets, state.secured) for sets in self.ways(state))

    def settled(self, state: State) -> bool:
        """Isolated, and the wait is over."""
        return self.isolated(state) and state.waited >= self.required(state)

    def dead(self, state: State, at: frozenset[Contact] = NOTHING) -> bool:
        """Shown to be dead, and nothing has happened since; `at` are the contacts that matter, none: all of it."""
        sure = self.locked(state) and self.settled(state) and not state.found
        if self.category == "other":
            keys = {key for key, _ in self.circuit.safe}
            needed = self.circuit.energy not in ("pyrotechnic", "gravity", "rotation")
            return sure and keys <= state.proved and (bool(keys) or not needed)
        asked = {half for half in self.halves if not at or any(not self._is_read(one, half) for one in at)}
        shown = ASSUMED in state.proved or (self.enough and self.pairs | asked <= state.proved)
        return sure and shown and not state.charged

    @staticmethod
    def _is_read(contact: Contact, half: OtherHalf) -> bool:
        """Whether a contact lies on the side that the profile has read."""
        return half.side is not None and (contact.connector, contact.side) == (half.connector, half.side)

    def _shown(self, state: State, pairs: frozenset) -> frozenset:
        """What a reading at some pairs shows: these, and the other half of a plug where it is in or read too."""
        shown = {half for half in self.halves if half.pair in pairs and half.connector not in state.off}
        shown |= {half for half in self.halves if half.mirrored <= pairs}
        return (pairs & self.pairs) | shown

    def settle(self, state: State) -> State:
        """What holds after any event: no wait counts while it is fed, no proof while it can be fed again."""
        if not state.secured <= state.open:
            state = state._replace(secured=state.secured & state.open)
        if state.waited and not self.isolated(state):
            state = state._replace(waited=0)
        if state.proved and not self.locked(state):
            state = state._replace(proved=NOTHING)
        if state.waited and state.waited > self.required(state):
            state = state._replace(waited=self.required(state))
        return state

    def after(self, state: State, step: Step, edge: Edge) -> State:
        """The state after leaving a step by one of its exits."""
        for effect in edge.effects:
            state = self.settle(self._event(state, effect, step))
            if self._may_feed(effect):
                state = state._replace(off=frozenset(one for one in state.off if not one.startswith(housing(""))))
        if edge.exit == "within" and isinstance(step.action, actions.Measure):
            state = self.settle(self._read(state, step.action))
        return state

    @staticmethod
    def _may_feed(effect: e.Effect) -> bool:
        """Whether a housing that carried no voltage may carry one now."""
        match effect:
            case e.ModeSet(mode):
                return mode not in ("off", "asleep")
            case e.Closed() | e.Energised() | e.Turned() | e.Interrupted() | e.TestVoltageApplied():
                return True
        return False

    def _event(self, state: State, effect: e.Effect, step: Step) -> State:
        own = self.circuit.id
        match effect:
            case e.Opened(point):
                return state._replace(open=state.open | {point})
            case e.Secured(point):
                locks = {point} if is_securable(self.facts.vehicle, point) else NOTHING
                return state._replace(open=state.open | {point}, secured=state.secured | locks)
            case e.Released(point):
                proved = NOTHING if point in self.points(state) else state.proved
                return state._replace(secured=state.secured - {point}, proved=proved)
            case e.Closed(point):
                closed = {point, ASSUMED} if point in self.points(state) else {point}
                state = state._replace(open=state.open - closed, secured=state.secured - closed)
                return state._replace(proved=NOTHING) if self._may_feed_back(state, point) else state
            case e.ModeSet(mode):
                return self._mode(state, mode)
            case e.Waited(seconds):
                counts = seconds is not None and self.isolated(state) and self.required(state) < inf
                return state._replace(waited=state.waited + float(seconds)) if counts else state
            case e.ProvedDead(circuit, pairs) if circuit == own:
                shown = frozenset(map(frozenset, pairs)) if pairs else self.pairs
                return state._replace(found=False, proved=state.proved | self._shown(state, shown))
            case e.Filled(circuit) if circuit == own and self.circuit.is_gas:
                return state._replace(proved=NOTHING)
            case e.Filled(circuit, True) if circuit == own:
                warmth = frozenset(key for key, limit in self.circuit.safe if limit.quantity == "temperature")
                return state._replace(proved=state.proved & warmth)
            case e.FoundNotDead(circuit) if circuit == own:
                return state._replace(found=True, proved=NOTHING)
            case e.ProvedSafe(circuit) if circuit == own:
                return state._replace(proved=state.proved | self._read_as_safe(step.action))
            case e.ProofLost(circuit, limit) if circuit == own:
                if self.category != "other" or limit is None:
                    return state._replace(proved=NOTHING)
                again = frozenset(key for key, floor in self.circuit.safe if floor.quantity == limit.quantity)
                return state._replace(proved=state.proved - again)
            case e.TestVoltageApplied():
                return self._test_voltage(state, effect)
            case e.Discharged(circuit, pairs) if circuit == own:
                return self._discharged(state, pairs)
            case e.Energised(circuit):
                return self._energised(state, circuit, by_command=isinstance(step.action, actions.Command))
            case e.Turned(_, speed):
                turns = any(self._makes_voltage(self.facts.vehicle.circuits[one], speed) for one in self.group(state))
                return state._replace(proved=NOTHING) if turns else state
            case e.Interrupted():
                return state._replace(proved=NOTHING)
        return self._thing(state, effect)

    def _thing(self, state: State, effect: e.Effect) -> State:
        """What the parting and joining of things does."""
        match effect:
            case e.Plugged(name):
                return self._plugged(state._replace(off=state.off - {name}), name)
            case e.TemporaryFitted(name, joins):
                state = state._replace(off=state.off | {temporary(name)})
                one, other = map(self.facts.circuits_at, joins) if joins else (NOTHING, NOTHING)
                for here in sorted(one):
                    for there in sorted(other):
                        state = self._joined(state, here, there)
                return state
            case e.Unplugged(name) | e.TakenOff(name) | e.Loosened(name):
                return state._replace(off=state.off | {name})
            case e.PutBack(name) | e.Tightened(name):
                return state._replace(off=state.off - {name})
            case e.TemporaryRemoved(name):
                return state._replace(off=state.off - {temporary(name)})
        return state

    def _plugged(self, state: State, name: str) -> State:
        connector = self.facts.vehicle.connectors.get(name)
        for pin in connector.pins.values() if connector is not None else ():
            state = self._joined(state, pin.device_circuit, pin.cable_circuit)
        return state

    def _may_feed_back(self, state: State, point: str) -> bool:
        """Closing a point of another circuit can feed this one backwards where the profile does not exclude it."""
        if self.circuit.energy != "electrical" or point in self.points(state) or point not in self._others:
            return False
        return all(one.kind != "none" for one in self.circuit.sources if one.name == "converter")

    def _mode(self, state: State, mode: str) -> State:
        if mode in ("off", "asleep"):
            return state._replace(open=state.open | {MODE_OFF})
        closed = {MODE_OFF, ASSUMED}
        state = state._replace(open=state.open - closed, secured=state.secured - closed, proved=NOTHING)
        if mode == "charging":
            leads = [charging_points(self.facts, frozenset({name})) for name in self.group(state)]
            closed = frozenset().union(*leads)
            state = state._replace(open=state.open - closed, secured=state.secured - closed)
        return state

    def _test_voltage(self, state: State, test: e.TestVoltageApplied) -> State:
        if test.voltage is not None and test.voltage.si <= 60:
            return state
        tested = [
            contact for pair in test.pairs for contact in pair
            if self.group(state) & self.facts.circuits_at(contact)
            and not (contact.side == "device" and contact.connector in state.off)  # a piece of its own
        ]  # fmt: skip
        if not tested:
            return state
        apart = {half for half in self.halves if half.connector in state.off}
        apart = {half for half in apart if all(self._is_read(contact, half) for contact in tested)}
        return state._replace(proved=state.proved & apart, charged=state.charged or not test.discharged)

    def _discharged(self, state: State, pairs: tuple) -> State:
        touched = {contact for pair in pairs for contact in pair}
        if not pairs or (self.poles and self.poles <= touched):
            state = state._replace(charged=False)
        if self.isolated(state) and (not pairs or any(set(pair) <= self.poles for pair in pairs)):
            state = state._replace(waited=self.required(state))
        return state

    def _energised(self, state: State, circuit: str, *, by_command: bool) -> State:
        """The vehicle has one mode and its points are shared: what feeds another circuit closes those for this one too."""
        stays = state.open & {MODE_OFF} if not by_command and self._is_pumped(circuit) else NOTHING
        if circuit in self.group(state):
            kept = frozenset(filter(self.facts.is_real_break, state.open)) if by_command else NOTHING
            secured = state.secured & kept
            return state._replace(open=kept - {MODE_OFF} | stays, secured=secured, proved=NOTHING)
        closed = self.facts.points([circuit]) if circuit in self.facts.vehicle.circuits else NOTHING
        if by_command:
            closed = frozenset(point for point in closed if not self.facts.is_real_break(point))
        return state._replace(open=state.open - closed - {MODE_OFF} | stays, secured=state.secured - closed)

    def _is_pumped(self, circuit: str) -> bool:
        """Pressure is brought up from outside, with the vehicle as it is."""
        known = self.facts.vehicle.circuits.get(circuit)
        return known is not None and known.energy == "pressure"

    def _makes_voltage(self, circuit: Circuit, speed) -> bool:
        turning = circuit.rotation
        if turning is None:
            return self.facts.category(circuit) == "B" and "rotation" not in circuit.says
        speed = speed or turning.at_most
        if turning.constant is None or speed is None or circuit.voltage is None:
            return True
        return turning.constant.si * speed.si > (60 if circuit.voltage.kind == "dc" else 30)

    def _joined(self, state: State, one: str | None, other: str | None) -> State:
        """Two pieces become one; whatever is known of either is known of neither any more."""
        if one is None or other is None or one == other:
            return state
        parts = [some for some in state.groups if one in some or other in some]
        whole = frozenset({one, other}).union(*parts)
        state = state._replace(groups=state.groups - set(parts) | {whole})
        return state._replace(waited=0, proved=NOTHING, charged=True) if self.circuit.id in whole else state

    def _read(self, state: State, measured: actions.Measure) -> State:
        """A voltage read as safe at a pair shows a circuit below class B to be dead there."""
        limit = measured.limit
        if measured.quantity != "voltage" or limit is None or limit.high is None or limit.high.si > 5:
            return state
        if "chassis" in measured.where:
            state = state._replace(off=state.off | frozenset(map(housing, measured.where)))
        if self.category not in ("power", "low"):
            return state
        return state._replace(proved=state.proved | self._shown(state, frozenset(map(frozenset, measured.pairs))))

    def _read_as_safe(self, action: actions.ProveSafe) -> Names:
        own = self.circuit.safe
        if action.limit is None:
            return frozenset(key for key, _ in own)
        return frozenset(
            key for key, limit in own
            if limit.quantity == action.limit.quantity and limit.interval.covers(action.limit.interval)
        )  # fmt: skip


def housing(part: str) -> str:
    """Stands among what is off for a housing that was read."""
    return f"housing {part}"


def _has_one(sets: list[Names], points: Names) -> bool:
    return ASSUMED in points or any(map(points.issuperset, sets))


def charging_points(facts: Facts, circuits: Names) -> Names:
    """The points that only the source `charging` of these circuits names: plugging the lead in closes them."""
    sources = [source for name in circuits for source in facts.vehicle.circuits[name].sources]
    charging, others = set(), set()
    for source in sources:
        (charging if source.name == "charging" else others).update(*source.taken_off_by)
    return frozenset(charging - others)
