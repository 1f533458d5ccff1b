"""A limit: what a reading has to be, at least one end of it, exact and in the author's own unit."""

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from .interval import Interval
from .numbers import exact_decimal
from .problem import Problem
from .quantity import Exact, Quantity, article

#: Quantities of which there is no less than nothing. Lengths are not among them: a toe-in or a
#: clearance may be negative; nor pressures, which are written as the gauge shows them.
NEVER_NEGATIVE = frozenset(
    {
        "apparent power",
        "area",
        "calendar time",
        "capacitance",
        "conductivity",
        "data rate",
        "density",
        "frequency",
        "inductance",
        "mass",
        "resistance",
        "resistance per length",
        "resistance per voltage",
        "spring rate",
        "time",
        "volume",
    }
)


@dataclass(frozen=True, slots=True)
class Limit:
    """A lower end, an upper end, or both; both belong to what is allowed. A value that is set, such as a
    torque without a tolerance, has neither, only a nominal value.

    `tolerance` is the canonical text of it where the limit was given by a nominal value.
    `origin` says where the limit comes from: `in words`, `map`, `rule`.
    """

    low: Quantity | None = None
    high: Quantity | None = None
    nominal: Quantity | None = None
    tolerance: str | None = None
    origin: str = "in words"

    @property
    def quantity(self) -> str:
        """What is limited."""
        some = self.low or self.high or self.nominal
        return some.quantity if some else ""

    @property
    def interval(self) -> Interval:
        """The allowed sizes, in the coherent unit."""
        return Interval(None if self.low is None else self.low.si, None if self.high is None else self.high.si)

    def __str__(self) -> str:
        """The canonical words for a file."""
        return self.in_words(str)

    def in_words(self, show: Callable[[Quantity], str]) -> str:
        """The words of the limit, its values written by `show`."""
        if self.nominal is not None and self.tolerance is not None:
            return f"{show(self.nominal)} {self.tolerance}"
        if self.low is not None and self.high is not None:
            return f"{show(self.low)} to {show(self.high)}"
        if self.low is not None:
            return f"at least {show(self.low)}"
        if self.high is not None:
            return f"at most {show(self.high)}"
        return "" if self.nominal is None else show(self.nominal)


@dataclass(frozen=True, slots=True)
class Deviation:
    """How far a value may be from its nominal value on one side: a share of it, or an amount."""

    amount: Quantity

    @property
    def is_share(self) -> bool:
        return self.amount.quantity == "ratio"

    def __str__(self) -> str:
        """As it stands behind its sign: a difference in °F is written like a temperature."""
        return str(self.amount).replace("Δ", "")

    def size(self, nominal: Quantity) -> Fraction:
        """The deviation in the coherent unit; a tolerance of a temperature is a difference."""
        if self.is_share:
            return self.amount.si * abs(nominal.si)
        return Fraction(self.amount.value) * self.amount.unit.factor


def toleranced(nominal: Quantity, minus: Deviation, plus: Deviation) -> Limit | str:
    """The limit of a nominal value with its two deviations; else the fault, after `<text>`."""
    for deviation in (minus, plus):
        if deviation.is_share and nominal.quantity == "temperature":
            return "takes a percentage of a temperature, which depends on where its scale begins"
        if deviation.is_share and nominal.quantity == "ratio":
            return "can mean percent of the value or points of percent"
    low = _shifted(nominal, -minus.size(nominal), minus)
    high = _shifted(nominal, plus.size(nominal), plus)
    if low is None or high is None:
        return "mixes two units that do not convert without rounding"
    tolerance = f"± {plus}" if minus == plus else f"+{plus} −{minus}"
    return Limit(low, high, nominal, tolerance)


def _shifted(nominal: Quantity, by: Fraction, deviation: Deviation) -> Quantity | None:
    """The nominal value moved, in its own unit or in that of the deviation, never rounded."""
    si = nominal.si + by
    units = [nominal.unit]
    if deviation.amount.quantity == nominal.quantity != "ratio":
        units.append(deviation.amount.unit)
    for unit in units:
        value = exact_decimal((si - unit.offset) / unit.factor)
        if value is not None:
            return Quantity(_as_precise(value, nominal.value), unit)
    return None


def _as_precise(value: Decimal, like: Decimal) -> Decimal:
    """The value with as many decimals as its nominal value shows: 12.50 V ± 0.1 V begins at 12.40 V."""
    exponent = value.as_tuple().exponent
    wanted = like.as_tuple().exponent
    assert isinstance(exponent, int) and isinstance(wanted, int)  # finite numbers only
    return Decimal(f"{value:.{-wanted}f}") if wanted < min(exponent, 0) else value


def checked(limit: Limit, text: str, start: int = 0) -> Limit | Problem:
    """The limit if some reading can satisfy it and its ends are possible values."""
    end = start + len(text)
    low, high, nominal = limit.low, limit.high, limit.nominal
    if low is not None and high is not None and low > high:
        message = f"`{text}` runs from high to low"
        return Problem("limit-reversed", message, start, end, None, f"write `{high} to {low}`")
    for bound in (low, high):
        if bound is not None and (why := impossible(bound)) is not None:
            mend = None
            if limit.tolerance is not None and high is not None and impossible(high) is None:
                mend = f"write `at most {high}`, or a smaller tolerance"
            reaches = f": it reaches `{bound}`" if limit.tolerance is not None else ""
            return Problem("limit-impossible", f"`{text}` is impossible{reaches}", start, end, why, mend)
    if nominal is not None and limit.tolerance is None and nominal.si not in limit.interval:
        message = f"the nominal value `{nominal}` lies outside its limits, {limit}"
        return Problem("limit-impossible", message, start, end)
    return limit


def impossible(value: Quantity) -> str | None:
    """Why a value cannot occur, or None where it can."""
    if value.quantity == "temperature" and value.si < 0:
        zero = Exact.of(Fraction(0), value.unit, "temperature").decimal()
        return f"Nothing is colder than absolute zero, {zero}."
    if value.value < 0 and value.quantity in NEVER_NEGATIVE:
        return f"{article(value.quantity).capitalize()} is never negative."
    return None
