"""Torques of a record, held against those of the fasteners.

    allowed = torque ± tolerance, where the fastener states one
    allowed = torque ± d · torque, where it does not: d is by how much the wrench may be off

d is that which the workshop file states for the wrench that was used, else that of ISO 6789-1 for its size.

Source: ISO 6789-1:2017, as in calculations/torque_wrench.py.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from ..calculations.torque_wrench import permitted_deviation
from ..limits.wrench import setting_on, wrenches
from ..model import actions
from ..model.record import Entry
from ..quantities.limit import Limit
from ..quantities.quantity import Quantity
from .job_steps import JobStep
from .surroundings import Surroundings


@dataclass(frozen=True, slots=True)
class Allowed:
    """What a fastener asks for: `torque` as it is written, and the ends in N·m, each None where it is open.

    `per_cent` is the deviation of the wrench, where the fastener states no tolerance.
    """

    name: str
    torque: Limit
    low: Fraction | None
    high: Fraction | None
    per_cent: float | None

    def holds(self, torque: Quantity) -> bool:
        """Whether a torque lies within, both ends included."""
        return (self.low is None or torque.si >= self.low) and (self.high is None or torque.si <= self.high)


@dataclass(frozen=True, slots=True)
class Tightened:
    """A torque of a record. `allowed` is None where there is nothing to hold it against."""

    place: int
    allowed: Allowed | None

    def is_outside(self, entry: Entry) -> bool:
        """Whether it is another one than the fastener asks for."""
        return self.allowed is not None and entry.torque is not None and not self.allowed.holds(entry.torque)


def torques_of(step: JobStep, entry: Entry | None, around: Surroundings) -> tuple[Allowed, ...]:
    """The torques that a step asks for, one for each fastener that has one."""
    return tuple(_torques(step, entry, around))


def tightened(entry: Entry, step: JobStep | None, taken: tuple[int, ...], around: Surroundings) -> Tightened:
    """Which fastener a torque was for: the first left whose torque it fits, else the first left."""
    asked = torques_of(step, entry, around) if step is not None and around.agrees else ()
    if not asked or entry.torque is None or entry.torque.quantity != "torque":
        return Tightened(0, None)
    left = [place for place in range(len(asked)) if place not in taken] or list(range(len(asked)))
    place = next((one for one in left if asked[one].holds(entry.torque)), left[0])
    return Tightened(place, asked[place])


def _torques(step: JobStep, entry: Entry | None, around: Surroundings) -> Iterator[Allowed]:
    action = step.step.action
    if not isinstance(action, actions.Tighten):
        return
    if action.described:
        if action.torque is not None:
            yield _allowed(", ".join(action.fasteners), action.torque, _deviation(step, entry, action.torque, around))
        return
    for name in action.fasteners:
        fastener = around.vehicle.fasteners.get(name) if around.vehicle is not None else None
        if fastener is not None and fastener.torque is not None:
            yield _allowed(name, fastener.torque, _deviation(step, entry, fastener.torque, around))


def _allowed(name: str, torque: Limit, per_cent: float) -> Allowed:
    if torque.low is not None or torque.high is not None or torque.nominal is None:
        low, high = (None if end is None else end.si for end in (torque.low, torque.high))
        return Allowed(name, torque, low, high, None)
    aim, share = torque.nominal.si, Fraction(str(per_cent)) / 100
    return Allowed(name, torque, aim * (1 - share), aim * (1 + share), per_cent)


def _deviation(step: JobStep, entry: Entry | None, torque: Limit, around: Surroundings) -> float:
    """Per cent by which the wrench may be off: that of the record, else one of the step, else any of this size."""
    aim = torque.nominal or torque.high or torque.low
    size = float(aim.si) if aim is not None else 0.0
    named = (entry.instrument if entry is not None else None,)
    for names in (named, step.step.tools):
        for wrench in wrenches(around.workshop):
            if wrench.id in names:
                found = setting_on(wrench, size, None)
                if names is named or found.covers:
                    return found.deviation
    return permitted_deviation(size) if size > 0 else 0.0
