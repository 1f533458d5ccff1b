"""The file of a job as the page takes it in: what the checker takes is taken, the rest is refused with its mend, and every
reading is judged anew."""

import json
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from bayleaf.loading.load import load
from bayleaf.pages.step_view import Performed
from bayleaf.pages.working_data import data_of
from demo_kit import ROOT, demo
from js_kit import asset

Node = Callable[[str], Any]

SCRIPTS = "\n".join(
    asset(f"{name}.js") for name in ("exact", "verdict", "reading", "job_yaml", "job_store", "job_taken")
)
RECORDS = sorted((ROOT / "records").glob("*.yml"))
#: In its insulation test the bus is read twice: too low, and within its limits after the repair.
LEAK = "larkway-m12/find-insulation-fault"


@cache
def page_data(procedure: str) -> dict[str, Any]:
    """What the page of a procedure of the demo knows."""
    manual, performed = demo(), Performed(demo())
    found = manual.procedures[procedure]
    return data_of(found, manual, performed, performed.told(found))


def js(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False)


def taken(node: Node, text: str, procedure: str, **changed: Any) -> dict[str, Any]:
    """What the page makes of a file: the job or a problem, what it judges otherwise, and its own file of the job."""
    answer: dict[str, Any] = node(
        SCRIPTS
        + f"""
        const data = {{ ...{js(page_data(procedure))}, ...{js(changed)} }};
        const found = bayleafJobTaken.read({js(text)}, data);
        answer = found.problem ? found
          : {{ judged: bayleafJobTaken.anew(found.job, data), job: found.job, text: bayleafJobFile.write(found.job) }};
        """
    )
    return answer


@pytest.mark.parametrize("file", RECORDS, ids=[one.stem for one in RECORDS])
def test_a_record_of_the_demo_comes_out_as_it_went_in(node: Node, file: Path) -> None:
    """Each of them, as the checker reads both."""
    text = file.read_text(encoding="utf-8")
    before = load(f"records/{file.name}", text.encode(), "record")
    found = taken(node, text, before.model.procedure)
    assert "problem" not in found, found["problem"]
    after = load(f"records/{file.name}", found["text"].encode(), "record")

    assert [] == [one.message for one in after.findings]
    assert before.model == after.model


#: A record of the isolation; each case replaces a piece of it.
GOOD = """format: 1
job: 2026-0900
procedure: larkway-m12/isolate-traction
revision: 4
started: 2026-11-10 07:40
odometer: 84210 km
variant: series-2
entries:
  - {step: zone, at: 2026-11-10 07:45, done: yes}
  - step: prove
    at: 2026-11-10 08:24
    reading: 0.4 V
    between: [X1/1 cable, X1/2 cable]
    limits: at most 5 V
    instrument: voltage-tester
    verdict: dead
minutes: 54
"""
ISOLATION = "larkway-m12/isolate-traction"

REFUSED = [
    # what stands there, what is written in its place, what is told
    ("format: 1", "format: 2", "`format: 2` is another form of the file; this page reads `format: 1`"),
    ("format: 1\n", "", "`format` is missing; write `format: 1`"),
    ("revision: 4", "revision: abc", "`revision: abc` is no whole number from 1, such as `revision: 3`"),
    ("revision: 4", "revision: 4.5", "`revision: 4.5` is no whole number"),
    ("minutes: 54", "minutes: 1h30", "`minutes: 1h30` is no whole number"),
    ("series-2", "series-9", "not for `variant: series-9`; write `series-1` or `series-2`"),
    ("started: 2026-11-10 07:40", "started: yesterday", "`started: yesterday` is no date and time; write it as `2026-"),
    ("started: 2026-11-10 07:40", "started: 2026-02-30 07:40", "`started: 2026-02-30 07:40` is no date and time"),
    ("at: 2026-11-10 08:24", "at: noon", "Entry 2, step 14: `at: noon` is no date and time"),
    ("at: 2026-11-10 08:24", "at: 2026-11-10 24:24", "Entry 2, step 14: `at: 2026-11-10 24:24` is no date and time"),
    ("    at: 2026-11-10 08:24\n", "", "Entry 2, step 14: nobody can tell how old it is; write its time"),
    ("minutes: 54", "minutes: 54\nminutes: 55", "line 18: `minutes` stands there twice; take one of them out"),
    ("done: yes}", "done: yes, done: no}", "line 9: `done` stands there twice"),
    ("done: yes}", "done: perhaps}", "line 9: `done` is yes or no, not `perhaps`"),
    ("entries:", "entries:\nentries:", "line 9: `entries` stands there twice"),
    ("0.4 V", "lots", "Entry 2, step 14: `reading: lots`: `lots` does not fit here; a number with"),
    ("0.4 V", "0.4 Ω", "Entry 2, step 14: `reading: 0.4 Ω`: `Ω` does not fit here"),
    ("verdict: dead", "verdict: fine", "Entry 2, step 14: `verdict: fine` is none; write one of within, "),
    ("minutes: 54", "customer: Mr Smith", "line 17: a record has no `customer`; take it out"),
    ("instrument:", "colour:", "line 15: an entry has no `colour`; take it out"),
    ("odometer: 84210 km", "vin: hello", "`vin: hello` is no vehicle identification number: 17 letters and digits"),
    ("2026-0900", "?", "A job number holds letters, digits and hyphens"),
    ("isolate-traction", "drain", "belongs to another procedure: `larkway-m12/drain`"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "told"), REFUSED, ids=[new.strip() or old.strip() for old, new, _ in REFUSED])
def test_a_file_is_refused_with_its_mend(node: Node, old: str, new: str, told: str) -> None:
    """Where it stands, why, and what to write."""
    assert old in GOOD
    assert told in taken(node, GOOD.replace(old, new, 1), ISOLATION)["problem"]
    assert "problem" not in taken(node, GOOD, ISOLATION)


def test_a_line_without_end_is_told_by_its_beginning(node: Node) -> None:
    """A broken file may be one line of a million signs."""
    problem = taken(node, "x" * 1_000_000, ISOLATION)["problem"]

    assert "line 1: `xxx" in problem
    assert len(problem) < 200


def test_the_number_of_a_vehicle_comes_in_only_where_records_may_hold_it(node: Node) -> None:
    """Neither as such nor as the number of the job; the demo's workshop allows it."""
    with_vin = GOOD.replace("odometer: 84210 km", "vin: AX7LM12627P004187")
    as_job = GOOD.replace("2026-0900", "AX7LM12627P004187")

    assert "AX7LM12627P004187" == taken(node, with_vin, ISOLATION)["job"]["vin"]
    assert (
        "keeps none in its records: take the line `vin:` out" in taken(node, with_vin, ISOLATION, vin=False)["problem"]
    )
    assert "ax7lm12627p004187" == taken(node, as_job, ISOLATION)["job"]["job"]
    assert "type the workshop's own job number" in taken(node, as_job, ISOLATION, vin=False)["problem"]


@pytest.mark.parametrize(
    ("typed", "is_refused"),
    [
        ("AX7LM12627P004187", True),
        ("ax7 lm1262 7p004187", True),
        ("AX7LM12627P00418", False),  # 16
        ("AX7LM12627PO04187", False),  # an O is in no such number
        ("20261129000000001", False),  # no letter
        ("ABCDEFGHJKLMNPRST", False),  # no digit
        ("2026-0421", False),
    ],
)
def test_which_numbers_are_those_of_vehicles(node: Node, typed: str, is_refused: bool) -> None:
    """ISO 3779: 17 of A to Z without I, O and Q, and 0 to 9; a job number could be one by chance only with both in it."""
    found = node(f"{asset('job_store.js')}\nanswer = bayleafJobStore.number({js(typed)}, {{ vin: false }});")

    assert is_refused == ("problem" in found)


def test_a_job_number_gets_the_form_that_typing_gives(node: Node) -> None:
    """Small letters and hyphens."""
    assert "ab-12" == taken(node, GOOD.replace("2026-0900", "AB 12"), ISOLATION)["job"]["job"]


JUDGED = [
    # the reading and its verdict in the file, the verdict of the page
    ("0.4 V", "dead", "dead"),
    ("-0.4 V", "dead", "dead"),
    ("48 V", "dead", "not dead"),
    ("4.9 V", "dead", "not decided"),
    ("no reading", "dead", "no reading"),
    ("no reading", "not dead", "not dead"),
    ("0.4 V", "not dead", "dead"),
]


@pytest.mark.parametrize(("reading", "said", "judged"), JUDGED)
def test_each_reading_is_judged_anew(node: Node, reading: str, said: str, judged: str) -> None:
    """By the limits of the page, whatever the file says; where it is another verdict the step is told."""
    text = GOOD.replace("0.4 V", reading).replace("verdict: dead", f"verdict: {said}")
    found = taken(node, text, ISOLATION)

    assert judged == found["job"]["entries"][-1]["verdict"]
    told = {"step": "14", "reading": reading, "said": said, "is": judged}
    assert ([] if said == judged else [told]) == found["judged"]


def test_by_new_limits_an_old_reading_is_what_it_is_now(node: Node) -> None:
    """With what was at least 1 MΩ raised to 50 MΩ, 4 MΩ is too low; the limits by which it is judged stand beside it. What

    was left of the test, between the same contacts, is not taken for the insulation.
    """
    data = page_data(LEAK)
    steps = json.loads(json.dumps(data["steps"]))
    bus = next(step for step in steps if step["path"] == "bus")
    test, left = bus["readings"][:2]
    pair = f"[{', '.join(test['between'])}]"
    entries = "".join(
        f"  - step: bus\n    at: 2026-11-29 0{hour}:00\n    reading: {reading}\n    between: {pair}\n"
        f"    limits: {limits}\n    verdict: within\n"
        for hour, reading, limits in ((8, "4 MΩ", test["text"]), (9, "1.2 V", "at most 4 V"))
    )
    text = f"format: 1\njob: a\nprocedure: {LEAK}\nrevision: 1\nstarted: 2026-11-29\nentries:\n{entries}"
    for one in bus["readings"]:
        if not one.get("residual"):
            one["limit"], one["text"] = {"low": "50000000", "high": None}, "at least 50 MΩ"
    found = taken(node, text, LEAK, steps=steps)

    assert [("below", "at least 50 MΩ"), ("within", left["text"])] == [
        (one["verdict"], one["limits"]) for one in found["job"]["entries"]
    ]
    assert [("4 MΩ", "within", "below")] == [(one["reading"], one["said"], one["is"]) for one in found["judged"]]


#: What may be typed at any field, in each of its units.
TYPED = ("0", "0.3", "-0.3", "4.9", "12,5", "999.9", "1.125", "0.001", "1 234", "123456", "OL")


def test_what_was_entered_is_judged_alike_when_the_job_is_opened_again(node: Node) -> None:
    """At every field of the demo, in every unit of it: the text in the record says what the typed one said."""
    pages = [page_data(procedure) for procedure in sorted(demo().procedures)]
    differing = node(
        SCRIPTS
        + f"""
        answer = [];
        let count = 0;
        for (const data of {js(pages)}) for (const step of data.steps) (step.readings ?? []).forEach((field) => {{
          for (const unit of field.ladder) for (const typed of {js(TYPED)}) for (const holds of [false, true]) {{
            const found = bayleafReading.judge(typed, field, data.units, unit, holds);
            if (found.problem) continue;
            const proof = step.kind === "prove_dead";
            const outside = proof ? "not dead" : found.side;
            const verdict = {{ outside, within: proof ? "dead" : "within" }}[found.verdict] ?? found.verdict ?? undefined;
            const entry = {{ step: step.path, at: "2026-11-29 08:00", reading: found.text, between: field.between, limits: field.text, verdict }};
            count += 1;
            answer.push(...bayleafJobTaken.anew({{ entries: [entry] }}, data).map((one) => ({{ ...one, typed, unit, procedure: data.procedure }})));
          }}
        }});
        if (count < 10000) answer.push(count);
        """
    )

    assert [] == differing
