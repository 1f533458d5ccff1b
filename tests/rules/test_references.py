"""The rules about names: every place where a name can stand, and what is told."""

import pytest
from kit import VEHICLE, check
from names_kit import FIT_CAP, JOB, MEASURE, PROFILE, found, helps, job, step, told


@pytest.mark.parametrize(
    ("rule", "text"),
    [
        ("isolation-point-not-in-profile", "disconnect: [charge-lead, NAME]"),
        ("isolation-point-not-in-profile", "reconnect: NAME"),
        ("isolation-point-not-in-profile", "secure: NAME"),
        ("isolation-point-not-in-profile", "release: NAME"),
        ("connector-not-in-profile", "unplug: NAME"),
        ("connector-not-in-profile", "plug: [NAME]"),
        ("part-not-in-profile", "remove: NAME"),
        ("part-not-in-profile", "refit: NAME"),
        ("fastener-not-in-profile", "loosen: NAME"),
        ("fastener-not-in-profile", "tighten: NAME"),
        ("circuit-not-in-profile", "drain: NAME"),
        ("circuit-not-in-profile", "fill: NAME"),
        ("part-not-in-profile", "open: NAME"),
        ("part-not-in-profile", "close: NAME"),
        ("circuit-not-in-profile", "wait: 5 min\nfor: [traction, NAME]"),
        ("circuit-not-in-profile", "prove_safe: NAME\nusing: multimeter\nlimits: at most 50 °C"),
        ("circuit-not-in-profile", "energise: NAME"),
        ("circuit-not-in-profile", "command: Close the contactors\nenergises: NAME"),
        ("circuit-not-in-profile", "discharge: NAME\nbetween: [X1/1, X1/2]\nlimits: at most 5 V"),
        ("connector-not-in-profile", MEASURE + "between: [NAME/1, X210/1]\nusing: multimeter"),
        ("connector-not-in-profile",
         MEASURE + "between:\n  - [X210/3, X210/1]\n  - [X210/3, NAME device]\nusing: multimeter"),
        ("pin-not-in-connector", MEASURE + "between: [X210/NAME device, X210/1 device]\nusing: multimeter"),
        ("cable-not-in-profile", "measure: Current\nquantity: current\naround: NAME"),
        ("name-not-in-profile", "measure: Heat\nquantity: temperature\nat: NAME"),
        ("name-not-in-profile", FIT_CAP + "at: NAME"),
        ("connector-not-in-profile", FIT_CAP + "joins: [NAME/1, X210/1]"),
        ("name-not-in-profile", "do: Look.\non: NAME"),
        ("connector-not-in-profile", "do: Look.\non: [X7, NAME/1 cable]"),
        ("connector-not-in-profile", "do: Look.\non: nothing\nwhen: {unplugged: NAME}"),
        ("connector-not-in-profile", "do: Look.\non: nothing\nwhen: {plugged: [X7, NAME]}"),
        ("isolation-point-not-in-profile", "do: Look.\non: nothing\nwhen: {open: NAME}"),
        ("isolation-point-not-in-profile", "do: Look.\non: nothing\nwhen: {closed: NAME}"),
        ("part-not-in-profile", "do: Look.\non: nothing\nwhen: {removed: NAME}"),
        ("part-not-in-profile", "do: Look.\non: nothing\nwhen: {fitted: NAME}"),
        ("variant-not-in-profile", "do: Look.\non: nothing\nonly_for: [long, NAME]"),
        ("instrument-not-in-workshop", MEASURE + "between: [X210/3, X210/1]\nusing: NAME"),
        ("protection-not-in-workshop", "do: Look.\non: nothing\nwear: [gloves-0, NAME]"),
        ("role-not-named", "do: Look.\non: nothing\nby: NAME"),
        ("target-not-in-procedure", "do: Look.\non: nothing\nthen: NAME"),
        ("target-not-in-procedure", "do: Look.\non: nothing\nrepeat: at most 2\nexhausted: NAME"),
        ("target-not-in-procedure", MEASURE + "between: [X210/3, X210/1]\nusing: multimeter\n"
         "limits: at least 11 V\nsource: workshop practice\noutcomes:\n  below: NAME"),
        ("photo-not-found", "do: Look.\non: nothing\nphoto: NAME"),
        ("photo-not-found", "do: Look.\non: nothing\nphoto:\n  file: NAME\n  shows: The plug."),
        ("temporary-not-fitted", "remove_temporary: NAME"),
    ],
)  # fmt: skip
def test_every_place_in_a_step_is_looked_at(tmp_path, rule: str, text: str) -> None:
    """A name that does not exist is told once, by the rule of what is meant, on its line."""
    files = step(text.replace("NAME", "zz9"))

    findings = found(check(tmp_path, files))

    line = next(n for n, line in enumerate(files[JOB].splitlines(), start=1) if "zz9" in line)  # type: ignore[arg-type, union-attr]
    assert [(rule, line)] == [(finding.rule, finding.place.line) for finding in findings]
    assert "`zz9`" in findings[0].message


@pytest.mark.parametrize(
    ("rule", "text"),
    [
        ("system-not-in-profile", "system: zz9"),
        ("variant-not-in-profile", "applies: {variants: zz9}"),
        ("circuit-not-in-profile", "expects: {zz9: live}"),
        ("circuit-not-in-profile", "leaves: {zz9: live}"),
        ("name-not-in-profile", "stays_off: [X7, zz9]"),
        ("part-not-in-profile", "parts: [{part: zz9}]"),
        ("part-not-in-profile", "conclusions: {bad: {finding: Bad., part: zz9}}"),
        ("circuit-not-in-profile", "conclusions: {bad: {finding: Bad., leaves: {zz9: live}}}"),
        ("name-not-in-profile", "conclusions: {bad: {finding: Bad., stays_off: zz9}}"),
        ("procedure-not-found", "conclusions: {bad: {finding: Bad., repair: test-van/zz9}}"),
        ("procedure-not-found", "conclusions: {bad: {finding: Bad., repair: [test-van/isolate, test-van/zz9]}}"),
    ],
)
def test_every_place_beside_the_steps_is_looked_at(tmp_path, rule: str, text: str) -> None:
    """The same for what a procedure says of itself and of its ends."""
    findings = found(check(tmp_path, job(text)))

    assert [(rule, 1)] == [(finding.rule, finding.place.line) for finding in findings]
    assert "zz9`" in findings[0].message


@pytest.mark.parametrize(
    ("rule", "old", "new"),
    [
        ("isolation-point-not-in-profile", "battery: {taken_off_by: [[service-plug]]}",
         "battery: {taken_off_by: [[charge-lead], [zz9]]}"),
        ("isolation-point-not-in-profile", "monitor: {taken_off_by: [[service-plug]]}",
         "monitor: {taken_off_by: [[zz9, charge-lead]]}"),
        ("isolation-point-not-in-profile", "first: [aux-negative]", "first: [zz9]"),
        ("isolation-point-not-in-profile", "open: [charge-lead]}", "open: [charge-lead, zz9]}"),
        ("connector-not-in-profile", "pair: [X1/1 cable, X1/2 cable]", "pair: [X1/1 cable, zz9/2 cable]"),
        ("part-not-in-profile", "X1/2 cable], access: inverter-cover", "X1/2 cable], access: zz9"),
        ("part-not-in-profile", "    fused: yes", "    fused: yes\n    sealed_in: zz9"),
        ("circuit-not-in-profile", "1: {signal: ground, circuit: supply-12,",
         "1: {signal: ground, circuit: zz9,"),
        ("circuit-not-in-profile", "1: {signal: ground, circuit: supply-12,",
         "1: {signal: ground, circuit: {device: none, cable: zz9},"),
        ("bus-not-in-profile", "bus: body", "bus: zz9"),
        ("pin-not-in-connector", "    name: Heater HV plug\n",
         "    name: Heater HV plug\n    face: {rows: [[1, 2], [zz9]]}\n"),
        ("circuit-not-in-profile", "circuits: [traction]", "circuits: [traction, zz9]"),
        ("circuit-not-in-profile", "exposes: [traction]", "exposes: [zz9]"),
        ("connector-not-in-profile", "connectors: [X7, X210]", "connectors: [X7, zz9]"),
        ("circuit-not-in-profile", "circuit: supply-12, area: 25 mm2", "circuit: zz9, area: 25 mm2"),
        ("connector-not-in-profile", "area: 25 mm2,", "area: 25 mm2, between: [chassis, zz9/1],"),
        ("part-not-in-profile", "rate: 500 kbit/s", "rate: 500 kbit/s, terminated_in: [cabin-heater, zz9]"),
        ("part-not-in-profile", "part: cabin-heater", "part: zz9"),
        ("pin-not-in-connector", "terminal: [X1/1, X1/2]", "terminal: [X1/1, X1/zz9]"),
        ("isolation-point-not-in-profile", "terminal: [X1/1, X1/2]", "point: zz9"),
        ("photo-not-found", "    kind: pole", "    kind: pole\n    photo: zz9"),
        ("photo-not-found", "name: Test van", "name: Test van\nphoto: zz9"),
    ],
)  # fmt: skip
def test_every_place_in_a_profile_is_looked_at(tmp_path, rule: str, old: str, new: str) -> None:
    """A profile may name only what it has itself."""
    assert VEHICLE.count(old) == 1
    text = VEHICLE.replace(old, new)

    findings = found(check(tmp_path, {PROFILE: text}))

    line = next(number for number, line in enumerate(text.splitlines(), start=1) if "zz9" in line)
    assert [(rule, line)] == [(finding.rule, finding.place.line) for finding in findings]
    assert "`zz9`" in findings[0].message


@pytest.mark.parametrize(
    "text",
    [
        "loosen: the clip of the hose",
        "open: Cap of the expansion tank",
        "close: [Drain tap, Cap of the expansion tank]",
        "wait: 5 min\nfor: the oil to run back",
        "tighten: the clip of the hose\ntorque: 3 N·m\nsource: workshop practice",
        "do: Look.\non: chassis",
        "do: Look.\non: [X7 device, X7/1, X7/1 cable, traction, heater-bracket, ground-strap, service-plug]",
        "do: Look.\non: nothing\nwhen: {closed: mode-off}",
        "do: Look.\non: nothing\ntools: [lock-box, a torch]",
        FIT_CAP + "at: [X7/1, cabin-heater]",
    ],
)
def test_words_and_whatever_is_built_in_pass(tmp_path, text: str) -> None:
    """Where prose may stand, only what looks like an identifier is looked up."""
    assert [] == told(check(tmp_path, step(text)))


@pytest.mark.parametrize(
    ("text", "message", "help_"),
    [
        ("unplug: x7", "the vehicle profile has no connector `x7`",
         "write `X7`: names are told apart by capital and small letters"),
        ("unplug: service-plug", "`service-plug` is an isolation point, but a connector is meant here",
         "an isolation point is opened and closed with `disconnect` and `reconnect`"),
        ("remove: heater-bracket", "`heater-bracket` is a fastener, but a part is meant here",
         "a fastener is undone and done up with `loosen` and `tighten`"),
        ("open: charge-lead", "`charge-lead` is an isolation point, but a part or fastener is meant here",
         "an isolation point is opened and closed with `disconnect` and `reconnect`"),
        ("fill: mode-off", "`mode-off` is an isolation point, but a circuit is meant here",
         "the circuits of the vehicle are: `traction`, `supply-12`, `pack-inside`, `heater-coolant`"),
        ("unplug: servce-plug", "the vehicle profile has no connector `servce-plug`",
         "did you mean the isolation point `service-plug`?"),
        ("do: Look.\non: traction/1", "`traction` is a circuit, but a connector is meant here",
         "the connectors of the vehicle are: `X1`, `X7`, `X210`"),
        ("wait: 5 min\nfor: cooling", "the vehicle profile has no circuit `cooling`",
         "the circuits of the vehicle are: `traction`, `supply-12`, `pack-inside`, `heater-coolant`; words that are no name have a space in them"),
        ("wait: 5 min\nfor: Traction", "the vehicle profile has no circuit `Traction`",
         "write `traction`: names are told apart by capital and small letters"),
        ("tighten: the four bolts", "the vehicle profile has no fastener `the four bolts`",
         "the fasteners of the vehicle are: `heater-bracket`, `inverter-terminals`"),
        ("perform: isolate", "`isolate` is not the full name of a procedure", "write `test-van/isolate`"),
        ("perform: test-van/isolate.yml", "there is no procedure `test-van/isolate.yml`",
         "write `test-van/isolate`, without the ending of the file"),
        ("perform: test-vam/isolate", "there is no procedure `test-vam/isolate`", "did you mean `test-van/isolate`?"),
        ("perform: test-van/vehicle", "there is no procedure `test-van/vehicle`",
         "`vehicle.yml` is the profile of the vehicle; name one of its procedures"),
        ("perform: test-van/zzzzz", "there is no procedure `test-van/zzzzz`",
         "write it, as `procedures/test-van/zzzzz.yml`"),
        ("do: Look.\non: nothing\nthen: test-van/isolate",
         "the procedure has no step or conclusion `test-van/isolate`",
         "another procedure is done with a step of its own: `perform: …`"),
        ("do: Look.\non: nothing\nthen: 1", "the procedure has no step or conclusion `1`",
         "give the step an `id` and write that: numbers change when a step is put in"),
        ("do: Look.\non: nothing\nthen: stopp", "the procedure has no step or conclusion `stopp`",
         "did you mean the word `stop`?"),
    ],
)  # fmt: skip
def test_help_says_what_to_write(tmp_path, text: str, message: str, help_: str) -> None:
    """What resembles the name, what there is, or how the thing is done."""
    manual = check(tmp_path, step(text))

    assert ([message], [help_]) == ([words for _, words in told(manual)], helps(manual))


def test_other_kind_shows_where_the_name_stands(tmp_path) -> None:
    """A name of another kind is shown in the profile."""
    (finding,) = check(tmp_path, step("disconnect: X7")).findings

    line = VEHICLE.splitlines().index("  X7:") + 1
    seen = [(see.place.file, see.place.line, see.text) for see in finding.see]
    assert [(PROFILE, line, "a connector of this name")] == seen
