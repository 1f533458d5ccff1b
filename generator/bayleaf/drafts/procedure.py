"""A whole procedure drafted from answers: isolation, work, reinstatement, and what is still to be said."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from ..safety.faults import announced_by
from ..safety.rig import CONTACTOR_STUCK
from .asked import Asked
from .danger import needs_isolation
from .head import head
from .isolation import Frame, frame_for, top_up
from .step_ids import merged, with_ids
from .stuck import as_stuck, left_locked
from .surroundings import Around
from .switching import isolation_drafted, return_drafted
from .work import Work, work_on
from .yaml_text import Data, yaml_text


@dataclass(frozen=True, slots=True)
class Draft:
    """A file that is not written yet, relative to the manual; `notes` are said to whoever asked for it."""

    file: str
    text: str
    notes: tuple[str, ...] = ()

    @property
    def todos(self) -> int:
        """How many places are still to be filled."""
        return self.text.count("TODO")


def draft(asked: Asked, around: Around, today: date) -> Draft:
    """The procedure that somebody asks for."""
    file = f"procedures/{around.folder}/{asked.name}.yml"
    made = {"isolation": isolation_drafted, "return to service": return_drafted}.get(asked.kind, _job)
    data, notes = made(asked, around, today)
    return Draft(file, yaml_text(file, data, "procedure"), notes)


def _job(asked: Asked, around: Around, today: date) -> tuple[Data, tuple[str, ...]]:
    work = work_on(asked.touched, asked.kind, (), around)
    frame = frame_for(needs_isolation(work.needed, around), around)
    if frame.left_open:
        work = work_on(asked.touched, asked.kind, frame.left_open, around)
    opening, closing = top_up(work.needed, frame, around)
    last, ends, notes = tuple(_last(asked)), _ends(asked, around), work.notes
    if frame.before and CONTACTOR_STUCK in announced_by(asked.codes, around.vehicle):
        stuck = as_stuck(frame, around)
        frame, notes = stuck.frame, (*notes, *stuck.notes)
        last, ends = _last_of_stuck(asked, stuck.last, last, ends)
        ends |= stuck.ends
    steps = [*_first(asked, frame, work), *frame.before, *_without_twice(opening, work.opening)]
    steps += [*work.inside, *work.closing, *_closing_left(closing, work.closing), *frame.after, *last]
    data = head(asked, around, today, frame.isolation)
    if frame.stays_off:
        data["stays_off"] = list(frame.stays_off)
    data["steps"] = with_ids(merged(steps))
    ends = {**ends, **frame.conclusions}
    return ({**data, "conclusions": ends} if ends else data), notes


def _last_of_stuck(
    asked: Asked, left: tuple[Data, ...], last: tuple[Data, ...], ends: Data
) -> tuple[tuple[Data, ...], Data]:
    """The vehicle stays locked, whatever was found."""
    if asked.kind == "diagnosis":
        return (*left, *last), {name: {**end, "end": "stop"} for name, end in ends.items()}
    name, end = left_locked()
    return (*left[:-1], {**left[-1], "then": name}), {name: end}


def _without_twice(proofs: Sequence[Data], opening: Sequence[Data]) -> list[Data]:
    """The proofs, then the opening without what came off for the proofs."""
    done = {str(value) for step in proofs for key, value in step.items() if key in ("remove", "loosen")}
    rest = [step for step in opening if not {str(step.get("remove")), str(step.get("loosen"))} & done]
    return [*proofs, *rest]


def _closing_left(closing: Sequence[Data], work: Sequence[Data]) -> list[Data]:
    """What came off for a proof and is not put back by the work already."""
    done = {str(step[key]) for step in work for key in ("refit", "tighten") if key in step}
    return [step for step in closing if str(step.get("refit") or step.get("tighten")) not in done]


def _first(asked: Asked, frame: Frame, work: Work) -> list[Data]:
    """What comes before the isolation: for a diagnosis what the vehicle says itself."""
    steps: list[Data] = []
    if asked.kind == "diagnosis":
        look = "TODO: say what is looked at before anything is opened: lamps, trouble codes, values of the scan tool."
        steps.append({"id": "look", "do": look, "on": "nothing"})
    if not frame.before and (work.opening or work.inside):
        steps.append({"id": "off", "set": {"mode": "off"}})
    return steps


def _last(asked: Asked) -> list[Data]:
    if asked.kind == "diagnosis":
        answers = [
            {"answer": "TODO: the finding that explains the trouble", "then": "fault-found"},
            {"answer": "nothing was found", "then": "no-fault-found"},
        ]
        return [{"id": "result", "ask": "TODO: ask for what was found, so that one answer fits", "answers": answers}]
    return [{"id": "check", "do": "TODO: say how it is seen that the vehicle is in order again.", "on": "nothing"}]


def _ends(asked: Asked, around: Around) -> Data:
    if asked.kind != "diagnosis":
        return {}
    parts = [name for name in asked.touched if name in around.vehicle.parts]
    found: Data = {"finding": "TODO: say what is at fault.", "end": "end"}
    if len(parts) == 1:
        found["part"] = parts[0]
    found["say"] = "TODO: say what is done next, and whether the vehicle may be used."
    nothing = {"finding": "No fault was found by these steps.", "end": "end", "say": "TODO: say where to look next."}
    return {"fault-found": found, "no-fault-found": nothing}
