"""The readings of a record, judged anew against the limits that were shown when they were taken.

The instrument's error is that of the workshop file, the guard band that of its policy. The verdict is worked out as on
the page: where only the size counts, as in a proof, a minus makes it no less; what is read on the vehicle or on a gauge
has no error of an instrument.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from ..limits.as_measured import as_voltage, reading
from ..limits.computed_reading import computed_sharpness
from ..limits.instrument import ranges_for
from ..limits.reading import Judged, is_size_alone, judge_reading
from ..model import actions
from ..model.record import Entry
from ..model.workshop import Range
from ..quantities.limit import Limit
from ..quantities.problem import Problem
from ..quantities.units import base_quantity
from ..quantities.verdict import Judgement, Verdict, judge, judge_overload
from .job_steps import JobStep
from .surroundings import Surroundings

#: What is measured that is no quantity by its own name.
_QUANTITY_OF = {"continuity": "resistance", "diode": "voltage"}


@dataclass(frozen=True, slots=True)
class Wanted:
    """A reading that a step asks for: between which contacts, its limits in the file, and what it is.

    `is_residual`: what is left there once a test voltage has been taken off.
    """

    between: actions.Pair | None
    limit: Limit | None
    quantity: str | None
    is_residual: bool = False


@dataclass(frozen=True, slots=True)
class Weighed:
    """A reading with what is said of it. `place` is its place among the readings of the step.

    `shown` is the verdict in the record, `verdict` that of the code, both in the words of a record; None where there
    are no limits or they could not be compared. `by_file` says that the record holds no limits and those of the file
    were taken. `strange` is set where the reading is of another quantity than its limits: that of the reading and that
    wanted.
    `elsewhere`: it was taken between contacts that the step does not name.
    `others`: the limits that the step has there, where the record holds none of them.
    """

    place: int
    limit: Limit | None
    by_file: bool
    shown: str | None
    verdict: str | None
    error: Fraction | None = None
    band: Fraction | None = None
    strange: tuple[str, str] | None = None
    elsewhere: bool = False
    others: tuple[Limit, ...] = ()

    @property
    def differs(self) -> bool:
        """Whether another verdict was shown than the code gives. By other limits than the step's, any is wrong."""
        return not self.others and None not in (self.shown, self.verdict) and self.shown != self.verdict

    def exit(self, shown: bool) -> str | None:
        """The exit that a verdict takes, that which was shown or that of the code; None where there is none."""
        said = (self.shown or self.verdict) if shown else (self.verdict or self.shown)
        return None if said is None or said == "no reading" else said.replace(" ", "_")


def wanted_of(step: JobStep, around: Surroundings) -> tuple[Wanted, ...]:
    """The readings that a step asks for, in the order of its page; none where no figure is read."""
    return tuple(_wanted(step, around))


def residual_of(step: JobStep, around: Surroundings) -> frozenset[int]:
    """The places of the readings of what is left after a test voltage."""
    return frozenset(place for place, one in enumerate(wanted_of(step, around)) if one.is_residual)


def _wanted(step: JobStep, around: Surroundings) -> Iterator[Wanted]:
    action = step.step.action
    match action:
        case actions.Measure():
            quantity = base_quantity(_QUANTITY_OF.get(action.quantity, action.quantity))
            for pair in action.pairs or (None,):
                yield Wanted(pair, action.limit, quantity)
                if action.discharged is not None:
                    yield Wanted(pair, action.discharged, "voltage", is_residual=True)
        case actions.ProveDead():
            highest = around.workshop.policy.dead_below
            limit = action.limit or (None if highest is None else Limit(None, highest))
            pairs = action.pairs or test_points(action.circuit, around) or (None,)
            yield from (Wanted(pair, limit, "voltage") for pair in pairs)
        case actions.Discharge():
            yield from (Wanted(pair, action.limit, "voltage") for pair in action.pairs or (None,))
        case actions.ProveSafe():
            circuit = around.vehicle.circuits.get(action.circuit) if around.vehicle is not None else None
            limits = (
                [one for _, one in circuit.safe] if circuit is not None and action.limit is None else [action.limit]
            )
            yield from (Wanted(None, one, one.quantity) for one in limits if one is not None)
        case actions.Read() | actions.Compute():
            named = base_quantity(action.quantity) if action.quantity is not None else None
            if action.limit is not None or named is not None:
                yield Wanted(None, action.limit, named if action.limit is None else action.limit.quantity)


def test_points(circuit: str, around: Surroundings) -> tuple[actions.Pair, ...]:
    """The pairs at which the profile says that a circuit is proved."""
    found = around.vehicle.circuits.get(circuit) if around.vehicle is not None else None
    return tuple(point.pair for point in found.dead_at) if found is not None else ()


def weigh(entry: Entry, step: JobStep | None, taken: tuple[int, ...], around: Surroundings) -> Weighed:
    """A reading of a record; `taken` are the places of the step that have one already."""
    wanted = wanted_of(step, around) if step is not None and around.agrees else ()
    place, elsewhere = _place(entry, wanted, taken)
    by_file = entry.limits is None and place < len(wanted) and wanted[place].limit is not None
    limit = wanted[place].limit if by_file else entry.limits
    asked = limit.quantity if limit is not None else wanted[place].quantity if place < len(wanted) else None
    if entry.reading is not None and asked is not None and entry.reading.quantity != asked:
        return Weighed(
            place, limit, by_file, entry.verdict, None, None, None, (entry.reading.quantity, asked), elsewhere
        )
    if limit is None or (limit.low is None and limit.high is None) or (entry.reading is None and not entry.no_reading):
        return Weighed(place, limit, by_file, entry.verdict, None, elsewhere=elsewhere)
    found = _judged(entry, step, limit, around, _is_residual(step, limit))
    said = _words(found.judgement, _is_proof(entry, step))
    others = () if step is None or elsewhere or not around.is_same else _other_limits(entry, step, wanted)
    return Weighed(place, limit, by_file, entry.verdict, said, found.error, found.band, None, elsewhere, others)


def _other_limits(entry: Entry, step: JobStep, wanted: tuple[Wanted, ...]) -> tuple[Limit, ...]:
    """The limits of the step at these contacts, where none is that of the record. What is dead by the workshop's policy

    may be another figure by now: the digest of a procedure says nothing of it.
    """
    action = step.step.action
    if entry.limits is None or (isinstance(action, actions.ProveDead) and action.limit is None):
        return ()
    here = [one for one in wanted if entry.between is None or one.between in (entry.between, entry.between[::-1])]
    limits = [one.limit for one in here if one.limit is not None]
    shown = entry.limits.quantity, entry.limits.interval
    return () if any(shown == (one.quantity, one.interval) for one in limits) else tuple(limits)


def _place(entry: Entry, wanted: tuple[Wanted, ...], taken: tuple[int, ...]) -> tuple[int, bool]:
    """Which of the readings it is, and whether it was taken between other contacts than any of them."""
    if entry.between is not None:
        both = (entry.between, entry.between[::-1])
        here = [place for place, one in enumerate(wanted) if one.between in both]
        kind = entry.reading.quantity if entry.reading is not None else entry.limits and entry.limits.quantity
        alike = (place for place in here if wanted[place].quantity == kind)
        return next(alike, here[0] if here else 0), not here and any(one.between is not None for one in wanted)
    fitting = [place for place, one in enumerate(wanted) if entry.limits is None or str(one.limit) == str(entry.limits)]
    return next((place for place in fitting if place not in taken), fitting[0] if fitting else 0), False


def _judged(entry: Entry, step: JobStep | None, limit: Limit, around: Surroundings, is_residual: bool) -> Judged:
    if entry.reading is None:  # an overload; that it was called anything says that the leads were looked at
        return Judged(None, judge_overload(limit, leads_hold=entry.verdict in ("within", "above", "not dead")))
    action = step.step.action if step is not None else None
    if isinstance(action, actions.Compute):
        return _judged_computed(entry, action, step, limit, around)
    text = str(entry.reading)
    if _is_proof(entry, step) or is_residual or isinstance(action, actions.Discharge) and is_size_alone(limit):
        text = text.removeprefix("-")
    ranges = _ranges(entry, reading("voltage", "dc") if is_residual else action, around)
    found = judge_reading(text, limit, ranges, around.workshop.policy.guard_band)
    return Judged(entry.reading, Judgement(Verdict.NO_READING)) if isinstance(found, Problem) else found


def _judged_computed(
    entry: Entry, action: actions.Compute, step: JobStep | None, limit: Limit, around: Surroundings
) -> Judged:
    sharp = None
    if step is not None:
        sharp = computed_sharpness(action, step.procedure, around.workshop, around.vehicle)
    end = next(iter(sharp.ends), None) if sharp is not None else None
    error, band = (None, None) if end is None else (end.error, end.band)
    return Judged(entry.reading, judge(entry.reading, limit, band), error, band)


def _is_residual(step: JobStep | None, limit: Limit) -> bool:
    """Whether it is what a test voltage has left: a voltage, where something else was tested."""
    action = step.step.action if step is not None else None
    return isinstance(action, actions.Measure) and action.test_voltage is not None and limit.quantity == "voltage"


def _is_proof(entry: Entry, step: JobStep | None) -> bool:
    if step is not None:
        return isinstance(step.step.action, actions.ProveDead)
    return entry.verdict in ("dead", "not dead")


def _words(judgement: Judgement, proof: bool) -> str:
    """A verdict in the words of a record."""
    if judgement.verdict is Verdict.WITHIN:
        return "dead" if proof else "within"
    if judgement.verdict is Verdict.OUTSIDE:
        return "not dead" if proof else judgement.side or "above"
    return judgement.verdict.value


def _ranges(entry: Entry, action: object, around: Surroundings) -> tuple[Range, ...]:
    """The ranges that the reading may have been taken on: of the instrument that the record names."""
    instrument = around.workshop.instruments.get(entry.instrument or "")
    if instrument is None or isinstance(action, actions.Read | actions.ProveSafe):
        return ()
    if isinstance(action, actions.Measure):
        return ranges_for(action, instrument, around.vehicle)
    quantity = entry.reading.quantity if entry.reading is not None else ""
    if isinstance(action, actions.ProveDead | actions.Discharge):
        return ranges_for(as_voltage(action, around.vehicle), instrument, around.vehicle)
    for ranges in instrument.functions.values():  # the step is not known any more: the first function that shows it
        if any(one.top is not None and one.top.quantity == quantity for one in ranges):
            return ranges
    return ()
