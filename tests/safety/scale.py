"""Procedures of any length that are as hard to walk as any: branches that isolate in two ways, and work on what is not dead.

`python -m safety.scale` in `tests/` prints what the walk of them costs.
"""

import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import pytest
from bayleaf.loading.load import load
from bayleaf.model import actions
from bayleaf.model.procedure import Procedure, Step
from bayleaf.model.vehicle import Vehicle
from bayleaf.safety.walk_exact import ExactWalk
from bayleaf.safety.walk_joined import JoinedWalk
from bayleaf.safety.walk_things import ThingWalker
from oracle.judges import _surveyor
from oracle.steps import ask, do, perform, procedure, prove, step

CIRCUITS, SOURCES = 20, 6
SIZES = (125, 250, 500, 1000, 2000, 4000)

_POINT = "  {name}: {{name: Plug, kind: plug, breaks: conductor, leaves_live: none, first: none, only_when: none, secure_with: Lock}}\n"
_CIRCUIT = """\
  {name}:
    name: Bus
    energy: electrical
    voltage: {{kind: dc, nominal: 355 V, max: 410 V}}
    sources:
{sources}
    monitor: none
    stored: none
    dead_at:
      - {{pair: [{plug}/1 cable, {plug}/2 cable]}}
      - {{pair: [{plug}/1 cable, chassis]}}
      - {{pair: [{plug}/2 cable, chassis]}}
"""
_PLUG = (
    "  {plug}: {{name: Plug, pins: {{1: {{signal: plus, circuit: {name}}}, 2: {{signal: minus, circuit: {name}}}}}}}\n"
)


def vehicle() -> Vehicle:
    """Twenty circuits that are fed from six sources; each source is taken off in one of two ways."""
    sources = "\n".join(f"      source-{one}: {{taken_off_by: [[p{one}], [q{one}]]}}" for one in range(SOURCES))
    names = [(f"bus-{number}", f"X{number}") for number in range(CIRCUITS)]
    points = "".join(_POINT.format(name=f"{way}{one}") for one in range(SOURCES) for way in "pq")
    circuits = "".join(_CIRCUIT.format(name=name, plug=plug, sources=sources) for name, plug in names)
    plugs = "".join(_PLUG.format(name=name, plug=plug) for name, plug in names)
    text = f"format: 1\nvehicle: van\nname: Van\ncircuits:\n{circuits}isolation_points:\n{points}connectors:\n{plugs}"
    loaded = load("procedures/van/vehicle.yml", text.encode("utf-8"), "vehicle")
    assert not loaded.findings, loaded.findings[0].message
    found: Vehicle = loaded.model
    return found


def long(steps: int, kind: str) -> Procedure:
    """A procedure of so many steps of a kind, with a branch in eight of them: about 60 in 500."""
    blocks = [one for number in range(steps // 8) for one in KINDS[kind](number)]
    every = tuple(f"p{one}" for one in range(SOURCES))
    if kind != "sound":
        return procedure("van/long", blocks)
    circuits = vehicle().circuits.values()
    before = [step(actions.Disconnect(every)), step(actions.Secure(every)), *map(prove, circuits)]
    return procedure("van/long", [*before, *blocks, step(actions.Release(every)), step(actions.Reconnect(every))])


def _sound(number: int) -> Iterator[Step]:
    """Every circuit is dead by one way of each source; the other way is tried, or not, and work is done."""
    other = (f"q{number % SOURCES}",)
    yield ask(("with", f"with-{number}"), ("without", f"work-{number}"))
    yield step(actions.Disconnect(other), id=f"with-{number}")
    yield step(actions.Do(), id=f"work-{number}", on=(f"X{number % CIRCUITS}/1",))
    yield do("nothing")
    yield do(f"X{number % CIRCUITS}/2")
    yield do("nothing")
    yield do("nothing")
    yield step(actions.Reconnect(other))


def _faulty(number: int) -> Iterator[Step]:
    """A source is taken off in one of two ways, and work is done at what is not dead on any path."""
    points = f"p{number % SOURCES}", f"q{number % SOURCES}"
    yield from _taken_off(number)
    yield step(actions.Secure(points))
    yield do(f"X{number % CIRCUITS}/1")
    yield step(actions.Release(points))
    yield step(actions.Reconnect((f"p{(number + 3) % SOURCES}",)))


def _manifold(number: int) -> Iterator[Step]:
    """The same, and the ways that were taken add up: two to the power of six states at a step."""
    yield from _taken_off(number)
    yield do(f"X{number % CIRCUITS}/1")
    yield do("nothing")
    yield do("nothing")
    yield do("nothing")


def _taken_off(number: int) -> Iterator[Step]:
    source = number % SOURCES
    yield ask(("one", f"one-{number}"), ("the other", f"other-{number}"))
    yield step(actions.Disconnect((f"p{source}",)), id=f"one-{number}", then=f"on-{number}")
    yield step(actions.Disconnect((f"q{source}",)), id=f"other-{number}")
    yield step(actions.Do(), id=f"on-{number}", on=("nothing",))


KINDS = {"sound": _sound, "faulty": _faulty, "manifold": _manifold}


def chain(length: int) -> dict[str, Procedure]:
    """Procedures of which each performs the next one twice: 2 to the power of the length, walked one by one."""
    found = {}
    for number in range(length):
        steps = [do("nothing"), perform(f"van/part-{number + 1}"), perform(f"van/part-{number + 1}")]
        found[f"van/part-{number}"] = procedure(f"van/part-{number}", steps)
    found[f"van/part-{length}"] = procedure(f"van/part-{length}", [do("X0/1")])
    return found


@dataclass
class Cost:
    """What a walk took: states that came to a step of a circuit, joined and one by one; things that came to a step."""

    joined: int = 0
    exact: int = 0
    things: int = 0
    given_up: int = 0

    @property
    def states(self) -> int:
        """All of them."""
        return self.joined + self.exact + self.things


def cost(procedures: Mapping[str, Procedure], name: str) -> Cost:
    """The walk of one procedure with all circuits and things, counted and not timed."""
    found = Cost()

    def counted(patch: pytest.MonkeyPatch, kind: type, method: str, count: Callable[..., None]) -> None:
        right = getattr(kind, method)

        def counting(self: Any, *given: Any) -> Any:
            count(self, *given)
            return right(self, *given)

        patch.setattr(kind, method, counting)

    def joined(walk: Any, target: object, states: list[object], pending: object) -> None:
        found.joined += len(states)

    def exact(*_: object) -> None:
        found.exact += 1

    def things(*_: object) -> None:
        found.things += 1

    def given_up(*_: object) -> None:
        found.given_up += 1

    with pytest.MonkeyPatch.context() as patch:
        counted(patch, JoinedWalk, "_arrive", joined)
        counted(patch, JoinedWalk, "report", given_up)
        counted(patch, ExactWalk, "_arrive", exact)
        counted(patch, ThingWalker, "_left_exactly", things)
        counted(patch, ThingWalker, "left", things)
        _surveyor(procedures, vehicle()).surveys(name)
    return found


def seconds(procedures: Mapping[str, Procedure], name: str) -> float:
    """Seconds of the processor that the walk of one procedure takes, with all circuits and things."""
    surveyor = _surveyor(procedures, vehicle())
    begun = time.process_time()
    surveyor.surveys(name)
    return time.process_time() - begun


def main() -> None:
    """Prints the cost by length."""
    for kind in KINDS:
        for steps in SIZES:
            procedures = {"van/long": long(steps, kind)}
            each = seconds(procedures, "van/long") / steps / CIRCUITS * 1e6
            states = cost(procedures, "van/long").states / steps / CIRCUITS
            print(f"{steps:>5} steps, {kind:<8} {each:6.1f} µs and {states:5.2f} states a step and circuit", flush=True)
    print(f"a chain of 60 that each perform the next twice: {seconds(chain(60), 'van/part-0'):.2f} s")


if __name__ == "__main__":
    main()
