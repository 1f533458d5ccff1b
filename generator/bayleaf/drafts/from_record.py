"""A procedure drafted from a job record: its steps as they were done, and what it takes to end them well."""

from collections import Counter
from collections.abc import Sequence
from datetime import date

from ..records.evaluate import Evaluation
from .isolation import after_isolation
from .procedure import Draft
from .proof import covers_off
from .record_steps import Told, steps_as_done
from .seen import found_in
from .step_ids import with_ids
from .surroundings import Around
from .visits import Visit, visits_of
from .work import back_in_place, left_out, names_in
from .yaml_text import Data, yaml_text

_ABOUT = (
    "TODO: say in two sentences what this is for. It was drafted from job {job} and follows only the way of that job: "
    "every other answer and reading stops. Say what follows them."
)
_GOES_ON = "TODO: the record of job {job} ends here. Say what is still to be done."
#: What a draft takes over from the procedure by which the job was worked.
_TAKEN_OVER = (
    "system", "trouble_codes", "symptoms", "faults", "handles", "people", "roles", "tools", "consumables", "expects",
    "leaves", "stays_off", "danger", "warning", "caution", "notice",
)  # fmt: skip


def draft_from(evaluation: Evaluation, name: str, title: str, around: Around, today: date) -> Draft:
    """The draft of what was done in a job. The procedure of the record is in `around`."""
    record, procedure = evaluation.record, evaluation.around.procedure
    assert procedure is not None
    visits = visits_of(evaluation)
    told = steps_as_done(visits, record.job, found_in(evaluation), around)
    raw = around.raw[procedure.id]
    data: Data = {"format": "1", "id": f"{around.folder}/{name}", "title": title, "kind": procedure.kind}
    data |= {"about": _ABOUT.format(job=record.job)}
    data |= {key: raw[key] for key in _TAKEN_OVER if key in raw}
    if record.variant is not None and any(step.only_for for step in procedure.steps):
        data["applies"] = {"variants": [record.variant]}
    if record.minutes:
        data["time"] = f"{record.minutes} min"
    known = {*around.vehicle.parts, *around.vehicle.fasteners}
    fitted = [{"part": one.part, "count": str(one.count)} for one in record.fitted if one.part in known]
    if fitted:
        data["parts"] = fitted
    why = f"First issue, drafted from job {record.job}"
    data["revisions"] = [{"number": "1", "date": today.isoformat(), "why": why}]
    steps = [one.data for one in told]
    ends, goes_on = _ended(evaluation, steps, raw)
    if goes_on:
        ends |= _finished(steps, data, record.job, around)
    data["steps"] = with_ids(steps)
    if ends:
        data["conclusions"] = ends
    file = f"procedures/{around.folder}/{name}.yml"
    return Draft(file, yaml_text(file, data, "procedure"), tuple(_notes(evaluation, visits, told)))


def _ended(evaluation: Evaluation, steps: list[Data], raw: Data) -> tuple[Data, bool]:
    """The conclusion that the job came to, joined to the last step, and whether some way goes on behind that."""
    record, end = evaluation.record, evaluation.way.end
    reached = str(end.conclusion if end is not None else record.conclusion)
    conclusions = raw.get("conclusions", {})
    if reached not in conclusions:
        return {}, end is None or end.stops
    last = steps[-1] if steps else {}
    goes_on = "outcomes" in last
    if "answers" in last:
        last["answers"] = [
            {**one, "then": reached} if one["then"] == "next" else one for one in last["answers"]
        ]  # fmt: skip
    elif "outcomes" in last:
        last["outcomes"] = {name: reached if to == "next" else to for name, to in last["outcomes"].items()}
    elif steps:
        last["then"] = reached
    return {reached: {key: value for key, value in conclusions[reached].items() if key != "repair"}}, goes_on


def _finished(steps: list[Data], data: Data, job: str, around: Around) -> Data:
    """What it takes after a job that stopped half way: the rest of the work, everything back in its place, an end."""
    rest: Data = {"id": "rest", "do": _GOES_ON.format(job=job), "on": "nothing"}
    if data["kind"] in ("isolation", "return to service", "making safe"):
        steps.append({**rest, "then": "stop"})
        return {}
    performed = [around.procedures[step["perform"]] for step in steps if step.get("perform") in around.procedures]
    state = ""
    for one in performed:
        state = one.kind if one.kind in ("isolation", "return to service") else state
    isolation = next((one for one in reversed(performed) if one.kind == "isolation"), None)
    steps.append(rest)
    off = isolation.stays_off if isolation is not None else ()
    steps += [step for step in back_in_place(left_out(steps), around) if not _is_of(step, off)]
    for key in ("leaves", "stays_off"):
        data.pop(key, None)
    if isolation is not None and state == "isolation":
        shut = {str(name) for step in steps for name in names_in(step.get("refit"))}
        steps += covers_off([name for name in off if name in shut], {}, around)  # open, as the return finds them
        after, ends, stays_off = after_isolation(isolation, around)
        steps += after
        if stays_off:
            data["stays_off"] = list(stays_off)
        return ends
    if any("set" in step for step in steps):
        steps.append({"set": {"mode": "off"}})
    return {}


def _is_of(step: Data, names: Sequence[str]) -> bool:
    """Whether a step puts back what the return to service puts back anyway."""
    return any(str(step.get(key)) in names for key in ("plug", "refit", "tighten"))


def _notes(evaluation: Evaluation, visits: Sequence[Visit], told: Sequence[Told]) -> list[str]:
    """What whoever asked for the draft has to know of it."""
    record, around = evaluation.record, evaluation.around
    notes = []
    if not around.agrees:
        notes.append(
            f"the job was worked by revision {record.revision} of {record.procedure}, and the file has changed since. "
            "The steps have the words of today; no reading becomes a limit."
        )
    gone = [visit.name for visit in visits if visit.step is None]
    if gone:
        notes.append(f"{', '.join(gone)}: steps of the record that the procedure does not have any more.")
    passed = [visit.name for visit in visits if visit.step is not None and not visit.entries]
    if passed:
        notes.append(f"{', '.join(passed)}: no entry in the record; they stand in the draft as the procedure has them.")
    end = evaluation.way.end
    if around.agrees and (end is None or end.stops):
        notes.append(
            "the job did not come to a good end. The draft goes on as with a sound vehicle: what is left to do is "
            "marked TODO, and what has to be put back stands behind it."
        )
    made = sum(one.seen is not None and one.seen.limits is not None for one in told)
    if made:
        words = "1 reading became a limit" if made == 1 else f"{made} readings became limits"
        notes.append(f"{words} to start from, marked TODO: {'it' if made == 1 else 'each'} was seen once.")
    why = Counter(one.seen.why_not for one in told if one.seen is not None and one.seen.why_not is not None)
    notes += [f"{count} without limits: {reason}." for reason, count in why.items()]
    kept = sum("limits" in one.data and one.seen is None for one in told)
    if kept:
        words = "1 step keeps its own limits" if kept == 1 else f"{kept} steps keep their own limits"
        notes.append(f"{words}: a figure with a source weighs more than one reading.")
    return notes
