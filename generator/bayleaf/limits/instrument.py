"""What an instrument can decide: its range, its error there, and how sharp that is against a limit."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..calculations.decision import RATIO_ASKED
from ..calculations.reading_error import COVERAGE
from ..model.actions import Measure
from ..model.pins import circuits_at, contacts_of
from ..model.vehicle import Vehicle
from ..model.workshop import Instrument, Range
from ..quantities.limit import Limit
from ..quantities.limit_value import NEVER_NEGATIVE
from ..quantities.quantity import Quantity

#: The functions of an instrument that read a kind of value, the usual one first. A bonding resistance asks for a test
#: current that no ohmmeter has. Voltages and currents have a function for each kind.
FUNCTIONS_OF: Mapping[str, tuple[str, ...]] = {
    **{
        name: (name,)
        for name in (
            "insulation resistance", "diode", "capacitance", "frequency", "temperature", "pressure", "torque", "mass",
            "length", "duty cycle", "time", "speed", "angle",
        )
    },
    "resistance": ("resistance", "low resistance"),
    "continuity": ("continuity", "resistance", "low resistance"),
    "bonding resistance": ("low resistance",),
}  # fmt: skip
_WITH_A_KIND = {"voltage": "voltage", "voltage drop": "voltage", "current": "current"}
#: 2/√3 from above, as a fraction: the expanded uncertainty of an error that may lie anywhere within ±1.
_EXPANDED = Fraction("1.154701")
assert float(_EXPANDED) >= COVERAGE / 3**0.5


def function_for(measured: Measure, instrument: Instrument, vehicle: Vehicle | None) -> str | None:
    """The function of an instrument that a measurement needs; None where no instrument of the file has one for it.

    Whether a voltage is direct or alternating is said by the step, else by the circuit; direct where neither tells.
    A level in millimetres is read as a length.
    """
    of_a_kind = _WITH_A_KIND.get(measured.quantity)
    if of_a_kind is not None:
        return f"{measured.current_kind or _kind_of(measured, vehicle)} {of_a_kind}"
    is_height = measured.quantity == "level" and measured.limit is not None and measured.limit.quantity == "length"
    names = FUNCTIONS_OF.get("length" if is_height else measured.quantity, ())
    return next((name for name in names if name in instrument.functions), names[0] if names else None)


def _kind_of(measured: Measure, vehicle: Vehicle | None) -> str:
    if vehicle is None:
        return "dc"
    names = list(circuits_at(contacts_of(measured), vehicle))
    cable = vehicle.cables.get(measured.around) if measured.around is not None else None
    if cable is not None and cable.circuit is not None:
        names.append(cable.circuit)
    voltages = (vehicle.circuits[name].voltage for name in names if name in vehicle.circuits)
    return "ac" if any(voltage is not None and voltage.kind == "ac" for voltage in voltages) else "dc"


def ranges_for(measured: Measure, instrument: Instrument, vehicle: Vehicle | None) -> tuple[Range, ...]:
    """The ranges that a measurement can be read on: of the function, with its test voltage and test current."""
    ranges = instrument.functions.get(function_for(measured, instrument, vehicle) or "", ())
    if measured.test_voltage is not None:
        ranges = tuple(
            one for one in ranges if one.test_voltage is None or one.test_voltage.same_as(measured.test_voltage)
        )
    if measured.test_current is not None:
        ranges = tuple(one for one in ranges if one.test_current is None or one.test_current >= measured.test_current)
    return ranges


def range_for(size: Fraction, ranges: tuple[Range, ...]) -> Range | None:
    """The smallest range that shows a size, in the coherent unit."""
    tops = [
        (_size(one.top), index, one)
        for index, one in enumerate(ranges)
        if one.top is not None and _size(one.top) >= abs(size - one.top.unit.offset)
    ]
    return min(tops, default=(0, 0, None))[2]


def error_at(size: Fraction, found: Range) -> Fraction | None:
    """The greatest error of a reading: percent of the reading plus digits of the last place of the range.

    A last place that is not known counts as a hundredth of the range, coarser than any display of figures. Half a digit
    is the least: a display rounds.
    """
    if found.accuracy is None or found.top is None or (found.resolution is not None and found.resolution.value < 0):
        return None
    shown = size - found.top.unit.offset  # per cent of what the display shows, which for a temperature is no kelvin
    digit = _size(found.top) / 100 if found.resolution is None else _size(found.resolution)
    return abs(shown) * found.accuracy.percent / 100 + max(Fraction(found.accuracy.digits), Fraction(1, 2)) * digit


def _size(value: Quantity) -> Fraction:
    """A width in the coherent unit: that of a temperature without its zero."""
    return value.si - value.unit.offset if value.unit.offset else value.si


@dataclass(frozen=True, slots=True)
class End:
    """One end of a limit as an instrument sees it. Sizes in the coherent unit.

    `band` is how far a reading has to stay from it: max(a, r·U). `range` is None where no range shows the value.
    """

    value: Quantity
    range: Range | None
    error: Fraction | None
    band: Fraction | None

    @property
    def expanded(self) -> Fraction | None:
        """The expanded uncertainty there, k = 2, rounded up."""
        return None if self.error is None else self.error * _EXPANDED


@dataclass(frozen=True, slots=True)
class Sharpness:
    """How well an instrument decides a limit.

    `ratio` is the test uncertainty ratio: (high − low) / 2U, or |limit − nominal| / U for one end with a nominal
    value, or with nothing as its best; None where there is neither, or no error. `accepts` is what a reading has to
    be, as two sizes in the coherent unit, each None where that end is missing.
    """

    low: End | None
    high: End | None
    ratio: Fraction | None
    accepts: tuple[Fraction | None, Fraction | None]
    quantity: str

    @property
    def ends(self) -> tuple[End, ...]:
        """Those that there are."""
        return tuple(end for end in (self.low, self.high) if end is not None)

    @property
    def accepts_nothing(self) -> bool:
        """Whether no reading at all could be accepted: with one end, not even a reading of nothing."""
        low, high = self.accepts
        if low is not None and high is not None:
            return low > high
        if self.high is not None and high is not None and self.high.value.si >= 0:
            return high < 0 or (high == 0 and self.quantity in NEVER_NEGATIVE)
        return self.low is not None and low is not None and self.low.value.si <= 0 < low

    @property
    def decides(self) -> bool:
        """Whether the ratio is at least 1:1 and something can be accepted."""
        return not self.accepts_nothing and (self.ratio is None or self.ratio >= 1)

    @property
    def decides_well(self) -> bool:
        """Whether the ratio is at least 4:1, where one is known."""
        return self.decides and (self.ratio is None or self.ratio >= Fraction(RATIO_ASKED))


def sharpness(
    limit: Limit, ranges: tuple[Range, ...], guard_band: Fraction | None = None, best: Fraction | None = None
) -> Sharpness | None:
    """How well an instrument with these ranges decides a limit; None where the limit has no end.

    `best` stands in for a nominal value that the limit does not state: see `nominal_of`.
    """
    low, high = (_end(value, ranges, guard_band) for value in (limit.low, limit.high))
    return _judged(limit, low, high, best)


def sharpness_of(limit: Limit, error: Fraction, guard_band: Fraction | None = None) -> Sharpness | None:
    """The same for a value whose error is known already, such as one that is computed from readings."""
    band = band_of(error, guard_band)
    low, high = (None if value is None else End(value, None, error, band) for value in (limit.low, limit.high))
    return _judged(limit, low, high, None)


def _judged(limit: Limit, low: End | None, high: End | None, best: Fraction | None) -> Sharpness | None:
    if low is None and high is None:
        return None
    accepts = (
        None if low is None else low.value.si + (low.band or 0),
        None if high is None else high.value.si - (high.band or 0),
    )
    return Sharpness(low, high, _ratio(limit, low, high, best), accepts, limit.quantity)


def _end(value: Quantity | None, ranges: tuple[Range, ...], guard_band: Fraction | None) -> End | None:
    if value is None:
        return None
    found = range_for(value.si, ranges)
    error = error_at(value.si, found) if found is not None else None
    return End(value, found, error, None if error is None else band_of(error, guard_band))


def band_of(error: Fraction, guard_band: Fraction | None) -> Fraction:
    """How far a reading with this error has to stay from a limit: max(a, r·U); without a guard band the error alone."""
    return error if guard_band is None else max(error, guard_band * error * _EXPANDED)


#: Readings whose best value is nothing: a highest value alone has its ratio to zero.
_FROM_ZERO = frozenset({"voltage drop", "bonding resistance", "current"})


def nominal_of(measured: Measure) -> Fraction | None:
    """What a reading with an upper limit alone is best at: nothing, for a drop, a bond, a current that is to be off."""
    limit = measured.limit
    is_upper = limit is not None and limit.low is None and limit.high is not None and limit.high.value > 0
    return Fraction(0) if is_upper and measured.quantity in _FROM_ZERO else None


def _ratio(limit: Limit, low: End | None, high: End | None, best: Fraction | None) -> Fraction | None:
    uncertain = [end.expanded for end in (low, high) if end is not None and end.expanded]
    if not uncertain:
        return None
    if low is not None and high is not None:
        return (high.value.si - low.value.si) / (2 * max(uncertain))
    end = low or high
    nominal = limit.nominal.si if limit.nominal is not None else best
    return None if nominal is None or end is None else abs(end.value.si - nominal) / max(uncertain)


def better(
    measured: Measure,
    limit: Limit,
    instruments: Mapping[str, Instrument],
    vehicle: Vehicle | None,
    guard_band: Fraction | None,
    than: Sharpness | None,
) -> Iterator[Instrument]:
    """The instruments of the workshop that decide a limit, and more sharply, the sharpest first."""
    found = []
    for instrument in instruments.values():
        one = sharpness(limit, ranges_for(measured, instrument, vehicle), guard_band, nominal_of(measured))
        if one is None or any(end.error is None for end in one.ends) or not one.decides:
            continue
        if than is None or not than.decides or (one.ratio or 0) > (than.ratio or 0):
            found.append((-(one.ratio or 0), instrument.id, instrument))
    yield from (instrument for _, _, instrument in sorted(found, key=lambda entry: entry[:2]))  # fmt: skip
