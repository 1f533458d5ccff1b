"""The rules about names: what lies beyond the profile, and where nothing must be said."""

import pytest
from kit import PLACES, PROCEDURE, VEHICLE, WORKSHOP, check, completed
from names_kit import JOB, MEASURE, PROFILE, helps, job, step, told
from photo_kit import plug


def test_profile_missing_is_told_once_a_folder_and_silences_the_names(tmp_path) -> None:
    """Two procedures without a profile have one fault between them; no name in them is judged."""
    text = completed("steps:\n  - unplug: zz9\n", PROCEDURE)
    manual = check(tmp_path, {PROFILE: "", JOB: text})

    assert [("vehicle-profile-missing", "the folder `test-van` has no vehicle profile")] == told(manual)
    assert ["procedures/test-van/isolate.yml"] == [finding.place.file for finding in manual.findings]


@pytest.mark.parametrize("name", ["vehicle.yaml", "Vehicle.yml", "VEHICLE.YML"])
def test_profile_with_a_wrong_name_is_not_missing(tmp_path, name: str) -> None:
    """It is there, and what is wrong with its name is told at it."""
    manual = check(tmp_path, {PROFILE: "", f"procedures/test-van/{name}": VEHICLE})

    assert "vehicle-profile-missing" not in {rule for rule, _ in told(manual)}
    assert [f"procedures/test-van/{name}"] == [finding.place.file for finding in manual.findings]


@pytest.mark.parametrize("profile", [b"\xff\xfe\xff", "- a list\n", "circuits: [\n"])
def test_unreadable_profile_silences_the_names(tmp_path, profile: str | bytes) -> None:
    """Nobody knows what it would hold."""
    manual = check(tmp_path, {PROFILE: profile, **step("unplug: zz9")})

    assert [] == told(manual, JOB)
    assert manual.findings


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("  X7:\n    name: Heater HV plug\n    pins:\n      1: {signal: HV+, circuit: traction}\n"
         "      2: {signal: HV−, circuit: traction}\n", "  X7: Heater HV plug\n"),
        ("  X7:\n", "  X 7:\n"),
        ("      2: {signal: HV−, circuit: traction}\n  X210", "      2: HV−\n  X210"),
    ],
)  # fmt: skip
def test_element_that_cannot_be_read_may_be_there(tmp_path, old: str, new: str) -> None:
    """One slip in the profile is one error, not one at every use of what it hides."""
    assert VEHICLE.count(old) == 1
    manual = check(tmp_path, {PROFILE: VEHICLE.replace(old, new), **step("do: Look.\non: [X7, X7/2]")})

    assert [] == [(rule, words) for rule, words in told(manual) if rule != "name-not-usable"]
    assert 1 == len(manual.findings)


def test_fault_in_one_element_does_not_silence_the_others(tmp_path) -> None:
    """An element that says of itself that it is broken hides nothing else."""
    profile = VEHICLE.replace("    kind: pole\n", "    kind: post\n")
    manual = check(tmp_path, {PROFILE: profile, **step("unplug: zz9")})

    assert [("connector-not-in-profile", "the vehicle profile has no connector `zz9`")] == told(manual)


def test_wrong_place_of_a_group_is_told_once(tmp_path) -> None:
    """It is told in `for_each`, and not again at every step that was made from it."""
    text = """\
steps:
  - for_each: [X210, X21]
    steps:
      - do: Look at it.
        on: each
      - do: Look closer.
        on: [each/1, each device]
        when: {plugged: each}
"""
    (finding,) = check(tmp_path, job(text)).findings

    assert ("name-not-in-profile", "the vehicle profile has no name `X21`") == (finding.rule, finding.message)
    assert (2, 22) == (finding.place.line, finding.place.column)


def test_pin_that_one_place_of_a_group_lacks_is_told_with_its_name(tmp_path) -> None:
    """The line is the author's, the message names the place at which it goes wrong."""
    text = "steps:\n  - for_each: [X7, X210]\n    steps:\n      - do: Look.\n        on: each/2\n"

    assert [("pin-not-in-connector", "the connector `X210` has no pin `2`")] == told(check(tmp_path, job(text)))


@pytest.mark.parametrize(
    "text",
    [
        "procedures/test-van/other.yml|",
        "procedures/test-van/other.yml|steps:\n  - unplugg: X7\n    zz: 1\n",
        "procedures/test-van/other.yaml|steps:\n  - unplug: X7\n",
        "procedures/test-van/Other.yml|steps:\n  - unplug: X7\n",
        "procedures/test-van/another.yml|id: test-van/other\n",
    ],
)
def test_procedure_that_is_there_but_wrong_is_not_missing(tmp_path, text: str) -> None:
    """What is wrong with the file is told there, and only there."""
    place, _, rest = text.partition("|")
    files = {place: completed("id: test-van/other\n" + rest.replace("id: test-van/other\n", ""), PROCEDURE)}
    if not rest:
        files = {place: "steps: [\n"}

    assert [] == told(check(tmp_path, {**files, **step("perform: test-van/other")}), JOB)


def test_procedure_of_another_vehicle_is_told_with_the_own_one(tmp_path) -> None:
    """What is performed must be about the same vehicle."""
    other = {
        "procedures/other-van/vehicle.yml": VEHICLE.replace("vehicle: test-van", "vehicle: other-van"),
        "procedures/other-van/isolate.yml": completed("id: other-van/isolate\ntitle: Isolate\n", PROCEDURE),
    }
    manual = check(tmp_path, {**other, **step("perform: other-van/isolate")})

    expected = [("procedure-of-another-vehicle", "`other-van/isolate` is a procedure of another vehicle")]
    assert expected == told(manual)
    assert ["did you mean `test-van/isolate`?"] == helps(manual)


def photo(file: str) -> dict[str, str | bytes]:
    """A step with this photo; beside it lies `photos/Plug.jpg`, and one at the top of the procedures."""
    return {
        **step(f"do: Look.\non: nothing\nphoto: '{file}'"),
        "procedures/test-van/photos/Plug.jpg": plug(),
        "procedures/shared.jpg": plug(),
        "secret.jpg": b"\xff\xd8",
    }


@pytest.mark.parametrize(
    "file", ["photos/Plug.jpg", "./photos/Plug.jpg", "../shared.jpg", "../test-van/photos/Plug.jpg"]
)
def test_photo_that_is_there_passes(tmp_path, file: str) -> None:
    """Beside the procedure, or elsewhere below `procedures`."""
    assert [] == told(check(tmp_path, photo(file)))


@pytest.mark.parametrize(
    ("file", "message", "help_"),
    [
        ("photos/plug.jpg", "the photo `photos/plug.jpg` does not exist",
         "write `Plug.jpg`: names of files are told apart by capital and small letters"),
        ("Photos/Plug.jpg", "the photo `Photos/Plug.jpg` does not exist",
         "write `photos`: names of files are told apart by capital and small letters"),
        ("photos/Plugg.jpg", "the photo `photos/Plugg.jpg` does not exist", "did you mean `Plug.jpg`?"),
        ("photos", "the photo `photos` is a folder", "name a picture in it"),
        ("photos\\Plug.jpg", "the photo `photos\\Plug.jpg` is written with a backslash",
         "write `photos/Plug.jpg`, which every system understands"),
        ("../../secret.jpg", "the photo `../../secret.jpg` lies outside of `procedures`",
         "put the picture beside this file, in a folder such as `photos`"),
        ("/srv/plug.jpg", "the photo `/srv/plug.jpg` does not lie beside this file",
         "put the picture beside this file, and write its name, such as `photos/plug.jpg`"),
        ("https://example.com/plug.jpg", "the photo `https://example.com/plug.jpg` does not lie beside this file",
         "put the picture beside this file, and write its name, such as `photos/plug.jpg`"),
        ("C:/plug.jpg", "the photo `C:/plug.jpg` does not lie beside this file",
         "put the picture beside this file, and write its name, such as `photos/plug.jpg`"),
    ],
)  # fmt: skip
def test_photo_that_is_not_there_is_told(tmp_path, file: str, message: str, help_: str) -> None:
    """Letters count, the path stays in the manual, and every system can follow it."""
    manual = check(tmp_path, photo(file))

    assert ([("photo-not-found", message)], [help_]) == (told(manual), helps(manual))


def test_folder_in_other_letters_is_not_the_folder(tmp_path, monkeypatch) -> None:
    """Simulates a system on which `Photos` opens `photos`: the names that it lists count, not what it opens."""
    from bayleaf.rules import outlook

    read = outlook._read
    monkeypatch.setattr(outlook, "_read", lambda folder: read(str(folder).replace("Photos", "photos")))

    assert ["photo-not-found"] == [rule for rule, _ in told(check(tmp_path, photo("Photos/Plug.jpg")))]


def test_without_a_workshop_file_every_instrument_is_missing(tmp_path) -> None:
    """The help says which file to write."""
    manual = check(tmp_path, {PLACES["workshop"]: "", "procedures/test-van/isolate.yml": "",
                              **step(MEASURE + "between: [X210/3, X210/1]\nusing: multimeter")})  # fmt: skip

    assert [("instrument-not-in-workshop", "the workshop has no instrument `multimeter`")] == told(manual)
    assert ["there is no workshop file yet: write `procedures/workshop.yml`, and list it under `instruments`"] == helps(
        manual
    )


@pytest.mark.parametrize("workshop", ["- a list\n", WORKSHOP.replace("    kind: multimeter\n", "    kind: meter\n")])
def test_workshop_file_with_a_fault_may_hold_the_name(tmp_path, workshop: str) -> None:
    """A name that is not there may stand where the file cannot be read."""
    text = "prove_dead: traction\nusing: zz9\ntester_proved: {before: zz8, after: zz8}\nlimits: at most 5 V\nwear: zz7"

    assert [] == told(check(tmp_path, {PLACES["workshop"]: workshop, **step(text)}))


@pytest.mark.parametrize(
    ("proved", "expected"),
    [
        ("{before: proving-unit, after: proving-unit}", []),
        ("{before: X210/3, after: X210/3}", []),
        ("{before: X210/4, after: X210/4}", [("pin-not-in-connector", "the connector `X210` has no pin `4`")]),
        ("{before: zz9, after: zz9}", [("proving-source-unknown", "`zz9` is no known source to prove a tester on")]),
        ("{before: X210, after: proving-unit}",
         [("proving-source-unknown", "`X210` is no known source to prove a tester on")]),
        ("{before: proving-unit, after: chassis}",
         [("proving-source-unknown", "`chassis` is no known source to prove a tester on")]),
    ],
)  # fmt: skip
def test_tester_is_proved_on_a_unit_or_a_pin(tmp_path, proved: str, expected: list[tuple[str, str]]) -> None:
    """The same source named twice is one mistake."""
    text = f"prove_dead: traction\nusing: voltage-tester\ntester_proved: {proved}\nlimits: at most 5 V"

    assert expected == told(check(tmp_path, step(text)))


def test_target_may_be_a_step_that_cannot_be_read(tmp_path) -> None:
    """Where a step is broken, its id may be lost with it."""
    text = "steps:\n  - do: Look.\n    on: nothing\n    then: later\n  - idd: later\n    unplugg: X7\n"

    assert [] == told(check(tmp_path, job(text)))


def test_target_in_a_group_is_told_with_its_places(tmp_path) -> None:
    """A step of a group has one id for each place."""
    text = """\
steps:
  - do: Look.
    on: nothing
    then: leak
  - for_each: [X7, X210]
    steps:
      - id: leak
        do: Look.
        on: each
"""
    manual = check(tmp_path, job(text))

    assert [("target-not-in-procedure", "the procedure has no step or conclusion `leak`")] == told(manual)
    assert ["the step stands in a group, once for each place: `leak@X210`, `leak@X7`"] == helps(manual)


@pytest.mark.parametrize(
    "text",
    [
        "kind: return to service\nsteps:\n  - remove_temporary: socket-cap\n",
        "steps:\n  - perform: test-van/isolate\n  - remove_temporary: socket-cap\n",
    ],
)
def test_what_another_procedure_fitted_may_be_taken_off(tmp_path, text: str) -> None:
    """A cap that the isolation has fitted comes off when the vehicle goes back into service."""
    assert [] == told(check(tmp_path, job(text)))


def record(text: str) -> dict[str, str | bytes]:
    """A record of the isolation, called `isolate` in the job, which is at revision 1."""
    head = 'format: 1\njob: "2026-0001"\nprocedure: test-van/job\nstarted: 2026-10-01\n'
    return {
        **job("steps:\n  - id: isolate\n    perform: test-van/isolate\n"),
        "procedures/test-van/isolate.yml": completed(
            "id: test-van/isolate\nsteps:\n  - id: prove\n    do: Look.\n    on: nothing\n", PROCEDURE
        ),
        PLACES["record"]: head + text,
    }


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("entries:\n  - {step: isolate/prove, done: yes}\n", []),
        ("entries:\n  - {step: 1/1, done: yes}\n", []),
        ("entries:\n  - {step: isolate/proof, done: yes}\n",
         [("record-step-not-found", "the procedure `test-van/isolate` has no step `proof`")]),
        ("entries:\n  - {step: prove, done: yes}\n",
         [("record-step-not-found", "the procedure `test-van/job` has no step `prove`")]),
        ("revision: 7\nconclusion: gone\nentries:\n  - {step: gone, done: yes}\n", []),
        ("conclusion: gone\n",
         [("record-conclusion-not-found", "the procedure `test-van/job` has no conclusion `gone`")]),
        ("fitted: [{part: zz9}]\n", [("part-not-in-profile", "the vehicle profile has no part or fastener `zz9`")]),
        ("variant: zz9\n", [("variant-not-in-profile", "the vehicle profile has no variant `zz9`")]),
    ],
)  # fmt: skip
def test_record_is_held_against_the_revision_it_was_made_with(
    tmp_path, text: str, expected: list[tuple[str, str]]
) -> None:
    """Steps are followed through performed procedures; an older revision may have had others."""
    assert expected == told(check(tmp_path, record(text)))


def test_record_of_a_procedure_that_is_gone_is_told(tmp_path) -> None:
    """The job can no longer be read against anything."""
    manual = check(
        tmp_path, {PLACES["record"]: 'format: 1\njob: "2026-0001"\nprocedure: test-van/gone\nstarted: 2026-10-01\n'}
    )

    assert [("procedure-not-found", "there is no procedure `test-van/gone`")] == told(manual)
