"""Whether the bond of a housing was measured with its screws as they stay: not before the last one is tightened."""

from ..graph import effects as events
from ..graph.effects import Effect
from ..model import actions
from ..model.procedure import Step
from .rig import Rig
from .whole import Index, Whole

#: The effects that matter here.
OF_BONDS = frozenset({
    events.BondRead, events.TakenOff, events.PutBack, events.Loosened, events.Tightened,
})  # fmt: skip


def bond_thing(part: str) -> str:
    """The name of "nothing was touched since the bond was measured" among the things."""
    return f"bond {part}"


def measured_thing(part: str) -> str:
    """The name of "the bond was measured" among the things: out of its place means that it was."""
    return f"measured {part}"


def bonded_in(step: Step) -> tuple[str, ...]:
    """The places at which a step measures a bond; chassis is among them."""
    action = step.action
    is_bond = isinstance(action, actions.Measure) and action.quantity == "bonding resistance"
    return action.where if is_bond and isinstance(action, actions.Measure) else ()


def after_bond(state: Whole, effect: Effect, index: Index) -> Whole:
    """What an effect changes in what is known of bonds."""
    if isinstance(effect, events.BondRead):
        for place in effect.places:
            seen, fresh = index[measured_thing(place)], index[bond_thing(place)]
            state = state._replace(on=state.on & ~seen | fresh, off=(state.off | seen) & ~fresh)
        return state
    part = _touched(effect, index.rig)
    if part is None or not state.off & index[measured_thing(part)]:
        return state
    fresh = index[bond_thing(part)]
    surely = 0 if state.on & index[measured_thing(part)] else fresh
    return state._replace(on=state.on & ~surely, off=state.off | fresh)


def _touched(effect: Effect, rig: Rig) -> str | None:
    """The part that an effect takes off, puts on, or of which it turns a screw."""
    if isinstance(effect, events.TakenOff | events.PutBack):
        return effect.part
    if isinstance(effect, events.Loosened | events.Tightened):
        fastener = rig.vehicle.fasteners.get(effect.fastener)
        return fastener.part if fastener is not None else None
    return None
