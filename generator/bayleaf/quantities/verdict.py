"""The verdict on a reading: within its limits, outside them, too close to call, or no reading."""

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from typing import Literal

from .limit_value import Limit
from .quantity import Quantity

Side = Literal["below", "above"]


class Verdict(Enum):
    """The four things that can be said of a reading and its limit."""

    WITHIN = "within"
    OUTSIDE = "outside"
    NOT_DECIDED = "not decided"
    NO_READING = "no reading"


@dataclass(frozen=True, slots=True)
class Judgement:
    """A verdict; outside, the side on which the reading lies.

    `ask`: the display may show no figure because the value is very good, or because a lead has come off. Whoever reads
    it looks at the leads.
    """

    verdict: Verdict
    side: Side | None = None
    ask: bool = False

    @property
    def exit(self) -> str | None:
        """The exit of a measuring step that this verdict takes; without a reading, none."""
        if self.verdict is Verdict.NO_READING:
            return None
        return self.side or self.verdict.value.replace(" ", "_")


def judge(reading: Quantity | None, limit: Limit, band: Fraction | None = None) -> Judgement:
    """The verdict on a reading whose true value lies at most `band` from it.

    `band` is in the coherent unit of the quantity. Within: reading and band lie wholly inside
    the limits, the limits themselves included. Outside: wholly outside. Else not decided.
    An overload is no reading: see `judge_overload`.
    """
    if reading is None:
        return Judgement(Verdict.NO_READING)
    if reading.quantity != limit.quantity:
        raise ValueError(f"a {reading.quantity} cannot be held against a limit of {limit.quantity}")
    allowed = limit.interval
    margin = abs(band) if band is not None else Fraction(0)
    lowest, highest = reading.si - margin, reading.si + margin
    if lowest in allowed and highest in allowed:
        return Judgement(Verdict.WITHIN)
    if allowed.below(highest):
        return Judgement(Verdict.OUTSIDE, "below")
    if allowed.above(lowest):
        return Judgement(Verdict.OUTSIDE, "above")
    return Judgement(Verdict.NOT_DECIDED)


def judge_overload(limit: Limit, leads_hold: bool = False) -> Judgement:
    """The verdict on a display that shows no figure: overload, or an open lead.

    It is no reading until somebody has looked that the leads hold. Then it is a value beyond the range of the
    instrument: within a limit that is open upwards, such as at least 5 MΩ, and above any other.
    """
    if limit.low is None and limit.high is None:
        return Judgement(Verdict.NO_READING)
    if not leads_hold:
        return Judgement(Verdict.NO_READING, ask=True)
    return Judgement(Verdict.WITHIN) if limit.high is None else Judgement(Verdict.OUTSIDE, "above")
