"""What can be decided of a value that is computed from readings: their errors together.

    difference  a = √(a1² + a2²)        average  a = √(Σ ai²) / n        parallel  a = √(Σ ((R/Ri)² · ai)²)

The readings count as independent. The error of each is that at the greatest value its limits allow; one that has no
limits is taken to be as large as the largest of the others. Of the voltmeter method nothing is said here: its error
rests on the meter, on the resistor and on the ratio of the readings together.

Source: JCGM 100:2008 (GUM), 5.1.2.
"""

from fractions import Fraction

from ..calculations.readings import difference_uncertainty, parallel_uncertainty
from ..model.actions import Compute, Measure
from ..model.procedure import Procedure
from ..model.vehicle import Vehicle
from ..model.workshop import Workshop
from ..quantities.figures import exact
from .instrument import Sharpness, error_at, range_for, ranges_for, sharpness_of


def computed_sharpness(
    computed: Compute, procedure: Procedure, workshop: Workshop, vehicle: Vehicle | None
) -> Sharpness | None:
    """How well the readings together decide the limit of a computed value; None where a figure is missing."""
    if computed.limit is None or not computed.of:
        return None
    steps = {step.id: step.action for step in procedure.steps if step.id is not None}
    readings = [steps.get(name) for name in computed.of]
    measured = [one for one in readings if isinstance(one, Measure)]
    if len(measured) != len(readings):
        return None
    sizes = [_size(one) for one in measured]
    largest = max((size for size in sizes if size is not None), default=None)
    if largest is None:
        return None
    filled = [largest if size is None else size for size in sizes]
    errors = [_error(one, size, workshop, vehicle) for one, size in zip(measured, filled, strict=True)]
    known = [error for error in errors if error is not None]
    combined = _together(computed.formula, known, filled) if len(known) == len(errors) else None
    return None if combined is None else sharpness_of(computed.limit, combined, workshop.policy.guard_band)


def _size(measured: Measure) -> Fraction | None:
    """The greatest value that the limits of a reading allow."""
    limit = measured.limit
    ends = [abs(end.si) for end in (limit.low, limit.high) if end is not None] if limit is not None else []
    return max(ends, default=None)


def _error(measured: Measure, size: Fraction, workshop: Workshop, vehicle: Vehicle | None) -> Fraction | None:
    instrument = workshop.instruments.get(measured.using or "")
    found = range_for(size, ranges_for(measured, instrument, vehicle)) if instrument is not None else None
    return error_at(size, found) if found is not None else None


def _together(formula: str, errors: list[Fraction], sizes: list[Fraction]) -> Fraction | None:
    each = [float(error) for error in errors]
    if formula == "difference" and len(each) == 2:
        return exact(difference_uncertainty(each))
    if formula == "average" and each:
        return exact(sum(one * one for one in each) ** 0.5 / len(each))
    if formula == "parallel" and all(sizes):
        return exact(parallel_uncertainty([float(size) for size in sizes], each))
    return None
