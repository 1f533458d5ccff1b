"""Steps, parts of sound procedures, and whole procedures of the model."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from random import Random

from bayleaf.model import actions
from bayleaf.model.common import MODE_OFF
from bayleaf.model.contact import Contact
from bayleaf.model.procedure import Conclusion, Procedure, Step
from bayleaf.model.vehicle import Circuit, Vehicle
from bayleaf.quantities.limit import Limit

from .vehicles import quantity

AT_MOST_5V = Limit(high=quantity("5 V"))
OHMS = Limit(high=quantity("1 Ω"))
MEGOHMS = Limit(low=quantity("1 MΩ"))


def step(action: actions.Action, **more) -> Step:
    """A step that has no place yet."""
    return Step((), "", more.pop("id", None), action, **more)


def do(*on: str) -> Step:
    """Something done with the hands."""
    return step(actions.Do(), on=on)


def ask(*answers: tuple[str, str], id: str | None = None) -> Step:
    """A question; answers as (text, target)."""
    return step(actions.Ask("Which?", tuple(actions.Answer((), text, then) for text, then in answers)), id=id)


def wait(seconds: int) -> Step:
    """A wait."""
    return step(actions.Wait(quantity(f"{seconds} s"), ()))


def prove(circuit: Circuit, pairs: tuple[actions.Pair, ...] = (), **more) -> Step:
    """A circuit is proved dead."""
    proof = actions.ProveDead(circuit.id, pairs, "tester", "unit", "unit", AT_MOST_5V, None, None)
    return step(proof, **more)


def measure(what: str, pairs: Sequence[actions.Pair], test: str | None = None, discharged: bool = False) -> Step:
    """A measurement; with a test voltage one of the insulation."""
    limit = {"voltage": AT_MOST_5V, "insulation resistance": MEGOHMS}.get(what, OHMS)
    left = AT_MOST_5V if discharged else None
    voltage = quantity(test) if test else None
    return step(actions.Measure(
        what, what, None, tuple(pairs), None, (), None, None, None, voltage, None, left, limit,
    ))  # fmt: skip


def discharge(circuit: Circuit, pairs: tuple[actions.Pair, ...] = ()) -> Step:
    """A circuit is discharged, and the rest is read."""
    return step(actions.Discharge(circuit.id, pairs, None, None, AT_MOST_5V))


def perform(procedure: str, *outcomes: tuple[str, str]) -> Step:
    """Another procedure is done."""
    return step(actions.Perform(procedure), outcomes=outcomes)


def tighten(name: str) -> Step:
    """A fastener of the profile is tightened."""
    return step(actions.Tighten((name,), None, None, None, None, False, False))


def procedure(name: str, steps: Iterable[Step], conclusions: Iterable[Conclusion] = (), **more) -> Procedure:
    """A procedure whose steps have their numbers and places."""
    placed = []
    for index, one in enumerate(steps):
        at = ("steps", index)
        if isinstance(one.action, actions.Ask):
            answers = tuple(replace(a, at=(*at, "answers", n)) for n, a in enumerate(one.action.answers))
            one = replace(one, action=replace(one.action, answers=answers))
        placed.append(replace(one, at=at, number=str(index + 1)))
    ends = {end.id: end for end in conclusions}
    return Procedure(f"procedures/{name}.yml", "van", name, name, "job", steps=tuple(placed), conclusions=ends, **more)


def conclusion(name: str, stops: bool) -> Conclusion:
    """An end of a procedure."""
    return Conclusion(("conclusions", name), name, name, stops, None, (), (), (), ())


def chosen_points(rng: Random, vehicle: Vehicle, circuits: Iterable[Circuit]) -> list[str]:
    """Points that take the circuits off, one set for each source, with all that must be open before them, in order."""
    wanted: set[str] = set()
    for circuit in circuits:
        for source in circuit.sources:
            if source.kind == "points":
                wanted.update(rng.choice(_good_sets(vehicle, source.taken_off_by)))
    return in_order(vehicle, wanted - {MODE_OFF})


def _good_sets(vehicle: Vehicle, sets: tuple[tuple[str, ...], ...]) -> list[tuple[str, ...]]:
    def is_good(points: tuple[str, ...]) -> bool:
        known = [vehicle.isolation_points[point] for point in points if point != MODE_OFF]
        return all(one.secure_with for one in known) and any(one.kind != "contactor" for one in known)

    return [some for some in sets if is_good(some)] or list(sets)


def in_order(vehicle: Vehicle, points: Iterable[str]) -> list[str]:
    """Points with those that must be open before them."""
    found: list[str] = []

    def add(name: str) -> None:
        point = vehicle.isolation_points[name]
        for before in (*point.first, *(point.only_when.open if point.only_when is not None else ())):
            add(before)
        if name not in found:
            found.append(name)

    for name in sorted(points):
        add(name)
    return found


def taking_off(points: Sequence[str]) -> list[Step]:
    """Points opened one by one, then locked."""
    opened = [step(actions.Disconnect((point,))) for point in points]
    return [*opened, step(actions.Secure(tuple(points)))]


def putting_on(points: Sequence[str]) -> list[Step]:
    """Locks off, points closed the other way round."""
    return [step(actions.Release(tuple(points))), *(step(actions.Reconnect((point,))) for point in reversed(points))]


def pins(circuit: Circuit) -> actions.Pair:
    """The two contacts of a circuit that work is done at."""
    connector = "Y" + circuit.dead_at[0].pair[0].connector[1:]
    return Contact(connector, "1"), Contact(connector, "2")


def work(rng: Random, circuit: Circuit) -> list[Step]:
    """Something that is done at bare conductors, and is undone again."""
    connector, name = pins(circuit)[0].connector, circuit.id
    match rng.randrange(8):
        case 7:
            return at_test_points(rng, circuit)
        case 0:
            return [do(f"{connector}/1")]
        case 1:
            return [step(actions.Unplug((connector,))), step(actions.Plug((connector,)))]
        case 2:
            return [step(actions.Loosen((f"{connector}-screws",))), tighten(f"{connector}-screws")]
        case 3:
            return [step(actions.Remove((f"{name}-unit",))), step(actions.Refit((f"{name}-unit",), True))]
        case 4:
            return [measure(rng.choice(("resistance", "continuity", "capacitance")), [pins(circuit)])]
        case 5:
            return [do(name)]
    return [
        step(actions.Unplug((connector,))),
        measure("resistance", [(Contact(connector, "1", "device"), Contact(connector, "2", "device"))]),
        step(actions.Plug((connector,))),
    ]


def at_test_points(rng: Random, circuit: Circuit) -> list[Step]:
    """The connector at which the circuit is read is parted; something undoes the proof, and it is proved again or not.

    Both sides are read, or one of them; sometimes the work is at that side alone.
    """
    connector = circuit.dead_at[0].pair[0].connector
    pairs = tuple(point.pair for point in circuit.dead_at)
    both = (*pairs, *(tuple(_on_device(contact) for contact in pair) for pair in pairs))
    parted = [step(actions.Unplug((connector,)))]
    undone = [rng.choice((step(actions.Pause("break")), measure("insulation resistance", [pairs[-1]], "500 V", True)))]
    again = rng.choice(([], [prove(circuit, rng.choice(((), pairs, both, both)))]))
    there = do(f"{connector}/1 {rng.choice(('cable', 'cable', 'device'))}")
    order = rng.choice((parted, [*parted, *undone], [*undone, *parted]))
    return [*order, *again, there, step(actions.Plug((connector,)))]


def _on_device(contact: Contact) -> Contact:
    return contact if contact.is_chassis else replace(contact, side="device")
