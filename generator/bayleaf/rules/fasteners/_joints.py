"""The joints of a profile, and those that a procedure describes itself."""

from collections.abc import Iterator
from typing import NamedTuple

from ...diagnostics.place import Path
from ...limits.joint import Joint, joint_of, joint_of_step
from ...model import actions
from ...model.procedure import Step
from ...model.vehicle import Vehicle


class Placed(NamedTuple):
    """A joint, where it stands, and what it is called."""

    at: Path
    joint: Joint
    name: str


def joints_of(vehicle: Vehicle) -> Iterator[Placed]:
    """The fasteners of a profile that could be read."""
    for fastener in vehicle.fasteners.values():
        if not fastener.broken:
            yield Placed(fastener.at, joint_of(fastener), fastener.id)


def described_at(step: Step) -> Iterator[Placed]:
    """The fastener that a step describes itself."""
    if isinstance(step.action, actions.Tighten) and step.action.described and not step.broken:
        yield Placed(step.at, joint_of_step(step.action), " ".join(step.action.fasteners))


def torque_key(at: Path) -> Path:
    """Where the torque stands."""
    return (*at, "torque")


def newton_metres(value: float) -> str:
    """A torque for a message."""
    return f"{value:.3g} N·m"
