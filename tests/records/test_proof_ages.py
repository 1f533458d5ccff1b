"""How old a proof is: the page and the record reckon alike, from the times of the entries."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from bayleaf.model.record import Record
from bayleaf.pages.step_view import Performed
from bayleaf.pages.working_data import data_of
from js_kit import asset
from kit import PLACES, WORKSHOP
from record_kit import GOOD, JOB, changed, evaluated, manual_with

SCRIPTS = "\n".join(asset(f"{name}.js") for name in ("exact", "job_ages", "job_flow"))

#: The good record with other times: the three readings of the proof, and the step that touches the bus.
TIMES = ("2026-10-05 08:40, reading: 0.4", "2026-10-05 08:40, reading: 0.2", "2026-10-05 08:41", "2026-10-05 08:45")

CASES = [
    # first, second and third reading, touched at, holds, proved dead when it is touched
    ("08:40", "08:40", "08:41", "09:39", "60 min", True),
    ("08:40", "08:40", "08:41", "09:40", "60 min", False),  # it may have been 08:40:00 and 09:40:59
    ("08:40", "08:50", "08:51", "09:39", "60 min", True),  # as old as its first reading
    ("08:40", "08:50", "08:51", "09:41", "60 min", False),
    ("08:40", "09:30", "09:41", "09:42", "60 min", False),  # the first two were too old when the third was taken
    ("08:40", "08:40", "08:41", "08:59", "20 min", True),
    ("08:40", "08:40", "08:41", "09:00", "20 min", False),
    ("08:40", "08:40", "08:41", "08:41", "90 s", False),  # too old before the third reading
    ("08:40", "08:40", "08:41", "08:41", "150 s", True),
    ("08:40", "08:40", "08:41", "08:42", "150 s", False),
    ("08:40", "08:40", "08:41", "08:30", "60 min", False),  # the clock was put back: its age is not known
    ("23:40", "23:41", "23:42", "00:30", "60 min", False),  # of the same day: long before the proof
]


def _record(first: str, second: str, third: str, touched: str) -> str:
    text = GOOD
    for old, new in zip(TIMES, (first, second, third, touched), strict=True):
        text = changed(text, old, old[:11] + new + old[16:])
    return text


def _entries(record: Record) -> list[dict[str, Any]]:
    """The entries up to the step that touches the bus, as the page keeps them."""
    made = []
    for one in record.entries:
        entry: dict[str, Any] = {"step": "/".join(one.step), "at": one.time, "done": one.done, "answer": one.answer}
        if one.reading is not None and one.between is not None:
            entry |= {
                "reading": str(one.reading),
                "between": list(map(str, one.between)),
                "limits": str(one.limits),
                "verdict": one.verdict,
            }
        made.append({key: value for key, value in entry.items() if value is not None})
        if one.step == ("heater-off",):
            return made
    raise AssertionError


@pytest.mark.parametrize(("first", "second", "third", "touched", "holds", "proved"), CASES)
def test_page_and_record_agree(
    tmp_path: Path,
    node: Callable[[str], Any],
    first: str,
    second: str,
    third: str,
    touched: str,
    holds: str,
    proved: bool,
) -> None:
    """Whether the bus counts as proved dead when it is touched, with the times of a record and a policy."""
    files = {"procedures/workshop.yml": WORKSHOP + f"policy: {{proof_holds: {holds}}}\n"}
    manual = manual_with(tmp_path, _record(first, second, third, touched), **files)
    procedure = manual.procedures["test-van/job"]
    performed = Performed(manual)
    data = data_of(procedure, manual, performed, performed.told(procedure))
    (record,) = manual.records.values()
    job = {"entries": _entries(record), "losses": [], "waits": {}, "drafts": {}}
    on_page = node(
        SCRIPTS
        + f"""
        const data = {_js(data)}, job = {_js(job)};
        const last = job.entries.pop();
        answer = !bayleafJobFlow.follow(data, job, last.at).lost.has("traction")
          && bayleafJobFlow.follow(data, job, last.at).everProved.has("traction");
        job.entries.push(last);
        if (bayleafJobFlow.follow(data, job).lost.has("traction") === answer) answer = "entry and clock differ";
    """
    )
    touching = next(one for one in evaluated(manual).way.entries if one.entry.step == ("heater-off",))

    assert (proved, proved) == (on_page, "traction" not in touching.unproved and "traction" in data["aging"])


def test_a_proof_ends_with_what_makes_the_circuit_live(tmp_path: Path, node: Callable[[str], Any]) -> None:
    """Behind the step that puts the service plug in nothing is told of an old proof, however long the job goes on."""
    back = JOB.replace("    then: coil-good\n", "").replace(
        "  - id: clean", "  - id: plug-in\n    reconnect: service-plug\n    then: coil-good\n  - id: clean"
    )
    manual = manual_with(tmp_path, GOOD, **{PLACES["procedure"]: back})
    procedure = manual.procedures["test-van/job"]
    performed = Performed(manual)
    data = data_of(procedure, manual, performed, performed.told(procedure))
    (plug_in,) = [one for one in data["steps"] if one["path"] == "plug-in"]
    told = node(
        SCRIPTS
        + f"""
        const ages = new bayleafJobAges.Ages({_js(data)});
        ages.proved({{ proves: "traction" }}, [{{ at: "2026-10-05 08:40" }}]);
        const before = ages.told("2026-10-05 09:03");
        ages.left({_js(plug_in["exits"][0])});
        answer = [before, ages.told("2026-10-05 09:03"), [...ages.comeTo("2026-10-05 12:00")]];
    """
    )
    circuit = {"circuit": "traction", "since": "08:40", "age": 23, "until": "09:40", "left": 37}

    assert [[circuit], [], []] == told


def _js(data: Any) -> str:
    import json

    return json.dumps(data, ensure_ascii=False)
