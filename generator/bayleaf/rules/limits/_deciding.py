"""The instrument that a step names, and what it can decide of the limit there."""

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from ...diagnostics.place import Path
from ...limits.computed_reading import computed_sharpness
from ...limits.instrument import Sharpness, better, function_for, nominal_of, ranges_for, sharpness
from ...model import actions
from ...model.procedure import Procedure, Step
from ...model.workshop import Instrument, Range, Workshop
from ...quantities.figures import figure
from ...quantities.limit import Limit
from ..case import Case
from ..fault import Spot
from ..references._memo import of_last

#: In which unit a size is told, by what is measured.
_UNIT = {
    "voltage": "V", "current": "A", "resistance": "Ω", "capacitance": "F", "frequency": "Hz", "torque": "N·m",
    "pressure": "bar",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Deciding:
    """A limit and the instrument that has to decide it; `sharp` is None where a figure is missing."""

    measured: actions.Measure
    instrument: Instrument
    function: str
    ranges: tuple[Range, ...]
    limit: Limit
    sharp: Sharpness | None
    workshop: Workshop

    @property
    def spot(self) -> Spot:
        """The instrument in the workshop file."""
        return Spot(self.workshop.file, ("instruments", self.instrument.id), "the instrument", key=True)


@of_last
def deciding(step: Step, case: Case) -> Deciding | None:
    """What is known of a measuring step; None where it names no instrument with functions, or has no limit."""
    measured, workshop = step.action, case.workshop
    if not isinstance(measured, actions.Measure) or workshop is None or workshop.broken:
        return None
    instrument = workshop.instruments.get(measured.using or "")
    if instrument is None or measured.limit is None or not instrument.functions:
        return None
    function = function_for(measured, instrument, case.vehicle)
    if function is None:
        return None
    ranges = ranges_for(measured, instrument, case.vehicle)
    sharp = sharpness(measured.limit, ranges, workshop.policy.guard_band, nominal_of(measured)) if ranges else None
    if sharp is not None and any(end.range is None or end.error is None for end in sharp.ends):
        sharp = None
    return Deciding(measured, instrument, function, ranges, measured.limit, sharp, workshop)


class Judged(NamedTuple):
    """How well a limit is decided: what decides it, in words, what would do better, and where that stands."""

    limit: Limit
    sharp: Sharpness
    by: str
    help: str
    see: tuple[Spot, ...]


def judged(step: Step, procedure: Procedure, case: Case) -> Judged | None:
    """A limit that is held against a reading, or against a value that is computed from readings."""
    if isinstance(step.action, actions.Compute):
        return _judged_computed(step.action, procedure, case)
    found = deciding(step, case)
    if found is None or found.sharp is None:
        return None
    better_one = "" if found.sharp.decides_well else suggestion(found, case)
    return Judged(found.limit, found.sharp, f"`{found.instrument.id}`", better_one, (found.spot,))


def _judged_computed(computed: actions.Compute, procedure: Procedure, case: Case) -> Judged | None:
    if case.workshop is None or case.workshop.broken or computed.limit is None:
        return None
    sharp = computed_sharpness(computed, procedure, case.workshop, case.vehicle)
    numbers = {step.id: step.number for step in procedure.steps}
    names = " and ".join(numbers.get(name, name) for name in computed.of)
    help_ = "read them with a sharper instrument, or widen the limit with a reason"
    return None if sharp is None else Judged(computed.limit, sharp, f"what is read at steps {names}", help_, ())


def suggestion(found: Deciding, case: Case) -> str:
    """The instrument of the workshop that does better, as help; else what else can be done."""
    others = better(
        found.measured,
        found.limit,
        found.workshop.instruments,
        case.vehicle,
        found.workshop.policy.guard_band,
        found.sharp,
    )
    names = [one.id for one in others if one.id != found.instrument.id]
    if names:
        return f"write `using: {names[0]}`, which decides it" + (f" (or `{names[1]}`)" if len(names) > 1 else "")
    return "no instrument of the workshop file decides it: measure in another way, or widen the limit with a reason"


def shown(size: Fraction, quantity: str) -> str:
    """A width in a unit that is read."""
    return str(figure(size, _UNIT[quantity], figures=2)) if quantity in _UNIT else f"{float(size):.2g}"


def limits_key(step: Step) -> Path:
    """Where the limit stands."""
    return (*step.at, "limits")
