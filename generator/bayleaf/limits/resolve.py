"""The limits of a procedure as they are read in the bay: what is written, filled up by what a rule computes."""

from dataclasses import replace
from typing import Any

from ..model.cited import Computed
from ..model.procedure import Procedure, Step
from ..model.vehicle import Fastener, Vehicle
from ..quantities.limit import Limit
from .limit_rule import computed
from .torque import computed_torque


def resolved(procedure: Procedure, vehicle: Vehicle | None) -> Procedure:
    """The procedure with every limit that a rule computes; unchanged where the profile is missing or lacks a fact."""
    if vehicle is None or all(step.cited is None for step in procedure.steps):
        return procedure
    return replace(
        procedure, steps=tuple(one if one.cited is None else _resolved(one, vehicle) for one in procedure.steps)
    )


def with_torques(vehicle: Vehicle) -> Vehicle:
    """The profile with every torque that a rule computes; unchanged where none cites one."""
    if all(one.torque_by is None for one in vehicle.fasteners.values()):
        return vehicle
    return replace(vehicle, fasteners={name: _with_torque(one) for name, one in vehicle.fasteners.items()})


def _with_torque(fastener: Fastener) -> Fastener:
    asked = computed_torque(fastener) if fastener.torque_by is not None and not fastener.broken else None
    if not isinstance(asked, Computed) or fastener.torque_by is None:
        return fastener
    torque = fastener.torque or Limit(nominal=asked.high, origin="rule")
    return replace(fastener, torque=torque, torque_by=replace(fastener.torque_by, computed=asked))


def _resolved(step: Step, vehicle: Vehicle) -> Step:
    asked = computed(step, vehicle) if not step.broken else None
    if not isinstance(asked, Computed) or step.cited is None:
        return step
    action: Any = step.action
    return replace(
        step, action=replace(action, limit=_joined(action.limit, asked)), cited=replace(step.cited, computed=asked)
    )


def _joined(written: Limit | None, asked: Computed) -> Limit:
    """The ends that are written stand; those that are not come from the rule. Whether they agree is not asked here."""
    if written is None:
        return Limit(asked.low, asked.high, origin="rule")
    low, high = written.low or asked.low, written.high or asked.high
    if (low, high) == (written.low, written.high) or (low is not None and high is not None and low > high):
        return written
    return Limit(low, high, written.nominal, origin=written.origin)
