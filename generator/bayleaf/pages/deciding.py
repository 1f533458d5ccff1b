"""What a page says of the limit of a reading: the gauge, the computation, the error of the instrument."""

from fractions import Fraction
from functools import lru_cache
from math import floor, log10

from markupsafe import Markup

from ..limits.as_measured import as_voltage, reading
from ..limits.computed_reading import computed_sharpness
from ..limits.instrument import End, Sharpness, nominal_of, ranges_for, sharpness
from ..model import actions
from ..model.cited import Cited
from ..model.procedure import Procedure, Step
from ..quantities.display import show
from ..quantities.figures import figure
from ..quantities.limit import Limit
from ..quantities.quantity import Exact, Quantity
from .drawings.limit_gauge import GaugeEnd, limit_gauge
from .drawings.shapes import svg
from .limit_rules_page import URL as LIMIT_RULES
from .limit_rules_page import anchor_of
from .naming import Naming
from .templating import link


def gauge(step: Step, procedure: Procedure, naming: Naming) -> Markup:
    """The drawn gauge of a step that a reading decides; nothing for others.

    Its band is that of the verdict: where another energy is read as safe, the verdict takes the reading as it stands,
    and the error of the instrument is only a row.
    """
    limit = _limit(step, naming)
    if limit is None or (limit.low is None and limit.high is None):
        return Markup("")
    sharp = None if isinstance(step.action, actions.ProveSafe) else _sharpness(step, procedure, naming)
    low = _end(sharp.low if sharp is not None else None, limit.low, 1)
    high = _end(sharp.high if sharp is not None else None, limit.high, -1)
    return _drawn(low, high)


def limit_rows(step: Step, procedure: Procedure, naming: Naming) -> list[tuple[str, Markup | str]]:
    """The rows about a limit: how a rule computes it, and what the instrument may be wrong by."""
    rows: list[tuple[str, Markup | str]] = []
    if step.cited is not None:
        rows.append(("By rule", rule_words(step.cited)))
    sharp = _sharpness(step, procedure, naming)
    if sharp is not None and isinstance(step.action, actions.ProveSafe):
        rows.append(("Error", f"{_errors(sharp)}; not counted in the verdict"))
    elif sharp is not None:
        rows.append(("Error", error_words(sharp)))
    return rows


def _limit(step: Step, naming: Naming) -> Limit | None:
    """What the reading of a step is held against; None where there is none, or more than one."""
    action = step.action
    match action:
        case actions.Measure() | actions.Read() | actions.Compute() | actions.Discharge():
            return action.limit
        case actions.ProveDead():
            highest = naming.workshop.policy.dead_below
            return action.limit or (None if highest is None else Limit(None, highest))
        case actions.ProveSafe():
            circuit = naming.vehicle.circuits.get(action.circuit) if naming.vehicle is not None else None
            stated = [limit for _, limit in circuit.safe] if circuit is not None else []
            return action.limit or (stated[0] if len(stated) == 1 else None)
    return None


def rule_words(cited: Cited) -> Markup:
    """The rule with its computation and source: "insulation resistance: 100 Ω/V × 410 V = 41 kΩ (UN R100, 5.1.3)"."""
    name = link(f"../{LIMIT_RULES}#{anchor_of(cited.rule)}", cited.rule)
    done = cited.computed
    if done is None:
        return Markup("{}").format(name)
    remark = f". {done.remark}" if done.remark else ""
    return Markup("{}: {}").format(name, f"{done.words} ({done.source}){remark}")


def error_words(sharp: Sharpness) -> str:
    """What the instrument may be wrong by at the limits, and how sharp that makes it."""
    words = _errors(sharp)
    if sharp.ratio is not None:
        words += f"; the limits are {_times(float(sharp.ratio))} times as wide as the uncertainty"
    return words


def _errors(sharp: Sharpness) -> str:
    parts = []
    for end in sharp.ends:
        assert end.error is not None
        parts.append(f"±{_width(end.error, end.value)} at {show(end.value)}")
    return ", ".join(dict.fromkeys(parts))


def _sharpness(step: Step, procedure: Procedure, naming: Naming) -> Sharpness | None:
    """What is known of the instrument at a step; None where a figure is missing."""
    action, limit = step.action, _limit(step, naming)
    if isinstance(action, actions.Compute):
        return computed_sharpness(action, procedure, naming.workshop, naming.vehicle)
    match action:
        case actions.Measure():
            measured = action
        case actions.ProveDead() | actions.Discharge():
            measured = as_voltage(action, naming.vehicle)
        case actions.ProveSafe() if limit is not None:
            measured = reading(limit.quantity)
        case _:
            return None
    instrument = naming.workshop.instruments.get(action.using or "")
    if limit is None or instrument is None:
        return None
    ranges = ranges_for(measured, instrument, naming.vehicle)
    sharp = sharpness(limit, ranges, naming.workshop.policy.guard_band, nominal_of(measured)) if ranges else None
    return None if sharp is None or any(end.error is None for end in sharp.ends) else sharp


def _end(end: End | None, value: Quantity | None, sign: int) -> GaugeEnd | None:
    """An end of the gauge. The first good figure is rounded inward to the last place of the display."""
    if value is None:
        return None
    if end is None or not end.band:
        return GaugeEnd(show(value), None)
    inside = Exact.of(value.si + sign * end.band, value.unit, value.quantity)
    display = end.range.resolution if end.range is not None else None
    last = end.band / 10 if display is None else display.unit.factor * Fraction(display.value)
    return GaugeEnd(show(value), show(inside.rounded(_place(last / value.unit.factor), "up" if sign > 0 else "down")))


def _width(error: Fraction, like: Quantity) -> str:
    """An error in a unit that is read, to two figures, rounded up."""
    if like.quantity == "temperature":
        return show(figure(error, "K", "up", 2))
    return show(figure(error / like.unit.factor, like.unit.symbol, "up", 2))


def _place(width: Fraction) -> int:
    """The place of the first figure of a width."""
    return floor(log10(width))


def _times(ratio: float) -> str:
    return f"{ratio:.0f}" if ratio >= 10 else f"{ratio:.1f}"


@lru_cache(maxsize=4096)
def _drawn(low: GaugeEnd | None, high: GaugeEnd | None) -> Markup:
    """The drawing; the same few limits stand on many pages."""
    parts = []
    for end, side in ((low, "at least"), (high, "at most")):
        if end is not None:
            close = f", surely good from {end.accepts}" if end.accepts and side == "at least" else ""
            close = f", surely good up to {end.accepts}" if end.accepts and side == "at most" else close
            parts.append(f"{side} {end.limit}{close}")
    return svg(limit_gauge(low, high), None, "Gauge of the limit", "; ".join(parts))
