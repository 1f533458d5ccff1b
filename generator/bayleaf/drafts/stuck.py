"""A draft where a contactor may be stuck closed: the current is read before a point is opened, and all stays locked.

Switching off takes no load away then, and whoever draws a plug under load draws an arc. Behind the isolation the
vehicle is not made live again before somebody knows that its contactors open (common practice).
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from ..model import actions
from ..model.procedure import Procedure
from ..safety.protection import voltage_kind_of
from . import owned
from .isolation import Frame
from .proof import dressed
from .surroundings import Around
from .yaml_text import Data

#: No more than the error of a usual clamp near zero (common practice).
_NO_CURRENT = "0 A ± 1 A"
_FLOWS = "current-flows"
_LEFT = "left-locked"

_ENDS: Data = {
    _FLOWS: {
        "finding": "A current flows although the vehicle is switched off, or it cannot be told.", "end": "stop",
        "say": "Draw no plug and open nothing. Leave the vehicle, keep everybody away and call the person responsible "
        "for high voltage.",
    },
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Stuck:
    """The isolation with the readings before it, without a way back; the last steps; ends; what the profile lacks."""

    frame: Frame
    last: tuple[Data, ...]
    ends: Data
    notes: tuple[str, ...]


def as_stuck(frame: Frame, around: Around) -> Stuck:
    """An isolation for a vehicle of which a contactor may be stuck closed."""
    cables, lacking = _cables(tuple(_opened(frame, around)), around)
    off: Data = {
        "id": "switched-off", "set": {"mode": "off"},
        "do": "Switch off and keep the key on you. Do not take a dark display for dead: a contactor may be stuck.",
    }  # fmt: skip
    before = (off, *(_reading(name, around) for name in cables), *frame.before)
    left: Data = {
        "id": "left", "pause": "vehicle left",
        "do": "Write on the tag that a contactor may be stuck, with the readings. Leave all locks on.", "on": "nothing",
    }  # fmt: skip
    notes = tuple(
        f"{point} is opened, and the profile names no cable of {' or '.join(circuits)} to read the current round. "
        "Write one under `cables`, then add its reading before the isolation."
        for point, circuits in lacking.items()
    )
    ends = {name: end for name, end in frame.conclusions.items() if end.get("end") == "stop"}
    return Stuck(replace(frame, before=before, after=(), conclusions=ends, stays_off=()), (left,), dict(_ENDS), notes)


def left_locked() -> tuple[str, Data]:
    """The end of a job that is no search: it stays locked."""
    return _LEFT, {
        "finding": "The work is done, and the vehicle is locked off: a contactor may still be stuck.", "end": "stop",
        "say": "TODO: say who finds out that the contactors open, and who makes the vehicle live only then.",
    }  # fmt: skip


def _opened(frame: Frame, around: Around) -> Iterator[str]:
    """The points that are opened by hand on the way."""
    if frame.isolation is not None:
        yield from _opened_in(frame.isolation, around, frozenset())
    for step in frame.before:
        if "disconnect" in step:
            yield str(step["disconnect"])


def _opened_in(procedure: Procedure, around: Around, above: frozenset[str]) -> Iterator[str]:
    for step in procedure.steps:
        if isinstance(step.action, actions.Disconnect):
            yield from step.action.points
        elif isinstance(step.action, actions.Perform) and step.action.procedure not in above:
            inner = around.procedures.get(step.action.procedure)
            if inner is not None:
                yield from _opened_in(inner, around, above | {procedure.id})


def _cables(points: Iterable[str], around: Around) -> tuple[list[str], dict[str, list[str]]]:
    """The cables of all dangerous circuits that these points take off; the points of whose circuits none is named."""
    rig, found, lacking = around.rig, dict[str, None](), dict[str, list[str]]()
    for point in points:
        circuits = [name for name in rig.dangerous if rig.known(name).points & rig.point(point)]
        cables = [name for name, cable in around.vehicle.cables.items() if cable.circuit in circuits]
        found.update(dict.fromkeys(cables))
        if circuits and not cables:
            lacking[point] = circuits
    return list(found), lacking


def _reading(cable: str, around: Around) -> Data:
    """The current in a cable by clamp; anything but none leads away from the vehicle."""
    known = around.vehicle.cables[cable]
    kind = voltage_kind_of(around.vehicle.circuits[str(known.circuit)])
    clamp = owned.clamp_for(kind, around.workshop)
    step: Data = {
        "id": f"current-{cable}", "measure": f"Current: {known.name or cable}", "quantity": "current",
        "current_kind": kind, "around": cable, **({"using": clamp} if clamp is not None else {}),
        "do": "Set the clamp to zero beside the cable, jaws closed. Then close it round the whole cable.",
        "limits": _NO_CURRENT, "source": "workshop practice",
    }  # fmt: skip
    outcomes = {"within": "next", "below": _FLOWS, "above": _FLOWS, "not_decided": _FLOWS}
    worn = dressed({"prove_dead": str(known.circuit)}, around)  # it may be live, as before a proof
    return {**step, "people": "2", **worn, "outcomes": outcomes}
