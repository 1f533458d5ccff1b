"""Where a job stands, and what counts as proved, are the same on the page and in the record, whatever somebody does."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from bayleaf.model.record import Entry
from bayleaf.pages.step_view import Performed
from bayleaf.pages.working_data import data_of
from js_kit import asset
from record_kit import GOOD, PROOF, evaluated, manual_with

SCRIPTS = "\n".join(asset(f"{name}.js") for name in ("exact", "job_ages", "job_flow"))
HEAD, LINES = GOOD.split("entries:\n")[0] + "entries:\n", GOOD.split("entries:\n")[1]
LOOK, ISOLATED = (
    LINES.split("  - {step: isolate/1,")[0],
    "  - {step: isolate/1," + LINES.split("  - {step: isolate/1,")[1].split(PROOF)[0],
)
PAIRS = ["  - {step" + one for one in PROOF.split("  - {step")[1:]]
OFF = "  - {step: heater-off, at: 2026-10-05 08:45, done: yes}\n"


def _pair(at: int, reading: str, verdict: str) -> str:
    """The reading of one pair of the proof, as it is entered instead of the good one or after it."""
    old = ("0.4 V", "0.2 V", "-0.2 V")[at]
    return PAIRS[at].replace(f"reading: {old}", f"reading: {reading}").replace("verdict: dead", f"verdict: {verdict}")


def _tick(step: str, done: str, minute: int = 44) -> str:
    return f"  - {{step: {step}, at: 2026-10-05 08:{minute}, done: {done}}}\n"


def _ohm(step: str, reading: str, verdict: str) -> str:
    return (
        f"  - {{step: {step}, at: 2026-10-05 08:50, reading: {reading} Ω, limits: 100 Ω to 200 Ω, instrument: multimeter, "
        f"verdict: {verdict}}}\n"
    )


def _later(lines: str) -> str:
    return lines.replace("08:40", "08:46").replace("08:41", "08:46")


LIVE = _pair(1, "350 V", "not dead")
READY = ISOLATED + PROOF
CASES = {
    "a proof in order": (READY, "heater-off", True),
    "one pair is live: stop at once": (ISOLATED + PAIRS[0] + LIVE, "stop", False),
    "the first pair is live": (ISOLATED + _pair(0, "350 V", "not dead"), "stop", False),
    "a slip of the finger is put right": (ISOLATED + PAIRS[0] + LIVE + PAIRS[2] + PAIRS[1], "heater-off", True),
    "put right while a pair is missing": (ISOLATED + PAIRS[0] + LIVE + PAIRS[1], "isolate/8", False),
    "a proof overwritten with no figure": (READY + _pair(1, "no reading", "no reading"), "isolate/8", False),
    "the same later on": (READY + OFF + _later(_pair(1, "no reading", "no reading")), "one", False),
    "and read again": (READY + OFF + _later(_pair(1, "no reading", "no reading") + "".join(PAIRS)), "one", True),
    "a proof renewed takes nobody back": (READY + OFF + _later("".join(PAIRS)), "one", True),
    "a proof renewed that fails": (READY + OFF + _later(LIVE), "stop", False),
    "a reading put right to the good one": (READY + OFF + _ohm("one", "500", "above") + _ohm("one", "150", "within"), "two", True),
    "and to the bad one": (READY + OFF + _ohm("one", "150", "within") + _ohm("one", "500", "above"), "coil-bad", True),
    "put right after a step on the wrong way": (
        READY + OFF + _ohm("one", "120", "not decided") + _tick("clean", "yes", 51) + _ohm("one", "150", "within"), "two", True,
    ),
    "a tick before the proof taken back": (READY + _tick("isolate/7", "no"), "isolate/7", False),
    "and ticked again": (READY + _tick("isolate/7", "no") + _tick("isolate/7", "yes"), "heater-off", False),
    "a tick behind the proof taken back": (READY + OFF + _tick("heater-off", "no"), "heater-off", True),
    "and ticked again, behind it": (READY + OFF + _tick("heater-off", "no") + _tick("heater-off", "yes"), "one", True),
    "a tick toggled before a loop that may be gone round once": (
        READY + OFF + (_tick("heater-off", "no") + _tick("heater-off", "yes")) * 3 + _ohm("one", "150", "within"), "two", True,
    ),
    "taken back without having been done": (READY + _tick("heater-off", "no") + OFF, "one", True),
}  # fmt: skip


@pytest.mark.parametrize(("entries", "stands", "proved"), CASES.values(), ids=CASES.keys())
def test_page_and_record_agree(
    tmp_path: Path, node: Callable[[str], Any], entries: str, stands: str, proved: bool
) -> None:
    """The step that comes next, the conclusion or a stop; and whether the bus counts as proved dead."""
    manual = manual_with(tmp_path, HEAD + LOOK + entries)
    procedure = manual.procedures["test-van/job"]
    performed = Performed(manual)
    data = data_of(procedure, manual, performed, performed.told(procedure))
    (record,) = manual.records.values()
    job = {"entries": [_kept(one) for one in record.entries], "losses": [], "waits": {}, "drafts": {}}
    on_page = node(
        SCRIPTS
        + f"""
        const way = bayleafJobFlow.follow({json.dumps(data)}, {json.dumps(job)});
        answer = [way.place?.path ?? (way.end[1] || way.end[0]), !way.lost.has("traction")];
    """
    )
    way = evaluated(manual).way
    end = None if way.end is None else way.end.conclusion or "stop"

    assert [stands, proved] == on_page
    assert (stands, not proved) == (end or way.following[0].path, "traction" in way.lost)


def _kept(entry: Entry) -> dict[str, Any]:
    """An entry as the page keeps it."""
    reading = "no reading" if entry.no_reading else None if entry.reading is None else str(entry.reading)
    kept = {
        "step": "/".join(entry.step), "at": entry.time, "done": entry.done, "answer": entry.answer, "reading": reading,
        "between": None if entry.between is None else list(map(str, entry.between)),
        "limits": None if entry.limits is None else str(entry.limits), "verdict": entry.verdict,
    }  # fmt: skip
    return {key: value for key, value in kept.items() if value is not None}
