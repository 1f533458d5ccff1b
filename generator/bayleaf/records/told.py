"""An evaluated record as plain data, for `--format json` and for the report that is read aloud."""

from collections.abc import Iterator
from typing import Any

from ..model import actions
from .evaluate import Evaluation
from .job_steps import Ended, JobStep
from .way import Followed
from .words import size, width

Data = dict[str, Any]


def told(evaluation: Evaluation) -> Data:
    """All that is said of a record. Keys without a value are null, figures are texts with their unit."""
    record, around, way = evaluation.record, evaluation.around, evaluation.way
    return {
        "file": record.file,
        "job": record.job,
        "procedure": record.procedure,
        "title": around.procedure.title if around.procedure is not None else None,
        "revision": record.revision,
        "current_revision": around.revision,
        "digest": record.digest,
        "current_digest": around.digest,
        "agrees": around.agrees,
        "started": record.started,
        "odometer": None if record.odometer is None else str(record.odometer),
        "variant": record.variant,
        "minutes": record.minutes,
        "entries": [_entry(one) for one in way.entries],
        "fitted": [{"part": one.part, "number": one.number, "count": one.count} for one in record.fitted],
        "missing": [{**_step(step), "what": what} for step, what in way.missing],
        "goes_on": [_step(step) for step in way.following],
        "not_proved": list(way.lost),
        "conclusion": _conclusion(evaluation, way.end),
        "remarks": record.remarks,
    }


def _conclusion(evaluation: Evaluation, end: Ended | None) -> Data:
    """What is written, what the entries lead to, and what was found in words."""
    record, procedure = evaluation.record, evaluation.around.procedure
    known = procedure.conclusions if procedure is not None else {}
    written = known.get(record.conclusion or "")
    return {
        "written": record.conclusion,
        "ended": end is not None,
        "stopped": end.stops if end is not None else None,
        "reached": end.conclusion if end is not None else None,
        "finding": written.finding if written is not None else end.finding if end is not None else None,
        "say": written.say if written is not None else None,
        "parts": list(written.parts) if written is not None else [],
    }


def _step(step: JobStep) -> Data:
    return {"step": step.path, "number": step.number, "asks": _asks(step)}


def _asks(step: JobStep) -> str:
    """What a step is about, in a few words."""
    action = step.step.action
    match action:
        case actions.ProveDead():
            return f"prove {action.circuit} dead"
        case actions.ProveSafe():
            return f"prove {action.circuit} safe"
        case actions.Discharge():
            return f"discharge {action.circuit}"
        case actions.Ask():
            return action.question
        case actions.Tighten():
            return f"tighten {', '.join(action.fasteners)}"
        case actions.Measure() | actions.Read() | actions.Compute() | actions.Command():
            return action.what
    return step.step.detail or action.key.replace("_", " ")


def _entry(one: Followed) -> Data:
    entry = one.entry
    known = _step(one.step) if one.step is not None else {"step": "/".join(entry.step), "number": None, "asks": None}
    return {
        **known,
        "at": entry.time,
        "done": entry.done,
        **dict(_reading(one)),
        **dict(_torque(one)),
        "answer": entry.answer,
        "exit": entry.exit,
        "barred": one.barred,
        "reason": entry.reason,
        "paused": entry.paused,
        "follows": one.follows,
        "not_proved": list(one.unproved),
        "proof_too_old": dict(one.aged),
    }


def _reading(one: Followed) -> Iterator[tuple[str, Any]]:
    entry, found = one.entry, one.weighed
    if found is None:
        return
    yield "reading", str(entry.reading) if entry.reading is not None else "no reading"
    yield "between", None if entry.between is None else [str(contact) for contact in entry.between]
    yield "limits", None if found.limit is None else str(found.limit)
    yield "limits_of_the_file", found.by_file
    yield "instrument", entry.instrument
    has_error = entry.reading is not None and found.error is not None and found.band is not None
    yield "error", width(found.error, entry.reading) if has_error else None  # type: ignore[arg-type]
    yield "band", width(found.band, entry.reading) if has_error else None  # type: ignore[arg-type]
    yield "verdict", found.verdict
    yield "shown", found.shown
    yield "differs", found.differs
    if one.computed is not None:
        unit = entry.reading.unit.symbol if entry.reading is not None else None
        yield "computed", size(one.computed.size, unit) if one.computed.size is not None and unit else None
        yield "not_computed", one.computed.why


def _torque(one: Followed) -> Iterator[tuple[str, Any]]:
    if one.entry.torque is None:
        return
    yield "torque", str(one.entry.torque)
    allowed = one.torque.allowed if one.torque is not None else None
    if one.torque is None or allowed is None:
        return
    ends = [size(end, "N·m") for end in (allowed.low, allowed.high) if end is not None]
    yield "fastener", allowed.name
    yield "asked", str(allowed.torque)
    yield "allowed", " to ".join(ends)
    yield "outside", one.torque.is_outside(one.entry)
