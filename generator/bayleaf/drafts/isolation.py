"""The isolation that a draft begins with, and the return to service that it ends with.

The vehicle's own procedures are performed where it has them. Only where there is none are the steps made from the
profile: points in the order of `first`, secured, the computed wait, covers, the proof; and back in the reverse order.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from ..model.common import STATES
from ..model.procedure import Conclusion, Procedure
from .own_isolation import close_points, isolation_steps, not_closed, return_steps
from .proof import covers_on, proof_steps, safe_steps
from .surroundings import Around
from .yaml_text import Data


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands before and after the work.

    `left_open` is what the isolation leaves out of its place, so that the work finds it so. `conclusions` are ends that
    these steps can come to, `stays_off` what is not put back at the end.
    """

    before: tuple[Data, ...] = ()
    after: tuple[Data, ...] = ()
    left_open: tuple[str, ...] = ()
    conclusions: Data = field(default_factory=dict)
    stays_off: tuple[str, ...] = ()
    isolation: Procedure | None = None


def frame_for(isolated: Sequence[str], around: Around) -> Frame:
    """The isolation of these circuits, and the way back."""
    if not isolated:
        return Frame()
    isolation = chosen_isolation(isolated, around)
    if isolation is None:
        own = isolation_steps(isolated, around)
        back = return_steps(own, around)
        return Frame(own.steps, back, own.off, own.conclusions, not_closed(own.points, around))
    before = ({"id": "isolate", "perform": isolation.id, **_stops(isolation)},)
    after, ends, stays_off = after_isolation(isolation, around)
    return Frame(before, after, isolation.stays_off, ends, stays_off, isolation)


def after_isolation(isolation: Procedure, around: Around) -> tuple[tuple[Data, ...], Data, tuple[str, ...]]:
    """The way back from a performed isolation: its steps, ends that they can come to, and what is not put back."""
    back_again = chosen_return(isolation, around)
    if back_again is None:
        points = [name for name in isolation.stays_off if name in around.vehicle.isolation_points]
        return way_back(isolation, around), {}, not_closed(points, around)
    outcomes = {name: name for name, one in back_again.conclusions.items() if not one.stops}
    perform: Data = {"id": "return", "perform": back_again.id}
    if outcomes:
        perform["outcomes"] = {"end": "next", **outcomes}
    ends = {name: _copied(back_again.conclusions[name], back_again, around) for name in outcomes}
    return (perform,), ends, back_again.stays_off


def chosen_isolation(isolated: Sequence[str], around: Around) -> Procedure | None:
    """The isolation of the vehicle that leaves all of these circuits isolated, and most of them proved dead."""
    fitting: list[tuple[int, int, Procedure]] = []
    for one in around.of_kind("isolation"):
        leaves = dict(one.leaves)
        if all(_rank(leaves.get(name)) >= STATES.index("disconnected") for name in isolated):
            fitting.append((sum(leaves[name] == "proved dead" for name in isolated), -len(fitting), one))
    return max(fitting, key=lambda found: found[:2])[2] if fitting else None


def chosen_return(isolation: Procedure, around: Around) -> Procedure | None:
    """The return to service that begins where an isolation ends."""
    leaves = dict(isolation.leaves)
    for one in around.of_kind("return to service"):
        if one.expects and all(_rank(leaves.get(name)) >= _rank(state) for name, state in one.expects):
            return one
    return None


def _rank(state: str | None) -> int:
    return -1 if state is None else list(STATES).index(state)  # type: ignore[arg-type]


def _stops(procedure: Procedure) -> Data:
    """Nobody goes on from a conclusion of an isolation."""
    names = [name for name, one in procedure.conclusions.items() if not one.stops]
    return {"outcomes": {"end": "next", **dict.fromkeys(names, "stop")}} if names else {}


def _copied(conclusion: Conclusion, procedure: Procedure, around: Around) -> Data:
    """A conclusion of a performed procedure as one of the draft's own, with what it leaves."""
    raw = dict(around.raw[procedure.id]["conclusions"][conclusion.id])
    for key in ("leaves", "stays_off"):
        if key not in raw and key in around.raw[procedure.id]:
            raw[key] = around.raw[procedure.id][key]
    return {key: value for key, value in raw.items() if key != "repair"}


def way_back(isolation: Procedure, around: Around) -> tuple[Data, ...]:
    """The way back from a performed isolation to which the vehicle has none: what it leaves off, in reverse."""
    vehicle = around.vehicle
    points = [name for name in isolation.stays_off if name in vehicle.isolation_points]
    covers = [name for name in isolation.stays_off if name in vehicle.parts]
    return (*covers_on(covers, around), *close_points(points, around))


def top_up(needed: Sequence[str], frame: Frame, around: Around) -> tuple[list[Data], list[Data]]:
    """What is still to be proved after the isolation, and how the covers that come off for it are put back.

    Circuits that the isolation leaves proved dead are done; of pressure and temperature each figure is read.
    """
    proved: set[str] = set()
    if frame.isolation is not None:
        proved = {name for name, state in frame.isolation.leaves if state == "proved dead"}
    elif frame.before:
        proved = {step["prove_dead"] for step in frame.before if "prove_dead" in step}
    open_already = dict.fromkeys(frame.left_open)
    opening: list[Data] = []
    closing: list[Data] = []
    for name in needed:
        known = around.rig.known(name)
        if known.is_dangerous and name not in proved:
            steps, back = proof_steps(name, open_already, around)
            opening += steps
            closing[:0] = back
        elif known.circuit.safe and known.circuit.is_gas:  # it is let out before its gauge can be read
            opening += [{"drain": name}, *safe_steps(name, around)]
            closing.append({"fill": name, "with": "TODO: with what, and how much", "do": "TODO: say how it is filled."})
        elif known.circuit.safe:
            opening += safe_steps(name, around)
    return opening, closing
