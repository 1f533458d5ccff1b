"""What the script of a procedure's page has to know of its steps: JSON, every number as an exact text "n/d".

The steps stand in the order of the page, those of performed procedures behind the step that performs them, under the
anchors of the page and the paths of a job record. Where an exit leads is worked out here, through all that is
performed: to a step, to an end, or to a stop.
"""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from markupsafe import Markup

from ..graph.build import ways_out
from ..graph.effects import effects_of
from ..limits.wrench import setting_on, wrenches
from ..manual import Manual
from ..model import actions
from ..model.procedure import END, NEXT, STOP, Procedure, Step
from ..model.vehicle import Vehicle
from ..quantities.display import show
from ..quantities.figures import figure
from ..quantities.units import unit
from ..safety.proof_holds import ended_by, growing_old, holds_in, renews
from ..safety.rig import Known, Rig
from .body import Script
from .naming import Naming
from .show import both
from .states import StateBook, StepStates
from .step_parts import Told
from .step_view import Performed
from .unfolded import DEEPEST
from .working_readings import Data, readings_of, spellings_typed

#: A place that an exit leads to: ["step", anchor], ["end", conclusion] or ["stop", conclusion, its finding], and what
#: to do then where the conclusion is that of a performed procedure, which stands on another page.
Place = list[str]

_MODULES = (
    "exact", "verdict", "reading", "job_yaml", "job_ages", "job_flow", "job_store", "job_merge", "job_parts",
    "job_computed", "job_readings", "job_steps", "job_marks", "job_looks", "job_view", "job_taken", "job_fitted",
    "job_fields", "job_panel", "job", "job_paper",
)  # fmt: skip


_SCRIPTS = tuple(Script(f"assets/{name}.js") for name in _MODULES)


def scripts() -> tuple[Script, ...]:
    """What a procedure's page needs to be worked with, in the order in which it is loaded."""
    return _SCRIPTS


def working_data(procedure: Procedure, manual: Manual, performed: Performed, told: Told | None) -> Markup:
    """The JSON for a `<script type="application/json">`: no `<` is in it."""
    data = data_of(procedure, manual, performed, told)
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return Markup(text.replace("<", "\\u003c"))


def data_of(procedure: Procedure, manual: Manual, performed: Performed, told: Told | None) -> Data:
    """The same as plain data."""
    naming = performed.naming(procedure.folder)
    vehicle = manual.vehicles.get(procedure.folder)
    way = _Way("", "", "step", ("end", ""), {}, None if told is None else told.table.steps, (procedure.id,))
    book = performed.states.of(procedure) if told is not None else None
    rig = performed.rig(procedure.folder)
    aging = growing_old(rig) if rig is not None else ()
    steps = list(_Maker(manual, naming, book, rig, aging).steps(procedure, way))
    circuits = sorted({name for step in steps for name in (*step.get("dead", ()), step.get("proves", "")) if name})
    symbols = sorted({symbol for step in steps for one in step.get("readings", ()) for symbol in one["ladder"]})
    revision = procedure.revisions[0].number if procedure.revisions else None
    return {
        "manual": manual.workshop.name or "manual",
        "procedure": procedure.id,
        "title": procedure.title,
        "revision": revision or 1,
        "digest": performed.digests.of(procedure, vehicle),
        "vin": manual.workshop.policy.allow_vin,
        "variants": _variants(procedure, vehicle.variants if vehicle is not None else {}),
        "circuits": {name: naming.plain(name) for name in circuits},
        "proof_holds": str(holds_in(manual.workshop)),
        "aging": [known.id for known in aging if known.id in circuits],
        "units": {symbol: _unit(symbol) for symbol in symbols},
        "conclusions": {one.id: one.finding for one in procedure.conclusions.values()},
        "parts": _parts(vehicle),
        "steps": steps,
    }


def _parts(vehicle: Vehicle | None) -> list[list[str]]:
    """Name, words and newest number of what may be fitted."""
    known = vehicle.parts if vehicle is not None else {}
    return [[name, one.name, one.numbers[0].number if one.numbers else ""] for name, one in known.items()]


def _variants(procedure: Procedure, known: Mapping[str, Any]) -> list[list[str]]:
    return [[name, one.name] for name, one in known.items() if not procedure.variants or name in procedure.variants]


def _unit(symbol: str) -> Data:
    found = unit(symbol)
    return {"factor": str(found.factor), "offset": str(found.offset), "spellings": spellings_typed(found)}


@dataclass(frozen=True, slots=True)
class _Way:
    """Where a procedure stands on the page, and what follows it: `end` and, by conclusion, `returns`."""

    path: str
    number: str
    anchor: str
    end: tuple[str, ...]
    returns: Mapping[str, Place]
    states: Mapping[str, StepStates] | None
    inside: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Maker:
    """Makes the steps of one page."""

    manual: Manual
    naming: Naming
    book: StateBook | None
    rig: Rig | None
    aging: tuple[Known, ...]

    def steps(self, procedure: Procedure, way: _Way) -> Iterator[Data]:
        """Every step of a procedure with those that it performs behind it."""
        for index, step in enumerate(procedure.steps):
            callee = self._callee(step, procedure, way)
            to = partial(self._place, procedure, way, index)
            states = None if way.states is None else way.states.get(step.number)
            comes_back = self.manual.facts[callee.id].comes_back if callee is not None else ("end",)
            exits = [
                {"name": exit, "to": to(target), **self._ends(step, exit)}
                for exit, target, _ in ways_out(step, comes_back)
            ]
            made = {
                "path": way.path + (step.id or step.number),
                "number": way.number + step.number,
                "anchor": _anchor(way, step),
                "kind": step.action.key,
                "exits": exits,
                "behind": to(NEXT),
                **self._more(step, procedure, way),
            }
            before = states.before.items() if states is not None else ()
            dead = sorted(name for name, word in before if word == "proved dead")
            if dead:
                made["dead"] = dead
            if callee is None:
                yield made
                continue
            inner = self._inner(callee, step, way, exits, states)
            yield {**made, "first": _anchor(inner, callee.steps[0])}
            yield from self.steps(callee, inner)

    def _inner(self, callee: Procedure, step: Step, way: _Way, exits: list[Data], states: StepStates | None) -> _Way:
        leads = {one["name"]: one["to"] for one in exits}
        table = None if states is None or self.book is None else self.book.table(states.inner).steps
        return _Way(
            f"{way.path}{step.id or step.number}/",
            f"{way.number}{step.number}.",
            _anchor(way, step),
            tuple(leads.get("end", ("stop", "", ""))),
            leads,
            table,
            (*way.inside, callee.id),
        )

    def _ends(self, step: Step, exit: str) -> Data:
        """The circuits of which nothing counts as proved behind an exit, since they may be live by the plan."""
        ended = ended_by(effects_of(step, exit), self.aging, self.rig) if self.rig is not None else ()
        return {"ends": list(ended)} if ended else {}

    def _callee(self, step: Step, procedure: Procedure, way: _Way) -> Procedure | None:
        if not isinstance(step.action, actions.Perform):
            return None
        callee = self.manual.procedures.get(step.action.procedure)
        if callee is None or not callee.steps or callee.id in way.inside or len(way.inside) > DEEPEST:
            return None
        return callee

    def _place(self, procedure: Procedure, way: _Way, index: int, target: str) -> Place:
        """Where a target leads from a step, out of what is performed where it ends there."""
        if target == NEXT and index + 1 < len(procedure.steps):
            return ["step", _anchor(way, procedure.steps[index + 1])]
        if target in (NEXT, END):
            return list(way.end)
        if target == STOP:
            return ["stop", "", ""]
        for step in procedure.steps:
            if step.id == target:
                return ["step", _anchor(way, step)]
        found = procedure.conclusions.get(target)
        if found is None or found.stops:
            if found is None:
                return ["stop", "", ""]
            return ["stop", "", found.finding, found.say or ""] if way.path else ["stop", target, found.finding]
        return list(way.returns.get(target, way.end)) if way.path else ["end", target]

    def _more(self, step: Step, procedure: Procedure, way: _Way) -> Data:
        """What is there only for some steps."""
        more: Data = {}
        action = step.action
        if step.only_for:
            more["only"] = list(step.only_for)
        if step.repeat is not None:
            more["repeat"] = step.repeat
        if isinstance(action, actions.Wait) and action.time is not None:
            more["wait"] = str(action.time.si)
        if isinstance(action, actions.Pause):
            more["pause"] = action.why
        if isinstance(action, actions.ProveDead | actions.ProveSafe):
            more["proves"] = action.circuit
            if any(known.id == action.circuit and not renews(action, known) for known in self.aging):
                more["partly"] = True
        if isinstance(action, actions.Compute):
            more["formula"], more["of"] = action.formula, [way.path + name for name in action.of]
            if action.resistor is not None:
                more["resistor"] = str(action.resistor.si)
        if isinstance(action, actions.Tighten):
            more["torques"] = list(_torques(step, action, self.naming))
        if getattr(action, "take", None) == "highest":
            more["take"] = "highest"
        readings = readings_of(step, procedure, self.naming)
        if readings:
            more["readings"] = readings
        return more


def _anchor(way: _Way, step: Step) -> str:
    return way.anchor + step.anchor.removeprefix("step")


def _torques(step: Step, tighten: actions.Tighten, naming: Naming) -> Iterator[Data]:
    """Each fastener of a step: its torque for the record and for the reader, and what is set on each wrench named."""
    if tighten.described:
        if tighten.torque is not None:
            yield _torque(tighten.torque, naming.words(tighten.fasteners), ())
        return
    for name in tighten.fasteners:
        fastener = naming.vehicle.fasteners.get(name) if naming.vehicle is not None else None
        if fastener is None or fastener.torque is None:
            continue
        aim = fastener.torque.nominal or fastener.torque.high or fastener.torque.low
        set_to = []
        for wrench in wrenches(naming.workshop):
            found = setting_on(wrench, float(aim.si), fastener.adapter) if aim is not None else None
            if wrench.id in step.tools and found is not None and found.covers and found.setting is not None:
                words = f"Set {wrench.name} to {show(figure(found.setting, 'N·m'))}"
                set_to.append(words + (", corrected for the adapter" if found.is_corrected else ""))
        yield _torque(fastener.torque, naming.plain(name), tuple(set_to))


def _torque(torque: Any, name: str, set_to: tuple[str, ...]) -> Data:
    aim = torque.nominal or torque.high or torque.low
    return {"name": name, "torque": str(aim), "shown": both(torque), "set": list(set_to)}
