"""The isolation on a briefing: each step that takes energy off, opens the way to it or shows that it is gone."""

from collections.abc import Container, Iterator, Mapping

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
_EXIT_WORDS = {"not_decided": "not decided", "not_dead": "not dead", "above": "above", "below": "below"}
#: Of more steps that lead somewhere, nobody keeps the numbers in mind.
_MOST_WAYS = 4


def isolating(facts: Facts) -> tuple[tuple[Unfolded, ...], ...]:
    """The steps that take energy off, uncover its test points and show that it is gone; done again, with the first.

    A wait while something is pumped up is part of a test of tightness and isolates nothing.
    """
    found: dict[object, list[Unfolded]] = {}
    is_pumped_up = False
    for one in facts.steps:
        action = one.action
        is_pumped_up = not isinstance(action, actions.ProveSafe) and (
            is_pumped_up or (isinstance(action, actions.Fill) and action.is_pressed)
        )
        is_of_a_test = is_pumped_up and isinstance(action, actions.Wait)
        if _is_isolating(action, facts.vehicle) and not is_of_a_test:
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
    """ "Only when step 6.14 is above or not decided:"; empty for what is done when all goes well."""
    key = "led to", one.owner.id
    if key not in facts.shared:
        facts.shared[key] = _led_to(one.owner)
    found: Mapping[str, tuple[str, ...]] = facts.shared[key].get(one.step.number, {})
    if not found:
        return ""
    if len(found) > _MOST_WAYS:
        return "Only when a step before it does not go well:"
    prefix = one.number.removesuffix(one.step.number)
    alike: dict[tuple[str, ...], list[str]] = {}
    for number, exits in found.items():
        alike.setdefault(exits, []).append(f"{prefix}{number}")
    ways = (f"step {' or '.join(numbers)} {_exits_words(exits)}" for exits, numbers in alike.items())
    return f"Only when {', or '.join(ways)}:"


def _exits_words(exits: tuple[str, ...]) -> str:
    """ "is below, above or not decided"."""
    said = [_EXIT_WORDS[one] for one in exits if one in _EXIT_WORDS]
    words = [f"is {' or '.join(filter(None, (', '.join(said[:-1]), said[-1])))}"] if said else []
    return " or ".join([*words, *(["ends otherwise"] if len(said) < len(exits) else [])])


def _led_to(procedure: Procedure) -> Mapping[str, Mapping[str, tuple[str, ...]]]:
    """Of each step that is not come to when all goes well the nearest steps that lead there, by number, with the exits.

    A step that is itself come to only from there, in a loop, leads nowhere new.
    """
    steps = procedure.steps
    places = {step.id: index for index, step in enumerate(steps) if step.id is not None}
    good: dict[int, list[int]] = {}
    every: dict[int, list[int]] = {}
    bad: list[tuple[int, str, int]] = []
    for index, step in enumerate(steps):
        for exit, target, _ in ways_out(step):
            place = index + 1 if target == NEXT else places.get(target, len(steps))
            if place == len(steps):
                continue
            every.setdefault(index, []).append(place)
            if exit in GOES_ON or isinstance(step.action, actions.Ask | actions.Perform):
                good.setdefault(index, []).append(place)
            else:
                bad.append((index, exit, place))
    well = _reached([0], good)
    found: dict[str, dict[str, tuple[str, ...]]] = {}
    for index, exit, place in bad:
        for there in _reached([place], good, well):
            if index in well or index in _reached([0], every, {there}):
                led = found.setdefault(steps[there].number, {})
                led[steps[index].number] = (*led.get(steps[index].number, ()), exit)
    return found


def _reached(ahead: list[int], ways: Mapping[int, list[int]], but: Container[int] = ()) -> set[int]:
    """Every step that is come to from these, without going on from those left out."""
    reached: set[int] = set()
    while ahead:
        index = ahead.pop()
        if index not in reached and index not in but:
            reached.add(index)
            ahead = [*ahead, *ways.get(index, ())]
    return reached
