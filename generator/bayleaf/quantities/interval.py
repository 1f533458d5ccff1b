"""Intervals of exact numbers, each end open, closed or missing."""

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Interval:
    """The numbers from `low` to `high`; None is no end, an open end does not belong to it."""

    low: Fraction | None = None
    high: Fraction | None = None
    low_open: bool = False
    high_open: bool = False

    @property
    def empty(self) -> bool:
        """Whether no number lies in it."""
        if self.low is None or self.high is None:
            return False
        return self.low > self.high or (self.low == self.high and (self.low_open or self.high_open))

    @property
    def width(self) -> Fraction | None:
        """From end to end; None where an end is missing."""
        return None if self.low is None or self.high is None else self.high - self.low

    def __contains__(self, number: Fraction) -> bool:
        return not self.below(number) and not self.above(number)

    def below(self, number: Fraction) -> bool:
        """Whether the number lies below the whole interval."""
        return self.low is not None and (number < self.low or (self.low_open and number == self.low))

    def above(self, number: Fraction) -> bool:
        """Whether the number lies above the whole interval."""
        return self.high is not None and (number > self.high or (self.high_open and number == self.high))

    def covers(self, other: "Interval") -> bool:
        """Whether every number of the other one lies in this one."""
        return other.empty or self.meet(other) == other

    def meet(self, other: "Interval") -> "Interval":
        """The numbers that lie in both."""
        low, low_open = _tighter(self.low, self.low_open, other.low, other.low_open, sign=1)
        high, high_open = _tighter(self.high, self.high_open, other.high, other.high_open, sign=-1)
        return Interval(low, high, low_open, high_open)

    def drawn_in(self, by: Fraction) -> "Interval":
        """Each end moved inward by a guard band; empty where the band is wider than the interval."""
        return Interval(
            None if self.low is None else self.low + by,
            None if self.high is None else self.high - by,
            self.low_open,
            self.high_open,
        )


def _tighter(
    one: Fraction | None, one_open: bool, other: Fraction | None, other_open: bool, *, sign: int
) -> tuple[Fraction | None, bool]:
    """The end that leaves less: the greater of two low ends (`sign` 1), the lesser of two high ones."""
    if one is None:
        return other, other_open and other is not None
    if other is None:
        return one, one_open
    if one == other:
        return one, one_open or other_open
    return (one, one_open) if sign * one > sign * other else (other, other_open)
