"""Housings of parts of class B: one that was just read near nothing may be measured at though nothing is proved dead.

Where a bond is in doubt, a fault of the insulation inside puts the housing itself at the voltage of the circuit.
"""

from ..graph import effects as events
from ..graph.effects import Effect
from ..model.common import QUIET
from .rig import Known, Rig, housing_thing, union
from .state import State
from .wait import SAFE_READING

#: What may bring voltage to a housing.
_FEEDS = (
    events.ModeSet, events.Closed, events.Energised, events.Turned, events.Interrupted, events.TestVoltageApplied,
)  # fmt: skip


def housing_read(state: State, effect: events.HousingRead, known: Known, rig: Rig) -> State:
    """The housings of parts of a circuit, read against the chassis: among the things, out of place means read."""
    high = effect.limit.high
    if high is None or high.si > SAFE_READING:
        return state
    bits = union(rig.thing(housing_thing(name)) for name in effect.places) & known.housings
    return state._replace(on=state.on & ~bits, off=state.off | bits)


def may_feed(effect: Effect) -> bool:
    """Whether an effect may bring voltage to a housing that had none."""
    return isinstance(effect, _FEEDS) and not (isinstance(effect, events.ModeSet) and effect.mode in QUIET)


def housings_unread(state: State, known: Known) -> State:
    """No reading of a housing of the circuit stands any more."""
    return state._replace(on=state.on | known.housings, off=state.off & ~known.housings)
