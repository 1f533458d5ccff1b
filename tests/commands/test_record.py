"""`bayleaf record`: what it prints, what it refuses, and its exit codes."""

import json
import shutil
from datetime import date
from pathlib import Path

import pytest
from bayleaf.commands import run
from bayleaf.manual import load_manual
from bayleaf.records.evaluate import evaluate
from demo_kit import demo
from kit import PLACES, WORKSHOP, write_manual
from record_kit import GOOD, JOB, changed

ROOT = Path(__file__).resolve().parents[2]
DAY = ("--today", "2026-11-01")
RECORD = PLACES["record"]

REPORT = """\
Job 2026-0001: Heater stays cold (test-van/job)
Revision 2, the current one. The record holds no digest: it is taken by its revision.
Begun 2026-10-05 08:15.

Readings
  Step 2.8 (isolate/8), 08:40: prove traction dead, between X1/1 cable and X1/2 cable
    0.4 V; limits at most 5 V; may be wrong by 0.31 V, kept 0.31 V from the limit. Verdict: dead.
      Shown: dead.
  Step 2.8 (isolate/8), 08:40: prove traction dead, between X1/1 cable and chassis
    0.2 V; limits at most 5 V; may be wrong by 0.31 V, kept 0.31 V from the limit. Verdict: dead.
      Shown: dead.
  Step 2.8 (isolate/8), 08:41: prove traction dead, between X1/2 cable and chassis
    -0.2 V; limits at most 5 V; may be wrong by 0.31 V, kept 0.31 V from the limit. Verdict: dead.
      Shown: dead.
  Step 4 (one), 08:50: Resistance of the first coil
    150 Ω; limits 100 Ω to 200 Ω; may be wrong by 1.6 Ω, kept 1.6 Ω from the limit. Verdict: within.
      Shown: within.
  Step 5 (two), 08:52: Resistance of the second coil
    120 Ω; limits 100 Ω to 200 Ω; may be wrong by 1.3 Ω, kept 1.3 Ω from the limit. Verdict: within.
      Shown: within.
"""


def write(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, record: str = GOOD, **files: str) -> Path:
    """The small manual with a record of its job; the current folder is in it."""
    folder = write_manual(tmp_path / "manual", {PLACES["procedure"]: JOB, RECORD: record, **files})
    monkeypatch.chdir(folder)
    return folder


def printed(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    code = run(["record", *arguments, *DAY])
    out = capsys.readouterr()
    return code, out.out, out.err


def test_a_good_record_is_read_aloud(tmp_path, monkeypatch, capsys) -> None:
    """Job, revision, each reading with limits, error, band, both verdicts; torques, answers, conclusion."""
    write(tmp_path, monkeypatch)

    code, out, err = printed(capsys, RECORD)

    assert (0, "") == (code, err)
    assert out.startswith(REPORT)
    for words in (
        "The readings give 66.667 Ω. Verdict: within. Shown: within.",
        "heater-bracket, 20 N·m Asked for 20 N·m, allowed 19.2 N·m to 20.8 N·m. Right.",
        "Step 1 (look), 08:17: What does the plug look like? — dry",
        "Conclusion Both coils are good (coil-good).",
    ):
        assert words in " ".join(out.split())
    assert "Missing" not in out
    assert out.endswith("No faults in 1 file\n")


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("verdict: within}\n  - {step: two", "verdict: above}\n  - {step: two", "Shown: above. THE TWO DIFFER."),
        ("torque: 20 N·m", "torque: 25 N·m", "OUTSIDE."),
        ("conclusion: coil-good", "conclusion: coil-bad", "does not lead to `coil-bad`"),
    ],
)
def test_a_difference_is_an_error(tmp_path, monkeypatch, capsys, old: str, new: str, words: str) -> None:
    """Exit code 1; the report says it, and the finding behind it points at the line."""
    write(tmp_path, monkeypatch, changed(GOOD, old, new))

    code, out, _ = printed(capsys, RECORD)

    assert 1 == code
    assert words in " ".join(out.split())
    assert f"{RECORD}:" in out


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("  - {step: heater-off, at: 2026-10-05 08:45, done: yes}\n", "", "Missing Step 3 (heater-off): no entry"),
        ("conclusion: coil-good\n", "", "Missing The conclusion; the entries lead to `coil-good`"),
        ("  - {step: bracket, at: 2026-10-05 09:00, torque: 20 N·m}\n", "", "step 8 (bracket) comes next"),
        ("  - {step: bracket", "  - {step: bracket, at: 2026-10-05 08:59, paused: break}\n  - {step: bracket",
         "Breaks Step 8 (bracket), 08:59: Break. From here on nothing counts as proved."),
        ("  - {step: bracket", "  - {step: both, at: 2026-10-05 08:59, exit: below, reason: Seen on the scope}\n  - {step: bracket",
         "“below”. Reason: Seen on the scope. From here on nothing counts as proved."),
        ("revision: 2", "revision: 1", "Revision 1; the manual has revision 2 now."),
        ("revision: 2", "revision: 2\ndigest: 0123456789abcdef", "changed since without a new one"),
        ("revision: 2", "revision: 2\ndigest: 24fa940b3742f902", "Revision 2, the current one. Begun"),
        ("conclusion:", "fitted: [{part: cabin-heater, number: 4711}]\nconclusion:", "Parts fitted 1 × cabin-heater (4711)"),
        ("conclusion:", "remarks: It rained.\nconclusion:", "Remarks: It rained."),
    ],
)  # fmt: skip
def test_what_else_is_said(tmp_path, monkeypatch, capsys, old: str, new: str, words: str) -> None:
    """What is missing, breaks, barred exits, the revision, parts, remarks."""
    write(tmp_path, monkeypatch, changed(GOOD, old, new))

    _, out, _ = printed(capsys, RECORD)

    assert words in " ".join(out.split())


def test_json_holds_the_records_and_the_findings(tmp_path, monkeypatch, capsys) -> None:
    """Alone on standard output; paths from the current folder; figures as texts with their unit."""
    folder = write(tmp_path, monkeypatch, changed(GOOD, "torque: 20 N·m", "torque: 25 N·m"))
    monkeypatch.chdir(folder / "records")

    code, out, err = printed(capsys, "2026-0001.yml", "--format", "json")
    data = json.loads(out)

    assert (1, "") == (code, err)
    assert {"format", "records", "diagnostics", "counts"} == set(data)
    assert ["torque-outside-limits"] == [one["rule"] for one in data["diagnostics"]]
    (record,) = data["records"]
    assert ("../records/2026-0001.yml", "2026-0001", 2, 2, True) == (
        record["file"], record["job"], record["revision"], record["current_revision"], record["agrees"],
    )  # fmt: skip
    proof = next(one for one in record["entries"] if one["step"] == "isolate/8")
    expected = {"reading": "0.4 V", "limits": "at most 5 V", "error": "0.31 V", "verdict": "dead", "shown": "dead"}
    assert expected == {key: proof[key] for key in expected}
    assert {"torque": "25 N·m", "asked": "20 N·m", "outside": True}.items() <= record["entries"][-1].items()
    assert ("coil-good", "coil-good") == (record["conclusion"]["written"], record["conclusion"]["reached"])


def test_several_records_by_path_and_by_job(tmp_path, monkeypatch, capsys) -> None:
    """Each gets its report, in the order of the call, once."""
    second = changed(GOOD, "job: 2026-0001", "job: 2026-0002")
    write(tmp_path, monkeypatch, **{"records/2026-0002.yml": second})

    code, out, _ = printed(capsys, "2026-0002", RECORD, "2026-0002")

    assert 0 == code
    assert ["Job 2026-0002", "Job 2026-0001"] == [line[:13] for line in out.splitlines() if line.startswith("Job ")]
    assert out.endswith("No faults in 2 files\n")


def test_only_the_records_that_are_named_are_reported(tmp_path, monkeypatch, capsys) -> None:
    """A fault in another file of the manual is told by `check`, not here."""
    write(tmp_path, monkeypatch, **{"records/2026-0002.yml": "format: 1\n"})

    assert 0 == printed(capsys, RECORD)[0]
    assert 1 == printed(capsys, "2026-0002")[0]


def test_a_vehicle_identification_number_is_refused_unless_it_is_allowed(tmp_path, monkeypatch, capsys) -> None:
    """And it is printed by no report, allowed or not."""
    record = changed(GOOD, "started:", "vin: ABCDEFGH123456789\nstarted:")
    write(tmp_path, monkeypatch, record)
    refused = printed(capsys, RECORD, "--format", "json")
    write(tmp_path, monkeypatch, record, **{PLACES["workshop"]: f"{WORKSHOP}policy: {{allow_vin: yes}}\n"})
    allowed = printed(capsys, RECORD, "--format", "json")

    assert (1, 0) == (refused[0], allowed[0])
    assert ["vin-not-allowed"] == [one["rule"] for one in json.loads(refused[1])["diagnostics"]]
    assert "ABCDEFGH123456789" not in json.dumps(json.loads(allowed[1]))


@pytest.mark.parametrize("key", ["customer", "name", "owner", "plate", "address"])
def test_customer_data_has_no_key(tmp_path, monkeypatch, capsys, key: str) -> None:
    """A record cannot hold it; whoever writes it is told."""
    write(tmp_path, monkeypatch, changed(GOOD, "started:", f"{key}: Somebody\nstarted:"))

    assert 1 == printed(capsys, RECORD)[0]


def test_a_record_from_elsewhere_is_judged_as_if_it_lay_in_the_manual(tmp_path, monkeypatch, capsys) -> None:
    """Just as it is exported from the page; nothing is written, and one of the same name in the manual stays."""
    folder = write(tmp_path, monkeypatch)
    inside = printed(capsys, RECORD)
    elsewhere = tmp_path / Path(RECORD).name
    elsewhere.write_text(GOOD, encoding="utf-8")
    (folder / RECORD).unlink()

    assert inside == printed(capsys, f"../{Path(RECORD).name}")
    assert [] == list((folder / "records").iterdir())
    elsewhere.write_text(GOOD.replace("verdict: within", "verdict: above", 1), encoding="utf-8")
    code, said, _ = printed(capsys, str(elsewhere))
    assert (1, True) == (code, "verdict-shown-differs" in said)
    (tmp_path / "other").mkdir()
    again = tmp_path / "other" / elsewhere.name
    again.write_text(GOOD, encoding="utf-8")
    assert (2, "") == printed(capsys, str(elsewhere), str(again))[:2]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((), "FILE is missing, as in `bayleaf record 2026-0417`"),
        (("nothing.yml",), "there is no nothing.yml"),
        (("records",), "records is a folder"),
        ((PLACES["procedure"],), "is no record"),
        (("records/notes.txt",), "is no record of this manual"),
        ((RECORD, "--format", "sarif"), "sarif"),
        ((RECORD, "--today", "tomorrow"), "--today"),
    ],
)
def test_a_wrong_call_is_refused(tmp_path, monkeypatch, capsys, arguments: tuple[str, ...], words: str) -> None:
    """Exit code 2, one sentence, nothing on standard output."""
    write(tmp_path, monkeypatch, **{"records/notes.txt": "Notes\n"})

    code = run(["record", *arguments])
    found = capsys.readouterr()

    assert (2, "") == (code, found.out)
    assert words in found.err


@pytest.mark.parametrize("job", ["2026-0417", "2026-0433"])
def test_the_records_of_the_demo_are_clean_and_whole(job: str) -> None:
    """Every entry follows, no verdict differs, nothing is missing, and they come to the end that they name."""
    manual = demo()
    record = manual.records[job]
    found = evaluate(record, manual.procedures, manual.vehicles["larkway-m12"], manual.workshop)

    assert () == manual.by_file.get(record.file, ())
    assert found.around.agrees, f"the procedure was changed without a new revision: its digest is {found.around.digest}"
    assert all(one.follows and not one.unproved for one in found.way.entries)
    assert ((), ()) == (found.way.missing, found.way.following)
    assert found.way.end is not None and record.conclusion == found.way.end.conclusion


def test_the_second_record_of_the_demo_shows_what_happens_in_a_bay() -> None:
    """A break, a barred exit with its reason, a reading too close to call, proofs taken again, and a conclusion."""
    manual = demo()
    record = manual.records["2026-0433"]
    way = evaluate(record, manual.procedures, manual.vehicles["larkway-m12"], manual.workshop).way

    assert "heater-on-order" == record.conclusion
    assert "break" in [one.entry.paused for one in way.entries]
    assert [True] == [one.entry.reason is not None for one in way.entries if one.barred]
    assert "not decided" in [one.weighed.verdict for one in way.entries if one.weighed is not None]


@pytest.mark.parametrize(("left", "follows"), [("1.6 V", True), ("-1.6 V", True), ("16 V", False)])
def test_what_a_test_has_charged_is_discharged_before_the_work_goes_on(
    tmp_path: Path, left: str, follows: bool
) -> None:
    """A residual voltage above its limit leads nowhere but to “not decided”; the sign does not count."""
    shutil.copytree(ROOT / "procedures", tmp_path / "procedures")
    shutil.copy(ROOT / "mkdocs.yml", tmp_path)
    text = (ROOT / "records" / "2026-0433.yml").read_text(encoding="utf-8").replace("1.04 MΩ", "2.04 MΩ")
    text = text.replace("verdict: not decided", "verdict: within").replace("reading: 1.6 V", f"reading: {left}")
    shown = "within" if follows else "above"
    text = text.replace(f"{left}\n    between: [X1/2 cable, chassis]\n    limits: at most 5 V\n    instrument: insulation-tester\n    verdict: within",
                        f"{left}\n    between: [X1/2 cable, chassis]\n    limits: at most 5 V\n    instrument: insulation-tester\n    verdict: {shown}")  # fmt: skip
    (tmp_path / "records").mkdir()
    (tmp_path / "records" / "2026-0433.yml").write_text(text, encoding="utf-8")
    manual = load_manual(tmp_path, date(2026, 11, 27))
    way = evaluate(manual.records["2026-0433"], manual.procedures, manual.vehicles["larkway-m12"], manual.workshop).way

    behind = [one for one in way.entries if one.entry.step == ("dead-again",)][0]
    assert follows == behind.follows
