"""The rules about what a reading is worth, and about live work: beyond their examples."""

import pytest
from kit import ISOLATION, PROCEDURE, VEHICLE, completed
from validity_kit import CALLED, ISOLATED, JOB, OFF, PROOF, RICH, found, insulation, measure, replaced, rules, told

# Insulation tests

OWN_FUSE = replaced(
    replaced(VEHICLE, "monitor: {taken_off_by: [[service-plug]]}", "monitor: {taken_off_by: [[monitor-fuse]]}"),
    "\nisolation_points:\n",
    "\nisolation_points:\n  monitor-fuse: {name: Fuse of the monitor, kind: fuse, breaks: conductor, leaves_live: none, "
    "first: none, only_when: {mode: off}}\n",
)


def test_a_monitor_that_may_be_on_is_read_along(tmp_path) -> None:
    """It has a fuse of its own, which nobody has drawn."""
    findings = found(tmp_path, ISOLATED.format(insulation("[X1/1 cable, chassis]")), OWN_FUSE)

    message = "step 2 measures at `X1/1 cable` while the insulation monitor of `traction` may still be on"
    assert [("insulation-monitor-still-on", message)] == told(findings)
    assert "add `disconnect: [monitor-fuse]` before it, on every path" == findings[0].help


@pytest.mark.parametrize(
    "steps",
    [
        "  - disconnect: monitor-fuse\n"
        + insulation("[X1/1 cable, chassis]")
        + PROOF
        + "  - reconnect: monitor-fuse\n",
        "  - unplug: X7\n" + insulation("[X7/1 device, chassis]") + PROOF + "  - plug: X7\n",
    ],
    ids=["its fuse is drawn", "the tested unit is unplugged"],
)
def test_a_monitor_that_is_off_the_piece_is_not(tmp_path, steps: str) -> None:
    """Off, or on another piece."""
    assert [] == found(tmp_path, ISOLATED.format(steps), OWN_FUSE)


@pytest.mark.parametrize(
    ("volts", "half"),
    [(250, "meets"), (205, "meets"), (200, "does not meet either")],
)
def test_a_low_test_voltage_is_held_against_both_regulations(tmp_path, volts: int, half: str) -> None:
    """ISO 6469-3, 8.2.2: the maximum working voltage, 410 V; UN R100, Annex 5A: half of it, 205 V."""
    findings = found(tmp_path, ISOLATED.format(insulation("[X1/1 cable, chassis]", volts)))

    assert ["test-voltage-too-low"] == rules(findings)
    assert f"UN R100 asks for half, which this {half}" in (findings[0].because or "")


def test_the_highest_voltage_itself_is_enough(tmp_path) -> None:
    """At least the maximum working voltage."""
    assert [] == found(tmp_path, ISOLATED.format(insulation("[X1/1 cable, chassis]", 410)))


def test_a_part_that_is_tested_itself_does_not_stand_it_though_it_is_unplugged(tmp_path) -> None:
    """The heater stands 1000 V."""
    steps = "  - unplug: X7\n" + insulation("[X7/1 device, chassis]", 1500) + PROOF + "  - plug: X7\n"

    assert ["test-voltage-above-rating"] == rules(found(tmp_path, ISOLATED.format(steps)))


POWER_OFF = """\
steps:
  - set: {mode: off}
  - disconnect: [aux-negative, plug-48]
  - measure: Rest of the 48 V supply
    quantity: voltage
    between: [X48/1, chassis]
    using: voltage-tester
    limits: at most 5 V
    source: workshop practice
"""
POWER_LEFT = "stays_off: [aux-negative, plug-48{}]\n"


@pytest.mark.parametrize(
    ("volts", "unplugged", "expected"),
    [
        (250, False, ["power-tested-while-plugged", "test-voltage-above-rating"]),
        (250, True, []),
        (100, False, []),
    ],
)
def test_48_volt_power_is_tested_with_little_or_unplugged(
    tmp_path, volts: int, unplugged: bool, expected: list[str]
) -> None:
    """From memory: units of a 48 V supply stand 100 V; here the profile says the same of the heater."""
    pins = "[X48/1 cable, chassis]" if unplugged else "[X48/1, chassis]"
    unplug = "  - unplug: X48\n" if unplugged else ""
    job = POWER_OFF + unplug + insulation(pins, volts) + POWER_LEFT.format(", X48" if unplugged else "")

    assert expected == sorted(rules(found(tmp_path, job, RICH)))


def test_a_test_whose_voltage_cannot_be_read_is_told_once(tmp_path) -> None:
    """It is said, only not in a unit."""
    steps = insulation("[X1/1 cable, chassis]").replace("500 V", "500 VDC")

    assert ["unit-unknown"] == rules(found(tmp_path, ISOLATED.format(steps)))


# What is fed and what is not

SUPPLY = measure("voltage", "[X210/3, X210/1]", "11.5 V to 15 V", "using: multimeter")
NOWHERE = "voltage-expected-where-nothing-feeds"


@pytest.mark.parametrize(
    ("limits", "expected"),
    [("11.5 V to 15 V", [NOWHERE]), ("12 V ± 1 V", [NOWHERE]), ("at most 0.5 V", []), ("0 V ± 0.5 V", [])],
)
def test_only_a_reading_above_zero_expects_something(tmp_path, limits: str, expected: list[str]) -> None:
    """A reading of nothing is right where nothing is."""
    job = f"steps:\n  - set: {{mode: off}}\n  - disconnect: aux-negative\n{SUPPLY}stays_off: aux-negative\n"

    assert expected == rules(found(tmp_path, job.replace("11.5 V to 15 V", limits)))


def test_one_path_on_which_it_is_fed_is_enough(tmp_path) -> None:
    """Somebody may come here with the battery on."""
    job = f"""\
steps:
  - set: {{mode: off}}
  - ask: Is the battery needed?
    answers:
      - answer: yes
        then: read
      - answer: no
        then: next
  - disconnect: aux-negative
{SUPPLY.replace("  - measure", "  - id: read" + chr(10) + "    measure")}stays_off: aux-negative
"""
    assert [] == found(tmp_path, job)


def test_what_is_performed_is_judged_for_who_performs_it(tmp_path) -> None:
    """By itself it is right; behind the isolation it reads a dead supply."""
    called = completed(f"id: test-van/called\nsteps:\n{SUPPLY}", PROCEDURE)

    findings = found(tmp_path, ISOLATED.format("  - perform: test-van/called\n"), called=called)

    assert [(JOB, 3, NOWHERE)] == [(one.place.file, one.place.line, one.rule) for one in findings]
    assert [(CALLED, 3, "step 1 of `test-van/called`")] == [
        (see.place.file, see.place.line - 2, see.text) for see in findings[0].see
    ]


@pytest.mark.parametrize("quantity", ["resistance", "continuity", "diode", "capacitance"])
def test_nothing_is_read_with_the_current_of_the_meter_at_a_fed_pin(tmp_path, quantity: str) -> None:
    """The vehicle may be in any mode when a procedure is begun."""
    limits = {"diode": "at least 0.3 V", "capacitance": "at least 1 µF"}.get(quantity, "at least 1 Ω")
    step = measure(quantity, "[X210/3, X210/1]", limits, "using: multimeter")

    assert [("resistance-read-at-fed-pin", "step 1 measures at `X210/3` while `supply-12` may feed it")] == told(
        found(tmp_path, f"steps:\n{step}")
    )


def test_a_loop_may_bring_somebody_back_to_a_fed_pin(tmp_path) -> None:
    """The path says how."""
    step = measure(
        "resistance", "[X210/3, X210/1]", "at least 1 Ω", "using: multimeter", "id: read", "repeat: at most 2"
    )
    job = f"steps:\n  - set: {{mode: off}}\n{step}    outcomes: {{below: awake}}\n    then: end\n"
    job += "  - id: awake\n    set: {mode: ignition}\n    then: read\n"

    findings = found(tmp_path, job)

    assert ["resistance-read-at-fed-pin"] == rules(findings)
    assert (findings[0].because or "").endswith("shortest path: 1 → 2 below → 3 → 2")


# What a tester is proved on


@pytest.mark.parametrize(
    ("sources", "expected"),
    [
        ("{before: X210/3, after: proving-unit}", ["step 8 proves the tester on `X210/3`, and `supply-12` may be disconnected then"]),
        ("{before: X210/5, after: proving-unit}", ["step 8 proves the tester on `X210/5`, and that belongs to no circuit"]),
        ("{before: proving-unit, after: proving-unit}", []),
    ],
)  # fmt: skip
def test_a_tester_is_proved_on_what_is_surely_live(tmp_path, sources: str, expected: list[str]) -> None:
    """The isolation itself has taken the 12 V battery off."""
    isolation = replaced(ISOLATION, "{before: proving-unit, after: proving-unit}", sources)

    findings = found(tmp_path, "steps:\n  - do: Look.\n    on: nothing\n", isolation=isolation)

    assert [("proving-source-may-be-off", message) for message in expected] == told(findings)


def test_a_pin_that_nothing_has_taken_off_is_a_source(tmp_path) -> None:
    """Here the plug needs no 12 V battery off before it."""
    isolation = replaced(ISOLATION, "{before: proving-unit, after: proving-unit}", "{before: X210/3, after: X210/3}")
    isolation = isolation.replace("  - disconnect: aux-negative\n", "").replace(", aux-negative", "")
    vehicle = replaced(VEHICLE, "    first: [aux-negative]\n", "    first: none\n")

    assert [] == found(tmp_path, "steps:\n  - do: Look.\n    on: nothing\n", vehicle, isolation=isolation)


# Live work, squibs, weight, callers


def test_a_squib_is_not_measured_however_safe_it_is(tmp_path) -> None:
    """Disconnected and waited for, it may be unplugged; an instrument can fire it all the same."""
    steps = "  - set: {mode: off}\n  - disconnect: aux-negative\n  - wait: 5 min\n    for: [squibs]\n"
    job = "steps:\n" + steps + measure("resistance", "[X90/1, X90/2]", "1.5 Ω to 4 Ω", "using: multimeter")

    assert [("pyrotechnic-circuit-measured", "Airbag squibs is measured at `X90/1`")] == told(
        found(tmp_path, job + "stays_off: aux-negative\n", RICH)
    )


@pytest.mark.parametrize(
    ("who", "expected"),
    [
        ("One person qualified for work on dead high-voltage systems", ["voltmeter-method-not-qualified"]),
        ("One person qualified for live work on high-voltage systems", []),
    ],
)
def test_the_voltmeter_method_is_live_work(tmp_path, who: str, expected: list[str]) -> None:
    """Through adapters that were fitted dead; the vehicle is closed up and ready meanwhile."""
    read = [
        measure("voltage", pins, "at least 1 V", "using: voltage-tester", "tools: break-out", f"id: v{number}", "outcomes: {below: off, not_decided: off}")
        for number, pins in enumerate(["[X7/1, X7/2]", "[X7/2, chassis]", "[X7/1, chassis]", "[X7/2, chassis]"])
    ]  # fmt: skip
    job = f"""\
people: {{at_least: 2, who: {who}}}
steps:
  - perform: test-van/isolate
  - fit_temporary: break-out
    at: [X7]
  - refit: inverter-cover
  - release: [charge-lead, service-plug]
  - reconnect: service-plug
  - reconnect: aux-negative
  - set: {{mode: ready}}
{"".join(read)}  - compute: Insulation resistance
    formula: insulation by voltmeter
    of: [v0, v1, v2, v3]
    resistor: 200 kΩ
    quantity: resistance
    limits: at least 200 kΩ
    source: workshop practice
    outcomes: {{below: off, not_decided: off}}
  - id: off
    set: {{mode: off}}
  - perform: test-van/isolate
  - remove_temporary: break-out
{OFF}"""
    assert expected == rules(found(tmp_path, job))


TIPS = "warning: {hazard: The vehicle tips., consequence: It crushes whoever is below., avoid: Strap it down.}\n"
HEAVY = "heavy-part-off-raised-vehicle"


@pytest.mark.parametrize(
    ("raised", "at_step", "at_head", "expected"),
    [
        (True, "", "", [HEAVY]),
        (False, "", "", []),  # on the ground nothing tips
        (True, TIPS, "", []),
        (True, TIPS.replace("The vehicle tips", "Its balance changes"), "", []),
        (True, "", TIPS, [HEAVY]),  # read long before
        (True, TIPS.replace("The vehicle tips", "The axle can topple from its table"), "", [HEAVY]),
        (
            True,
            TIPS.replace("vehicle tips", "axle is heavy").replace("Strap it", "Balance it and strap it"),
            "",
            [HEAVY],
        ),
    ],
)
def test_a_heavy_part_off_a_raised_vehicle_asks_for_a_warning_there(
    tmp_path, raised: bool, at_step: str, at_head: str, expected: list[str]
) -> None:
    """The axle weighs 95 kg."""
    work = "  - loosen: axle-bolts\n  - remove: rear-axle\n" + (f"    {at_step}" if at_step else "")
    work += "  - refit: rear-axle\n  - tighten: axle-bolts\n"
    up, down = "  - disconnect: lift-stands\n", "  - reconnect: lift-stands\n"
    job = f"{at_head}steps:\n  - set: {{mode: off}}\n" + (up + work + down if raised else work)

    assert expected == rules(found(tmp_path, job, RICH))


EXPECTING = completed(
    "id: test-van/called\nexpects: {traction: secured}\nsteps:\n  - do: Look.\n    on: nothing\n", PROCEDURE
)


def test_an_end_that_names_it_as_repair_and_leaves_what_it_expects_leads_to_it(tmp_path) -> None:
    """The job ends locked; the other one goes on from there."""
    job = (
        ISOLATED.format("  - do: Look.\n    on: nothing\n    then: on-order\n")
        + """\
conclusions:
  on-order:
    finding: The heater is on order.
    end: end
    repair: test-van/called
    leaves: {traction: waited}
    stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]
"""
    )
    assert [] == found(tmp_path / "leaves", job, called=EXPECTING)
    without = job.replace("    leaves: {traction: waited}\n", "")
    assert ["performed-by-nobody"] == rules(found(tmp_path / "says nothing", without, called=EXPECTING))


def test_where_a_procedure_cannot_be_read_nothing_is_said_of_who_performs(tmp_path) -> None:
    """It may be the one."""
    findings = found(tmp_path, "steps:\n  - perform: test-van/called\n    remark: x\n", called=EXPECTING)

    assert ["unknown-key"] == rules(findings)


RETURN = completed(
    """\
id: test-van/called
kind: return to service
expects: {traction: waited}
leaves: {traction: live}
stays_off: charge-lead
steps:
  - refit: inverter-cover
  - release: [charge-lead, service-plug]
  - reconnect: service-plug
  - reconnect: aux-negative
""",
    PROCEDURE,
)
BACK = "steps:\n  - perform: test-van/isolate\n  - perform: test-van/called\nstays_off: charge-lead\n"


@pytest.mark.parametrize(
    ("deleted", "missing"),
    [
        ("  - reconnect: aux-negative\n", "reconnect: aux-negative"),
        ("  - refit: inverter-cover\n", "refit: inverter-cover"),
    ],
)
def test_what_a_performed_return_does_not_put_back_is_shown_there(tmp_path, deleted: str, missing: str) -> None:
    """Told at the caller, where it was taken off; the file in which the step was to be expected stands beside it."""
    assert [] == found(tmp_path / "whole", BACK, called=RETURN)
    told = found(tmp_path / "less", BACK, called=RETURN.replace(deleted, ""))

    (one,) = [each for each in told if each.rule == "left-out-of-place"]
    assert ["procedures/test-van/called.yml"] == [see.place.file for see in one.see if "no step here" in see.text]
    assert f"add `{missing}` in procedures/test-van/called.yml" in str(one.help)


def test_without_a_performed_return_no_other_file_is_named(tmp_path) -> None:
    """Nothing is performed that puts it back: what might is offered."""
    told = found(tmp_path, BACK.replace("  - perform: test-van/called\n", ""), called=RETURN)
    (one,) = [each for each in told if each.rule == "left-out-of-place"]

    assert "as `perform: test-van/called` may do" in str(one.help)
