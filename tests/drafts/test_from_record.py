"""A draft from a job record: the steps as they were done, and a limit only of what may be one."""

import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from bayleaf.diagnostics.finding import Finding
from bayleaf.drafts.from_record import draft_from
from bayleaf.drafts.procedure import Draft
from bayleaf.drafts.surroundings import around_of
from bayleaf.manual import Manual, ManualKeeper, load_manual
from bayleaf.manual_files import File
from bayleaf.quantities import parse_limit
from bayleaf.records.evaluate import evaluate
from drafts_kit import DAY, ROOT, demo, is_tidy
from kit import PLACES, TODAY, write_manual
from record_kit import GOOD, ISOLATED, JOB, PROOF, changed


def drafted(manual: Manual, job: str, day: date = TODAY) -> Draft:
    """The draft from a record of a manual."""
    record = manual.records[job]
    folder = record.procedure.split("/")[0]
    evaluation = evaluate(record, manual.procedures, manual.vehicles[folder], manual.workshop)
    return draft_from(evaluation, "from-record", "A job as it was done", around_of(manual, folder), day)


def filled(draft: Draft, edits: Mapping[str, str]) -> str:
    """The text after the edits: each puts a text in the place of what is marked TODO from there to the end of it."""
    text = draft.text
    for todo, instead in edits.items():
        assert text.count(todo) == 1, (todo, text)
        text = text.replace(todo, instead)
    return text


#: For each record of the demo what a technician writes; one edit is one place.
EDITS: Mapping[str, Mapping[str, str]] = {
    "2026-0417": {
        "TODO: say in two sentences what this is for. It was drafted from job 2026-0417 and follows only the way of that "
        "job:\n  every other answer and reading stops. Say what follows them.":
            "Isolates a bus of the second series by one person's notes. Whatever is found otherwise, stop and ask.",
    },
    "2026-0433": {
        "TODO: say in two sentences what this is for. It was drafted from job 2026-0433 and follows only the way of that "
        "job:\n  every other answer and reading stops. Say what follows them.":
            "For a bus that is too low at the heater. Whatever is found otherwise is taken up in the long procedure.",
    },
}  # fmt: skip


@pytest.mark.parametrize("job", sorted(EDITS))
def test_a_draft_from_the_demo_is_right_after_a_few_edits(job: str) -> None:
    """Fewer than twenty places are filled; then nothing is left to be said of it, and it is tidy."""
    made = drafted(demo().manual, job, DAY)
    assert () == demo().findings(made.file, made.text)
    assert is_tidy(made)

    edits = EDITS[job]
    text = filled(made, edits)

    assert len(edits) == made.todos < 20
    assert "TODO" not in text
    manual = ManualKeeper(ROOT).manual(DAY, drafts={File(made.file, "procedure"): text.encode()})
    assert () == manual.by_file.get(made.file, ())


def test_steps_as_done() -> None:
    """In one line, with what is performed as it was; proofs that only followed a break are left out."""
    made = drafted(demo().manual, "2026-0433", DAY)

    assert [
        "wake", "codes", "battery-side", "sleep", "look-over", "isolate", "bus", "dead-again", "loads-off", "heater",
        "heater-let-out", "plug-look", "heater-ready", "plugs-back", "shut-cover", "shut-screws", "left", "verdict",
    ] == re.findall(r"  - id: (\S+)", made.text)  # fmt: skip
    assert "    perform: larkway-m12/isolate-traction" in made.text
    assert "time: 230 min" in made.text
    assert "then: heater-on-order" in made.text


def test_no_reading_of_the_demo_becomes_a_limit() -> None:
    """They are proofs, insulation and what a test voltage has left."""
    for job in EDITS:
        assert "record: 2026" not in drafted(demo().manual, job, DAY).text


STEP = """\
  - id: seen
    measure: Something at the heater
    quantity: {quantity}
    between: [{contacts}]
    using: multimeter
"""
ENDS = {
    "end": "",
    "another part": "conclusion: battery-bad\n",
    "the heater": "conclusion: heater-bad\n",
    "no part": "conclusion: coil-bad\n",
}
QUESTION = """\
  - id: result
    ask: What is it?
    answers:
      - {answer: nothing, then: end}
      - {answer: another part, then: battery-bad}
      - {answer: the heater, then: heater-bad}
      - {answer: no part, then: coil-bad}
conclusions:
  battery-bad: {finding: The battery is weak., end: end, part: traction-battery}
  heater-bad: {finding: The heater is broken., end: end, part: cabin-heater}
  coil-bad: {finding: Something else is broken., end: end}
"""


def job_with(tmp_path: Path, step: str, entry: str, end: str = "end", **changes: str) -> Manual:
    """A manual with a job of one reading, and its record."""
    head = JOB.split("steps:\n")[0]
    around = "  - id: isolate\n    perform: test-van/isolate\n  - id: heater-off\n    unplug: [X7, X210]\n"
    back = "  - id: heater-on\n    plug: [X7, X210]\n"
    record = (
        GOOD.split("entries:\n")[0] + f"entries:\n{ISOLATED}{PROOF}"
        "  - {step: heater-off, at: 2026-10-05 08:45, done: yes}\n"
        f"{entry}"
        "  - {step: heater-on, at: 2026-10-05 08:58, done: yes}\n"
        f"  - {{step: result, at: 2026-10-05 09:00, answer: {'nothing' if end == 'end' else end}}}\n{ENDS[end]}"
    )
    for old, new in changes.items():
        record = changed(record, *new.split(" -> ")) if old.startswith("record") else record
    files: dict[str, str | bytes] = {
        PLACES["procedure"]: f"{head}steps:\n{around}{step}{back}{QUESTION}", PLACES["record"]: record,
    }  # fmt: skip
    return load_manual(write_manual(tmp_path, files), TODAY)


def entry(reading: str, more: str = "") -> str:
    return f"  - {{step: seen, at: 2026-10-05 08:50, reading: {reading}, instrument: multimeter{more}}}\n"


DEVICE = "X210/1 device, X210/3 device"


def test_a_reading_becomes_a_limit_to_start_from(tmp_path: Path) -> None:
    """With what the instrument may be wrong by, wide enough that it can decide it; marked, with the job as its source."""
    manual = job_with(tmp_path, STEP.format(quantity="resistance", contacts=DEVICE), entry("150 Ω"))
    made = drafted(manual, "2026-0001")

    assert '    limits: 150 Ω ± 2 Ω\n    source: "record: 2026-0001"\n' in made.text
    assert "TODO: seen once, in job 2026-0001" in made.text
    assert "1 reading became a limit to start from, marked TODO: it was seen once." in made.notes
    found = _findings(tmp_path, made)
    assert [] == [one.message for one in found if one.severity == "error"]
    assert {"todo-left", "instrument-barely-decides"} == {one.rule for one in found}


def _findings(folder: Path, made: Draft) -> tuple[Finding, ...]:
    manual = ManualKeeper(folder).manual(TODAY, drafts={File(made.file, "procedure"): made.text.encode()})
    return manual.by_file.get(made.file, ())


def test_several_readings_of_a_step_give_one_range(tmp_path: Path) -> None:
    """It holds each of them with its error."""
    step = STEP.format(quantity="resistance", contacts=DEVICE).replace(
        f"[{DEVICE}]", f"[[{DEVICE}], [X210/3 device, X210/5 device]]"
    )
    both = entry("150 Ω", f", between: [{DEVICE}]") + entry("160 Ω", ", between: [X210/3 device, X210/5 device]")
    text = drafted(job_with(tmp_path, step, both), "2026-0001").text

    limit = parse_limit(re.search(r"limits: (.*)", text)[1])  # type: ignore[index]
    assert limit.low.si <= 148.5 and limit.high.si >= 161.5  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("quantity", "contacts", "reading", "end", "why"),
    [
        ("voltage", "X7/1 device, X7/2 device", "0.4 V", "end", "it is a voltage or current of a dangerous circuit"),
        (
            "voltage",
            "X7/1 device, chassis",
            "0.4 V",
            "another part",
            "it is a voltage or current of a dangerous circuit",
        ),
        ("insulation resistance", "X7/1 device, chassis", "40 MΩ", "end", "safety rests on insulation and bonding"),
        ("resistance", DEVICE, "150 Ω", "no part", "the vehicle was found faulty"),
        ("resistance", DEVICE, "150 Ω", "the heater", "the part there was found faulty"),
        ("resistance", "X7/1 device, X7/2 device", "20 Ω", "the heater", "the part there was found faulty"),
    ],
)
def test_what_never_becomes_a_limit(
    tmp_path: Path, quantity: str, contacts: str, reading: str, end: str, why: str
) -> None:
    """The place is marked, and why is said in it and to whoever asked."""
    manual = job_with(tmp_path, STEP.format(quantity=quantity, contacts=contacts), entry(reading), end)
    made = drafted(manual, "2026-0001")

    words = " ".join(made.text.split())
    assert f"TODO: write the limits and their source; the reading of the job gives none: {why}." in words
    assert f"1 without limits: {why}." in made.notes
    assert "record: 2026" not in made.text
    assert "limits: " not in made.text


@pytest.mark.parametrize("end", ["another part", "end"])
def test_where_another_part_was_at_fault_the_reading_counts(tmp_path: Path, end: str) -> None:
    """Only the contacts of the part that is named are left out."""
    manual = job_with(tmp_path, STEP.format(quantity="resistance", contacts=DEVICE), entry("150 Ω"), end)
    assert "limits: 150 Ω ± 2 Ω" in drafted(manual, "2026-0001").text


@pytest.mark.parametrize(
    ("reading", "limits"), [("150 Ω", "100 Ω to 200 Ω"), ("250 Ω", "100 Ω to 200 Ω"), ("199.5 Ω", "100 Ω to 200 Ω")]
)
def test_limits_with_a_source_stay(tmp_path: Path, reading: str, limits: str) -> None:
    """Whatever was read: within, outside, or too close to call."""
    step = (
        STEP.format(quantity="resistance", contacts=DEVICE) + f"    limits: {limits}\n    source: workshop practice\n"
    )
    made = drafted(job_with(tmp_path, step, entry(reading, f", limits: {limits}")), "2026-0001")

    assert f"limits: {limits}" in made.text
    assert "source: workshop practice" in made.text
    assert "1 step keeps its own limits: a figure with a source weighs more than one reading." in made.notes


def test_outside_the_limits_of_that_time(tmp_path: Path) -> None:
    """The step has lost its limits since, without a new revision: what lay outside of them is no limit now."""
    step = STEP.format(quantity="resistance", contacts=DEVICE)
    made = drafted(job_with(tmp_path, step, entry("250 Ω", ", limits: 100 Ω to 200 Ω"), "another part"), "2026-0001")

    assert "1 without limits: it lay outside its limits, or too close to call." in made.notes


def test_an_older_revision(tmp_path: Path) -> None:
    """The steps have the words of today, no reading counts, and a step that is gone is marked."""
    step = STEP.format(quantity="resistance", contacts=DEVICE)
    more = "  - {step: blow-dry, at: 2026-10-05 08:49, done: yes}\n"
    manual = job_with(tmp_path, step, more + entry("150 Ω"), record="revision: 2 -> revision: 1")
    made = drafted(manual, "2026-0001")

    assert "limits: " not in made.text
    assert "TODO: say what was done here; the record calls the step blow-dry" in made.text
    assert made.notes[0].startswith("the job was worked by revision 1 of test-van/job, and the file has changed since")
    assert "blow-dry: steps of the record that the procedure does not have any more." in made.notes
    assert "1 without limits: the procedure has changed since." in made.notes


def test_a_record_that_stops_half_way(tmp_path: Path) -> None:
    """The rest is marked; what is apart is joined again; what the isolation has opened is closed; no reading counts."""
    step = STEP.format(quantity="resistance", contacts=DEVICE)
    manual = job_with(tmp_path, step, entry("150 Ω"))
    record = tmp_path / PLACES["record"]
    text = record.read_text("utf-8")
    record.write_text(text[: text.index("  - {step: heater-on")], "utf-8")
    manual = load_manual(tmp_path, TODAY)
    made = drafted(manual, "2026-0001")

    ids = re.findall(r"  - id: (\S+)", made.text)
    assert ids[:4] == ["isolate", "heater-off", "seen", "rest"]
    assert "plug: X210" in made.text.split("id: rest")[1]
    assert "reconnect: service-plug" in made.text.split("id: rest")[1]
    assert "TODO: the record of job 2026-0001 ends here. Say what is still to be done." in made.text
    assert "1 without limits: the job was not finished, so it is not known whether the vehicle was sound." in made.notes
    assert [] == [one.message for one in _findings(tmp_path, made) if one.severity == "error"]


@pytest.mark.parametrize("kept", range(1, 52))
def test_a_record_of_the_demo_cut_off_anywhere(kept: int) -> None:
    """Wherever a job breaks off, its draft has no danger and no error."""
    manual = demo().manual
    record = manual.records["2026-0433"]
    cut = replace(record, entries=record.entries[:kept], conclusion=None)
    evaluation = evaluate(cut, manual.procedures, manual.vehicles["larkway-m12"], manual.workshop)
    made = draft_from(evaluation, "from-record", "A job cut off", around_of(manual, "larkway-m12"), DAY)

    found = demo().findings(made.file, made.text)
    assert [] == [(one.place.line, one.message) for one in found if one.severity == "error"], made.text
    assert is_tidy(made)


def test_a_step_without_an_entry_stands_in_its_place(tmp_path: Path) -> None:
    """It was passed over in the record; left out of the draft, something might stay apart."""
    step = STEP.format(quantity="resistance", contacts=DEVICE)
    gone = "  - {step: heater-on, at: 2026-10-05 08:58, done: yes}\n"
    manual = job_with(tmp_path, step, entry("150 Ω"))
    record = tmp_path / PLACES["record"]
    record.write_text(changed(record.read_text("utf-8"), gone, ""), "utf-8")
    manual = load_manual(tmp_path, TODAY)
    made = drafted(manual, "2026-0001")

    assert re.findall(r"  - id: (\S+)", made.text)[-2:] == ["heater-on", "result"]
    assert "heater-on: no entry in the record; they stand in the draft as the procedure has them." in made.notes
