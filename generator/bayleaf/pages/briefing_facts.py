"""What a safety briefing says, drawn from the steps as they are really done and from the proved states."""

from collections.abc import Hashable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Literal

from ..model import actions
from ..model.common import MODE_OFF
from ..model.pins import contacts_of
from ..model.vehicle import Circuit, Source, Vehicle
from ..safety.holds import Word
from ..safety.protection import Wanted, glove_class_for, protection_for
from ..safety.rig import Rig, category_of
from . import energy_words as words
from .briefing_link import dangerous_circuits
from .show import plain
from .states import StateBook, is_safer
from .unfolded import Unfolded

Level = Literal["aware", "instructed", "dead work", "live work"]
#: Who may do it, from the least demanding up. The stages are those of DGUV Information 209-093 (from memory), said in
#: words of our own; other countries have other names for much the same.
LEVELS: tuple[tuple[Level, str], ...] = (
    ("aware", "a person who is aware of the dangers (stage S) and handles nothing orange"),
    ("instructed", "an instructed person (stage 1S), guided by one who is qualified"),
    ("dead work", "a person qualified for work on dead high-voltage systems (stage 2S)"),
    ("live work", "a person qualified for work on live parts (stage 3S)"),
)
#: What is done by hand at a circuit of class B only by somebody qualified for dead work.
_BY_HAND = (
    actions.Disconnect, actions.Reconnect, actions.Secure, actions.Release, actions.Unplug, actions.Plug,
    actions.Remove, actions.Refit, actions.Loosen, actions.Tighten, actions.FitTemporary, actions.RemoveTemporary,
    actions.ProveDead, actions.Discharge, actions.Measure, actions.Do,
)  # fmt: skip
_ENERGISES = (actions.Reconnect, actions.Energise)
_WORN = {
    "over-gloves": "leather gloves over them", "face shield": "face shield", "eye protection": "eye protection",
    "insulated tools": "insulated tools",
}  # fmt: skip
_FIRST_SAFE: Word = "disconnected"


@dataclass(frozen=True)
class Facts:
    """A procedure as its briefing needs it. `circuits` are the dangerous ones that it meets.

    `shared` keeps what comes out alike for many procedures of the vehicle.
    """

    vehicle: Vehicle
    rig: Rig
    steps: tuple[Unfolded, ...]
    circuits: tuple[Circuit, ...]
    shared: dict[Hashable, Any]

    @property
    def is_class_b(self) -> bool:
        """Whether a circuit of voltage class B is met."""
        return any(one.is_class_b for one in self.circuits)

    @cached_property
    def best(self) -> Mapping[str, Word]:
        """The safest state that each circuit comes to."""
        found: dict[str, Word] = {}
        for one in self.steps:
            if one.states is not None:
                for words_there in (one.states.before, *one.states.after.values()):
                    for circuit, word in words_there.items():
                        if circuit not in found or is_safer(word, found[circuit]):
                            found[circuit] = word
        return found

    @cached_property
    def places(self) -> Mapping[str, int]:
        """The place of every step by its number."""
        return {one.number: index for index, one in enumerate(self.steps)}


def facts_of(procedure: str, steps: tuple[Unfolded, ...], book: StateBook) -> Facts:
    """The facts of a procedure whose states are proved."""
    vehicle = book.vehicle
    return Facts(vehicle, book.rig, steps, dangerous_circuits(procedure, book), book.shared)


def level_of(facts: Facts) -> Level:
    """Who may do it, by the most demanding step."""
    if any(_is_live_work(one, facts) for one in facts.steps):
        return "live work"
    high = {circuit.id for circuit in facts.circuits if circuit.is_class_b}
    touched = [one for one in facts.steps if one.states is not None and isinstance(one.action, _BY_HAND)]
    if any(high & one.states.touched for one in touched if one.states is not None):
        return "dead work"
    return "instructed" if facts.circuits else "aware"


def _is_live_work(one: Unfolded, facts: Facts) -> bool:
    """Whether voltage is read by hand where class B is not dead, or insulation by the voltmeter method of UN R100."""
    action = one.action
    if isinstance(action, actions.Compute):
        return action.formula == "insulation by voltmeter"
    if not isinstance(action, actions.Measure) or action.quantity != "voltage" or one.states is None:
        return False
    for contact in contacts_of(action):
        if not facts.rig.adapters_at(contact.connector, (*one.step.tools, *action.where)):
            for name in facts.rig.circuits_at(contact):
                if facts.vehicle.circuits[name].is_class_b and one.states.before.get(name) != "proved dead":
                    return True
    return False


def never_alone(facts: Facts) -> tuple[Unfolded, ...]:
    """The steps of parting and uncovering, proving, reading what may be live, and making live, where class B is met."""
    dangerous = {circuit.id for circuit in facts.circuits if circuit.is_class_b}
    return tuple(one for one in facts.steps if _wants_company(one, dangerous))


def _wants_company(one: Unfolded, dangerous: set[str]) -> bool:
    action = one.action
    if isinstance(action, actions.ProveDead | actions.Discharge):
        return action.circuit in dangerous
    if isinstance(action, actions.Command):
        return bool(dangerous.intersection(action.energises))
    if one.states is None or not dangerous & one.states.touched:
        return False
    if isinstance(action, actions.Disconnect | actions.Remove):
        return any(one.states.before.get(name) != "proved dead" for name in dangerous & one.states.touched)
    if isinstance(action, actions.SetMode):
        return action.mode in ("ready", "charging", "engine running")
    return isinstance(action, _ENERGISES) or (
        isinstance(action, actions.Measure) and action.quantity in ("voltage", "current", "insulation resistance")
    )


def protections(facts: Facts) -> tuple[tuple[str, tuple[Unfolded, ...]], ...]:
    """What is worn and used, each with its steps; what the authors ask for beyond it stands on the steps."""
    found: dict[str, list[Unfolded]] = {}
    for one in facts.steps:
        if one.states is not None:
            dead = frozenset(name for name, word in one.states.before.items() if word == "proved dead")
            key = "protection", one.owner.id, one.step.number, dead
            text = facts.shared.get(key)
            if text is None:
                text = facts.shared[key] = protection_words(one, facts.vehicle, dead)
            if text:
                found.setdefault(text, []).append(one)
    return tuple((text, tuple(steps)) for text, steps in found.items())


def protection_words(one: Unfolded, vehicle: Vehicle, dead: frozenset[str]) -> str:
    """What a step asks to be worn: "gloves class 0 (for 410 V DC), face shield, insulated tools"."""
    wanted = protection_for(one.step, vehicle, dead)
    said: dict[str, None] = {}
    gloves = [item for item in wanted if item.kind == "gloves"]
    if gloves:
        worst = max(gloves, key=lambda item: item.volts / (3 if item.voltage_kind == "dc" else 2))  # DC is 1.5 times AC
        grade = glove_class_for(worst.volts, worst.voltage_kind)
        volts = " and ".join(dict.fromkeys(_volts_words(item) for item in gloves))
        name = f"class {grade.name} at least" if grade else "of no class that exists"
        said[f"insulating gloves {name} (for {volts})"] = None
    said.update(dict.fromkeys(_WORN[item.kind] for item in wanted if item.kind in _WORN))
    return ", ".join(said)


def _volts_words(wanted: Wanted) -> str:
    volts = plain(wanted.voltage) if wanted.voltage else f"up to {wanted.volts}\u00a0V"
    return f"{volts} {wanted.voltage_kind.upper()}"


def glove_class(facts: Facts) -> str:
    """The gloves of the whole job; empty where none are asked for."""
    found = {text.split(",")[0] for text, _ in protections(facts) if text.startswith("insulating gloves")}
    return max(found, default="")


def taken_off_at(source: Source, facts: Facts) -> tuple[tuple[str, tuple[Unfolded, ...]], ...] | None:
    """The points at which a source is taken off in this procedure, with the steps; None where it is not."""
    opened: dict[str, list[Unfolded]] = {}
    for one in facts.steps:
        if isinstance(one.action, actions.Disconnect):
            for point in one.action.points:
                opened.setdefault(point, []).append(one)
        elif isinstance(one.action, actions.SetMode) and one.action.mode in ("off", "asleep"):
            opened.setdefault(MODE_OFF, []).append(one)
    whole = [way for way in source.taken_off_by if way and all(point in opened for point in way)]
    if not whole:
        return None
    return tuple((point, tuple(opened[point])) for point in min(whole, key=len))


def opened_points(facts: Facts) -> frozenset[str]:
    """The isolation points that are opened on some way through the procedure and what it performs."""
    return frozenset(
        name for one in facts.steps if isinstance(one.action, actions.Disconnect) for name in one.action.points
    )


def still_live(facts: Facts) -> Iterator[tuple[str, str]]:
    """What stays live although all is done, and why: sealed circuits, and what is not taken off on the way."""
    met = {circuit.id for circuit in facts.circuits}
    for circuit in words.by_danger(facts.vehicle):
        if category_of(circuit) == "low":
            continue
        best = facts.best.get(circuit.id)
        if circuit.sealed_in:
            part = facts.vehicle.parts.get(circuit.sealed_in)
            yield circuit.name, f"sealed in {part.name if part else circuit.sealed_in}, never opened"
        elif circuit.id not in met or best is None:
            yield circuit.name, "not dealt with in this procedure"
        elif is_safer(_FIRST_SAFE, best):
            yield circuit.name, "not taken off in this procedure"
        elif best != "proved dead":
            unread = "not proved dead" if circuit.energy == "electrical" else "not read as safe"
            yield circuit.name, f"taken off, but {unread} in this procedure"


def waits_for(circuit: Circuit, steps: Iterable[Unfolded]) -> tuple[Unfolded, ...]:
    """The steps that wait for a circuit."""
    return tuple(one for one in steps if isinstance(one.action, actions.Wait) and circuit.id in one.action.what_for)


def proofs_of(circuit: Circuit, steps: Iterable[Unfolded]) -> tuple[Unfolded, ...]:
    """The steps that prove a circuit dead, or read it as safe."""
    proving = (actions.ProveDead, actions.ProveSafe)
    return tuple(one for one in steps if isinstance(one.action, proving) and one.action.circuit == circuit.id)


def insulation_tests(facts: Facts) -> tuple[Unfolded, ...]:
    """The steps that put a test voltage on something."""
    return tuple(
        one for one in facts.steps if isinstance(one.action, actions.Measure) and one.action.test_voltage is not None
    )
