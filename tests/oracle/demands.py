"""What a step needs of one circuit before it is done, and the states in which the path goes on where it is not so."""

from itertools import product

from bayleaf.graph.graph import Edge
from bayleaf.model import actions
from bayleaf.model.common import MODE_OFF
from bayleaf.model.contact import Contact
from bayleaf.model.procedure import Procedure, Step

from .events import ASSUMED, Look, State, housing
from .facts import NOTHING, PROBED, Facts, Names

#: The words of `expects`, as levels of safety.
WORDS = ("live", "switched off", "disconnected", "secured", "waited", "proved dead")
ISOLATED, LOCKED, WAITED, DEAD = "disconnected", "secured", "waited", "proved dead"


class OneCircuit:
    """The judge of one circuit."""

    def __init__(self, facts: Facts, name: str) -> None:
        self.facts, self.name = facts, name
        self._looks: dict[Names, Look] = {}

    def look(self, faults: Names) -> Look:
        """The circuit under these faults."""
        if faults not in self._looks:
            self._looks[faults] = Look(self.facts, self.facts.vehicle.circuits[self.name], faults)
        return self._looks[faults]

    def starts(self, procedure: Procedure, faults: Names) -> list[State]:
        """What may be so when nobody performs the procedure: live, or the least that it expects."""
        return self._least(State(), dict(procedure.expects).get(self.name, "live"), self.look(faults))

    def enter(self, state: State, faults: Names) -> State:
        """With another fault, a point that may be stuck is open no more, and what followed from it holds no more."""
        return self.look(faults).settle(state)

    def arrive(
        self, procedure: Procedure, step: Step, state: State, faults: Names, callee: Procedure | None
    ) -> tuple[list[tuple[str, str]], list[State]]:
        """What is not met, the gravest first, and the states that are gone on with.

        What the mending of a graver need brings with it is no fault of its own: one mistake, one error.
        """
        look = self.look(faults)
        unmet: dict[str, None] = {}
        states = [state]
        for demand, word, at in self._needs(procedure, step, state, callee, look):
            failing = [one for one in states if not self._is_met(one, demand, word, look, at)]
            if failing:
                unmet[demand] = None
                mended = DEAD if demand == "not dead" else word
                states = [one for one in states if one not in failing]
                if self._is_declared(demand, word):
                    failing = [one._replace(charged=False, found=False) for one in failing]
                states += [new for one in failing for new in self._least(one, mended, look)]
        return [(self.name, demand) for demand in unmet], states

    def leave(self, step: Step, edge: Edge, state: State, faults: Names) -> tuple[list[tuple[str, str]], State]:
        """The state after an exit; making a circuit live is judged by what is off then."""
        look = self.look(faults)
        after = look.after(state, step, edge)
        if edge.exit == "exhausted" or look.category not in ("B", "power") or not self._feeds(step, after, look):
            return [], after
        excepted: Names = NOTHING
        if isinstance(step.action, actions.Reconnect):
            fasteners = self.facts.vehicle.fasteners.values()
            excepted = frozenset(one.id for one in fasteners if one.point in step.action.points)
        off = (self.facts.items(self.name) & after.off) - excepted
        if not off or look.isolated(after):
            return [], after
        return [(self.name, "made live")], after._replace(off=after.off - off)

    def _feeds(self, step: Step, after: State, look: Look) -> bool:
        match step.action:
            case actions.SetMode(mode):
                return mode not in ("off", "asleep")
            case actions.Command(energises=circuits) | actions.Energise(circuits=circuits):
                return bool(look.group(after).intersection(circuits))
            case actions.Reconnect(points):
                return bool(look.points(after).intersection(points))
        return False

    def _needs(
        self, procedure: Procedure, step: Step, state: State, callee: Procedure | None, look: Look
    ) -> list[tuple[str, str, frozenset[Contact]]]:
        """The demands of a step: its name, the word of the state that it needs, the contacts that alone are touched."""
        own, category = self.name, look.category
        touch = self.facts.touch(procedure.id, step)
        opened = any(own in circuits for name, circuits in touch.opened if name in state.off)
        bare, at = own in touch.bare or opened, NOTHING if opened else touch.sides.get(own, NOTHING)
        cover = own in touch.covers and category in ("B", "power")
        action = step.action
        proves = isinstance(action, actions.ProveDead) and action.circuit == own
        discharges = isinstance(action, actions.Discharge) and action.circuit == own
        needs = []
        if touch.hands_on and "not dead" not in procedure.handles:
            needs.append(("not dead", "not found", NOTHING))
        if bare:
            needs.append(("touch", DEAD, at))
        elif own in touch.let_out:
            needs.append(("touch", ISOLATED if category == "other" else DEAD, NOTHING))
        if category == "B" and self._is_at_housing(action, state):
            needs.append(("housing", DEAD, NOTHING))
        if category == "B" and touch.hands_on and self._is_beside(step, state, own in touch.probes):
            needs.append(("beside", DEAD, NOTHING))
        reads = category == "B" and isinstance(action, actions.Measure) and own in touch.probes
        reads = reads and action.quantity not in ("current", *PROBED)  # in series it is refused by a rule of its own
        if reads and not state.off.intersection(self.facts.adapters(action, step.tools)):
            contacts = [contact for pair in action.pairs for contact in pair]
            needs.append(("probe", DEAD, frozenset(one for one in contacts if own in self.facts.circuits_at(one))))
        if cover:
            needs.append(("cover", WAITED if category == "B" else ISOLATED, NOTHING))
        if (proves or discharges) and category in ("B", "power"):
            word = ISOLATED if category == "power" else WAITED if proves else LOCKED
            needs.append(("prove", word, NOTHING))
        expected = dict(callee.expects).get(own) if callee is not None else None
        if expected is not None:
            needs.append(("expects", expected, NOTHING))
        return needs

    def _is_at_housing(self, action: actions.Action, state: State) -> bool:
        """Whether a bond is measured at a housing with the circuit in it, and nobody has read that housing before."""
        if not isinstance(action, actions.Measure) or action.quantity != "bonding resistance":
            return False
        parts = self.facts.vehicle.parts
        sealed = self.facts.vehicle.circuits[self.name].sealed_in
        inside = [one for one in action.where if one in parts and self.name in parts[one].circuits and one != sealed]
        return any(housing(one) not in state.off for one in inside)

    def _is_beside(self, step: Step, state: State, measures: bool) -> bool:
        """Whether a cover of the circuit is off and the step is not what that cover came off for, nor a proof."""
        action, vehicle = step.action, self.facts.vehicle
        if measures or isinstance(action, actions.ProveDead | actions.Discharge):
            return False
        if isinstance(action, actions.Reconnect) and self.facts.points([self.name]).intersection(action.points):
            return False  # judged by what is off when the circuit is made live
        for name in state.off:
            part = vehicle.parts.get(name)
            if part is None or self.name not in part.exposes:
                continue
            match action:
                case actions.Remove(parts) | actions.Refit(parts):
                    at_part = all(one == name for one in parts)
                case actions.Loosen(fasteners) | actions.Tighten(fasteners):
                    known = map(vehicle.fasteners.get, fasteners)
                    at_part = all(one is not None and one.part == name for one in known)
                case _:
                    at_part = False
            if not at_part:
                return True
        return False

    def _is_met(self, state: State, demand: str, word: str, look: Look, at: frozenset[Contact]) -> bool:
        """Whether a need is met; a charge or a failed proof is worse than any state that a file declares."""
        hurts = self._is_declared(demand, word) and (state.charged or state.found)
        return not hurts and self._is(state, word, look, at)

    def _is_declared(self, demand: str, word: str) -> bool:
        return demand == "expects" and word not in ("live", "switched off")

    def _is(self, state: State, word: str, look: Look, at: frozenset[Contact] = NOTHING) -> bool:
        """Whether a state is at least as safe as a word says."""
        match word:
            case "live":
                return True
            case "not found":
                return not state.found
            case "switched off":
                return MODE_OFF in state.open
            case "disconnected":
                return look.isolated(state)
            case "secured":
                return look.isolated(state) and look.locked(state)
            case "waited":
                return look.locked(state) and look.settled(state)
        return look.dead(state, at)

    def _least(self, state: State, word: str, look: Look) -> list[State]:
        """The least changes after which a word holds: one for each way to choose a set for each source that lacks one."""
        if word == "live" or self._is(state, word, look):
            return [state]
        if word == "switched off":
            return [state._replace(open=state.open | {MODE_OFF})]
        locks = look.needs_lock and word != ISOLATED
        held = state.secured if locks else state.open
        lacking = [sets for sets in look.ways(state) if ASSUMED not in held and not any(some <= held for some in sets)]
        found = []
        for chosen in product(*(sets or [frozenset({ASSUMED})] for sets in lacking)):
            points = frozenset().union(*chosen)
            new = state._replace(open=state.open | points, secured=state.secured | (points if locks else NOTHING))
            if word in (WAITED, DEAD):
                new = new._replace(waited=look.required(new))
            if word == DEAD:
                proved = look.pairs if look.category != "other" else frozenset(key for key, _ in look.circuit.safe)
                proved |= frozenset(look.halves)
                given = proved if look.enough or look.category == "other" else frozenset({ASSUMED})
                new = new._replace(proved=new.proved | given, charged=False, found=False)
            found.append(look.settle(new))
        return found
