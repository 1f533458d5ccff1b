"""One step as the page shows it: words, links and figures, ready for the template."""

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from ..graph.build import ways_out
from ..manual import Manual
from ..model import actions
from ..model.procedure import END, NEXT, STOP, Procedure, Step
from ..records.digest import Digests
from ..safety.rig import Rig
from .actions import headline
from .deciding import gauge, limit_rows
from .faults import Faults, faults_of
from .naming import Naming
from .photos import photo_figure
from .show import both, plain
from .state_words import StateShow
from .states import States, StepStates, Visit, Words, least_of
from .step_drawings import probe_drawings, step_drawings
from .step_parts import Exit, StepView, Told, exit_words, role_name
from .step_rows import action_rows, condition_words
from .templating import link, macro
from .tightening import tightening_rows
from .working_readings import written_down

_FORMULAS = {
    "difference": "the difference of",
    "parallel": "the parallel resistance of",
    "average": "the average of",
    "insulation by voltmeter": "the insulation resistance by the voltmeter method from",
}


class Performed:
    """The steps of performed procedures, made once for all the procedures that perform them.

    They are the same on every page where it is entered in the same states, but for the numbers and anchors before
    them, which stand in as two letters that no text holds (Unicode keeps them for private use) until it is known whose
    page it is.
    """

    _NUMBER, _ANCHOR = "\ue000", "\ue001"
    _DEEPEST = 4

    def __init__(self, manual: Manual, states: States | None = None) -> None:
        self.facts = manual.facts
        self.procedures = manual.procedures
        self.album = manual.album
        self._namings = {name: Naming(vehicle, manual.workshop) for name, vehicle in manual.vehicles.items()}
        self._nameless = Naming(None, manual.workshop)
        self.states = states or States(manual)
        self._shows = {name: StateShow(vehicle) for name, vehicle in manual.vehicles.items()}
        self._made: dict[tuple[str, int, Visit | None], str] = {}
        self._faults: dict[str, Faults] = {}
        self._manual = manual
        self._open: list[str] = []
        self._vehicles = manual.vehicles
        self._rigs: dict[str, Rig] = {}
        self.digests = Digests(manual.procedures)

    def faults(self, procedure: Procedure) -> Faults:
        """What is wrong with a procedure, for its page and those of its callers."""
        if procedure.id not in self._faults:
            self._faults[procedure.id] = faults_of(procedure, self._manual)
        return self._faults[procedure.id]

    def naming(self, folder: str) -> Naming:
        """The names of a vehicle as its procedures' pages show them."""
        return self._namings.get(folder, self._nameless)

    def rig(self, folder: str) -> Rig | None:
        """What the walks know of a vehicle; None where there is no profile."""
        vehicle = self._vehicles.get(folder)
        if vehicle is not None and folder not in self._rigs:
            self._rigs[folder] = Rig(vehicle)
        return self._rigs.get(folder)

    def told(self, procedure: Procedure, visit: Visit | None = None) -> Told | None:
        """The states of a procedure at one place, or begun by itself; nothing where they are not proved."""
        book = self.states.of(procedure)
        if book is None:
            return None
        return Told(self._shows[procedure.folder], book.table(book.visit(procedure.id) if visit is None else visit))

    def html(self, callee: Procedure, number: str, anchor: str, naming: Naming, visit: Visit | None = None) -> Markup:
        """The steps of a callee under this number and anchor; nothing where it performs itself."""
        if callee.id in self._open or len(self._open) >= self._DEEPEST:
            return Markup("")
        key = callee.id, id(naming), visit
        made = None if self._open else self._made.get(key)
        if made is None:
            made = self._steps(callee, naming, visit)
            if not self._open:  # within another one it may be cut short, so it is not kept
                self._made[key] = made
        return Markup(made.replace(self._NUMBER, number).replace(self._ANCHOR, anchor))

    def _steps(self, callee: Procedure, naming: Naming, visit: Visit | None) -> str:
        self._open.append(callee.id)
        try:
            told = None if visit is None else self.told(callee, visit)
            views = Steps(callee, naming, self, told, self._NUMBER, self._ANCHOR).views()
            roles = [(role_name(role), task) for role, task in callee.roles.items()]
            first = str(macro("step", "before")(callee, roles))
            return first + "".join(str(macro("step", "step")(view, 4)) for view in views)
        finally:
            self._open.pop()


@dataclass(frozen=True)
class Steps:
    """Makes the views of the steps of one procedure, those of performed procedures within them.

    `prefix` stands before every number: "7." for the steps of what step 7 performs; `anchor` before every anchor.
    `told` are the states, where they are proved.
    """

    procedure: Procedure
    naming: Naming
    performed: Performed
    told: Told | None = None
    prefix: str = ""
    anchor: str = "step"

    @property
    def _is_inner(self) -> bool:
        return bool(self.prefix)

    def views(self) -> tuple[StepView, ...]:
        """Every step in order."""
        return tuple(
            self._view(step, before) for step, before in zip(self.procedure.steps, self._states(), strict=True)
        )

    def _states(self) -> Iterator[Markup]:
        """For each step the states before it, as far as the reader has not just seen them."""
        told, steps = self.told, self.procedure.steps
        if told is None:
            yield from (Markup("") for _ in steps)
            return
        first = told.of(steps[0]) if steps else None
        seen: Words | None = first.before if self._is_inner and first is not None else None
        for index, step in enumerate(steps):
            states = told.of(step)
            if states is None:
                yield Markup("")
                continue
            performs = isinstance(step.action, actions.Perform)
            yield told.show.before(states, None if performs else seen, everything=index == 0 and not self._is_inner)
            following = steps[index + 1].id if index + 1 < len(steps) else None
            targets = {NEXT} if following is None else {NEXT, following}
            on = [exit for exit, target, _ in ways_out(step, self._comes_back(step)) if target in targets]
            seen = least_of(states.after[exit] for exit in on if exit in states.after) or None

    def address(self, step: Step) -> str:
        """The anchor of a step on the page in hand."""
        return self.anchor + step.anchor.removeprefix("step")

    def _title_of(self, procedure: str) -> str:
        known = self.performed.facts.get(procedure)
        return known.title if known is not None else procedure

    def _view(self, step: Step, before: Markup) -> StepView:
        states = None if self.told is None else self.told.of(step)
        number = self.prefix + step.number
        inner, inner_title, inner_url, inner_last = Markup(""), "", "", ""
        callee = self._callee(step)
        if callee is not None and callee.steps and callee.id != self.procedure.id:
            inner = self.performed.html(
                callee, f"{number}.", self.address(step), self.naming, None if states is None else states.inner
            )
            inner_title, inner_url = callee.title, f"../{callee.id}.html"
            inner_last = f"{number}.{callee.steps[-1].number}"
        title = headline(step, self.naming, self._title_of)
        detail = None if isinstance(step.action, actions.Do) else step.detail
        if detail is None and isinstance(step.action, actions.Do):
            title, detail = _split(title)
        exits = tuple(self._exits(step, states))
        return StepView(
            number=number,
            anchor=self.address(step),
            kind=step.action.key,
            title=title,
            detail=detail,
            faults=self.performed.faults(self.procedure).at.get(step.anchor, ()),
            messages=step.messages,
            rows=tuple(self._rows(step)),
            pairs=tuple(self.naming.pairs(getattr(step.action, "pairs", ()))),
            limit=self._limit(step),
            gauge=gauge(step, self.procedure, self.naming),
            probes=probe_drawings(step, self.naming),
            drawings=step_drawings(step, self.naming),
            exits=exits,
            expect=step.expect,
            photo=photo_figure(step.photo, self.procedure.folder, title, self.performed.album),
            group=self.naming.plain(step.group) if step.starts_group and step.group else None,
            states=before,
            change=self._change(states, NEXT) if not exits else Markup(""),
            to_write=written_down(step, self.procedure, self.naming),
            inner=inner,
            inner_title=inner_title,
            inner_url=inner_url,
            inner_last=inner_last,
        )

    def _callee(self, step: Step) -> Procedure | None:
        """The procedure that a step performs."""
        return (
            self.performed.procedures.get(step.action.procedure) if isinstance(step.action, actions.Perform) else None
        )

    def _limit(self, step: Step) -> str:
        limit = getattr(step.action, "limit", None)
        if isinstance(step.action, actions.ProveDead) and limit is None:
            policy = self.naming.workshop.policy.dead_below
            return (
                f"at most {plain(policy)}, as this workshop asks"
                if policy
                else "no figure is stated: ask before you begin"
            )
        return both(limit) or (f"as the rule “{step.cited.rule}” asks" if step.cited else "")

    def _rows(self, step: Step) -> list[tuple[str, Markup | str]]:
        naming = self.naming
        rows: list[tuple[str, Markup | str]] = []
        if step.on and step.on != ("nothing",):
            rows.append(("On", naming.links(step.on)))
        if step.when is not None:
            rows.append(("Only while", condition_words(step.when, naming)))
        if step.only_for:
            variants = naming.vehicle.variants if naming.vehicle else {}
            names = (variants[name].name if name in variants else name for name in step.only_for)
            rows.append(("Only for", ", ".join(names)))
        rows += action_rows(step.action, naming)
        if isinstance(step.action, actions.Compute):
            readings = Markup(" and ").join(self.target(name) for name in step.action.of)
            rows.append(
                ("From", Markup("{} {}").format(_FORMULAS.get(step.action.formula, "the readings of"), readings))
            )
            if step.action.resistor is not None:
                rows.append(("Resistor", plain(step.action.resistor)))
        rows += limit_rows(step, self.procedure, naming)
        drawn = step_drawings(step, naming)  # with the turn of each bolt in it, which its place in a list would confuse
        rows += [row for row in tightening_rows(step, naming) if row[0] != "Order" or not drawn]
        if step.tools:
            rows.append(("Tools", ", ".join(naming.tool(tool) for tool in step.tools)))
        if step.wear:
            rows.append(("Wear", ", ".join(naming.tool(item) for item in step.wear)))
        if step.time is not None:
            rows.append(("Time", plain(step.time) + ("" if step.attended is not False else ", need not be watched")))
        elif step.attended is False:
            rows.append(("Attended", "need not be watched"))
        if step.people is not None and step.people > 1:
            rows.append(("People", str(step.people)))
        if step.by:
            rows.append(("By", role_name(step.by)))
        if step.repeat is not None:
            rows.append(("Repeat", "at most once" if step.repeat == 1 else f"at most {step.repeat} times"))
        if step.source:
            rows.append(("Source", step.source))
        return rows

    def _comes_back(self, step: Step) -> tuple[str, ...]:
        """By what that comes back which a step performs."""
        callee = self._callee(step)
        known = self.performed.facts.get(callee.id) if callee is not None else None
        return known.comes_back if known is not None else ("end",)

    def _change(self, states: StepStates | None, exit: str) -> Markup:
        return Markup("") if self.told is None or states is None else self.told.show.changes(states, exit)

    def _exits(self, step: Step, states: StepStates | None) -> list[Exit]:
        callee = self._callee(step)
        found = list(ways_out(step, self._comes_back(step)))
        if [(exit, target) for exit, target, _ in found] == [(NEXT, NEXT)]:
            return []
        exits = []
        for exit, target, _ in found:
            where = self.target(target)
            if callee is not None and target == NEXT:  # with its own steps below it, "next" would be one of them
                where = self._behind(step)
            exits.append(Exit(exit_words(exit, callee), where, self._stops(target), self._change(states, exit)))
        return exits

    def _behind(self, step: Step) -> Markup | str:
        """The step that follows another one in the file, as a link."""
        number = next(index for index, other in enumerate(self.procedure.steps) if other is step)
        if number + 1 == len(self.procedure.steps):
            return self.target(END)
        after = self.procedure.steps[number + 1]
        return link(f"#{self.address(after)}", f"step {self.prefix}{after.number}")

    def _stops(self, target: str) -> bool:
        conclusion = self.procedure.conclusions.get(target)
        return target == STOP or (conclusion is not None and conclusion.stops)

    def target(self, target: str) -> Markup | str:
        """Where an exit leads, as a link where there is something to go to."""
        if target == NEXT:
            return "next step"
        if target == STOP:
            return "stop: touch nothing, put nothing back, close the zone, tell the person responsible"
        if target == END:
            return "end" if not self._is_inner else "done, back to the job"
        for step in self.procedure.steps:
            if step.id == target:
                return link(f"#{self.address(step)}", f"step {self.prefix}{step.number}")
        conclusion = self.procedure.conclusions.get(target)
        if conclusion is None:
            return target
        stop = "stop: " if conclusion.stops else "the job ends: " if not self._is_inner else ""
        page = "" if not self._is_inner else "../" + self.procedure.id + ".html"
        return link(f"{page}#conclusion-{conclusion.id}", stop + conclusion.finding)


def _split(text: str) -> tuple[str, str | None]:
    """The first sentence as the headline, the rest as detail."""
    first, dot, rest = text.partition(". ")
    return (first + ("." if dot and not first.endswith(".") else ""), rest or None) if rest else (text, None)
