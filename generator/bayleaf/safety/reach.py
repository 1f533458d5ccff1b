"""Which circuits an effect can change anything of; what cannot is left out of their walks."""

from collections.abc import Iterable

from ..graph import effects as events
from ..graph.effects import Effect
from .rig import Rig, housing_thing
from .transfer import CHANGING, THING_OF, may_feed_back

_AT_POINT = (events.Opened, events.Closed, events.Secured, events.Released)
_AT_PINS = (events.VoltageRead, events.TestVoltageApplied)
#: Effects that reach a circuit through those that it may have become one with.
_THROUGH_MATES = (*_AT_POINT, events.TestVoltageApplied, events.Plugged, events.TemporaryFitted)


class Reach:
    """The reach of effects on one vehicle. What was asked once is remembered."""

    def __init__(self, rig: Rig) -> None:
        self._rig = rig
        self._all = frozenset(rig.circuits)
        self._mating = frozenset(name for name in rig.circuits if rig.known(name).mates)
        self._found: dict[tuple[type, str], frozenset[str]] = {}

    def of(self, effect: Effect) -> frozenset[str]:
        """The circuits that an effect can change."""
        kind = effect.__class__
        if kind not in CHANGING:
            return frozenset()
        if isinstance(effect, events.HousingRead):
            return frozenset(name for place in effect.places for name in self._at_thing(housing_thing(place)))
        if isinstance(effect, _AT_PINS):
            at_pins = self._at_pins(effect)
            return at_pins | self._mating if kind in _THROUGH_MATES else at_pins
        name = effect.point if isinstance(effect, _AT_POINT) else THING_OF[kind](effect) if kind in THING_OF else None
        if name is None:
            return self._of_circuit(effect)
        found = self._found.get((kind, name))
        if found is None:
            reached = self._at_point(kind, name) if kind in _AT_POINT else self._at_thing(name)
            found = self._found[kind, name] = frozenset(reached) | (self._mating if kind in _THROUGH_MATES else set())
        return found

    def _of_circuit(self, effect: Effect) -> frozenset[str]:
        """One circuit where the effect names it; making one live closes points for others too."""
        circuit = None if isinstance(effect, events.Energised) else getattr(effect, "circuit", None)
        return self._all if circuit is None else self._all & {circuit}

    def _at_pins(self, effect: events.VoltageRead | events.TestVoltageApplied) -> frozenset[str]:
        return frozenset(name for pair in effect.pairs for one in pair for name in self._rig.circuits_at(one))

    def _at_point(self, kind: type, point: str) -> Iterable[str]:
        bit = self._rig.point(point)
        for name in self._rig.circuits:
            known = self._rig.known(name)
            if bit & known.points or (kind is events.Closed and may_feed_back(known.circuit)):
                yield name

    def _at_thing(self, thing: str) -> Iterable[str]:
        bit = self._rig.thing(thing)
        return (name for name in self._rig.circuits if bit & self._rig.known(name).things)
