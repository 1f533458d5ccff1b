"""Whether what a step asks of a circuit holds, and what holds afterwards if it is taken as mended."""

from collections.abc import Iterator

from .demands import Demand
from .groups import group_of
from .holds import holds, is_as_said, is_isolated, made_to_hold
from .plan import Stage
from .state import State, least_safe
from .transfer import Scene, after


def unmet(stage: Stage, state: State, scene: Scene) -> Iterator[Demand]:
    """The needs of a step that a state does not meet, each as it stands."""
    for demand in asked(stage, state, scene):
        if not is_met(demand, stage, state, scene):
            yield demand


def asked(stage: Stage, state: State, scene: Scene) -> tuple[Demand, ...]:
    """What a step asks in a state, the gravest first.

    Nobody works beside what lies bare; and after something was found not dead, nobody lays hands on the vehicle.
    """
    demands = stage.demands
    bare = bared(stage, state, scene)
    if bare is not None:
        grave = sum(demand.level == "dead" for demand in demands)
        demands = (*demands[:grave], bare, *demands[grave:])
    if not state.found or not stage.hands:
        return demands
    circuit = scene.known.id
    return (Demand("not dead", circuit, "live", stage.at, circuit), *demands)


def bared(stage: Stage, state: State, scene: Scene) -> Demand | None:
    """What a step that works at something else asks of the circuit, where a cover of it may be off."""
    return None if stage.beside is None else stage.beside.of(scene.known, state.on, stage.at)


def is_met(demand: Demand, stage: Stage, state: State, scene: Scene) -> bool:
    """Whether one need holds."""
    kind = demand.kind
    if kind == "not dead":
        return not state.found
    if kind == "made live":
        return _stays_closed(demand, stage, state, scene)
    if demand.opened and not demand.opened & ~state.on:
        return True
    if demand.adapters & state.off:
        return True
    if demand.beyond:
        state = state._replace(proved=state.proved | demand.beyond)
    if kind == "expects":
        return is_as_said(demand.level, state, *scene)
    return holds(demand.level, state, *scene)


def _stays_closed(demand: Demand, stage: Stage, state: State, scene: Scene) -> bool:
    """Whether nothing is open of a circuit that a step makes live; or the step does not, since it stays isolated."""
    known, rig = scene
    if not known.closed & ~demand.spared & ~state.on:
        return True
    if demand.points and not demand.points & rig.points_of(known, state.joined):
        return True
    if demand.feeds and not demand.feeds & group_of(state.joined, known.number):
        return True
    return all(is_isolated(after(state, way.effects, scene), *scene) for way in stage.ways)


def mended(stage: Stage, state: State, scene: Scene) -> tuple[tuple[Demand, ...], tuple[State, ...]]:
    """The needs that are not met, one after the other, and the least safe states in which all of them are.

    A need that the mending of another one has brought with it is no fault of its own.
    """
    faults: dict[Demand, None] = {}
    states: tuple[State, ...] = (state,)
    for demand in asked(stage, state, scene):
        now: list[State] = []
        for one in states:
            if is_met(demand, stage, one, scene):
                now.append(one)
            else:
                faults[demand] = None
                now.extend(_mend(demand, one, scene))
        states = least_safe(now)
    return tuple(faults), states


def _mend(demand: Demand, state: State, scene: Scene) -> tuple[State, ...]:
    if demand.kind == "made live":
        closed = scene.known.closed
        return (state._replace(on=state.on | closed, off=state.off & ~closed),)
    if demand.kind == "expects" and demand.level not in ("live", "switched off"):
        state = state._replace(charged=False, found=False)
    return made_to_hold("dead" if demand.kind == "not dead" else demand.level, state, *scene)
