"""What the script needs to judge the readings of a step: limits, units, the ranges of the instrument, the guard band.

Sizes are exact texts "n/d" in the coherent unit of the quantity.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate
from typing import Any

from ..graph.exits import DECIDES
from ..limits.as_measured import as_voltage, reading
from ..limits.computed_reading import computed_sharpness
from ..limits.instrument import ranges_for
from ..limits.reading import is_size_alone
from ..model import actions
from ..model.procedure import Procedure, Step
from ..model.workshop import Range
from ..quantities.display import OTHER_UNIT
from ..quantities.limit import Limit
from ..quantities.units import QUANTITIES, UNITS, Unit, base_quantity, spellings
from .naming import Naming

Data = dict[str, Any]

#: What is measured that is no quantity by its own name.
_QUANTITY_OF = {"continuity": "resistance", "diode": "voltage"}


def readings_of(step: Step, procedure: Procedure, naming: Naming) -> list[Data]:
    """The readings that a step asks for, one for each pair of contacts; none where no figure is read."""
    return list(_Fields(step, procedure, naming).all())


def written_down(step: Step, procedure: Procedure, naming: Naming) -> tuple[str, ...]:
    """What is written down at a step on paper, a line for each reading, also where nothing is known of its unit."""
    if isinstance(step.action, actions.Ask):
        return ("Answer",)
    if type(step.action) not in DECIDES or isinstance(step.action, actions.Perform):
        return ()
    left = [bool(one.get("residual")) for one in readings_of(step, procedure, naming)] or [False]
    places = [0, *accumulate(not one for one in left)]
    several = places[-1] > 1  # numbered as the pairs of contacts on the drawing
    return tuple(
        "Left after the test" if one else f"Reading {place + 1}" if several else "Reading"
        for one, place in zip(left, places, strict=False)
    )


@dataclass(frozen=True, slots=True)
class _Fields:
    """Makes the fields of one step."""

    step: Step
    procedure: Procedure
    naming: Naming

    def all(self) -> Iterator[Data]:
        """A field for each reading."""
        action = self.step.action
        limit = getattr(action, "limit", None)
        match action:
            case actions.Measure():
                quantity = _QUANTITY_OF.get(action.quantity, action.quantity)
                yield from self._tested(action, quantity)
            case actions.ProveDead():
                dead = limit or _at_most(self.naming.workshop.policy.dead_below)
                ranges = self._ranges(as_voltage(action, self.naming.vehicle), action.using)
                yield from self._at_pairs(dead, "voltage", action.pairs or self._test_points(action), ranges, True)
            case actions.Discharge():
                ranges = self._ranges(as_voltage(action, self.naming.vehicle), action.using)
                yield from self._at_pairs(limit, "voltage", action.pairs, ranges, is_size_alone(limit))
            case actions.ProveSafe():
                found = self.naming.find(action.circuit)
                safe = found.element.safe if found is not None and limit is None else ()
                for name, one in safe or (("", limit),):
                    yield from self._at_pairs(one, "", (), (), label=name.replace("_", " "))
            case actions.Read():
                yield from self._at_pairs(limit, action.quantity or "", (), ())
            case actions.Compute():
                sharp = computed_sharpness(action, self.procedure, self.naming.workshop, self.naming.vehicle)
                end = next(iter(sharp.ends), None) if sharp is not None else None
                for one in self._at_pairs(limit, action.quantity or "", (), ()):
                    yield one if end is None or end.band is None else {**one, "band": str(end.band)}

    def _tested(self, action: actions.Measure, quantity: str) -> Iterator[Data]:
        """The readings of a measurement, behind each what is left there of a test voltage."""
        read = list(self._at_pairs(action.limit, quantity, action.pairs, self._ranges(action, action.using)))
        if action.discharged is None:
            yield from read
            return
        ranges = self._ranges(reading("voltage", "dc"), action.using)
        left = self._at_pairs(action.discharged, "voltage", action.pairs, ranges, True)
        for one, after in zip(read, left, strict=True):
            words = f"left after the test, between {after['label']}" if "label" in after else "left after the test"
            yield from (one, {**after, "residual": True, "label": words})

    def _at_pairs(
        self,
        limit: Limit | None,
        quantity: str,
        pairs: tuple[actions.Pair, ...],
        ranges: tuple[Range, ...],
        size_only: bool = False,
        label: str = "",
    ) -> Iterator[Data]:
        field = self._field(limit, quantity, ranges, size_only)
        if field is None:
            return
        if not pairs:
            yield {**field, "label": label} if label else field
        for first, second in pairs:
            words = f"{self.naming.contact_words(first)} and {self.naming.contact_words(second)}"
            yield {**field, "between": [str(first), str(second)], "label": words}

    def _field(self, limit: Limit | None, quantity: str, ranges: tuple[Range, ...], size_only: bool) -> Data | None:
        """What all readings of a step share; None where nothing says what unit a figure would have."""
        own = _own_unit(limit, quantity, ranges)
        if own is None:
            return None
        ladder = _ladder(own, limit, ranges)
        guard = self.naming.workshop.policy.guard_band
        field: Data = {
            "unit": own.symbol,
            "ladder": [one.symbol for one in ladder],
            "ranges": [_range(one) for one in ranges if one.top is not None],
            "places": {one.symbol: 3 for one in ladder if _has_three_places(one, ranges)},
        }
        if limit is not None and (limit.low is not None or limit.high is not None):
            field["limit"] = {name: None if end is None else str(end.si) for name, end in
                              (("low", limit.low), ("high", limit.high))}  # fmt: skip
            field["text"] = str(limit)
        if guard is not None:
            field["guard"] = str(guard)
        if size_only:
            field["sizeOnly"] = True
        using = getattr(self.step.action, "using", None)
        if using in self.naming.workshop.instruments:
            field["instrument"] = using
        return field

    def _ranges(self, measured: actions.Measure, using: str | None) -> tuple[Range, ...]:
        instrument = self.naming.workshop.instruments.get(using or "")
        return () if instrument is None else ranges_for(measured, instrument, self.naming.vehicle)

    def _test_points(self, proof: actions.ProveDead) -> tuple[actions.Pair, ...]:
        found = self.naming.find(proof.circuit)
        return tuple(one.pair for one in found.element.dead_at) if found is not None and found.kind == "circuit" else ()


def _at_most(high: Any) -> Limit | None:
    return None if high is None else Limit(None, high)


def _own_unit(limit: Limit | None, quantity: str, ranges: tuple[Range, ...]) -> Unit | None:
    """The unit that stands beside an empty field: that of the limit, else of the largest range, else the coherent."""
    for value in (limit.nominal, limit.low, limit.high) if limit is not None else ():
        if value is not None:
            return value.unit
    tops = [one.top.unit for one in ranges if one.top is not None]
    if tops:
        return tops[-1]
    known = QUANTITIES.get(base_quantity(quantity) or "", ())
    return next((one for one in known if one.factor == 1), known[0] if known else None)


def _ladder(own: Unit, limit: Limit | None, ranges: tuple[Range, ...]) -> list[Unit]:
    """The units that may be chosen: those of limit and ranges, the next prefix up and down, the other system."""
    found = {own.symbol}
    for value in (limit.low, limit.high) if limit is not None else ():
        if value is not None:
            found.add(value.unit.symbol)
    for one in ranges:
        found |= {value.unit.symbol for value in (one.top, one.resolution) if value is not None}
    family = [one for one in QUANTITIES[own.quantity] if _is_of_family(one.symbol, own.symbol)]
    found |= {one.symbol for one in family if own.factor / one.factor in (1000, Fraction(1, 1000))}
    found.add(OTHER_UNIT.get(own.symbol, own.symbol))
    return sorted((UNITS[one] for one in found if UNITS[one].quantity == own.quantity), key=lambda one: one.factor)


def _is_of_family(one: str, other: str) -> bool:
    """Whether two symbols differ by their prefix alone."""
    return one.endswith(other) or other.endswith(one) or (len(one) > 1 and one[1:] == other[1:])


def _has_three_places(one: Unit, ranges: tuple[Range, ...]) -> bool:
    """Whether the display of some range shows three figures behind its point in this unit."""
    widths = (_width(each.resolution) for each in ranges if each.resolution is not None)
    return any(Fraction(1, 1000) <= width / one.factor < Fraction(1, 100) for width in widths)


def _range(one: Range) -> Data:
    """A range as `limits/instrument.py` reckons with it."""
    assert one.top is not None
    is_wrong = one.resolution is not None and one.resolution.value < 0  # then no error is known
    known = None if is_wrong else one.accuracy
    return {
        "top": str(_width(one.top)),
        "offset": str(one.top.unit.offset),
        "percent": None if known is None else str(known.percent),
        "digits": None if known is None else str(known.digits),
        "resolution": None if one.resolution is None else str(_width(one.resolution)),
    }


def _width(value: Any) -> Fraction:
    return Fraction(value.value) * value.unit.factor


def spellings_typed(of: Unit) -> list[str]:
    """How a unit may be typed, without blanks, and with a point for the raised one."""
    typed = (one.replace(" ", "") for name in spellings(of) for one in (name, name.replace("·", ".")))
    return list(dict.fromkeys(typed))
