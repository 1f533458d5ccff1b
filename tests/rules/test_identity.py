"""What things are called: what examples on the pages of the rules cannot show."""

import pytest
from bayleaf.loading.schema import FileKind
from bayleaf.manual import Manual, ManualKeeper
from bayleaf.manual_files import File
from kit import PLACES, PROCEDURE, RECORD, TODAY, VEHICLE, WORKSHOP, check, completed, write_manual
from names_kit import FAMILY, JOB, PROFILE, found, job


def told(manual: Manual) -> list[tuple[str, str, str]]:
    """File, rule and message of what these rules say."""
    return [(finding.place.file, finding.rule, finding.message) for finding in found(manual)]


@pytest.mark.parametrize(
    ("place", "rule", "named"),
    [
        ("procedures/test-van/more.yaml", "name-ends-in-yaml", "more.yaml"),
        ("procedures/test-van/more.YML", "name-ends-in-yaml", "more.YML"),
        ("procedures/test-van/Replace heater.yml", "file-name-not-usable", "Replace heater"),
        ("procedures/Other-Van/more.yml", "file-name-not-usable", "Other-Van"),
        ("procedures/test-van/energy.yml", "file-name-not-usable", "energy"),
        ("procedures/test-van/review.yml", "file-name-not-usable", "review"),
        ("procedures/more.yml", "file-out-of-place", "procedures/more.yml"),
        ("procedures/test-van/old/more.yml", "file-out-of-place", "procedures/test-van/old/more.yml"),
        ("records/2026/more.yml", "file-out-of-place", "records/2026/more.yml"),
    ],
)
def test_file_that_lies_wrong_or_is_called_wrong_is_told(tmp_path, place: str, rule: str, named: str) -> None:
    """It is not read; what is wrong is told once, by its name, and nothing else is said about it."""
    manual = check(tmp_path, {place: completed("id: test-van/more\n", PROCEDURE)})

    ((file, name, message),) = told(manual)
    assert (place, rule) == (file, name)
    assert f"`{named}`" in message
    assert place not in manual.files


def test_files_in_their_places_pass(tmp_path) -> None:
    """A profile, procedures, the workshop file and a record."""
    manual = check(tmp_path, {PLACES["record"]: RECORD})

    assert [] == told(manual)
    places = {place for kind, place in PLACES.items() if kind != "page"}
    assert sorted([*places, "procedures/test-van/isolate.yml"]) == sorted(manual.files)


@pytest.mark.parametrize(
    ("place", "kind", "text", "expected"),
    [
        (
            "procedures/test-van/aux.yml",
            "procedure",
            completed("id: test-van/aux\n", PROCEDURE),
            "file called `aux.yml`",
        ),
        ("procedures/con/vehicle.yml", "vehicle", completed("vehicle: con\n", VEHICLE), "folder called `con`"),
        ("records/com1.yml", "record", completed("job: com1\n", RECORD), "file called `com1.yml`"),
        ("procedures/test-van/aux-battery.yml", "procedure", completed("id: test-van/aux-battery\n", PROCEDURE), None),
        ("procedures/test-van/com10.yml", "procedure", completed("id: test-van/com10\n", PROCEDURE), None),
    ],
)
def test_names_that_windows_keeps_are_told(tmp_path, place: str, kind: FileKind, text: str, expected: str) -> None:
    """On every computer, as a warning: the file is read where it can be. It is counted here without being written."""
    keeper = ManualKeeper(write_manual(tmp_path, {}))
    manual = keeper.manual(TODAY, drafts={File(place, kind): text.encode()})

    rule = "name-kept-by-windows"
    found = [(one.place.file, one.rule, one.severity, one.message) for one in manual.findings if one.rule in FAMILY]
    assert found == ([(place, rule, "warning", f"Windows cannot have a {expected}")] if expected else [])


def test_id_that_cannot_be_read_is_not_told_to_lie_wrong(tmp_path) -> None:
    """Its form is wrong, and that is told; what it should have been is not known."""
    manual = check(tmp_path, {JOB: PROCEDURE.replace("id: test-van/job", "id: Test van job")})

    assert [] == told(manual)
    assert 1 == len(manual.findings)


def test_repeated_id_in_a_group_is_told_once_and_as_it_is_written(tmp_path) -> None:
    """The steps are there once for each place, the mistake is there once."""
    text = """\
steps:
  - for_each: [X7, X210]
    steps:
      - id: look
        do: Look.
        on: each
      - id: look
        do: Look again.
        on: each
"""
    assert [(JOB, "identifier-used-twice", "`look` is the name of two steps")] == told(check(tmp_path, job(text)))


def test_same_id_at_two_places_of_a_group_is_none_twice(tmp_path) -> None:
    """Each place has ids of its own."""
    text = "steps:\n  - for_each: [X7, X210]\n    steps:\n      - id: look\n        do: Look.\n        on: each\n"

    assert [] == told(check(tmp_path, job(text)))


def test_step_and_conclusion_share_their_names(tmp_path) -> None:
    """Whatever leads to the name could mean either."""
    text = """\
steps:
  - id: leak
    do: Look.
    on: nothing
conclusions:
  leak: {finding: It leaks.}
"""
    (finding,) = found(check(tmp_path, job(text)))

    assert "`leak` is the name of a conclusion and of a step" == finding.message
    assert (6, [2]) == (finding.place.line, [see.place.line for see in finding.see])


def test_names_within_one_section_that_differ_in_capitals_are_told(tmp_path) -> None:
    """Neither use nor definition may depend on how a name is pronounced."""
    profile = VEHICLE.replace("cables:\n", "cables:\n  Ground-strap: {name: Other strap, circuit: supply-12}\n")

    expected = [(PROFILE, "identifier-used-twice", "`ground-strap` and `Ground-strap` are both the name of a cable")]
    assert expected == told(check(tmp_path, {PROFILE: profile}))


def test_name_of_two_kinds_is_no_second_fault_where_it_is_used(tmp_path) -> None:
    """A name that stands for a cable and a connector may be used as either until that is mended."""
    profile = VEHICLE.replace("  ground-strap:", "  X210:")
    text = "steps:\n  - measure: Current\n    quantity: current\n    around: X210\n    when: {plugged: X210}\n"

    expected = [(PROFILE, "identifier-used-twice", "`X210` is the name of a cable, and `X210` of a connector")]
    assert expected == told(check(tmp_path, {PROFILE: profile, **job(text)}))


@pytest.mark.parametrize(
    "section", ["circuits", "isolation_points", "connectors", "parts", "cables", "buses", "fasteners"]
)
@pytest.mark.parametrize("name", ["chassis", "nothing", "none", "never", "each", "mode-off", "None"])
def test_reserved_word_is_refused_in_every_section(tmp_path, section: str, name: str) -> None:
    """Also with a capital letter."""
    profile = VEHICLE.replace(f"{section}:\n", f"{section}:\n  {name}: {{name: Something}}\n", 1)

    rules = [rule for _, rule, _ in told(check(tmp_path, {PROFILE: profile}))]

    assert ["name-reserved"] == rules


@pytest.mark.parametrize("name", ["next", "stop", "end"])
def test_reserved_word_is_refused_for_a_conclusion(tmp_path, name: str) -> None:
    """It would be taken for what follows."""
    manual = check(tmp_path, job(f"conclusions:\n  {name}: {{finding: It leaks.}}\n"))

    assert [(JOB, "name-reserved", f"no conclusion can be called `{name}`")] == told(manual)


#: What is wrong with a code, and what to write. Form: ISO 15031-6, SAE J2012.
WRONG_CODES = (
    ("p0aa6-1b", "`p0aa6-1b` is written in small letters", "write `P0AA6-1B`"),
    ("p0aa61b", "the failure type of `p0aa61b` stands without its hyphen", "write `P0AA6-1B`"),
    ("P0AA6:1B", "`P0AA6:1B` is not written as a trouble code", "write `P0AA6-1B`"),
    ("P0AA6 1B", "`P0AA6 1B` is not written as a trouble code", "write `P0AA6-1B`"),
    ("P0AA6–1B", "`P0AA6–1B` is not written as a trouble code", "write `P0AA6-1B`"),
    ("P 0AA6", "`P 0AA6` is not written as a trouble code", "write `P0AA6`"),
    ("UOI12", "`UOI12` has a letter where a digit belongs", "write `U0112`"),
    ("0AA6", "`0AA6` begins with `0`", "a trouble code begins with `P` powertrain, `C` chassis, `B` body, `U` network"),
    ("P0AA6-1", "`P0AA6-1` has 6 characters; a trouble code has 5",
     "write a letter, a digit 0 to 3 and three hexadecimal digits, such as `P0AA6` or `C0B12-14`"),
)  # fmt: skip


@pytest.mark.parametrize(("code", "message", "help_"), WRONG_CODES)
def test_malformed_code_is_told_with_the_right_one(tmp_path, code: str, message: str, help_: str) -> None:
    """Where the code that was meant is plain, it is written out."""
    (finding,) = found(check(tmp_path, job(f"trouble_codes: ['{code}']\n")))

    assert (message, help_) == (finding.message, finding.help)


@pytest.mark.parametrize(
    ("day", "expected"), [("2026-11-01", []), ("2026-11-02", []), ("2026-11-03", ["date-in-future"])]
)
def test_one_day_ahead_may_be_the_other_side_of_the_date_line(tmp_path, day: str, expected: list[str]) -> None:
    """The tests take place on 1 November 2026."""
    manual = check(tmp_path, job(f"revisions:\n  - {{number: 1, date: {day}, why: First version}}\n"))

    assert expected == [rule for _, rule, _ in told(manual)]


@pytest.mark.parametrize(
    ("kind", "old", "new"),
    [
        ("workshop", "    kind: multimeter\n", "    kind: multimeter\n    calibrated: 2031-01-01\n"),
        ("workshop", "checked: 2026-10-05", "checked: 2031-01-01"),
        ("vehicle", "    highest_test_voltage: 1000 V\n",
         "    highest_test_voltage: 1000 V\n    numbers:\n      - {number: 4711, seen: 2031-01-01}\n"),
        ("record", "{step: 1, done: yes}", "{step: 1, done: yes, at: 2031-01-01 09:00}"),
    ],
)  # fmt: skip
def test_every_date_of_the_past_is_looked_at(tmp_path, kind: str, old: str, new: str) -> None:
    """Calibrations, checks, prices seen, entries of records."""
    base = {"workshop": WORKSHOP, "vehicle": VEHICLE, "record": RECORD}[kind]
    assert base.count(old) == 1

    manual = check(tmp_path, {PLACES[kind]: base.replace(old, new)})

    assert [(PLACES[kind], "date-in-future", "2031-01-01 lies in the future")] == told(manual)


def test_list_of_revisions_upside_down_is_one_mistake(tmp_path) -> None:
    """Turned round as a whole, it is right again."""
    lines = [f"  - {{number: {n}, date: 2026-0{n}-01, why: Change}}\n" for n in range(1, 6)]

    upside_down = check(tmp_path / "a", job("revisions:\n" + "".join(lines)))
    right = check(tmp_path / "b", job("revisions:\n" + "".join(reversed(lines))))

    assert [(JOB, "revisions-out-of-order", "revision 2 stands below revision 1")] == told(upside_down)
    assert [] == told(right)


@pytest.mark.parametrize(
    ("revisions", "rule"),
    [
        (
            "  - {number: 2, date: 2026-02-01, why: a}\n  - {number: 2, date: 2026-03-01, why: b}\n",
            "revision-number-twice",
        ),
        ("  - {number: 2, date: 2026-02-01, why: a}\n  - {number: 1, date: 2029-03-01, why: b}\n", "date-in-future"),
        ("  - {number: 2, date: 2026-02-30, why: a}\n  - {number: 1, date: 2026-03-01, why: b}\n", "date-impossible"),
    ],
)
def test_one_mistake_in_a_revision_is_one_error(tmp_path, revisions: str, rule: str) -> None:
    """A wrong number or date does not also stand in the wrong order."""
    assert [rule] == [name for _, name, _ in told(check(tmp_path, job("revisions:\n" + revisions)))]
