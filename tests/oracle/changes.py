"""Changes of a sound list of steps: what is left out, moved, done again, or done in between."""

from dataclasses import replace
from random import Random

from bayleaf.model import actions
from bayleaf.model.common import MODES
from bayleaf.model.contact import Contact
from bayleaf.model.procedure import Step
from bayleaf.model.vehicle import Vehicle

from .steps import ask, discharge, do, measure, pins, prove, step, tighten, wait, work
from .vehicles import quantity


def change(rng: Random, vehicle: Vehicle, steps: list[Step]) -> tuple[list[Step], str]:
    """One change, and what it is called."""
    how = rng.choices(
        (drop, move, one_pair_too_few, shorter_wait, _insert, _branch, _not_dead),
        (22, 12, 6, 6, 34, 12, 14),
    )[0]
    changed = how(rng, vehicle, steps) if how in (_insert, _branch) else how(rng, steps)
    return changed, how.__name__.strip("_")


def drop(rng: Random, steps: list[Step]) -> list[Step]:
    """A step is left out, or one of the points of a lock."""
    if not steps:
        return steps
    index = rng.randrange(len(steps))
    action = steps[index].action
    if isinstance(action, actions.Secure) and len(action.points) > 1 and rng.random() < 0.6:
        fewer = tuple(rng.sample(action.points, len(action.points) - 1))
        return [*steps[:index], replace(steps[index], action=actions.Secure(fewer)), *steps[index + 1 :]]
    if steps[index].id is not None or steps[index].then is not None:
        return steps
    return [*steps[:index], *steps[index + 1 :]]


def move(rng: Random, steps: list[Step]) -> list[Step]:
    """A step is done sooner or later."""
    if len(steps) < 2:
        return steps
    here = rng.randrange(len(steps))
    left = [*steps[:here], *steps[here + 1 :]]
    there = (
        rng.randrange(len(steps)) if rng.random() < 0.5 else max(0, min(len(left), here + rng.choice((-2, -1, 1, 2))))
    )
    return [*left[:there], steps[here], *left[there:]]


def one_pair_too_few(rng: Random, steps: list[Step]) -> list[Step]:
    """A proof that leaves out a pair."""
    found = list(steps)
    for index, one in enumerate(found):
        proof = one.action
        if isinstance(proof, actions.ProveDead) and not proof.pairs:
            connector = "X" + {"traction": "0", "second": "1", "third": "2"}[proof.circuit]
            one_pole, other = Contact(connector, "1", "cable"), Contact(connector, "2", "cable")
            chassis = Contact("chassis")
            pairs = [(other, one_pole), (one_pole, chassis), (chassis, other)]
            found[index] = replace(one, action=replace(proof, pairs=tuple(rng.sample(pairs, rng.choice((2, 2, 3))))))
    return found


def shorter_wait(rng: Random, steps: list[Step]) -> list[Step]:
    """A wait that is too short, by one second or by much."""
    found = list(steps)
    for index, one in enumerate(found):
        if isinstance(one.action, actions.Wait) and one.action.time is not None:
            seconds = int(one.action.time.value)
            found[index] = replace(one, action=wait(max(1, rng.choice((seconds - 2, seconds // 2, 1)))).action)
    return found


def _insert(rng: Random, vehicle: Vehicle, steps: list[Step]) -> list[Step]:
    place = rng.randint(0, len(steps))
    return [*steps[:place], event(rng, vehicle), *steps[place:]]


def _branch(rng: Random, vehicle: Vehicle, steps: list[Step]) -> list[Step]:
    """One answer leads past something that the other does, or past some of the steps."""
    name = f"on-{rng.randrange(10**6)}"
    place = rng.randint(0, len(steps))
    if rng.random() < 0.5 or place == len(steps):
        inner, rest = [event(rng, vehicle)], steps[place:] or [step(actions.Do())]
    else:
        length = rng.randint(1, 2)
        inner, rest = steps[place : place + length], steps[place + length :] or [step(actions.Do())]
    rest = list(rest)
    name, rest[0] = (rest[0].id, rest[0]) if rest[0].id is not None else (name, replace(rest[0], id=name))
    return [*steps[:place], ask(("do it", "next"), ("leave it", name)), *inner, *rest]


def _not_dead(rng: Random, steps: list[Step]) -> list[Step]:
    """Somebody goes on after a circuit was found not dead or not safe, or could not be proved."""
    found = list(steps)
    for index, one in enumerate(found):
        if isinstance(one.action, actions.ProveDead | actions.ProveSafe):
            bad = "not_dead" if isinstance(one.action, actions.ProveDead) else "above"
            found[index] = replace(one, outcomes=((rng.choice((bad, "not_decided")), "next"),))
    return found


def loop(rng: Random, vehicle: Vehicle, steps: list[Step]) -> list[Step]:
    """A question leads back into the middle; often something has been undone by then."""
    if not steps:
        return steps
    end = rng.randint((len(steps) + 1) // 2, len(steps))
    start = rng.randint(max(0, end - 6), end - 1) if rng.random() < 0.7 else rng.randrange(end)
    before = [undo(rng, vehicle)] if rng.random() < 0.75 else []
    name = steps[start].id or f"again-{start}"
    bound = 2 if rng.random() < 0.5 else None
    target = replace(steps[start], id=name, repeat=bound)
    question = ask(("once more", name), ("done", "next"))
    return [*steps[:start], target, *steps[start + 1 : end], *before, question, *steps[end:]]


def undo(rng: Random, vehicle: Vehicle) -> Step:
    """Something after which a circuit that was proved dead is so no longer."""
    circuit = rng.choice(list(vehicle.circuits.values()))
    point = rng.choice(list(vehicle.isolation_points))
    match rng.randrange(7):
        case 0:
            return step(actions.Reconnect((point,)))
        case 1:
            return step(actions.Release((point,)))
        case 2:
            return step(actions.Pause("break"))
        case 3:
            return step(actions.Turn("driven wheels", None))
        case 4:
            return measure("insulation resistance", [pins(circuit)], "500 V", discharged=rng.random() < 0.5)
        case 5:
            return step(actions.SetMode(rng.choice(MODES)))
    return step(actions.Pause("hand-over"))


def event(rng: Random, vehicle: Vehicle) -> Step:
    """Anything that may be done in between."""
    circuit = rng.choice(list(vehicle.circuits.values()))
    point = rng.choice(list(vehicle.isolation_points))
    one, other = pins(circuit)
    bridge = (Contact("Y0", "1"), rng.choice((Contact("Y1", "1"), Contact("Y0", "2"), Contact("chassis"))))
    half = (Contact(one.connector, "1", "device"), Contact(one.connector, "2", "device"))
    pairs = [point_.pair for point_ in circuit.dead_at]
    joint = "J" if "J" in vehicle.connectors else one.connector
    screw = rng.choice(list(vehicle.fasteners))
    some = rng.sample(pairs, rng.randint(1, len(pairs)))
    return rng.choice((
        lambda: undo(rng, vehicle),
        lambda: undo(rng, vehicle),
        lambda: undo(rng, vehicle),
        lambda: rng.choice(work(rng, circuit)),
        lambda: step(actions.Turn("belt", quantity(rng.choice(("200 rpm", "900 rpm"))))),
        lambda: measure("insulation resistance", [(one, Contact("chassis"))], rng.choice(("50 V", "500 V")), False),
        lambda: measure("insulation resistance", [half], "500 V", rng.random() < 0.5),
        lambda: measure("voltage", some),
        lambda: discharge(circuit, rng.choice(((), tuple(pairs[:1]), tuple(pairs), (half,)))),
        lambda: prove(circuit, tuple(some)),
        lambda: wait(rng.choice((1, 130, 400))),
        lambda: step(actions.Energise((circuit.id,), None)),
        lambda: step(actions.Command("pump", None, (circuit.id,))),
        lambda: step(actions.Unplug((joint,))),
        lambda: step(actions.Plug((joint,))),
        lambda: step(actions.FitTemporary("bridge", (), bridge)),
        lambda: step(actions.FitTemporary("cap", (f"{one.connector} cable",), None)),
        lambda: step(actions.RemoveTemporary("bridge")),
        lambda: step(actions.Remove((rng.choice(list(vehicle.parts)),))),
        lambda: step(actions.Refit((rng.choice(list(vehicle.parts)),), False)),
        lambda: step(actions.Loosen((screw,))),
        lambda: tighten(screw),
        lambda: step(actions.Disconnect((point,))),
        lambda: step(actions.Secure((point,))),
        lambda: do("nothing"),
        lambda: do(rng.choice((f"{circuit.id}-unit", f"{circuit.id}-cover", one.connector, f"{other} device", screw))),
    ))()  # fmt: skip
