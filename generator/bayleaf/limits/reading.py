"""A reading as it is taken in the bay: what the display shows, held against the limit with the error there."""

from dataclasses import dataclass
from fractions import Fraction

from ..model.workshop import Range
from ..quantities.limit import Judgement, Limit, judge, judge_overload
from ..quantities.problem import Problem
from ..quantities.quantity import Quantity, parse_quantity
from .instrument import band_of, error_at, range_for

#: What displays show when they show no figure, without blanks and points, in small letters.
OVERLOADS = frozenset({"ol", "0l", "overload", "overrange", "open", "1", "----", "∞"})


@dataclass(frozen=True, slots=True)
class Judged:
    """A reading with its verdict.

    `value` is None for an overload, `error` and `band` where those of the instrument are not known.
    """

    value: Quantity | None
    judgement: Judgement
    error: Fraction | None = None
    band: Fraction | None = None


def is_overload(text: str) -> bool:
    """Whether a display shows no figure. `1` alone counts only with its point (`1 .`), as older displays show it."""
    plain = text.strip().lower()
    bare = plain.replace(" ", "").replace(".", "")
    return bare in OVERLOADS - {"1"} or (bare == "1" and plain.endswith("."))


def is_size_alone(limit: Limit | None) -> bool:
    """Whether the sign of what a discharge has left does not count: a limit that reaches below zero asks for it."""
    return limit is None or limit.low is None or limit.low.si >= 0


def judge_reading(
    text: str,
    limit: Limit,
    ranges: tuple[Range, ...] = (),
    guard_band: Fraction | None = None,
    leads_hold: bool = False,
    size_alone: bool = False,
) -> Judged | Problem:
    """The verdict on what a display shows, or why it cannot be read. `ranges` are those that the step reads on.

    `size_alone`: the sign does not count, as at a proof that a circuit is dead, where −400 V is as live as 400 V. The
    error is that at the reading, on the smallest range that shows it; without ranges the reading is taken as it is.
    """
    if is_overload(text):
        return Judged(None, judge_overload(limit, leads_hold))
    value = parse_quantity(text, limit.quantity)
    if isinstance(value, Problem):
        return value
    if size_alone and value.value < 0:
        value = Quantity(-value.value, value.unit)
    found = range_for(value.si, ranges)
    error = error_at(value.si, found) if found is not None else None
    band = None if error is None else band_of(error, guard_band)
    return Judged(value, judge(value, limit, band), error, band)
