"""The steps of a job record as the steps of a procedure: in one line, as they were done.

The way that was taken goes on to the next step; any other reading or answer stops, until the author says what follows
it. What a step says is copied from the procedure by which the job was worked.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from ..loading.read_steps import at_place
from ..model import actions
from ..model.procedure import Step
from ..records.job_steps import Ended, JobStep
from .seen import Found, Seen, seen_at
from .surroundings import Around
from .visits import Visit
from .yaml_text import Data

#: What a step says about the way through its own procedure.
_OF_THE_WAY = frozenset({"id", "then", "outcomes", "repeat", "exhausted", "answers", "only_for"})
_GOES_ON = frozenset({"next", "within", "dead", "end"})
_SEEN = "TODO: seen once, in job {job}; the tolerance is that of the instrument. Say what a good one may show."
_NOT_SEEN = "TODO: write the limits and their source; the reading of the job gives none: {why}."
_GONE = "TODO: say what was done here; the record calls the step {name}, and the procedure has none of that name."


@dataclass(frozen=True, slots=True)
class Told:
    """A step of the draft; `seen` is what its reading gave, where it has no limits of its own."""

    data: Data
    seen: Seen | None = None


def steps_as_done(visits: Sequence[Visit], job: str, found: Found, around: Around) -> list[Told]:
    """The steps in their order, each with an id of its own."""
    ids: dict[str, str] = {}
    taken: set[str] = set()
    told: list[Told] = []
    for number, visit in enumerate(visits):
        if visit.step is None:
            told.append(Told({"do": _GONE.format(name=visit.name), "on": "nothing"}))
            continue
        following = next((one.name for one in visits[number + 1 :] if one.step is not None), None)
        one = _step(visit, following, job, found, around)
        one.data["id"] = ids[visit.name] = _own_id(visit.name, taken)
        if "of" in one.data:
            one.data["of"] = [ids.get(name, name) for name in _listed(one.data["of"])]
        told.append(one)
    return told


def _own_id(name: str, taken: set[str]) -> str:
    """The id of a step on its first visit; on each later one with a number behind it."""
    base = name.lower().replace("@", "-")
    base = f"step-{base}" if base.isdecimal() else base.replace(".", "-")
    own, count = base, 1
    while own in taken:
        count += 1
        own = f"{base}-{count}"
    taken.add(own)
    return own


def _step(visit: Visit, following: str | None, job: str, found: Found, around: Around) -> Told:
    assert visit.step is not None
    raw = raw_step(visit.step, around)
    data = {"id": "", **{key: value for key, value in raw.items() if key not in _OF_THE_WAY}}
    action = visit.step.step.action
    if isinstance(action, actions.Ask):
        data["answers"] = list(_answers(action, visit.answer))
        return Told(data)
    outcomes = dict(_outcomes(visit, following))
    if outcomes:
        data["outcomes"] = outcomes
    if not isinstance(action, actions.Measure | actions.Read) or visit.step.step.has_limits:
        return Told(data)
    seen = seen_at(visit, found, around)
    if seen.limits is not None:
        data |= {"limits": seen.limits, "source": f"record: {job}", "expect": _behind(data, _SEEN.format(job=job))}
    elif _has_figure(visit.step.step):
        data["expect"] = _behind(data, _NOT_SEEN.format(why=seen.why_not))
    return Told(data, seen)


def _behind(data: Data, todo: str) -> str:
    """What the author expects already, and behind it what is to be filled in."""
    return f"{data['expect']} {todo}" if "expect" in data else todo


def _has_figure(step: Step) -> bool:
    """Whether the step reads a figure that could have limits; some only feed a computed one."""
    return isinstance(step.action, actions.Measure) or getattr(step.action, "quantity", None) is not None


def _answers(action: actions.Ask, answer: str | None) -> Iterator[Data]:
    for one in action.answers:
        yield {"answer": one.text, "then": "next" if answer in (None, one.text) else "stop"}


def _outcomes(visit: Visit, following: str | None) -> Iterator[tuple[str, str]]:
    """Only what differs from what is meant without a word: good readings go on, every other one stops."""
    assert visit.step is not None
    names = [name for name, _ in visit.step.exits if name != "exhausted"]
    if isinstance(visit.step.step.action, actions.Perform):
        if len(names) > 1:
            led = {name for name, target in visit.step.exits if target == following or isinstance(target, Ended)}
            own = "end" if following is None or "end" in led or not led else sorted(led)[0]
            yield from ((name, "next" if name == own else "stop") for name in names)
    elif visit.exit in names and visit.exit not in _GOES_ON:
        target = visit.step.target(str(visit.exit))
        leads_on = following is not None or isinstance(target, Ended) and target.conclusion is not None
        if leads_on and not (isinstance(target, Ended) and target.conclusion is None):
            yield str(visit.exit), "next"


def raw_step(step: JobStep, around: Around) -> Data:
    """A step as it is written, unfolded where the same is done at several places."""
    raw: Any = around.raw[step.procedure.id]
    above: Any = raw
    for key in step.step.at:
        above, raw = raw, raw[key]
    if step.step.group is None:
        return dict(raw)
    own = frozenset(one["id"] for one in above if "id" in one)
    placed: Mapping[str, Any] = at_place(raw, step.step.group, own)
    return dict(placed)


def _listed(value: Any) -> list[str]:
    return [value] if isinstance(value, str) else list(value)
