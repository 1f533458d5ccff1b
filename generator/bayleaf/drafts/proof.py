"""How a circuit is proved dead, or read as safe, with the covers that come off for it."""

from collections.abc import Sequence
from fractions import Fraction

from ..model.vehicle import Circuit
from ..safety.protection import protection_for
from ..safety.wait import required_wait
from . import owned
from .danger import read_steps
from .surroundings import Around
from .yaml_text import Data

#: What is shown on a tester where nothing is left, unless the workshop asks for less (common practice).
_DEAD_BELOW = "5 V"

#: A signal says little before it was seen to follow what it stands for (common practice).
_SIGNAL = "TODO: say at which contacts the signal is read, and how it was seen before that it moves."


def proof_steps(name: str, open_already: dict[str, None], around: Around) -> tuple[list[Data], list[Data]]:
    """The steps that prove a circuit dead, with its covers; and those that close the covers. `open_already` grows."""
    circuit = around.vehicle.circuits[name]
    covers = dict.fromkeys(point.access for point in circuit.dead_at if point.access is not None)
    opening: list[Data] = []
    closing: list[Data] = []
    for cover in covers:
        if cover not in open_already:
            open_already[cover] = None
            opening += covers_off([cover], open_already, around)
            closing[:0] = covers_on([cover], around)
    opening.append(prove(circuit, around))
    return opening, closing


def covers_off(covers: Sequence[str], open_already: dict[str, None], around: Around) -> list[Data]:
    """Covers, with what is worn while nothing is proved."""
    steps: list[Data] = []
    for cover in covers:
        for fastener in around.vehicle.fasteners.values():
            if fastener.part == cover and fastener.id not in open_already:
                open_already[fastener.id] = None
                tool = owned.insulated_tools(around.workshop)
                steps.append({"loosen": fastener.id, **({"tools": tool} if tool else {})})
        steps.append({"remove": cover})
    worn = dressed(steps[-1], around) if steps else {}
    return [{**step, **worn} for step in steps]


def covers_on(covers: Sequence[str], around: Around) -> list[Data]:
    """The same back in their place."""
    steps: list[Data] = []
    for cover in covers:
        steps.append({"refit": cover})
        for fastener in around.vehicle.fasteners.values():
            if fastener.part == cover:
                steps.append(tightened(fastener.id, around))
    return steps


def tightened(name: str, around: Around) -> Data:
    """The step that tightens a fastener of the profile, with a wrench of the workshop."""
    fastener = around.vehicle.fasteners[name]
    step: Data = {"tighten": name}
    if fastener.one_use or fastener.yields:
        step["new"] = "yes"
    wrench = owned.wrench_for(fastener, around.workshop)
    return {**step, "tools": wrench} if wrench is not None else step


def prove(circuit: Circuit, around: Around, not_dead: str = "stop") -> Data:
    """A proof at all test points of the profile, the tester proved before and after."""
    step: Data = {"id": f"prove-{circuit.id}", "prove_dead": circuit.id}
    tester = owned.tester_for(circuit, around.workshop)
    unit = owned.proving_unit(around.workshop)
    if tester is not None:
        step["using"] = tester.id
    if unit is not None:
        step["tester_proved"] = {"before": unit, "after": unit}
    highest = around.workshop.policy.dead_below
    step |= {"limits": f"at most {highest or _DEAD_BELOW}", "source": "workshop practice", **dressed(step, around)}
    if around.rig.known(circuit.id).category == "class B":
        step["people"] = "2"
    if not_dead != "stop":
        step["outcomes"] = {"dead": "next", "not_dead": not_dead, "not_decided": not_dead}
    return step


def safe_steps(name: str, around: Around) -> list[Data]:
    """A reading for each thing of which the profile says when it is safe."""
    steps: list[Data] = []
    for what, limit in around.vehicle.circuits[name].safe:
        reader = owned.reader_of(what, around.workshop)
        using = {"using": reader} if reader is not None else {}
        where = {"do": _SIGNAL} if what == "voltage" else {}
        steps.append({"prove_safe": name, **where, **using, "limits": str(limit), "source": "workshop practice"})
    return steps


def wait_for(names: Sequence[str], around: Around) -> list[Data]:
    """The longest of the required waits of these circuits, in minutes where they come out whole."""
    waits = {name: required_wait(around.vehicle.circuits[name]).seconds for name in names}
    known = {name: seconds for name, seconds in waits.items() if seconds}
    if not known:
        return []
    return [{"id": "settle", "wait": _time(max(known.values())), "for": list(known), "attended": "no"}]


def _time(seconds: Fraction) -> str:
    minutes = seconds / 60
    return f"{minutes} min" if minutes.denominator == 1 else f"{-(-seconds // 1)} s"


def dressed(step: Data, around: Around) -> Data:
    """What is worn at a step, of what the workshop owns; nothing where nothing is asked for or owned."""
    (read,) = read_steps([step], around.folder)
    worn = owned.worn_for(protection_for(read, around.vehicle), around.workshop)
    return {"wear": worn[0] if len(worn) == 1 else worn} if worn else {}
