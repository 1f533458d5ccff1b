"""What a step is called on the page: one line in the imperative, made from its action."""

from collections.abc import Callable

from ..model import actions
from ..model.procedure import Step
from .naming import Naming, lower, the
from .show import both, plain

_MODES = {
    "asleep": "Let the vehicle fall asleep",
    "off": "Switch the vehicle off",
    "ignition": "Switch the ignition on",
    "ready": "Make the vehicle ready to drive",
    "engine running": "Start the engine",
    "charging": "Start charging",
}

_PAUSES = {"break": "Take a break", "hand-over": "Hand the job over", "vehicle left": "Leave the vehicle"}


def headline(step: Step, naming: Naming, title_of: Callable[[str], str]) -> str:
    """The line that names a step. A step in words alone is its own first sentence."""
    action = step.action
    if isinstance(action, actions.Do):
        return step.detail or "(nothing is said)"
    for names in (_operations, _readings, _others):
        text = names(action, naming)
        if text is not None:
            return text
    if isinstance(action, actions.Perform):
        return f"Perform: {title_of(action.procedure)}"
    return action.key.capitalize()


def _operations(action: actions.Action, naming: Naming) -> str | None:
    """Actions that move something on the vehicle."""
    match action:
        case actions.SetMode(mode):
            return _MODES.get(mode, f"Bring the vehicle into the mode {mode}")
        case actions.Disconnect(points):
            return naming.operate(points, closing=False)
        case actions.Reconnect(points):
            return naming.operate(points, closing=True)
        case actions.Secure(points):
            return f"Secure {the(naming.words(points))}"
        case actions.Release(points):
            return f"Take the lock off {the(naming.words(points))}"
        case actions.Unplug(connectors):
            return f"Unplug {naming.words(connectors)}"
        case actions.Plug(connectors):
            return f"Plug in {naming.words(connectors)}"
        case actions.Remove(parts):
            return f"Remove {the(naming.words(parts))}"
        case actions.Refit(parts, new):
            return (
                f"Fit a new {naming.words(parts)[:1].lower()}{naming.words(parts)[1:]}"
                if new
                else f"Refit {the(naming.words(parts))}"
            )
        case actions.Loosen(fasteners):
            return f"Loosen {the(naming.words(fasteners))}"
        case actions.Tighten() as tighten:
            turn = f", then turn {plain(tighten.then_turn)}" if tighten.then_turn else ""
            torque = f" to {both(tighten.torque)}" if tighten.torque else ""
            return f"Tighten {the(naming.words(tighten.fasteners))}{torque}{turn}"
        case actions.Drain(circuit, _, into):
            return f"Drain {the(naming.plain(circuit))}" + (f" into {into}" if into else "")
        case actions.Fill(circuit, amount, medium):
            return _filled(naming.plain(circuit), both(amount), medium, action.is_pressed)
        case actions.OpenValve(what):
            return f"Open {the(naming.words(what))}"
        case actions.CloseValve(what):
            return f"Close {the(naming.words(what))}"
    return None


def _filled(circuit: str, amount: str, medium: str | None, is_pressed: bool) -> str:
    """A circuit is often called by its medium, and filled with another: nitrogen where refrigerant was."""
    if is_pressed:
        return f"Pump up to {amount}{f' with {lower(medium)}' if medium else ''}: {circuit}"
    if amount:
        return f"Fill in {amount}: {circuit}"
    return f"Fill with {lower(medium)}: {circuit}" if medium else f"Fill {the(circuit)}"


def _readings(action: actions.Action, naming: Naming) -> str | None:
    """Actions that give a value or an answer."""
    match action:
        case actions.ProveDead() as proof:
            return f"Prove dead: {naming.plain(proof.circuit)}"
        case actions.ProveSafe() as proof:
            return f"Prove safe to open: {naming.plain(proof.circuit)}"
        case actions.Measure() as measured:
            return f"Measure: {measured.what}"
        case actions.Read(what, _, origin, _):
            return f"Read: {what}" + (f" ({naming.plain(origin)})" if origin else "")
        case actions.Discharge() as discharge:
            return f"Discharge {the(naming.plain(discharge.circuit))} and read what is left"
        case actions.Compute() as computed:
            return f"Compute: {computed.what}"
        case actions.Ask(question, _):
            return question
    return None


def _others(action: actions.Action, naming: Naming) -> str | None:
    """Everything else."""
    match action:
        case actions.Wait(time, what_for):
            known = [naming.plain(name) for name in what_for]
            return f"Wait {plain(time)}" + (f": {', '.join(known)}" if known else "")
        case actions.Command(what, to, _):
            return f"Command: {what}" + (f" ({naming.plain(to)})" if to else "")
        case actions.Energise(circuits, _):
            return f"Make live: {naming.words(circuits)}"
        case actions.Turn(what, speed):
            return f"Turn the {what}" + (f" at no more than {both(speed)}" if speed else "")
        case actions.FitTemporary(name, where, joins):
            place = (
                f" from {naming.contact_words(joins[0])} to {naming.contact_words(joins[1])}"
                if joins
                else f" at {naming.places(where)}"
                if where
                else ""
            )
            return f"Fit for the time being: {name.replace('-', ' ')}{place}"
        case actions.RemoveTemporary(name):
            return f"Take off again: {name.replace('-', ' ')}"
        case actions.Pause(why):
            return _PAUSES.get(why, "Pause")
    return None
