"""The rules that tell what the walk found: what the examples on their pages cannot show."""

import pytest
from bayleaf.diagnostics.finding import Finding
from kit import PLACES, PROCEDURE, VEHICLE, check, completed
from validity_kit import RICH

JOB = PLACES["procedure"]
CLOSE = "procedures/test-van/close.yml"
OFF = "stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]\n"
ISOLATED = f"steps:\n  - perform: test-van/isolate\n{{}}{OFF}"
PROOF = """\
  - prove_dead: traction
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
"""
#: Begins in the middle: the traction bus has had its time.
EXPECTS_WAITED = completed(
    "id: test-van/close\nexpects: {traction: waited}\nsteps:\n  - do: Look into the inverter.\n    on: nothing\n",
    PROCEDURE,
)
#: Touches the bus, and says that it counts on its being proved dead.
EXPECTS_DEAD = completed(
    "id: test-van/close\nexpects: {traction: proved dead}\nsteps:\n  - unplug: X7\n  - plug: X7\n", PROCEDURE
)
WITH_LEAD = VEHICLE.replace("\ncables:\n", "\ncables:\n  hv-lead: {name: Orange lead, circuit: traction}\n")


def found(tmp_path, job: str, **files: str) -> list[Finding]:
    """What is found in the small manual with this job; other files by their short names."""
    names = {"close": CLOSE, "vehicle": PLACES["vehicle"], "other": "procedures/test-van/other.yml"}
    return list(check(tmp_path, {JOB: completed(job, PROCEDURE), **{names[k]: v for k, v in files.items()}}).findings)


def told(findings: list[Finding]) -> list[tuple[str, int, str, str]]:
    """File, line, rule and message."""
    return [(one.place.file, one.place.line, one.rule, one.message) for one in findings]


def path_of(finding: Finding) -> str:
    """The shortest path as the reason gives it."""
    return (finding.because or "").split("shortest path: ")[-1]


# A clamp that is only pressed on

CLAMPED = VEHICLE.replace(
    "\nfasteners:\n", "\nfasteners:\n  aux-clamp: {point: aux-negative, size: M6, torque: 6 N·m}\n"
)
RECLAMPED = "steps:\n  - set: {mode: off}\n  - disconnect: aux-negative\n  - reconnect: aux-negative\n"


def test_a_clamp_that_is_pressed_on_is_loose_until_it_is_tightened(tmp_path) -> None:
    """Taking it off asks nothing of its nut; putting it on does."""
    (loose,) = [one for one in found(tmp_path, RECLAMPED, vehicle=CLAMPED) if one.rule == "left-out-of-place"]

    assert loose.message == "`aux-clamp` is put on loose in step 3 and may be left so at the end"
    assert loose.help == "tighten it before the end: `tighten: aux-clamp`"
    assert loose.place.line == 4


@pytest.mark.parametrize(
    "steps",
    [
        RECLAMPED + "  - tighten: aux-clamp\n",
        "steps:\n  - set: {mode: off}\n  - disconnect: aux-negative\nstays_off: aux-negative\n",
    ],
    ids=["tightened", "left off"],
)
def test_a_clamp_that_is_tightened_or_left_off_is_not_told(tmp_path, steps: str) -> None:
    """A clamp that stays off has nothing to tighten."""
    assert "left-out-of-place" not in {one.rule for one in found(tmp_path, steps, vehicle=CLAMPED)}


# A point that goes with its part

ASKED = "  - ask: Is it tight?\n    answers:\n      - {answer: yes, then: done}\n      - {answer: no, then: next}\n"
CAPPED = "  - fit_temporary: caps\n    at: X7\n  - remove: traction-battery\n"
FITTED = "  - refit: traction-battery\n    new: yes\n  - remove_temporary: caps\n"
SEEN = "  - disconnect: service-plug\n"


@pytest.mark.parametrize(
    ("steps", "is_told"),
    [
        (CAPPED + FITTED, True),
        (CAPPED + SEEN + FITTED, False),
        (CAPPED + "  - secure: service-plug\n" + FITTED, False),
        (SEEN + CAPPED + FITTED, True),  # that was the old one
        (CAPPED + FITTED.replace("    new: yes\n", ""), False),  # the same one goes back, with its lock
        (CAPPED + "  - disconnect: aux-negative\n" + FITTED, True),
        (CAPPED + ASKED.replace("Is it tight", "Is it locked") + SEEN + "  - id: done\n    do: Look.\n    on: nothing\n" + FITTED, True),
    ],
)  # fmt: skip
def test_a_new_battery_is_seen_open_before_it_is_fitted(tmp_path, steps: str, is_told: bool) -> None:
    """Its service plug goes with it; the pole of the 12 V battery stays on the vehicle."""
    findings = found(tmp_path, ISOLATED.format(steps))

    assert is_told == ("new-part-not-seen-open" in {one.rule for one in findings})


# The bond of a housing

BOND = """\
  - measure: Bond of the heater
    quantity: bonding resistance
    at: [cabin-heater, chassis]
    test_current: 1 A
    limits: at most 40 mΩ
    source: workshop practice
"""
LOOSE, TIGHT = "  - loosen: heater-bracket\n", "  - tighten: heater-bracket\n"
AFRESH = "  - remove: cabin-heater\n  - refit: cabin-heater\n"
LOOKED = "  - id: done\n    do: Look.\n    on: nothing\n"


@pytest.mark.parametrize(
    ("steps", "lines"),
    [
        (LOOSE + TIGHT + BOND, []),
        (BOND, []),
        (TIGHT, []),  # nobody has measured it here
        (BOND + LOOSE + TIGHT + BOND, []),
        (LOOSE + BOND + TIGHT + BOND, [6]),  # the first reading is worth nothing
        (LOOSE + BOND + TIGHT, [6, 10]),
        (BOND + AFRESH, [9]),
        (AFRESH + BOND, []),
        (BOND + ASKED + TIGHT + LOOKED, [13]),  # on one of two paths
        (BOND + ASKED + TIGHT + BOND + LOOKED, []),
    ],
)
def test_a_bond_is_measured_behind_the_last_screw(tmp_path, steps: str, lines: list[int]) -> None:
    """And again where something of the part was touched behind the measurement."""
    findings = [one for one in found(tmp_path, ISOLATED.format(steps)) if one.rule == "bond-measured-too-early"]

    assert lines == [one.place.line for one in findings]


def test_a_part_that_stays_loose_has_no_bond_to_be_measured(tmp_path) -> None:
    """What an end says stays off is not asked for again."""
    steps = f"steps:\n  - perform: test-van/isolate\n{BOND}{LOOSE}{OFF.replace(']', ', heater-bracket]')}"

    assert [] == found(tmp_path, steps)


def test_a_bond_that_a_performed_procedure_spoils_is_told_where_it_is_performed(tmp_path) -> None:
    """There it is one step."""
    close = completed("id: test-van/close\nsteps:\n  - tighten: heater-bracket\n", PROCEDURE)

    findings = found(tmp_path, ISOLATED.format(BOND + "  - perform: test-van/close\n"), close=close)

    assert [(9, "bond-measured-too-early")] == [(one.place.line, one.rule) for one in findings]


# Pressure that is brought up from outside

PUMPED = "  - energise: heater-coolant\n    with: hand pump of the cap tester\n"


@pytest.mark.parametrize(
    ("steps", "expected"),
    [
        (PUMPED + "  - disconnect: charge-lead\n", []),
        ("  - energise: supply-12\n    with: support unit\n  - disconnect: charge-lead\n", ["point-opened-out-of-order"]),
        ("  - prove_safe: heater-coolant\n    using: multimeter\n  - drain: heater-coolant\n", []),
        ("  - prove_safe: heater-coolant\n    using: multimeter\n" + PUMPED + "  - drain: heater-coolant\n", ["other-energy-not-safe"]),
        (PUMPED + "  - prove_safe: heater-coolant\n    using: multimeter\n  - drain: heater-coolant\n", []),
    ],
)  # fmt: skip
def test_pressure_from_outside_leaves_the_vehicle_off(tmp_path, steps: str, expected: list[str]) -> None:
    """A hand pump wakes no control unit; but what was read as safe is under pressure again."""
    job = "steps:\n  - set: {mode: off}\n" + steps + "stays_off: charge-lead\n"

    assert expected == [one.rule for one in found(tmp_path, job) if one.severity == "error"]


# What is fitted for the time being, and stays

CAP = "steps:\n  - set: {mode: off}\n  - unplug: X210\n  - fit_temporary: cap\n    at: X210 device\n"


@pytest.mark.parametrize(
    ("stays", "expected"),
    [
        ("stays_off: X210\n", ["left-out-of-place"]),
        ("stays_off: [X210, cap]\n", []),
        ("stays_off: [X210, cup]\n", ["name-not-in-profile"]),
    ],
)
def test_a_cap_may_stay_on_a_plug_that_stays_off(tmp_path, stays: str, expected: list[str]) -> None:
    """Such as on a heater whose part is on order."""
    assert expected == [one.rule for one in found(tmp_path, CAP + stays)]


# A state on entry


def test_what_is_performed_too_early_is_told_where_it_is_performed(tmp_path) -> None:
    """The procedure itself is right: it says what it counts on."""
    findings = found(tmp_path, "steps:\n  - perform: test-van/close\n", close=EXPECTS_WAITED)

    message = "step 1 performs `test-van/close` while Traction DC bus may be live"
    assert [(JOB, 2, "entry-state-not-met", message)] == told(findings)
    assert "add `perform: test-van/isolate` before step 1, on every path" == findings[0].help


def test_what_is_performed_behind_the_isolation_is_right(tmp_path) -> None:
    """Proved dead is more than waited."""
    assert [] == found(tmp_path, ISOLATED.format("  - perform: test-van/close\n"), close=EXPECTS_WAITED)


def test_of_two_callers_the_one_that_is_live_is_told(tmp_path) -> None:
    """What is performed is judged for each who performs it."""
    other = completed("id: test-van/other\nsteps:\n  - perform: test-van/close\n", PROCEDURE)

    findings = found(tmp_path, ISOLATED.format("  - perform: test-van/close\n"), close=EXPECTS_DEAD, other=other)

    message = "step 1 performs `test-van/close` while Traction DC bus may be live"
    assert [("procedures/test-van/other.yml", 3, "entry-state-not-met", message)] == told(findings)


# A contactor that may be stuck

STUCK = "trouble_codes: [P0AA1]\nsteps:\n  - set: {mode: off}\n"
DRAWN = (
    "  - disconnect: [charge-lead, aux-negative, service-plug]\nstays_off: [charge-lead, aux-negative, service-plug]\n"
)
CLAMP = """\
  - measure: Current in the orange lead
    quantity: current
    around: hv-lead
    limits: {}
    source: workshop practice
"""


def test_with_a_stuck_contactor_nothing_is_opened_before_the_current_is_read(tmp_path) -> None:
    """The negative post of the 12 V battery carries no current of the traction system."""
    findings = found(tmp_path, STUCK + DRAWN, vehicle=WITH_LEAD)

    message = "step 2 disconnects `{}` while a contactor may be stuck and no current of 0 A was read"
    assert [
        (JOB, 4, "contactor-may-be-stuck", message.format(name)) for name in ("charge-lead", "service-plug")
    ] == told(findings)
    assert "`measure` of current round `hv-lead`" in (findings[0].help or "")


def test_a_reading_of_no_current_lets_it_be_opened(tmp_path) -> None:
    """A clamp round a cable of the circuit, with zero within its limits."""
    assert [] == found(tmp_path, STUCK + CLAMP.format("0 A ± 1 A") + DRAWN, vehicle=WITH_LEAD)


def test_a_reading_of_some_current_does_not(tmp_path) -> None:
    """Within these limits a current flows."""
    findings = found(tmp_path, STUCK + CLAMP.format("5 A to 20 A") + DRAWN, vehicle=WITH_LEAD)

    assert {"contactor-may-be-stuck"} == {one.rule for one in findings}


def test_the_fault_is_there_in_what_is_performed_too(tmp_path) -> None:
    """The error stands where the isolation is performed; the step in it is shown beside."""
    findings = found(tmp_path, "trouble_codes: [P0AA1]\n" + ISOLATED.format(""))

    first = findings[0]
    assert (JOB, 3, "contactor-may-be-stuck") == (first.place.file, first.place.line, first.rule)
    assert first.message.startswith("step 2 of `test-van/isolate` disconnects `charge-lead`")
    assert "1 → 1.1 → 1.2" == path_of(first)
    assert [("procedures/test-van/isolate.yml", "step 2 of `test-van/isolate`")] == [
        (see.place.file, see.text) for see in first.see
    ]


# How it is told


def test_what_a_procedure_gets_wrong_by_itself_is_told_there_once(tmp_path) -> None:
    """Whoever performs it has made no mistake of their own."""
    close = completed("id: test-van/close\nsteps:\n  - unplug: X7\n  - plug: X7\n", PROCEDURE)

    findings = found(tmp_path, "steps:\n  - perform: test-van/close\n", close=close)

    assert [(CLOSE, "live-conductor-touched")] == [(one.place.file, one.rule) for one in findings]


def test_the_path_names_the_exits_that_matter(tmp_path) -> None:
    """Steps that are passed over are not in it, and an exit is named where there are several."""
    job = """\
steps:
  - set: {mode: off}
  - do: Look at the plug.
    on: nothing
    then: five
  - id: three
    do: Look at the heater.
    on: nothing
  - do: Look at the hoses.
    on: nothing
    then: end
  - id: five
    measure: Ground of the heater
    quantity: resistance
    between: [X210/1, chassis]
    using: multimeter
    limits: at least 0.5 Ω
    source: workshop practice
    outcomes: {within: three, below: nine, not_decided: next}
  - do: Look at the cable.
    on: nothing
  - do: Look at the seal.
    on: nothing
  - do: Look at the lock.
    on: nothing
    then: three
  - id: nine
    unplug: X7
  - plug: X7
"""
    findings = found(tmp_path, job)

    assert ["1 → 2 → 5 below → 9"] == [path_of(one) for one in findings]
    assert ["step 5 (`five`), left by `below`"] == [see.text for see in findings[0].see]


def test_the_same_need_on_a_chain_of_steps_is_told_once(tmp_path) -> None:
    """After a report the walk goes on as if the need were met."""
    job = (
        "steps:\n  - unplug: X7\n  - plug: X7\n  - unplug: X7\n  - plug: X7\n"
        "  - do: Look at the pins.\n    on: [X7/1, X7/2]\n"
    )
    assert [(JOB, 2)] == [(one.place.file, one.place.line) for one in found(tmp_path, job)]


def test_a_need_that_only_a_loop_brings_is_told_with_the_way_round(tmp_path) -> None:
    """On the first visit the bus is dead; somebody comes back after a break."""
    steps = """\
  - id: again
    unplug: X7
    repeat: at most 2
  - plug: X7
  - ask: Once more?
    answers:
      - answer: no
        then: end
      - answer: yes, after a break
        then: next
  - pause: break
    then: again
"""
    findings = found(tmp_path, ISOLATED.format(steps))

    assert ["live-conductor-touched"] == [one.rule for one in findings]
    assert "1 → 2 next → 3 → 4 yes, after a break → 5 → 2" == path_of(findings[0])
    assert ["after step 5, `traction` is no longer proved dead"] == [see.text for see in findings[0].see]


def test_a_need_of_one_variant_names_it(tmp_path) -> None:
    """Only the long one loses its locks."""
    steps = "  - release: [charge-lead, service-plug]\n    only_for: long\n  - unplug: X7\n  - plug: X7\n"

    findings = found(tmp_path, ISOLATED.format(steps))

    assert ["live-conductor-touched"] == [one.rule for one in findings]
    assert (findings[0].because or "").endswith("(variant `long`)")


def test_after_not_dead_nobody_lays_hands_on_the_vehicle(tmp_path) -> None:
    """Waiting and switching are no work; the first work behind is told, whatever it is on."""
    proof = PROOF + "    outcomes: {not_dead: after}\n    then: end\n"
    steps = f"{proof}  - id: after\n    wait: 5 min\n  - loosen: heater-bracket\n  - tighten: heater-bracket\n"

    findings = found(tmp_path, ISOLATED.format(steps))

    assert ["work-after-not-dead"] == [one.rule for one in findings]
    assert "1 → 2 not_dead → 3 → 4" == path_of(findings[0])


def test_made_live_names_what_is_open(tmp_path) -> None:
    """A plug and a cover, and where."""
    steps = "  - unplug: X7\n  - release: [charge-lead, service-plug]\n  - reconnect: service-plug\n  - reconnect: aux-negative\n"
    job = ISOLATED.format(steps).replace(OFF, "stays_off: [charge-lead, inverter-cover, X7]\n")

    findings = found(tmp_path, job)

    message = "step 4 makes Traction DC bus live while `X7` and `inverter-cover` may not be in their place"
    assert [(JOB, 5, "made-live-while-open", message)] == told(findings)
    assert "put back `X7` and `inverter-cover` before step 4, on every path" == findings[0].help


@pytest.mark.parametrize(
    ("rule", "steps"),
    [
        ("live-conductor-touched", "  - unplug: X7\n  - plug: X7\n"),
        ("point-secured-while-closed", "  - secure: charge-lead\nstays_off: charge-lead\n"),
    ],
)
def test_no_waiver_silences_a_danger(tmp_path, rule: str, steps: str) -> None:
    """There is an error with the waiver and without it."""
    waiver = f"waive: [{{rule: {rule}, why: We are quick}}]\n"

    with_it = found(tmp_path / "with", f"steps:\n{steps}{waiver}")
    without = found(tmp_path / "without", f"steps:\n{steps}")

    assert "error" in {one.severity for one in with_it}
    assert {(rule, "error")} == {(one.rule, one.severity) for one in without}


@pytest.mark.parametrize(("mode", "expected"), [("ignition", ["terminal-under-load"]), ("off", []), ("asleep", [])])
def test_a_low_voltage_terminal_is_undone_with_the_vehicle_off(tmp_path, mode: str, expected: list[str]) -> None:
    """The battery may stay connected; the vehicle is off or asleep. Common practice."""
    vehicle = VEHICLE + "  ground-nut: {terminal: [X210/1], size: M6, torque: 6 N·m}\n"
    steps = f"steps:\n  - set: {{mode: {mode}}}\n  - loosen: ground-nut\n  - tighten: ground-nut\n"
    files = {PLACES["vehicle"]: vehicle, PLACES["procedure"]: completed(steps, PROCEDURE)}

    rules = [finding.rule for finding in check(tmp_path, files).findings]

    assert expected == list(dict.fromkeys(rules))


def test_what_is_left_off_is_told_beside_an_open_point_too(tmp_path) -> None:
    """A point that was opened before, and may stay open, hides nothing."""
    steps = "steps:\n  - set: {mode: off}\n  - disconnect: aux-negative\n  - unplug: X210\nstays_off: aux-negative\n"

    findings = check(tmp_path, {PLACES["procedure"]: completed(steps, PROCEDURE)}).findings

    assert ["`X210` is unplugged in step 3 and may be left so at the end"] == [one.message for one in findings]


WITH_PACK_PLUG = VEHICLE.replace(
    "parts:\n", "  X5:\n    name: Battery outlet\n    pins:\n      1: {signal: HV+, circuit: traction}\nparts:\n", 1
).replace("exposes: none, sealed: yes}", "exposes: none, connectors: [X5], sealed: yes}")
LIFTED = "  - unplug: X5\n{}  - remove: traction-battery\n{}"
LEFT = "stays_off: [charge-lead, aux-negative, service-plug, inverter-cover, X5, traction-battery]\n"


@pytest.mark.parametrize(
    ("caps", "expected"),
    [
        ("", ["step 3 takes off `traction-battery` while the contacts of `X5` may be bare"]),
        ("  - fit_temporary: caps\n    at: [X5 device]\n", []),
        ("  - fit_temporary: caps\n    at: [X7]\n", ["step 4 takes off `traction-battery` while the contacts of `X5` may be bare"]),
    ],
)  # fmt: skip
def test_a_sealed_battery_comes_out_capped(tmp_path, caps: str, expected: list[str]) -> None:
    """EN 50110-1, 6.2, fifth rule (from memory): protection against what stays live beside the work."""
    steps = (
        "steps:\n  - perform: test-van/isolate\n"
        + LIFTED.format(caps, "  - remove_temporary: caps\n" if caps else "")
        + LEFT
    )
    files = {PLACES["vehicle"]: WITH_PACK_PLUG, PLACES["procedure"]: completed(steps, PROCEDURE)}

    findings = check(tmp_path, files).findings

    assert expected == [one.message for one in findings if one.rule == "sealed-source-uncapped"]


NEARLY_NOTHING = (
    "  - measure: Rest\n    quantity: voltage\n    current_kind: dc\n    between: [X48/1, chassis]\n"
    "    limits: at most 0.5 V\n    source: workshop practice\n    using: voltage-tester\n"
)
LET_OUT = (
    "  - discharge: power-48\n    between: [X48/1, chassis]\n    using: voltage-tester\n    with: resistor\n"
    "    limits: at most 0.5 V\n    source: workshop practice\n"
)
OHMS = (
    "  - measure: Lead\n    quantity: resistance\n    between: [X48/1, chassis]\n    limits: at most 1 Ω\n"
    "    source: workshop practice\n"
)


@pytest.mark.parametrize(
    ("before", "expected"),
    [
        (NEARLY_NOTHING.replace("0.5 V", "5 V"), ["rest-falsifies-reading"]),
        (NEARLY_NOTHING, []),
        (NEARLY_NOTHING + "  - pause: break\n" + NEARLY_NOTHING.replace("0.5 V", "5 V"), ["rest-falsifies-reading"]),
        (NEARLY_NOTHING.replace("0.5 V", "5 V") + LET_OUT, []),
        (NEARLY_NOTHING.replace("0.5 V", "5 V") + LET_OUT.replace("0.5 V", "5 V"), ["rest-falsifies-reading"]),
    ],
    ids=["5 V may be left", "next to nothing", "a break between", "let out to next to nothing", "let out to 5 V"],
)
def test_a_rest_of_voltage_falsifies_a_resistance(tmp_path, before: str, expected: list[str]) -> None:
    """Common practice: half a volt (from memory)."""
    steps = "steps:\n  - set: {mode: off}\n  - disconnect: plug-48\n" + before + OHMS + "stays_off: plug-48\n"
    files = {PLACES["vehicle"]: RICH, PLACES["procedure"]: completed(steps, PROCEDURE)}

    rules = [one.rule for one in check(tmp_path, files).findings]

    assert expected == [rule for rule in rules if rule == "rest-falsifies-reading"]
    assert "live-conductor-touched" not in rules


def test_a_worthless_reading_hides_no_danger_behind_it(tmp_path) -> None:
    """The reading is meant for a vehicle that is off; that the plug is drawn while it is on is told as well."""
    reading = (
        "  - measure: Supply\n    quantity: voltage\n    between: [X210/3, X210/1]\n    when: {mode: off}\n"
        "    limits: at most 15 V\n    source: workshop practice\n"
    )
    steps = f"steps:\n  - set: {{mode: ready}}\n{reading}  - disconnect: aux-negative\nstays_off: aux-negative\n"

    findings = check(tmp_path, {PLACES["procedure"]: completed(steps, PROCEDURE)}).findings

    assert {"condition-does-not-hold", "point-opened-out-of-order"} <= {one.rule for one in findings}


# Gas is let out before it can be read as safe

WITH_AIR = VEHICLE.replace(
    "\nisolation_points:\n",
    "\n  air:\n    name: Air springs\n    energy: pressure\n    gas: yes\n"
    "    sources: {pump: {taken_off_by: [[mode-off]]}}\n    safe: {gauge_pressure: at most 0.1 bar}\n"
    "\nisolation_points:\n",
).replace("\nparts:\n", "\nparts:\n  spring: {name: Air spring, circuits: [air], exposes: [air]}\n")
OFF_FIRST = "steps:\n  - set: {mode: off}\n"
LET_OUT = "  - drain: air\n    into: the open air\n"
READ = "  - prove_safe: air\n    using: multimeter\n"
OPEN = "  - remove: spring\n  - refit: spring\n"


@pytest.mark.parametrize(
    ("steps", "line", "message"),
    [
        (OFF_FIRST + LET_OUT + READ + OPEN, None, ""),
        ("steps:\n" + LET_OUT, 2, "step 1 drains `air` while Air springs may still be fed: the vehicle may be on"),
        (
            OFF_FIRST + LET_OUT + OPEN,
            5,
            "step 3 takes off `spring` while Air springs may not have been read as safe (gauge_pressure)",
        ),
        (
            OFF_FIRST + LET_OUT + "    on: air\n",
            5,
            "step 2 drains `air` while Air springs may not have been read as safe (gauge_pressure)",
        ),
        (
            OFF_FIRST + LET_OUT + READ + "  - fill: air\n    with: air\n" + OPEN,
            9,
            "step 5 takes off `spring` while Air springs may not have been read as safe (gauge_pressure)",
        ),
        (
            OFF_FIRST + LET_OUT + READ + READ + "    outcomes: {above: next}\n" + OPEN,
            10,
            "step 5 takes off `spring` while Air springs may not have been read as safe (gauge_pressure)",
        ),
        (
            OFF_FIRST + LET_OUT + READ + READ + "    outcomes: {not_decided: next}\n" + OPEN,
            10,
            "step 5 takes off `spring` while Air springs may not have been read as safe (gauge_pressure)",
        ),
    ],
    ids=[
        "let out, read, opened",
        "still fed",
        "opened before it is read",
        "a line is touched as it is let out",
        "filled again",
        "read again, and not safe any more",
        "read again, and too close to tell",
    ],
)
def test_gas_is_let_out_with_its_source_off_and_read_before_it_is_opened(tmp_path, steps, line, message) -> None:
    """Only the letting out may come before the reading; nothing else that opens the circuit."""
    dangers = [one for one in found(tmp_path, steps, vehicle=WITH_AIR) if one.rule == "other-energy-not-safe"]

    assert ([] if line is None else [(line, message)]) == [(one.place.line, one.message) for one in dangers]


def test_a_reading_that_takes_safety_away_is_shown_beside_the_error(tmp_path) -> None:
    """In the words of a gauge: pressure is not proved dead."""
    steps = OFF_FIRST + LET_OUT + READ + READ + "    outcomes: {above: next}\n" + OPEN

    (danger,) = (one for one in found(tmp_path, steps, vehicle=WITH_AIR) if one.rule == "other-energy-not-safe")

    assert ["after step 4, left by `above`, `air` is no longer read as safe"] == [one.text for one in danger.see]


PUMPED = "  - fill: air\n    with: air from a hand pump\n    amount: 1.0 bar\n"
COOLED = "  - prove_safe: air\n    using: thermometer\n    limits: at most 45 °C\n"


@pytest.mark.parametrize(
    ("steps", "line", "unread"),
    [
        (READ + PUMPED + OPEN, 8, "gauge_pressure"),
        (READ + PUMPED + READ + OPEN, None, ""),
        (READ + PUMPED + PUMPED + READ + OPEN, None, ""),
        (READ + "  - fill: air\n    amount: 2 L\n" + OPEN, None, ""),
        (COOLED + READ + PUMPED + READ + OPEN, None, ""),
    ],
    ids=["opened", "let out and read again", "pumped up once more", "filled, not pumped up", "it stays cool"],
)
def test_what_is_pumped_up_is_under_pressure_until_it_is_read_again(tmp_path, steps, line, unread) -> None:
    """A tightness test with air: nothing is opened for it, but nothing may be opened after it either."""
    liquid = WITH_AIR.replace("    gas: yes\n", "")
    if COOLED in steps:
        liquid = liquid.replace(
            "{gauge_pressure: at most 0.1 bar}", "{temperature: at most 45 °C, gauge_pressure: at most 0.1 bar}"
        )
        steps = steps.replace(READ, READ + "    limits: at most 0.1 bar\n")

    dangers = [one for one in found(tmp_path, OFF_FIRST + steps, vehicle=liquid) if one.rule == "other-energy-not-safe"]

    assert ([] if line is None else [line]) == [one.place.line for one in dangers]
    assert all(f"({unread})" in one.message for one in dangers)


def test_what_is_not_said_to_be_gas_is_read_before_it_is_drained(tmp_path) -> None:
    """A hot liquid under pressure scalds whoever opens its drain."""
    liquid = WITH_AIR.replace("    gas: yes\n", "")

    dangers = [one for one in found(tmp_path, OFF_FIRST + LET_OUT, vehicle=liquid) if one.kind == "danger"]

    assert ["other-energy-not-safe"] == [one.rule for one in dangers]


def test_what_is_fitted_for_the_time_being_is_to_be_taken_off(tmp_path) -> None:
    """Or it stays, and that is said; a bridge never does."""
    (left,) = [
        one
        for one in found(tmp_path, "steps:\n  - fit_temporary: breakout-lead\n    at: X210\n")
        if one.rule == "left-out-of-place"
    ]

    off = "take it off before the end: `remove_temporary: breakout-lead`"
    assert left.help == f"{off}; or add `breakout-lead` to `stays_off` where a cap or an adapter may stay"
    bridge = found(tmp_path, "steps:\n  - fit_temporary: breakout-lead\n    joins: [X210/1, chassis]\n")
    assert [off] == [one.help for one in bridge if one.rule == "left-out-of-place"]


def test_what_one_step_leaves_off_at_the_same_ends_is_told_once(tmp_path) -> None:
    """An isolation that is performed and never undone is one mistake, whatever it has taken out of its place."""
    (left,) = [
        one for one in found(tmp_path, "steps:\n  - perform: test-van/isolate\n") if one.rule == "left-out-of-place"
    ]
    assert left.message == (
        "`inverter-cover`, `charge-lead`, `aux-negative` and `service-plug` are taken out of their place in step 1 "
        "and may be left so at the end"
    )
    assert left.help == (
        "put them back before the end, or add `inverter-cover`, `charge-lead`, `aux-negative` and `service-plug` "
        "to `stays_off`"
    )


def test_a_fault_of_form_that_a_walk_does_not_need_hides_no_danger(tmp_path) -> None:
    """Who deletes a proof leaves the conclusion of its outcome without a way to it; that nothing is proved is said too."""
    job = (
        "steps:\n  - unplug: X7\n  - plug: X7\nconclusions:\n  not-dead:\n    finding: It is not dead.\n    end: stop\n"
    )
    assert {"live-conductor-touched", "conclusion-never-reached"} <= {one.rule for one in found(tmp_path, job)}


def test_a_voltage_that_cannot_be_read_is_told_once(tmp_path) -> None:
    """No procedure is told that its tester is too weak for a circuit whose voltage is a slip of the pen."""
    vehicle = VEHICLE.replace("max: 410 V", "max: 410 VDC", 1)
    assert vehicle != VEHICLE
    findings = found(tmp_path, "steps:\n  - do: Look.\n    on: nothing\n", vehicle=vehicle)
    assert ["unit-unknown"] == [one.rule for one in findings]
