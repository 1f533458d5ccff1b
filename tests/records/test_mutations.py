"""A good record with one thing changed: exactly that is told, and nothing else.

The job, its procedure and its good record stand in `record_kit.py`.
"""

import pytest
from bayleaf.rules.rule import all_rules
from kit import PLACES, VEHICLE, WORKSHOP
from record_kit import GOOD, JOB, PROOF, changed, evaluated, in_record, manual_with, told

ONE = "  - {step: one, at: 2026-10-05 08:50, reading: 150 Ω, limits: 100 Ω to 200 Ω, instrument: multimeter, verdict: within}\n"
TWO = ONE.replace("one", "two").replace("08:50", "08:52").replace("150", "120")
OFF = "  - {step: heater-off, at: 2026-10-05 08:45, done: yes}\n"
ON = "  - {step: heater-on, at: 2026-10-05 08:58, done: yes}\n"
BRACKET = "  - {step: bracket, at: 2026-10-05 09:00, torque: 20 N·m}\n"
PAUSE = "  - {step: heater-off, at: 2026-10-05 08:42, paused: hand-over}\n"
CLEAN = "  - {step: clean, done: yes}\n"
CLOSE = ONE.replace("150 Ω", "100.5 Ω").replace("within", "not decided")
OPENED = "  - {step: one, exit: not_decided, reason: The pins look green}\n"


def test_the_good_record_is_good(tmp_path) -> None:
    """Nothing is told of it, every entry follows, nothing is missing, and it ends where it says."""
    manual = manual_with(tmp_path, GOOD)
    found = evaluated(manual)

    assert [] == told(manual)
    assert found.around.agrees
    assert all(one.follows for one in found.way.entries)
    assert ((), ()) == (found.way.missing, found.way.following)
    assert found.way.end is not None and "coil-good" == found.way.end.conclusion


MUTATIONS = [
        (TWO, TWO.replace("within", "above"), "verdict-shown-differs", "`above` was shown for 120 Ω, but it is within"),
        (ONE, ONE.replace("100 Ω", "160 Ω"), "verdict-shown-differs",
         "`within` was shown for 150 Ω, but it is below: 160 Ω to 200 Ω"),
        ("reading: 120 Ω", "reading: 121 Ω", "computed-value-differs", "give 66.974 Ω, not 66.67 Ω"),
        ("reading: 0.4 V", "reading: 6 V", "verdict-shown-differs", "`dead` was shown for 6 V, but it is not dead"),
        ("reading: -0.2 V", "reading: -6 V", "verdict-shown-differs", "`dead` was shown for -6 V, but it is not dead"),
        ("reading: 0.4 V", "reading: no reading", "verdict-shown-differs", "`dead` was shown for no reading, but it is no reading"),
        ("reading: 150 Ω", "reading: 150 V", "reading-of-another-quantity", "150 V is a voltage, but the limits are of a resistance"),
        ("[X1/1 cable, X1/2 cable]", "[X7/1 cable, X7/2 cable]", "reading-elsewhere", "not read between X7/1 cable and X7/2 cable"),
        ("reading: 66.67 Ω", "reading: 66.8 Ω", "computed-value-differs", "give 66.667 Ω, not 66.8 Ω"),
        ("answer: dry", "answer: drie", "answer-not-in-procedure", "no answer `drie`"),
        (BRACKET, BRACKET.replace("20 N", "22 N"), "torque-outside-limits", "22 N·m is not the torque of `heater-bracket`"),
        (BRACKET, BRACKET.replace("20 N", "19.1 N"), "torque-outside-limits", "with this wrench 19.2 N·m to 20.8 N·m"),
        (TWO, "", "step-cannot-follow", "step `both` cannot follow step `one`"),
        (ON + BRACKET, BRACKET + ON, "step-cannot-follow", "step `heater-on` cannot follow step `bracket`"),
        ("answer: dry", 'answer: "wet, or green"', "step-cannot-follow", "step `isolate/1` cannot follow step `look`"),
        ("conclusion: coil-good", "conclusion: coil-bad", "conclusion-not-led-to", "does not lead to `coil-bad`, but to `coil-good`"),
        ("conclusion: coil-good", "conclusion: coil-goo", "record-conclusion-not-found", "no conclusion `coil-goo`"),
        ("step: heater-off", "step: heater-of", "record-step-not-found", "no step `heater-of`"),
        ("step: two", "step: twoo", "record-step-not-found", "no step `twoo`"),
        (OFF, PAUSE + OFF, "work-while-not-proved", "step `heater-off` touches `traction`"),
        (OFF, OFF.replace("08:45", "09:45"), "proof-too-old-for-work",
         "step `heater-off` touches `traction` at 09:45, proved dead at 08:40, and a proof holds for 60 min"),
        (ONE, ONE + "  - {step: one, exit: sideways, reason: Why not}\n", "answer-not-in-procedure", "no exit `sideways`"),
        ("started: 2026-10-05", "started: 2026-09-30", "revision-younger-than-job", "and revision 2 is of 2026-10-01"),
        ("started:", "vin: ABCDEFGH123456789\nstarted:", "vin-not-allowed", "has not allowed"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "rule", "words"), MUTATIONS)
def test_one_change_is_told_once(tmp_path, old: str, new: str, rule: str, words: str) -> None:
    """One mistake is one finding, by its rule, in words that name it."""
    manual = manual_with(tmp_path, changed(GOOD, old, new))

    ((name, message),) = told(manual)
    assert rule == name
    assert words in message


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (OFF, ""),  # a step that decides nothing is missing, not wrong
        (BRACKET, BRACKET.replace("20 N", "22 N") + BRACKET),  # put right
        (OFF, PAUSE + PROOF + OFF),  # proved again after the break
        (ONE, CLOSE + CLEAN + ONE),  # once round the loop
        (ONE, ONE + OPENED + CLEAN + PROOF + ONE),  # a barred exit with its reason, and a proof behind it
        (ONE, ONE.replace("150 Ω", "500 Ω").replace("within", "above") + ONE),  # a reading put right at once
        (OFF, OFF.replace("yes", "no") + OFF),  # a tick taken back
        ("step: isolate/1,", "step: 2/1,"),  # numbers along the path
        ("step: isolate/1,", "step: 2.1,"),  # the number on the page
        ("between: [X1/1 cable, X1/2 cable]", "between: [X1/2 cable, X1/1 cable]"),
        ("reading: 66.67 Ω", "reading: 67 Ω"),  # rounded
        ("reading: 66.67 Ω", "reading: 0.06667 kΩ"),
        ("limits: at least 60 Ω, ", ""),  # then those of the file are taken
        ("limits: at least 60 Ω, ", "limits: at least 0.06 kΩ, "),  # as it may be written
        (ON, "  - {step: both, exit: within}\n" + ON),  # the exit that the verdict takes needs no reason
        ("odometer: ", "odometer: "),
    ],
)
def test_what_is_no_mistake_passes(tmp_path, old: str, new: str) -> None:
    """The other way to do or to write it is as good."""
    record = GOOD.replace(old, new, 1) if GOOD.count(old) != 1 else changed(GOOD, old, new)

    assert [] == told(manual_with(tmp_path, record))


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        (ONE, ONE.replace("100 Ω", "160 Ω"), "held against 160 Ω to 200 Ω, but the step says 100 Ω to 200 Ω"),
        ("limits: at least 60 Ω", "limits: at least 6 Ω", "held against at least 6 Ω, but the step says at least 60 Ω"),
        ("limits: at least 60 Ω", "limits: at least 0.06 kΩ", None),  # the same, written in another way
        ("limits: at least 60 Ω, ", "", None),  # then those of the file are taken
    ],
)
def test_other_limits_than_those_of_the_step_are_told(tmp_path, old: str, new: str, expected: str | None) -> None:
    """Where the digest says that it was this very text; the verdict by wrong limits is then no finding of its own."""
    same = evaluated(manual_with(tmp_path / "without", GOOD)).around.digest
    record = changed(changed(GOOD, "revision: 2", f"revision: 2\ndigest: {same}"), old, new)

    found = told(manual_with(tmp_path / "with", record))

    assert ([] if expected is None else ["limits-shown-differ"]) == [name for name, _ in found]
    assert expected is None or expected in found[0][1]


def test_a_missing_step_is_listed(tmp_path) -> None:
    """The evaluation says which step has no entry."""
    way = evaluated(manual_with(tmp_path, changed(GOOD, OFF, ""))).way

    assert [("heater-off", "no entry")] == [(step.path, what) for step, what in way.missing]


def test_readings_that_a_step_lacks_are_listed(tmp_path) -> None:
    """Two of three pairs: the work may go on where these lead, and the evaluation says what is missing."""
    first = PROOF[: PROOF.index("  - ", 4)]
    manual = manual_with(tmp_path, changed(GOOD, first, ""))

    assert [] == told(manual)
    assert [("isolate/8", "2 of 3 readings")] == [(step.path, what) for step, what in evaluated(manual).way.missing]


def test_a_display_without_a_figure_leads_nowhere(tmp_path) -> None:
    """An overload proves nothing: the step behind the proof cannot follow."""
    silent = changed(PROOF, "reading: 0.4 V", "reading: no reading")
    silent = silent.replace("verdict: dead", "verdict: no reading", 1)
    manual = manual_with(tmp_path, changed(GOOD, PROOF, silent))

    assert [("step-cannot-follow", "step `heater-off` cannot follow step `isolate/8`")] == told(manual)


def test_a_barred_exit_needs_a_reason_and_a_new_proof(tmp_path) -> None:
    """Without either, both are told: the reason at the exit, the proof where the circuit is touched."""
    opened = changed(OPENED, ", reason: The pins look green", "")
    manual = manual_with(tmp_path, changed(GOOD, ONE, ONE + opened + CLEAN + ONE))

    assert ["exit-without-reason", "work-while-not-proved"] == [one.rule for one in in_record(manual)]
    assert "step `heater-on` touches `traction`" in told(manual)[1][1]


def test_a_loop_ends_when_it_is_exhausted(tmp_path) -> None:
    """After one repetition the third arrival leads to the conclusion of the loop: nothing follows it."""
    rounds = changed(GOOD, ONE, CLOSE + CLEAN + CLOSE + CLEAN + ONE)
    manual = manual_with(tmp_path, rounds)
    ended = manual_with(
        tmp_path / "ended", changed(rounds[: rounds.index(ONE)], "revision: 2", "revision: 2\nconclusion: coil-bad")
    )

    assert ("step-cannot-follow", "step `one` cannot follow step `clean`") == told(manual)[0]
    assert [] == told(ended)
    end = evaluated(ended).way.end
    assert end is not None and "coil-bad" == end.conclusion


@pytest.mark.parametrize(
    "change", [("revision: 2", "revision: 1"), ("revision: 2", "revision: 2\ndigest: 0123456789abcdef")]
)
def test_a_record_of_another_procedure_is_judged_by_itself_alone(tmp_path, change: tuple[str, str]) -> None:
    """Another revision or digest: order, torques and conclusions are not held against the file, the readings are judged."""
    record = changed(changed(GOOD, *change), ON + BRACKET, BRACKET.replace("20 N", "90 N") + ON)
    wrong = changed(record, "reading: 120 Ω", "reading: 500 Ω")

    assert [] == told(manual_with(tmp_path / "one", record))
    assert ["verdict-shown-differs"] == [rule for rule, _ in told(manual_with(tmp_path / "two", wrong))]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("    then: one\n", "    then: clean\n"),  # a loop without a way out
        ("    then: one\n", "    then: oen\n"),  # a step that is not there
        ("perform: test-van/isolate", "perform: test-van/job"),  # it performs itself
    ],
)
def test_a_fault_in_the_flow_of_the_procedure_is_told_there_alone(tmp_path, old: str, new: str) -> None:
    """The order of the record is not held against a procedure that cannot be followed."""
    swapped = changed(GOOD, ON + BRACKET, BRACKET + ON)
    manual = manual_with(tmp_path, swapped, **{PLACES["procedure"]: changed(JOB, old, new)})

    assert [] == [one.rule for one in in_record(manual) if one.rule != "record-step-not-found"]
    assert manual.has_errors
    assert not evaluated(manual).around.agrees


@pytest.mark.parametrize(
    ("variant", "only"),
    [
        ("variant: long\n", "long"),
        ("", "long"),  # nobody has said which vehicle it was
        ("variant: long\n", "short"),  # a version that the profile does not know: told at the step alone
    ],
)
def test_steps_for_some_versions_of_the_vehicle(tmp_path, variant: str, only: str) -> None:
    """A step that is for the vehicle of the record, or may be, can have its entry."""
    job = changed(JOB, "    unplug: [X7, X210]\n", f"    unplug: [X7, X210]\n    only_for: {only}\n")
    manual = manual_with(tmp_path, changed(GOOD, "started:", f"{variant}started:"), **{PLACES["procedure"]: job})

    assert all(one.follows for one in evaluated(manual).way.entries)


def test_a_step_for_another_version_cannot_have_an_entry(tmp_path) -> None:
    """It is passed over; whoever did it all the same is told."""
    job = changed(JOB, "    unplug: [X7, X210]\n", "    unplug: [X7, X210]\n    only_for: long\n")
    files = {
        PLACES["procedure"]: job,
        PLACES["vehicle"]: changed(VEHICLE, "  long: {name", "  short: {name: Short}\n  long: {name"),
    }
    record = changed(GOOD, "started:", "variant: short\nstarted:")
    way = evaluated(manual_with(tmp_path, record, **files)).way
    without = evaluated(manual_with(tmp_path / "without", changed(record, OFF, ""), **files)).way

    assert ["heater-off"] == [one.step.path for one in way.entries if one.step is not None and not one.follows]
    assert all(one.follows for one in without.entries)
    assert () == without.missing


def test_a_broken_workshop_file_silences_the_rules(tmp_path) -> None:
    """Without the errors of the instruments no verdict can be compared."""
    wrong = changed(GOOD, "reading: 0.4 V", "reading: 60 V")
    broken = {"procedures/workshop.yml": changed(WORKSHOP, "kind: multimeter", "kind: spoon")}

    assert [] == in_record(manual_with(tmp_path, wrong, **broken))


def test_every_rule_about_records_has_a_mutation() -> None:
    """No rule of the family is left untried; those on reasons and on limits are tried by themselves."""
    tried = {rule for _, _, rule, _ in MUTATIONS} | {"exit-without-reason", "limits-shown-differ"}

    assert set() == {rule.name for rule in all_rules() if rule.family == "records"} - tried
