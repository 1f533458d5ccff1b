"""What was read in a job as a limit to start from, where it may be one.

A reading of one vehicle is no limit that safety rests on: never is one made of a proof, of a discharge, of insulation
or bonding, of what a test voltage was on, or of a voltage or current of a dangerous circuit. Nor is one made of a
reading that lay outside its limits or was not decided, nor where the vehicle was found faulty: at the contacts of the
part that the conclusion names, and anywhere where none is named. Where a step has limits already they stay.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from ..limits.instrument import error_at, range_for, ranges_for, sharpness
from ..model import actions
from ..model.contact import Contact
from ..model.procedure import Step
from ..model.record import Entry
from ..model.workshop import Range
from ..quantities.limit import Limit, parse_limit
from ..quantities.quantity import Quantity
from ..records.evaluate import Evaluation
from ..records.words import width
from .surroundings import Around
from .visits import Visit

#: Insulation and bonding are judged by rules with a source, whatever was read (UN R100, ISO 6469-3).
_OF_SAFETY = frozenset({"insulation resistance", "bonding resistance"})
#: What tells whether a dangerous circuit carries energy.
_OF_ENERGY = frozenset({"voltage", "current", "power", "voltage drop"})
#: The error of the instrument alone is a limit that it cannot decide: so much wider, the least that it can.
_WIDER = (Fraction(1), Fraction(5, 4), Fraction(3, 2), Fraction(2), Fraction(3))

NOT_FINISHED = "the job was not finished, so it is not known whether the vehicle was sound"
FAULTY = "the vehicle was found faulty"
CHANGED = "the procedure has changed since"


@dataclass(frozen=True, slots=True)
class Found:
    """What a job tells of the vehicle: `faulty` is why no reading counts at all, `parts` are those at fault."""

    faulty: str | None
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Seen:
    """Limits that were seen once, as text; else why there are none."""

    limits: str | None
    why_not: str | None = None


def found_in(evaluation: Evaluation) -> Found:
    """Whether the readings of a record are those of a sound vehicle, and what of it was not."""
    record, around, way = evaluation.record, evaluation.around, evaluation.way
    if not around.agrees:
        return Found(CHANGED, ())
    if way.end is None:
        return Found(NOT_FINISHED, ())
    conclusions = around.procedure.conclusions if around.procedure is not None else {}
    named = {record.conclusion, way.end.conclusion} - {None}
    parts = tuple(part for name in sorted(map(str, named)) if name in conclusions for part in conclusions[name].parts)
    exits = (one.weighed.exit(shown=False) for one in way.entries if one.weighed is not None)
    outside = any(exit not in (None, "within", "dead") for exit in exits)
    if not parts and (named or way.end.stops or outside):
        return Found(FAULTY, ())
    return Found(None, parts)


def seen_at(visit: Visit, found: Found, around: Around) -> Seen:
    """The limits that the readings of a visit give."""
    assert visit.step is not None
    step = visit.step.step
    why = why_never(step, around) or found.faulty or _why_here(visit, found, around)
    if why is not None:
        return Seen(None, why)
    readings = [one.entry for one in visit.entries if one.entry.reading is not None]
    if not readings or any(one.entry.no_reading for one in visit.entries):
        return Seen(None, "there is no figure")
    return _limits(step, readings, around)


def why_never(step: Step, around: Around) -> str | None:
    """Why no reading of this step may ever become a limit."""
    action = step.action
    if not isinstance(action, actions.Measure | actions.Read):
        return "it is no plain reading, and safety may rest on it"
    if action.quantity in _OF_SAFETY or getattr(action, "test_voltage", None) is not None:
        return "safety rests on insulation and bonding"
    circuits = tuple(_circuits_at(step, around))
    known = [around.rig.known(name) for name in circuits]
    if action.quantity in _OF_ENERGY and any(one.is_dangerous for one in known):
        return "it is a voltage or current of a dangerous circuit"
    read = {limit.quantity for one in known for _, limit in one.circuit.safe}
    if action.quantity in read or (action.quantity is None and (read or any(one.is_dangerous for one in known))):
        return "it tells whether something is safe to open"
    return None


def _circuits_at(step: Step, around: Around) -> Iterator[str]:
    vehicle, action = around.vehicle, step.action
    for contact in _contacts(step):
        yield from around.rig.circuits_at(contact)
    for name in _named(step):
        part = vehicle.parts.get(name)
        yield from (*part.circuits, *part.exposes) if part is not None else ()
        if name in vehicle.circuits:
            yield name
    cable = vehicle.cables.get(action.around or "") if isinstance(action, actions.Measure) else None
    if cable is not None and cable.circuit in vehicle.circuits:
        yield str(cable.circuit)


def _contacts(step: Step) -> tuple[Contact, ...]:
    action = step.action
    return tuple(one for pair in action.pairs for one in pair) if isinstance(action, actions.Measure) else ()


def _named(step: Step) -> tuple[str, ...]:
    """Parts at which something is read, or that send the value."""
    action = step.action
    where = action.where if isinstance(action, actions.Measure) else ()
    origin = action.origin if isinstance(action, actions.Read) else None
    return (*where, *step.on, *((origin,) if origin is not None else ()))


def _why_here(visit: Visit, found: Found, around: Around) -> str | None:
    assert visit.step is not None
    step = visit.step.step
    for one in visit.entries:
        weighed = one.weighed
        if weighed is not None and (weighed.elsewhere or weighed.strange is not None):
            return "it was read elsewhere than the step says"
        if weighed is not None and weighed.limit is not None and weighed.exit(shown=False) != "within":
            return "it lay outside its limits, or too close to call"
        if one.entry.exit not in (None, "within") or not one.follows:
            return "the work went on in another way"
    plugs = {plug for part in found.parts if part in around.vehicle.parts for plug in _plugs(part, around)}
    cable = around.vehicle.cables.get(getattr(step.action, "around", None) or "")
    ends = cable.between if cable is not None and cable.between is not None else ()
    entered = (contact for one in visit.entries for contact in one.entry.between or ())
    if {*found.parts} & {*_named(step)} or any(one.connector in plugs for one in (*_contacts(step), *ends, *entered)):
        return "the part there was found faulty"
    return None


def _plugs(part: str, around: Around) -> tuple[str, ...]:
    return around.vehicle.parts[part].connectors


def _limits(step: Step, readings: list[Entry], around: Around) -> Seen:
    action = step.action
    instrument = around.workshop.instruments.get(readings[0].instrument or getattr(action, "using", None) or "")
    if not isinstance(action, actions.Measure) or instrument is None:
        return Seen(None, "the error of what showed it is not known")
    ranges = ranges_for(action, instrument, around.vehicle)
    values = [one.reading for one in readings if one.reading is not None]
    errors = [_error(value, ranges) for value in values]
    if None in errors or any(value.quantity != values[0].quantity for value in values):
        return Seen(None, "the error of what showed it is not known")
    lowest, highest = min(values, key=lambda one: one.si), max(values, key=lambda one: one.si)
    error = max(filter(None, errors))
    for wider in _WIDER:
        text = _text(lowest, highest, error * wider)
        limit = parse_limit(text, lowest.quantity)
        if not isinstance(limit, Limit):
            break
        sharp = sharpness(limit, ranges, around.workshop.policy.guard_band)
        if sharp is not None and sharp.decides and all(one.error is not None for one in sharp.ends):
            return Seen(text)
    return Seen(None, "the instrument cannot decide so narrow a limit")


def _error(value: Quantity, ranges: tuple[Range, ...]) -> Fraction | None:
    found = range_for(value.si, ranges)
    return None if found is None else error_at(value.si, found)


def _text(lowest: Quantity, highest: Quantity, error: Fraction) -> str:
    """One value with its tolerance; of several the range that holds them all."""
    if lowest.si == highest.si:
        return f"{lowest} ± {width(error, lowest)}"
    of = lowest.unit
    middle = Fraction(f"{float(((lowest.si + highest.si) / 2 - of.offset) / of.factor):.4g}")
    half = max(abs(end.si - middle * of.factor - of.offset) for end in (lowest, highest)) + error
    return f"{float(middle):g} {of.symbol} ± {width(half, lowest)}"
