"""The rules about protection, instruments and people: what the examples on their pages cannot show."""

import re
from datetime import date

import pytest
from bayleaf.diagnostics.finding import Finding
from bayleaf.limits.instrument import error_at, range_for
from bayleaf.quantities.quantity import parse_quantity
from bayleaf.rules.protection._dates import Dated
from bayleaf.rules.protection._instruments import category_voltage
from bayleaf.rules.rule import Rule, all_rules
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from kit import BASES, ISOLATION, PLACES, VEHICLE, WORKSHOP, check, completed

RULES = [rule for rule in all_rules() if rule.family == "protection"]
NAMES = {rule.name for rule in RULES}
ISOLATE = "procedures/test-van/isolate.yml"

#: Two files that belong together, as a page shows them one after the other.
_BESIDE = re.compile(
    r"^```yaml (fails|passes) beside workshop\n(.*?)^```\n\n```yaml \1 beside procedure\n(.*?)^```$",
    re.MULTILINE | re.DOTALL,
)
_MARK = re.compile(r"# <- (.*)$")
EXAMPLES = [
    pytest.param(rule, *found, id=f"{rule.name}-{found[0]}") for rule in RULES for found in _BESIDE.findall(rule.page)
]


def findings(tmp_path, isolation: str = ISOLATION, workshop: str = WORKSHOP, vehicle: str = VEHICLE) -> list[Finding]:
    """What this family finds in the isolation of the small manual and in its workshop file."""
    files = {ISOLATE: isolation, PLACES["workshop"]: workshop, PLACES["vehicle"]: vehicle}
    return [one for one in check(tmp_path, files).findings if one.rule in NAMES]


def told(found: list[Finding]) -> list[tuple[str, str]]:
    """Rule and message."""
    return [(one.rule, one.message) for one in found]


def replaced(text: str, old: str, new: str) -> str:
    """The text with one piece changed, which must be there."""
    assert text.count(old) == 1, old
    return text.replace(old, new)


@pytest.mark.parametrize(("rule", "outcome", "workshop", "procedure"), EXAMPLES)
def test_example_of_two_files(tmp_path, rule: Rule, outcome: str, workshop: str, procedure: str) -> None:
    """The procedure raises exactly what is marked in it, and of this family nothing else."""
    expected = [
        (number, rule.name, mark[1])
        for number, line in enumerate(procedure.splitlines(), start=1)
        if (mark := _MARK.search(line))
    ]
    lists_testers = "instruments" in workshop or "proving_units" in workshop
    files = {
        PLACES["workshop"]: completed(workshop, BASES["workshop"]),
        PLACES["procedure"]: completed(procedure, BASES["procedure"]),
        ISOLATE: "" if lists_testers or not procedure else ISOLATION,
    }

    found = [one for one in check(tmp_path, files).findings if one.place.file == PLACES["procedure"]]

    assert bool(expected) == (outcome == "fails")
    assert expected == [(one.place.line, one.rule, one.message) for one in found if one.rule in NAMES]


def test_the_small_manual_is_right(tmp_path) -> None:
    """So whatever is found below comes from what is changed."""
    assert [] == findings(tmp_path)


# Gloves


GLOVES = "gloves-0: {class: class 0, tested: 2026-08-01, interval: 6 months}"
V830 = VEHICLE.replace("max: 410 V", "max: 830 V")
V2000 = VEHICLE.replace("max: 410 V", "max: 2000 V")
WEARING = ISOLATION.replace("  - disconnect: service-plug\n", "  - disconnect: service-plug\n    wear: gloves-0\n")


def test_gloves_that_are_worn_are_held_against_the_undivided_voltage(tmp_path) -> None:
    """Class 00 stands the 415 V at the socket of an 830 V battery, and is refused all the same."""
    workshop = replaced(WORKSHOP, "class: class 0", "class: class 00")

    found = findings(tmp_path, WEARING, workshop, V830)

    assert [
        ("protection-too-weak", "`gloves-0` are good for up to 750 V DC, but `traction` has up to 830 V DC")
    ] == told(found)
    assert "wear gloves of class 0 or higher" == found[0].help


def test_what_is_not_worn_in_writing_is_no_fault(tmp_path) -> None:
    """It is derived and printed; the workshop has to own it."""
    assert "wear" not in ISOLATION
    assert [] == findings(tmp_path, vehicle=V830)


def test_gloves_that_are_too_weak_or_late_are_each_given_their_reason(tmp_path) -> None:
    """The fault is at the first step that needs them; of the others it names some."""
    late = "gloves-1: {class: class 1, tested: 2026-01-31, interval: 6 months}"
    workshop = replaced(WORKSHOP, GLOVES, GLOVES.replace("class 0", "class 00") + "\n  " + late)

    found = findings(tmp_path, workshop=workshop, vehicle=V830)

    expected = [
        ("gloves-missing-for-voltage", "the workshop has no gloves for 830 V DC in date"),
        ("protection-test-overdue", "the test of `gloves-1` was due on 2026-07-31"),
    ]
    assert expected == told(found)
    assert "`gloves-0` are good for up to 750 V DC; the test of `gloves-1` was due on 2026-07-31" == found[0].because
    assert ["here too", "here too"] == [spot.text for spot in found[0].see]


def test_a_workshop_without_gloves_is_told_once_a_file(tmp_path) -> None:
    """Whatever the number of steps."""
    found = findings(tmp_path, workshop=replaced(WORKSHOP, GLOVES, "other: {kind: other}"))

    assert [("gloves-missing-for-voltage", "the workshop has no gloves for 410 V DC in date")] == told(found)


def test_gloves_that_are_named_and_late_are_not_missed_as_well(tmp_path) -> None:
    """One mistake, one error; the warning stands where the date is."""
    found = findings(tmp_path, WEARING, replaced(WORKSHOP, "tested: 2026-08-01", "tested: 2026-04-30"))

    late = "the test of `gloves-0` was due on 2026-10-30"
    assert [("worn-protection-overdue", late), ("protection-test-overdue", late)] == told(found)


def test_a_highest_voltage_that_is_not_known_counts_as_the_top(tmp_path) -> None:
    """Class 0 is enough for 1500 V DC, and the tester is not."""
    found = findings(tmp_path, WEARING, vehicle=VEHICLE.replace(", max: 410 V", ""))

    expected = (
        "`voltage-tester` is good for 1000 V by its measuring category, but `traction` counts as 1500 V DC, as its highest "
        "voltage is not known"
    )
    assert [("instrument-voltage-too-low", expected)] == told(found)


def test_a_stronger_glove_never_adds_a_finding(tmp_path_factory) -> None:
    """For each voltage, from class 00 upwards, worn or not."""
    for vehicle in (VEHICLE, V830, V2000):
        for isolation in (ISOLATION, WEARING):
            counts = []
            for name in ("00", "0", "1", "2", "3", "4"):
                workshop = replaced(WORKSHOP, "class: class 0", f"class: class {name}")
                found = findings(tmp_path_factory.mktemp("manual"), isolation, workshop, vehicle)
                counts.append({one.rule for one in found if "gloves" in one.message})
            assert all(later <= earlier for earlier, later in zip(counts, counts[1:], strict=False))


# Dates


@pytest.mark.parametrize(
    ("day", "interval", "due"),
    [
        (date(2026, 5, 1), "6 months", date(2026, 11, 1)),
        (date(2026, 8, 31), "6 months", date(2027, 2, 28)),
        (date(2027, 8, 31), "6 months", date(2028, 2, 29)),
        (date(2026, 12, 5), "1 month", date(2027, 1, 5)),
        (date(2026, 3, 1), "1 year", date(2027, 3, 1)),
        (date(2026, 3, 1), "9000 years", date.max),
    ],
)
def test_an_interval_is_counted_by_the_calendar(day: date, interval: str, due: date) -> None:
    """Where a month is shorter, its last day; on the day itself it is still in date."""
    dated = Dated("protection", "gloves-0", "tested", "test", day, parse_quantity(interval, "calendar time"))

    assert due == dated.due
    assert dated.late(due) is None


def test_the_day_after_is_late() -> None:
    """And what is missing is late on every day."""
    interval = parse_quantity("6 months", "calendar time")
    dated = Dated("protection", "gloves-0", "tested", "test", date(2026, 4, 30), interval)

    assert "the test of `gloves-0` was due on 2026-10-30" == dated.late(date(2026, 10, 31))
    assert dated._replace(day=None).late(date.min) == "of `gloves-0` no date of a test is known"
    assert dated._replace(interval=None).late(date.min) == "of `gloves-0` it is not known when the next test is due"


#: Every date and interval of the small workshop that counts where voltage is.
DATES = (
    ", tested: 2026-08-01", ", interval: 6 months", ", checked: 2026-10-05", ", interval: 12 months",
    "    calibrated: 2026-10-05\n", "    interval: 12 months\n",
)  # fmt: skip


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=20)
@given(st.sets(st.sampled_from(DATES)), st.sampled_from(DATES))
def test_deleting_a_date_only_adds(tmp_path_factory, gone: set[str], more: str) -> None:
    """A date that is missing is never better than one that has passed."""
    before, after = (
        {one.rule for one in findings(tmp_path_factory.mktemp("manual"), WEARING, _without(WORKSHOP, dates))}
        for dates in (gone, gone | {more})
    )

    assert before <= after


def _without(text: str, pieces: set[str]) -> str:
    for piece in pieces:
        text = replaced(text, piece, "\n" if piece.endswith("\n") else "").replace("\n\n", "\n")
    return text


@pytest.mark.parametrize("date_line", ["calibrated: 2026-10-05", "calibrated: 2025-10-05"])
def test_of_a_tester_without_date_or_interval_nobody_knows(tmp_path, date_line: str) -> None:
    """Late or not, without its date it is an error where it proves a circuit dead."""
    workshop = replaced(WORKSHOP, "    calibrated: 2026-10-05\n", "")

    assert [("tester-calibration-overdue", "of `voltage-tester` no date of a calibration is known")] == told(
        findings(tmp_path, workshop=workshop)
    )


def test_a_shield_without_a_date_is_not_asked_for_one(tmp_path) -> None:
    """Only gloves are tested by law; what has a date is held to it."""
    shield = "\n  another-shield: {name: Face shield}"
    dated = "\n  mat: {name: Mat, tested: 2025-09-01, interval: 12 months}"

    found = findings(tmp_path, workshop=replaced(WORKSHOP, GLOVES, GLOVES + shield + dated))

    assert [("protection-test-overdue", "the test of `mat` was due on 2026-09-01")] == told(found)


# What the workshop has to own besides gloves

OWNED = "  over-gloves: {kind: over-gloves}\n  face-shield: {kind: face shield}\n"
GLASSES = "  glasses: {name: Safety glasses, kind: eye protection}\n"
TOOLS = "  insulated-sockets: {name: Insulated sockets, insulated_to: 1000 V}\n"
V48 = VEHICLE.replace("nominal: 355 V, max: 410 V", "nominal: 48 V, max: 54 V")
V1200 = VEHICLE.replace("max: 410 V", "max: 1200 V")


@pytest.mark.parametrize(
    ("vehicle", "old", "new", "missing"),
    [
        (VEHICLE, "kind: over-gloves", "kind: other", ["over-gloves"]),
        (VEHICLE, "kind: face shield", "kind: eye protection", ["face shield"]),
        (VEHICLE, "kind: face shield", "name: Face shield", ["face shield"]),  # what it is called does not count
        (VEHICLE, OWNED, GLASSES, ["over-gloves", "face shield"]),
        (VEHICLE, TOOLS, "", ["insulated tools"]),
        (VEHICLE, "insulated_to: 1000 V", "insulated_to: 300 V", ["insulated tools"]),
        (VEHICLE, "insulated_to: 1000 V", "insulated_to: 500 V", []),
        (V1200, "insulated_to: 1000 V", "insulated_to: 1 kV", []),  # marked 1000 V means 1500 V DC (IEC 60900)
        (V1200, "insulated_to: 1000 V", "insulated_to: 999 V", ["insulated tools"]),
        (V48, OWNED, GLASSES, []),
        (V48, OWNED, "  face-shield: {kind: face shield}\n", []),  # a shield covers the eyes too
        (V48, OWNED, "  over-gloves: {kind: over-gloves}\n", ["eye protection"]),
        (V48, TOOLS, "", ["insulated tools"]),
    ],
)
def test_what_a_step_asks_for_is_owned(tmp_path, vehicle: str, old: str, new: str, missing: list[str]) -> None:
    """Class B: over-gloves, face shield, insulated tools. 48 V power: eyes and tools (common practice)."""
    found = findings(tmp_path, workshop=replaced(WORKSHOP, old, new), vehicle=vehicle)

    owned = [one.message.split(", but")[0] for one in found if one.rule == "protection-not-owned"]
    assert sorted(f"the workshop has no {kind}" for kind in missing) == sorted(owned)


# Instruments


@pytest.mark.parametrize(
    ("text", "volts"),
    [
        ("CAT III 1000 V", 1000),
        ("CAT III 1000V", 1000),
        ("CAT IV 600 V / CAT III 1000 V", 1000),
        ("CAT III/1000 V", 1000),
        ("600 V CAT III", 600),
        ("cat iii 1 kV", 1000),
        ("CAT III", None),
        ("1000 V", None),
    ],
)
def test_the_voltage_of_a_measuring_category(text: str, volts: int | None, tmp_path) -> None:
    """The highest one that is named; none where it cannot be told."""
    workshop = replaced(WORKSHOP, "category: CAT III 1000 V", f"category: {text}")
    found = category_voltage(check(tmp_path, {PLACES["workshop"]: workshop}).workshop.instruments["voltage-tester"])

    assert volts == (None if found is None else found.si)


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("highest_dc: 1200 V", "highest_dc: 400 V", "`voltage-tester` stands 400 V DC at its inputs, but `traction` has up to 410 V DC"),
        ("    highest_dc: 1200 V\n", "", "of `voltage-tester` the highest DC input is not known, but `traction` has up to 410 V DC"),
        ("    category: CAT III 1000 V\n", "",
         "of `voltage-tester` no voltage of a measuring category is known, but `traction` has up to 410 V DC"),
    ],
)  # fmt: skip
def test_category_and_direct_voltage_are_two_figures(tmp_path, old: str, new: str, message: str) -> None:
    """A category names an AC voltage; a manual was seen with 600 V CAT II and 1000 V DC."""
    found = findings(tmp_path, workshop=replaced(WORKSHOP, old, new))

    assert [("instrument-voltage-too-low", message)] == told(found)


def test_48_volts_ask_for_no_figures_but_hold_to_them(tmp_path) -> None:
    """Below 60 V a meter without a printed rating is no danger; a rating below the voltage is."""
    power = VEHICLE.replace("nominal: 355 V, max: 410 V", "nominal: 48 V, max: 54 V")
    unrated = replaced(replaced(WORKSHOP, "    highest_dc: 1200 V\n", ""), "    category: CAT III 1000 V\n", "")
    low = replaced(WORKSHOP, "highest_dc: 1200 V", "highest_dc: 30 V")

    assert [] == findings(tmp_path, workshop=unrated, vehicle=power)
    assert ["instrument-voltage-too-low"] == [one.rule for one in findings(tmp_path, workshop=low, vehicle=power)]


def test_48_volts_ask_for_neither_gloves_nor_a_second_person(tmp_path) -> None:
    """Eye protection and insulated tools are printed; one person with the key is enough (common practice)."""
    power = VEHICLE.replace("nominal: 355 V, max: 410 V", "nominal: 48 V, max: 54 V")
    alone = replaced(ISOLATION, "people: {at_least: 2, who: One person", "people: {at_least: 1, who: One person")
    bare = replaced(WORKSHOP, GLOVES, "other: {kind: other}")

    assert [] == findings(tmp_path, alone, bare, power)


def test_a_proof_in_the_wrong_kind_of_voltage(tmp_path) -> None:
    """A DC bus reads 0 on an AC range."""
    text = replaced(ISOLATION, "    using: voltage-tester\n", "    using: voltage-tester\n    current_kind: ac\n")

    found = findings(tmp_path, text)

    assert [("voltage-function-missing", "proved with `current_kind: ac`, but `traction` is a DC circuit")] == told(
        found
    )


def test_figures_of_another_kind_are_one_mistake(tmp_path) -> None:
    """A tester with no figures at all is told as such, and its limit is not judged."""
    functions = WORKSHOP[
        WORKSHOP.index("    functions:\n      dc voltage:\n        - {range: 100 V") : WORKSHOP.index(
            "  insulation-tester"
        )
    ]

    found = findings(tmp_path, workshop=replaced(WORKSHOP, functions, ""))

    assert [("tester-without-figures", "`voltage-tester` shows no voltage in figures")] == told(found)


# The limit of a proof


@pytest.mark.parametrize(
    ("limit", "rules"),
    [
        ("at most 60 V", ["dead-limit-leaves-no-room"]),
        ("at most 60.1 V", ["dead-limit-too-high"]),
        ("at most 59.6 V", ["dead-limit-leaves-no-room"]),
        # r + 0.005 r + 0.2 V <= 60 V: 59.502 V is the exact solution (computed).
        ("at most 59.5 V", []),
        ("at least 5 V", ["dead-limit-too-high"]),
        ("0 V to 5 V", []),
    ],
)
def test_the_limit_and_the_error_together_stay_below_60_volts(tmp_path, limit: str, rules: list[str]) -> None:
    """For a tester of ±(0.5 % + 2 digits of 0.1 V)."""
    workshop = replaced(
        WORKSHOP,
        "range: 100 V, resolution: 0.1 V, accuracy: 2.0 % + 3",
        "range: 100 V, resolution: 0.1 V, accuracy: 0.5 % + 2",
    )

    found = findings(tmp_path, replaced(ISOLATION, "limits: at most 5 V", f"limits: {limit}"), workshop)

    assert rules == [one.rule for one in found]


def test_a_tester_that_does_not_show_the_limit_leaves_no_room(tmp_path) -> None:
    """Its greatest range ends below it."""
    ranges = "        - {range: 1200 V, resolution: 1 V, accuracy: 2.0 % + 3 digits}\n"
    workshop = replaced(replaced(WORKSHOP, ranges, ""), "{range: 100 V", "{range: 40 V")

    found = findings(tmp_path, replaced(ISOLATION, "limits: at most 5 V", "limits: at most 50 V"), workshop)

    assert [
        ("dead-limit-leaves-no-room", "`at most 50 V` leaves no room: `voltage-tester` does not show as much")
    ] == told(found)


def test_the_range_is_the_smallest_that_shows_the_limit(tmp_path) -> None:
    """A last place that is not known counts as a hundredth of the range."""
    tester = check(tmp_path, {}).workshop.instruments["voltage-tester"]
    low, high = tester.functions["dc voltage"]

    assert [low, low, high, None] == [range_for(volts, (high, low)) for volts in (5, 100, 101, 1201)]
    assert 50 * 0.02 + 3 * 0.1 == pytest.approx(float(error_at(50, low)))
    assert error_at(50, low) < error_at(50, high)


@pytest.mark.parametrize(
    ("policy", "rules"),
    [("10 V", []), ("5 V", []), ("2 V", ["dead-limit-above-policy"]), ("100 V", [])],
)
def test_the_workshop_can_only_ask_for_more(tmp_path, policy: str, rules: list[str]) -> None:
    """A policy laxer than the floor changes nothing."""
    for limit, more in (("at most 5 V", []), ("at most 75 V", ["dead-limit-too-high"])):
        text = replaced(ISOLATION, "limits: at most 5 V", f"limits: {limit}")
        found = findings(tmp_path, text, WORKSHOP + f"policy: {{dead_below: {policy}}}\n")
        assert (more or rules) == [one.rule for one in found]


# People


ALONE = replaced(
    ISOLATION,
    "people: {at_least: 2, who: One person qualified for work on dead high-voltage systems}",
    "people: {who: One}",
)


def test_a_number_that_is_written_nowhere_is_one_mistake(tmp_path) -> None:
    """The proof is named; opening and uncovering alone are not told again."""
    assert [("proving-dead-alone", "one person alone proves `traction` dead")] == told(findings(tmp_path, ALONE))


def test_procedure_without_people_is_one_mistake(tmp_path) -> None:
    """The same line would say who may do it."""
    text = replaced(ALONE, "people: {who: One}\n", "")

    assert ["proving-dead-alone"] == [one.rule for one in findings(tmp_path, text)]


def test_two_at_the_proof_alone_leave_the_other_steps(tmp_path) -> None:
    """Opening the plug and taking the cover off: one warning, at the first, with the other beside it."""
    text = replaced(ALONE, "  - prove_dead: traction\n", "  - prove_dead: traction\n    people: 2\n")

    found = findings(tmp_path, text)

    assert [("class-b-work-alone", "one person alone opens `service-plug`")] == told(found)
    assert 1 == len(found[0].see)


def test_switching_on_is_energising_only_where_class_b_is_worked_on(tmp_path) -> None:
    """A lamp is tested by one person with the vehicle ready."""
    head = "people: {who: One}\nsteps:\n  - set: {mode: ready}\n"
    ordinary = completed(head + "  - read: Voltage\n", BASES["procedure"])
    work = completed(head + "  - unplug: X7\n  - plug: X7\n", BASES["procedure"])

    for text, expected in ((ordinary, []), (work, ["one person alone brings the vehicle into ready"])):
        found = check(tmp_path, {PLACES["procedure"]: text}).findings
        assert expected == [one.message for one in found if one.rule == "class-b-work-alone"]


@pytest.mark.parametrize(
    ("steps", "message"),
    [
        ("  - energise: traction\n    by: key\n", "one person alone energises `traction`"),
        ("  - command: Close the contactors\n    energises: [traction]\n", "one person alone energises `traction`"),
        (
            "  - measure: U\n    quantity: voltage\n    between: [X7/1 cable, X7/2 cable]\n",
            "one person alone reads a voltage of class B",
        ),
        ("  - reconnect: service-plug\n", "one person alone closes `service-plug`"),
        ("  - disconnect: [charge-lead, aux-negative]\n", None),
        ("  - measure: U\n    quantity: voltage\n    between: [X210/3, X210/1]\n", None),
    ],
)
def test_what_nobody_does_alone(tmp_path, steps: str, message: str | None) -> None:
    """Opening, closing, reading live, energising; pulling a charge lead and 12 V are ordinary work."""
    text = completed("people: {who: One}\nsteps:\n" + steps, BASES["procedure"])

    found = check(tmp_path, {PLACES["procedure"]: text}).findings

    assert ([message] if message else []) == [one.message for one in found if one.rule == "class-b-work-alone"]


TRAINED = "people: {at_least: 2, who: One person qualified for work on dead high-voltage systems}\n"


@pytest.mark.parametrize(
    ("job", "expected"),
    [
        ("", {"job": "isolate", "around": "isolate"}),
        ("people: {at_least: 2}\n", {"job": "isolate", "around": "isolate"}),
        (TRAINED, {"around": "job"}),
    ],
)
def test_what_performs_work_for_trained_people_is_for_them_too(tmp_path, job: str, expected: dict[str, str]) -> None:
    """However far down the isolation is performed: the nearest procedure that says for whom it is, is named."""
    base = replaced(BASES["procedure"], TRAINED, "")
    around = completed("id: test-van/around\nsteps:\n  - perform: test-van/job\n", base)
    files = {
        ISOLATE: ISOLATION,
        PLACES["procedure"]: completed(job + "steps:\n  - perform: test-van/isolate\n", base),
        "procedures/test-van/around.yml": around,
    }

    found = [one for one in check(tmp_path, files).findings if one.rule == "qualification-not-said"]

    assert {
        f"procedures/test-van/{name}.yml": f"this procedure performs `test-van/{inner}` and does not say who may do it"
        for name, inner in expected.items()
    } == {one.place.file: one.message for one in found}


def test_a_12_volt_job_needs_no_qualification_for_high_voltage(tmp_path) -> None:
    """On the same vehicle."""
    text = completed("people: {at_least: 1}\nsteps:\n  - unplug: X210\n  - plug: X210\n", BASES["procedure"])

    assert [] == [one for one in check(tmp_path, {PLACES["procedure"]: text}).findings if one.rule in NAMES]


# What is spoilt is not judged again


def test_of_a_spoilt_workshop_file_nothing_more_is_said(tmp_path) -> None:
    """A date that cannot be read is one error."""
    found = findings(tmp_path, WEARING, replaced(WORKSHOP, "tested: 2026-08-01", "tested: last summer"))

    assert [] == found
