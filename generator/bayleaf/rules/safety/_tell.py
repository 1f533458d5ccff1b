"""How a need that is not met is told: the step, what it touches, what is asked, what may be, the path, the mending."""

from collections.abc import Iterable, Iterator

from ...model import actions
from ...model.procedure import Step
from ...model.vehicle import Circuit
from ...quantities.display import show
from ...safety.breaches import Breach, Spot, Turn
from ...safety.demands import Demand
from ...safety.holds import Level, Word
from ...safety.things import ThingDemand
from ..case import Case
from ..fault import Fault
from ..fault import Spot as Place

#: What a step does to what it names, for "step 9 ... `X7`".
VERBS: dict[type, str] = {
    actions.Unplug: "unplugs",
    actions.Plug: "plugs in",
    actions.Remove: "takes off",
    actions.Refit: "refits",
    actions.Loosen: "loosens",
    actions.Tighten: "tightens",
    actions.Drain: "drains",
    actions.Fill: "fills",
    actions.OpenValve: "opens",
    actions.FitTemporary: "fits",
    actions.RemoveTemporary: "takes off",
    actions.Measure: "measures at",
    actions.ProveDead: "proves",
    actions.Discharge: "discharges",
    actions.Reconnect: "reconnects",
    actions.Energise: "energises",
    actions.Disconnect: "disconnects",
    actions.Secure: "secures",
}

#: What a state means for the hand that reaches in.
MAY_BE: dict[Word, str] = {
    "live": "live",
    "switched off": "only switched off",
    "disconnected": "disconnected, but neither secured nor proved dead",
    "secured": "secured, but not waited and not proved dead",
    "waited": "waited, but not proved dead",
    "proved dead": "proved dead",
    "charged by test": "charged by the tester",
    "not dead": "found not dead",
}


#: The opposite of each condition.
_AGAINST = {
    "unplugged": "plugged in",
    "plugged": "unplugged",
    "open": "closed",
    "closed": "open",
    "removed": "in its place",
    "fitted": "off",
}

#: The fields of actions that hold what is worked on.
_NAMED = ("connectors", "parts", "fasteners", "what", "points")

#: What is asked, in the words of the states.
NEEDED: dict[Level, str] = {
    "live": "live",
    "switched off": "switched off",
    "isolated": "disconnected",
    "locked": "secured",
    "access": "disconnected, secured and waited",
    "waited": "disconnected, secured and waited",
    "dead": "proved dead",
}


def of_kind(case: Case, *kinds: str) -> Iterator[Breach]:
    """The breaches of some kinds."""
    return (breach for breach in case.walked if breach.kind in kinds)


def step_words(spot: Spot, inside: bool = False) -> str:
    """How a step is called: its number, its name, and its procedure where it stands in another one."""
    name = f" (`{spot.step.id}`)" if spot.step.id is not None else ""
    return f"step {spot.step.number}{name}" + (f" of `{spot.procedure.id}`" if inside else "")


def does(breach: Breach) -> str:
    """What the step does to what it names."""
    spot = breach.spots[-1]
    verb = VERBS.get(spot.step.action.__class__, "touches")
    return f"{step_words(spot, len(breach.spots) > 1)} {verb} `{breach.demand.name}`"


def touched(step: Step) -> str:
    """What a step works on, for a message: the names it gives, or its words."""
    fields = (getattr(step.action, field, ()) for field in _NAMED)
    names = next((found for found in fields if isinstance(found, tuple) and found), step.on)
    if isinstance(step.action, actions.Measure):
        names = tuple(str(contact) for pair in step.action.pairs for contact in pair)
    return join_words(dict.fromkeys(map(str, names[:3]))) if names else "the vehicle"


def thing_words(demand: ThingDemand) -> str:
    """What may be the case against a condition, in words."""
    if demand.wants == "mode":
        return f"the vehicle may not be in mode {demand.thing}"
    return f"`{demand.thing}` may be {_AGAINST[demand.state]}"


def circuit_of(breach: Breach, case: Case) -> Circuit:
    """The circuit that a breach is about."""
    assert case.vehicle is not None and isinstance(breach.demand, Demand)
    return case.vehicle.circuits[breach.demand.circuit]


def voltage_words(circuit: Circuit) -> str:
    """The highest voltage of a circuit, for a message."""
    voltage = circuit.voltage
    if voltage is None or voltage.max is None:
        return "of unknown voltage"
    return f"up to {show(voltage.max)} {voltage.kind.upper()}"


def fault_of(breach: Breach, case: Case, message: str, because: str, help_: str | None = None) -> Fault:
    """The fault at the step of the file itself; what lies in a performed procedure is shown beside it."""
    see: list[Place] = []
    at = breach.demand.at
    if len(breach.spots) > 1:
        inner = breach.spots[-1]
        at = (*breach.spots[0].step.at, "perform")
        see.append(Place(inner.procedure.file, breach.demand.at, f"{step_words(inner)} of `{inner.procedure.id}`"))
    file = breach.spots[0].procedure.file if breach.spots else ""
    see += [Place(file, turn.step.at, _turn_words(turn, breach, case)) for turn in _telling(breach.turns) if file]
    way = f"; shortest path: {breach.way}" if breach.way else ""
    variant = f" (variant `{breach.variant}`)" if breach.variant else ""
    data = {"path": breach.way, "state": breach.word, "circuit": getattr(breach.demand, "circuit", None)}
    return Fault(at, message, f"{because}{way}{variant}", help_ or mending(breach, case), tuple(see), data=data)


def _telling(turns: tuple[Turn, ...]) -> list[Turn]:
    """What undoes the safety, and the last choices of the path; no more than a reader follows."""
    undone = [turn for turn in turns if turn.undoes]
    return undone or list(turns[-3:])


def _turn_words(turn: Turn, breach: Breach, case: Case) -> str:
    name = f"step {turn.step.number}" + (f" (`{turn.step.id}`)" if turn.step.id is not None else "")
    left = f", left by `{turn.exit}`" if turn.exit is not None else ""
    if turn.undoes and isinstance(breach.demand, Demand):
        is_read = breach.demand.level == "dead" and circuit_of(breach, case).energy != "electrical"
        needed = "read as safe" if is_read else NEEDED[breach.demand.level]
        return f"after {name}{left}, `{breach.demand.circuit}` is no longer {needed}"
    return f"{name}{left}"


def mending(breach: Breach, case: Case) -> str:
    """What would make it right, in the order in which it is done."""
    lacks = breach.lacks
    assert lacks is not None and isinstance(breach.demand, Demand)
    circuit = breach.demand.circuit
    step = breach.mended_before or (breach.spots[0].step.number if breach.spots else None)
    before = f"before step {step}" if step is not None else "before this end"
    if lacks.never:
        return f"nothing takes `{circuit}` off; leave it closed, or write in the profile what does"
    isolation = isolation_asked(breach, case)
    if isolation is not None:
        return f"add `perform: {isolation}` {before}, on every path"
    parts = []
    if "mode-off" in lacks.open:
        parts.append("`set: {mode: off}`")
    points = [name for name in lacks.open if name != "mode-off"]
    if points:
        parts.append(f"`disconnect: [{', '.join(points)}]`")
    if lacks.secured:
        parts.append(f"`secure: [{', '.join(lacks.secured)}]`")
    if lacks.discharge:
        parts.append(f"`discharge: {circuit}` with a reading at the same pins")
    if lacks.seconds is None:
        parts.append(f"`discharge: {circuit}`, since no waiting is known to be enough")
    elif lacks.seconds:
        parts.append(f"`wait: {_time(lacks.seconds)}`")
    if lacks.pairs:
        proof = "prove_dead" if _is_electrical(circuit, case) else "prove_safe"
        parts.append(f"`{proof}: {circuit}` ({', '.join((*lacks.pairs, *lacks.others))})")
    return f"add {before}: {', then '.join(parts)}" if parts else f"mend what stands {before}"


def isolation_asked(breach: Breach, case: Case) -> str | None:
    """The isolation procedure that has to be performed before the step; None where something else is lacking."""
    lacks = breach.lacks
    if lacks is None or lacks.never or not lacks.open or lacks.open == ("mode-off",):
        return None
    isolation = isolation_of(breach.demand.circuit, case) if isinstance(breach.demand, Demand) else None
    return None if isolation in {spot.procedure.id for spot in breach.spots} else isolation


def isolation_of(circuit: str, case: Case) -> str | None:
    """The isolation procedure of the vehicle that leaves a circuit proved dead, or isolated."""
    if case.vehicle is None:
        return None
    own = [fact for fact in case.facts.values() if fact.folder == case.vehicle.id and fact.kind == "isolation"]
    found = [fact.id for fact in own if dict(fact.leaves).get(circuit) == "proved dead"]
    return next(iter(found), None)


def _is_electrical(name: str, case: Case) -> bool:
    circuit = case.vehicle.circuits.get(name) if case.vehicle is not None else None
    return circuit is None or circuit.energy == "electrical"


def _time(seconds: float) -> str:
    return f"{seconds / 60:g} min" if seconds % 60 == 0 else f"{seconds:g} s"


def join_words(names: Iterable[str]) -> str:
    """Names in a row, with "and" before the last."""
    *most, last = [f"`{name}`" for name in names]
    return f"{', '.join(most)} and {last}" if most else last
