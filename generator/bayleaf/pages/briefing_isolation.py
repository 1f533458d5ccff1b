"""The isolation on a briefing: each step that takes energy off, opens the way to it or shows that it is gone."""

from collections.abc import Iterator, Mapping

from markupsafe import Markup

from ..graph.build import ways_out
from ..graph.exits import GOES_ON
from ..model import actions
from ..model.procedure import NEXT, Procedure
from ..model.vehicle import Vehicle
from .actions import headline
from .briefing_facts import Facts
from .layout import Cell
from .naming import Naming
from .show import plain
from .templating import joined
from .unfolded import Unfolded

_ISOLATES = (
    actions.Disconnect, actions.Secure, actions.Wait, actions.ProveDead, actions.ProveSafe, actions.Discharge,
)  # fmt: skip
_PROVES = (actions.ProveDead, actions.ProveSafe, actions.Discharge)
_EXIT_WORDS = {"not_decided": "is not decided", "not_dead": "is not dead", "above": "is above", "below": "is below"}


def isolating(facts: Facts) -> tuple[tuple[Unfolded, ...], ...]:
    """The steps that take energy off, uncover its test points and show that it is gone; done again, with the first."""
    found: dict[object, list[Unfolded]] = {}
    for one in facts.steps:
        action = one.action
        if _is_isolating(action, facts.vehicle):
            key = (
                (type(action), action.circuit, plain(action.limit))
                if isinstance(action, actions.ProveDead | actions.ProveSafe | actions.Discharge)
                else action
            )
            found.setdefault(key, []).append(one)
    return tuple(map(tuple, found.values()))


def _is_isolating(action: object, vehicle: Vehicle) -> bool:
    if isinstance(action, actions.SetMode):
        return action.mode in ("off", "asleep")
    covers = {point.access for circuit in vehicle.circuits.values() for point in circuit.dead_at if point.access}
    if isinstance(action, actions.Remove):
        return bool(covers.intersection(action.parts))
    if isinstance(action, actions.Loosen):
        held = (vehicle.fasteners[name].part for name in action.fasteners if name in vehicle.fasteners)
        return bool(covers.intersection(filter(None, held)))
    return isinstance(action, _ISOLATES)


def step_words(one: Unfolded, facts: Facts, naming: Naming, title: Mapping[str, str]) -> Cell:
    """What is done, with what, to which limit, and when it is done only after another step went otherwise."""
    text = _secured(one, naming) or headline(one.step, naming, lambda name: title.get(name, name))
    parts: list[Cell] = [text]
    limit = getattr(one.action, "limit", None)
    if limit is not None:
        parts[0] = f"{text}: {plain(limit)}"
    parts += _how(one, naming)
    only = only_when(one, facts)
    return joined([Markup("<em>{}</em> {}").format(only, parts[0]) if only else parts[0], *parts[1:]], "; ")


def _secured(one: Unfolded, naming: Naming) -> str:
    """ "Secure: Charge lead: padlock through the eye of the flap; …"; empty where nothing says how."""
    action = one.action
    if not isinstance(action, actions.Secure) or naming.vehicle is None:
        return ""
    known = naming.vehicle.isolation_points
    points = [known[name] for name in action.points if name in known]
    if not any(point.secure_with for point in points):
        return ""
    return "Secure: " + "; ".join(f"{point.name}: {point.secure_with or 'how is not stated'}" for point in points)


def _how(one: Unfolded, naming: Naming) -> Iterator[Cell]:
    action = one.action
    if isinstance(action, actions.Discharge):
        if action.means:
            yield f"with {action.means}"
        pairs = naming.pairs(action.pairs)
        if pairs:
            yield Markup("at ") + joined(list(pairs), ", ")
        if action.using:
            yield f"read with {naming.tool(action.using)}"


def only_when(one: Unfolded, facts: Facts) -> str:
    """ "Only when step 6.14 is not decided:"; empty for a step that is come to when all goes well."""
    key = "led to", one.owner.id
    if key not in facts.shared:
        facts.shared[key] = _led_to(one.owner)
    found = facts.shared[key].get(one.step.number)
    if found is None:
        return ""
    number, exit = found
    prefix = one.number.removesuffix(one.step.number)
    return f"Only when step {prefix}{number} {_EXIT_WORDS.get(exit, 'ends otherwise')}:"


def _led_to(procedure: Procedure) -> dict[str, tuple[str, str]]:
    """The steps that only a proof that did not go well leads to, each with its number and exit."""
    places = {step.id: index for index, step in enumerate(procedure.steps) if step.id is not None}
    reached: dict[int, tuple[str, str] | None] = {}
    ahead: list[tuple[int, tuple[str, str] | None]] = [(0, None)]
    for good in (True, False):
        later: list[tuple[int, tuple[str, str] | None]] = []
        while ahead:
            index, why = ahead.pop(0)
            if index in reached or index >= len(procedure.steps):
                continue
            reached[index] = why
            step = procedure.steps[index]
            for exit, target, _ in ways_out(step):
                place = index + 1 if target == NEXT else places.get(target)
                if place is None:
                    continue
                goes_on = exit in GOES_ON or isinstance(step.action, actions.Ask | actions.Perform)
                if goes_on:
                    ahead.append((place, why))
                else:
                    found = (step.number, exit) if isinstance(step.action, _PROVES) else None
                    (later if good else ahead).append((place, why or found))
        ahead = later
    return {procedure.steps[index].number: why for index, why in reached.items() if why is not None}
