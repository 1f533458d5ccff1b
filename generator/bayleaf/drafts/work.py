"""The work on what is touched: what is opened for it, where it is done, and how all of it is put back.

Whatever is opened is put back in the reverse order, so that closing follows from opening.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from ..model.contact import Contact
from ..model.vehicle import Fastener, Part
from ..safety.carried import carried_by
from . import owned
from .danger import asked_safe, why_never_safe
from .readings import reading_at
from .surroundings import Around
from .yaml_text import Data

#: Kinds of job for which a part comes out.
TAKES_OUT = frozenset({"replacement", "repair"})


@dataclass(frozen=True, slots=True)
class Work:
    """The middle of a procedure. `needed` are the circuits to be made safe, `notes` what was left out, and why."""

    opening: tuple[Data, ...]
    inside: tuple[Data, ...]
    closing: tuple[Data, ...]
    needed: tuple[str, ...]
    notes: tuple[str, ...]


def work_on(touched: Sequence[str], kind: str, open_already: Iterable[str], around: Around) -> Work:
    """The work on these parts and connectors; `open_already` is what the isolation leaves off."""
    opening, inside, notes, needed = _Opening(around, frozenset(open_already)), [], [], {}
    for name in sorted(touched, key=lambda one: _comes_first(one, around)):
        part = around.vehicle.parts.get(name)
        before = len(opening.steps)
        opening.thing(name, kind)
        own = opening.steps[before:]
        why = _why_not(own, around)
        if why is not None:
            opening.undo_to(before)
            notes.append(f"{name} is not taken apart in this draft: {why}.")
            inside.append(_handed_over(name, why, around))
            own = []
            if part is not None:
                for connector in part.connectors:
                    opening.connector(connector)
                own = opening.steps[before:]
                if _why_not(own, around) is not None:
                    opening.undo_to(before)
                    own = []
        elif kind != "replacement" or part is None or _is_cover(part):
            inside.append(_worked_on(name, kind, around))
            if kind == "diagnosis" and {"unplug": name} in own:
                inside += reading_at(name, around)
        needed.update(dict.fromkeys((*asked_safe(own, around), *_circuits_of(name, around))))
    closing: list[Data] = []
    for step in reversed(opening.steps):
        back = _back(step, kind, touched, around)
        closing += [*_seen_on(back, around), back]
    return Work(tuple(opening.steps), tuple(inside), tuple(closing), tuple(needed), tuple(notes))


def _comes_first(name: str, around: Around) -> int:
    """Covers, then connectors, then parts."""
    part = around.vehicle.parts.get(name)
    return 1 if part is None else 0 if _is_cover(part) else 2


def _is_cover(part: Part) -> bool:
    return bool(part.exposes) and not part.circuits


def _circuits_of(name: str, around: Around) -> Iterator[str]:
    """What a part or connector carries that is isolated before work at it, apart from what is sealed in it."""
    part = around.vehicle.parts.get(name)
    carried = around.rig.circuits_at(Contact(name)) if part is None else (*part.circuits, *part.exposes)
    for circuit in carried:
        known = around.rig.known(circuit)
        is_inside = part is not None and known.circuit.sealed_in == name
        moves = known.circuit.energy in ("rotation", "gravity")
        if (known.is_dangerous or moves) and not is_inside and why_never_safe(circuit, around) is None:
            yield circuit


def _why_not(steps: Sequence[Data], around: Around) -> str | None:
    """Why these steps cannot be done: the first circuit they touch that nothing makes safe."""
    reasons = (why_never_safe(name, around) for name in asked_safe(steps, around))
    return next((why for why in reasons if why is not None), None)


class _Opening:
    """The steps that lay open what is worked on, each thing once."""

    def __init__(self, around: Around, open_already: frozenset[str]) -> None:
        self.around, self.off, self.steps = around, set(open_already), list[Data]()
        self.open_already = open_already

    def undo_to(self, length: int) -> None:
        """Takes back all steps from this one on."""
        del self.steps[length:]
        self.off = set(self.open_already)
        for step in self.steps:
            self.off.update(value for key, value in step.items() if key in _THINGS)

    def thing(self, name: str, kind: str) -> None:
        """Opens a connector, a cover, or a part for this kind of job."""
        part = self.around.vehicle.parts.get(name)
        if part is None:
            self.connector(name)
        elif _is_cover(part):
            self.cover(name)
        elif kind in TAKES_OUT:
            self.part(part)

    def connector(self, name: str) -> None:
        """The covers over it come off, its nuts are loosened, its halves are parted."""
        if name in self.off:
            return
        for cover in self._covers_over(name):
            self.cover(cover)
        for fastener in self._fasteners(lambda one: any(contact.connector == name for contact in one.terminal)):
            self._loosen(fastener)
        self._add("unplug", name)

    def cover(self, name: str) -> None:
        """Its screws are loosened, it comes off."""
        if name in self.off:
            return
        for fastener in self._fasteners(lambda one: one.part == name):
            self._loosen(fastener)
        self._add("remove", name)

    def part(self, part: Part) -> None:
        """Its plugs are pulled and capped where it keeps its own voltage, it is emptied, loosened and taken out."""
        if part.id in self.off:
            return
        for connector in part.connectors:
            self.connector(connector)
        if part.sealed:
            self._cap(part)
        for circuit in dict.fromkeys((*part.circuits, *part.exposes)):
            known = self.around.vehicle.circuits[circuit]
            if known.energy == "pressure" and not known.is_gas:
                self._add("drain", circuit)
        for fastener in self._fasteners(lambda one: one.part == part.id):
            self._loosen(fastener)
        self._add("remove", part.id)
        self.steps[-1]["do"] = f"TODO: say how {_called(part)} comes out{_weight(part)}."

    def _cap(self, part: Part) -> None:
        rig = self.around.rig
        plugs = [one for one in part.connectors if any(map(rig.dangerous.__contains__, rig.circuits_at(Contact(one))))]
        if plugs:
            places = [f"{plug} {side}" for plug in plugs for side in ("device", "cable")]
            self.steps.append({"fit_temporary": owned.caps(self.around.workshop), "at": places})

    def _covers_over(self, connector: str) -> tuple[str, ...]:
        pins = self.around.vehicle.connectors[connector].pins
        contacts = [Contact(connector, pin, side) for pin in pins for side in (None, "device", "cable")]
        return tuple(dict.fromkeys(cover for one in contacts for cover in self.around.rig.covers_at(one)))

    def _fasteners(self, fits: Callable[[Fastener], bool]) -> list[Fastener]:
        return [one for one in self.around.vehicle.fasteners.values() if fits(one)]

    def _loosen(self, fastener: Fastener) -> None:
        if fastener.id not in self.off:
            self._add("loosen", fastener.id)
            tool = owned.insulated_tools(self.around.workshop) if self._is_dangerous(fastener) else None
            if tool is not None:
                self.steps[-1]["tools"] = tool

    def _is_dangerous(self, fastener: Fastener) -> bool:
        vehicle, rig = self.around.vehicle, self.around.rig
        bare = [name for contact in fastener.terminal for name in rig.circuits_at(contact)]
        part = vehicle.parts.get(fastener.part or "")
        bare += part.exposes if part is not None else ()
        return any(name in rig.dangerous for name in bare)

    def _add(self, key: str, name: str) -> None:
        if name not in self.off:
            self.off.add(name)
            self.steps.append({key: name})


#: Actions that take something out of its place, and the action that puts it back.
_THINGS = {
    "unplug": "plug", "remove": "refit", "loosen": "tighten", "fit_temporary": "remove_temporary", "drain": "fill",
}  # fmt: skip


def _back(step: Data, kind: str, touched: Sequence[str], around: Around) -> Data:
    """The step that puts back what another one has taken off."""
    key = next(iter(step))
    name = step[key]
    back: Data = {_THINGS[key]: name}
    if key == "remove" and kind == "replacement" and name in touched:
        back |= {"new": "yes", "do": f"TODO: say how {_called(around.vehicle.parts[name], new=True)} goes in."}
    elif key == "remove" and "do" in step:
        back["do"] = f"TODO: say how {_called(around.vehicle.parts[name])} goes back in."
    elif key == "loosen":
        fastener = around.vehicle.fasteners[name]
        if fastener.one_use or fastener.yields:
            back["new"] = "yes"
        wrench = owned.wrench_for(fastener, around.workshop)
        if wrench is not None:
            back["tools"] = wrench
    elif key == "fit_temporary":
        back["on"] = step["at"]
    elif key == "drain":
        back |= {"with": "TODO: with what, and how much", "do": "TODO: say how it is filled and bled."}
    return back


def _seen_on(back: Data, around: Around) -> Iterator[Data]:
    """A new battery brings its own switch or plug: it is locked open before it is fitted."""
    if "new" in back and "refit" in back:
        for name in carried_by(str(back["refit"]), around.rig):
            if around.vehicle.isolation_points[name].secure_with is not None:
                yield {"secure": name, "do": "TODO: say how it is seen on the new part that it is open, and locked."}


def left_out(steps: Iterable[Data]) -> list[Data]:
    """What these steps take out of its place and do not put back, one step for each thing, in their order."""
    out: dict[tuple[str, str], Data] = {}
    for step in steps:
        for key, back_key in _THINGS.items():
            names = step.get(key), step.get(back_key)
            for name in names_in(names[0]):
                out[key, name] = {key: name, **({"at": step["at"]} if key == "fit_temporary" else {})}
            for name in names_in(names[1]):
                out.pop((key, name), None)
    return list(out.values())


def back_in_place(steps: Sequence[Data], around: Around) -> list[Data]:
    """The steps that put back what these have taken off, in the reverse order."""
    return [_back(step, "repair", (), around) for step in reversed(steps)]


def names_in(value: object) -> list[str]:
    """The names that a key of a step holds: none, one or several."""
    return [] if value is None else [value] if isinstance(value, str) else list(value)  # type: ignore[call-overload]


def _handed_over(name: str, why: str, around: Around) -> Data:
    called = _called(around.vehicle.parts[name]) if name in around.vehicle.parts else name
    text = f"TODO: say who makes {called} safe and takes it out, and with what; {why}."
    return {"do": text, "on": "nothing"}


def _worked_on(name: str, kind: str, around: Around) -> Data:
    part = around.vehicle.parts.get(name)
    called = _called(part) if part is not None else f"{name}, {around.vehicle.connectors[name].name}"
    asks = {
        "diagnosis": f"TODO: say what is looked at or measured at {called}, and what a good one shows.",
        "inspection": f"TODO: say what is looked at on {called}, and what a good one looks like.",
    }
    return {"do": asks.get(kind, f"TODO: say what is done at {called}."), "on": name}


def _called(part: Part, new: bool = False) -> str:
    """How a part is called within a sentence."""
    name = part.name.split(",")[0]
    name = f"{name[0].lower()}{name[1:]}" if len(name) > 1 and name[1].islower() else name
    return f"the new {name}" if new else f"the {name}"


def _weight(part: Part) -> str:
    return f", and how its {part.mass} are held" if part.mass is not None else ""
