"""Values that are computed from the readings of a record, with the formulas of `calculations/`.

    difference   x1 − x2        average   Σ xi / n        parallel   1 / Σ (1 / Ri)
    insulation by voltmeter     Ro · Vb · (1 / V′ − 1 / V)

Of a step that reads at several places the lowest counts, or the highest where it says so. A value that a record holds
may be rounded: it agrees within half of its last digit, and within half of the fifth figure, to which the page rounds.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import inf, isfinite

from ..calculations.insulation import by_voltmeter
from ..calculations.readings import average, difference, parallel
from ..model import actions
from ..model.record import Entry
from ..quantities.figures import exact
from ..quantities.quantity import Quantity
from .job_steps import JobStep

#: Half a unit of the fifth figure, at its worst for a number that begins with 1.
_FIFTH_FIGURE = Fraction(5, 100_000)


@dataclass(frozen=True, slots=True)
class Computed:
    """What the readings give: `size` in the coherent unit, None where they give nothing: `why` says it."""

    size: Fraction | None
    why: str | None = None


def computed_from(step: JobStep, readings: Mapping[str, Sequence[Entry]]) -> Computed:
    """The value of a computing step; `readings` are those of the record by the path of their step."""
    action = step.step.action
    assert isinstance(action, actions.Compute)
    before = step.path.rpartition("/")[0]
    values: list[float] = []
    for name in action.of:
        found = _value(name, step, readings.get(f"{before}/{name}" if before else name, ()))
        if found is None:
            return Computed(None, f"the record holds no reading of the step `{name}`")
        values.append(found)
    try:
        size = _formula(action, values)
    except ValueError as error:
        return Computed(None, str(error))
    return Computed(exact(size)) if isfinite(size) else Computed(None, "none of the readings has a figure")


def agrees(entered: Quantity, size: Fraction) -> bool:
    """Whether a value that was entered is the computed one, as far as its figures go."""
    exponent = entered.value.as_tuple().exponent
    last = Fraction(10) ** (exponent if isinstance(exponent, int) else 0) * entered.unit.factor / 2
    return abs(entered.si - size) <= max(last, abs(size) * _FIFTH_FIGURE)


def _value(name: str, step: JobStep, entries: Sequence[Entry]) -> float | None:
    """What counts of the readings of a step; endless for a display that showed no figure on leads that hold."""
    sizes = [float(entry.reading.si) if entry.reading is not None else inf for entry in entries
             if entry.reading is not None or (entry.no_reading and entry.verdict in ("within", "above"))]  # fmt: skip
    if not sizes or len(sizes) < len(entries):
        return None
    other = next((one for one in step.procedure.steps if one.id == name), None)
    return max(sizes) if other is not None and getattr(other.action, "take", None) == "highest" else min(sizes)


def _formula(action: actions.Compute, values: list[float]) -> float:
    """The formula with its values in the coherent unit. Raises ValueError where they give nothing."""
    if action.formula == "parallel":
        return parallel(values)
    if inf in values:
        raise ValueError("one of the readings has no figure")
    if action.formula == "difference":
        return difference(values)
    if action.formula == "average":
        return average(values)
    if len(values) != 4 or action.resistor is None:
        raise ValueError("the voltmeter method takes four readings and a known resistor")
    vb, v1, v2, loaded = values
    return by_voltmeter(vb, v1, v2, loaded, float(action.resistor.si))
