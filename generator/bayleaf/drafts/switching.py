"""An isolation drafted from the profile, and a return to service drafted as its reverse."""

from collections.abc import Sequence
from datetime import date

from ..model.contact import Contact
from ..safety.faults import announced_by
from ..safety.rig import CONTACTOR_STUCK
from .asked import Asked
from .danger import why_never_safe
from .head import head
from .isolation import Frame, chosen_isolation, way_back
from .own_isolation import isolation_steps, not_closed, return_steps
from .proof import prove
from .step_ids import with_ids
from .stuck import as_stuck
from .surroundings import Around
from .yaml_text import Data

Drafted = tuple[Data, tuple[str, ...]]


def isolation_drafted(asked: Asked, around: Around, today: date) -> Drafted:
    """The data of an isolation, and what it cannot make safe."""
    circuits, notes = _circuits(asked, around)
    own = isolation_steps(circuits, around)
    data = head(asked, around, today, None)
    if circuits:
        data["leaves"] = dict.fromkeys(circuits, "proved dead")
    if own.points or own.off:
        data["stays_off"] = [*own.points, *own.off]
    steps, ends = own.steps, own.conclusions
    if CONTACTOR_STUCK in announced_by(asked.codes, around.vehicle):
        stuck = as_stuck(Frame(own.steps), around)
        steps, ends, notes = stuck.frame.before, {**ends, **stuck.ends}, (*notes, *stuck.notes)
    return {**data, "steps": with_ids(steps), "conclusions": ends}, notes


def return_drafted(asked: Asked, around: Around, today: date) -> Drafted:
    """The reverse of the isolation of the vehicle, or of the one that the profile gives."""
    circuits, notes = _circuits(asked, around)
    isolation = chosen_isolation(circuits, around)
    data = head(asked, around, today, isolation)
    if isolation is None:
        own = isolation_steps(circuits, around)
        left, after = [*own.points, *own.off], [*return_steps(own, around)]
        expects = dict.fromkeys(circuits, "waited")
    else:
        left, after = list(isolation.stays_off), [*way_back(isolation, around)]
        safer = {"proved dead": "waited"}
        expects = {name: safer.get(state, state) for name, state in isolation.leaves if state != "live"}
    if expects:
        data |= {"expects": expects, "leaves": dict.fromkeys(expects, "live")}
    stay = not_closed([name for name in left if name in around.vehicle.isolation_points], around)
    if stay:
        data["stays_off"] = list(stay)
    proofs = [
        prove(around.vehicle.circuits[name], around)
        for name in circuits
        if all(point.access in (None, *left) for point in around.vehicle.circuits[name].dead_at)
    ]
    look = {"ask": "Is everything in its place, tight and marked, and is no tool left?", "answers": [
        {"answer": "yes, all of it", "then": "next"}, {"answer": "no", "then": "stop"}]}  # fmt: skip
    check = {
        "do": "TODO: say how it is seen that the vehicle is in order again: lamps, codes, values.",
        "on": "nothing",
    }
    return {**data, "steps": with_ids([*proofs, look, *after, check])}, notes


def _circuits(asked: Asked, around: Around) -> tuple[list[str], tuple[str, ...]]:
    """The dangerous circuits of what is touched, or all of the vehicle; and those that cannot be made safe."""
    rig = around.rig
    wanted = list(dict.fromkeys(name for thing in asked.touched for name in _of(thing, around))) or list(rig.dangerous)
    sealed = [name for name in wanted if around.vehicle.circuits[name].sealed_in is not None]
    reasons = {name: why_never_safe(name, around) for name in wanted if name not in sealed}
    notes = [f"{name} is not in this draft: {why}." for name, why in reasons.items() if why is not None]
    return [name for name, why in reasons.items() if why is None], tuple(notes)


def _of(thing: str, around: Around) -> Sequence[str]:
    part = around.vehicle.parts.get(thing)
    carried = around.rig.circuits_at(Contact(thing)) if part is None else (*part.circuits, *part.exposes)
    return [name for name in carried if name in around.rig.dangerous]
