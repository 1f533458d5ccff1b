"""The oracle by itself: each event, each demand, and the counting of visits, on small cases made by hand."""

import ast
from dataclasses import replace
from math import inf
from pathlib import Path

import pytest
from bayleaf.loading.load import load
from bayleaf.model import actions
from bayleaf.model.procedure import Step
from bayleaf.model.vehicle import Vehicle
from oracle.judge import Found, judge
from oracle.scenario_vehicle import (
    COVER,
    DEAD,
    HEAD,
    INSULATION,
    LOCK,
    OFF,
    PROVE,
    RELEASE,
    TESTER,
    VEHICLE,
    WAIT,
    WORK,
)  # fmt: skip
from oracle.steps import ask, conclusion, do, perform, procedure, step
from oracle.wait import required_wait

X7_OFF = "  - unplug: X7\n"
ON_DEVICE = INSULATION.replace("[X1/1 cable, chassis]", "[X7/1 device, chassis]")


def vehicle(*changes: tuple[str, str]) -> Vehicle:
    """The vehicle of the scenarios, with changes of its text."""
    text = VEHICLE
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    return load("procedures/van/vehicle.yml", text.encode(), "vehicle").model


def steps_of(text: str) -> tuple[Step, ...]:
    """The steps of a text."""
    return load(
        "procedures/van/job.yml", (HEAD.format(name="job") + "steps:\n" + text).encode(), "procedure"
    ).model.steps


def told(text: str, *changes: tuple[str, str], **more: object) -> list[str]:
    """What is found in a job of these steps: number, subject, demand."""
    job = replace(procedure("van/job", steps_of(text)), **more)
    found = judge("van/job", {"van/job": job}, vehicle(*changes))
    return sorted(f"{'.'.join(one.path)} {one.subject}: {one.demand}" for one in found)


@pytest.mark.parametrize(
    ("event", "is_dead"),
    [
        ("  - do: Look.\n    on: nothing\n", True),
        ("  - set: {mode: asleep}\n", True),
        ("  - set: {mode: ready}\n", False),
        ("  - disconnect: service-plug\n", True),
        ("  - secure: service-plug\n", True),
        ("  - release: service-plug\n", False),
        ("  - release: aux-negative\n", True),
        ("  - wait: 1 min\n    for: [traction]\n", True),
        ("  - unplug: X7\n", True),
        ("  - plug: X7\n", True),
        ("  - turn: driven wheels\n", False),
        ("  - turn: driven wheels\n    speed: 750 rpm\n", True),  # 60 V: the limit itself is not above it
        ("  - turn: driven wheels\n    speed: 751 rpm\n", False),
        ("  - pause: break\n", False),
        ("  - energise: power-48\n    with: supply\n", True),
        ("  - command: pump\n    energises: power-48\n", True),
        (INSULATION, False),
        (INSULATION + "    discharged: at most 5 V\n", False),
        (INSULATION.replace("500 V", "60 V"), True),
        (INSULATION.replace("500 V", "61 V"), False),
        (X7_OFF + ON_DEVICE, True),
        (X7_OFF + ON_DEVICE + "    discharged: at most 5 V\n  - plug: X7\n", True),
        (X7_OFF + ON_DEVICE.replace("device", "cable"), False),
        ("  - fit_temporary: bridge\n    joins: [X1/1, X1/2]\n", True),
        ("  - fit_temporary: bridge\n    joins: [X1/1, chassis]\n", True),
        ("  - fit_temporary: bridge\n    joins: [X1/1, X21/1]\n", False),
    ],
)
def test_an_event_leaves_a_circuit_dead_or_not(event: str, is_dead: bool) -> None:
    """The bus was proved dead, then this was done; what follows touches the bare terminals."""
    found = told(DEAD + event + WORK)
    last = str(len(steps_of(DEAD + event + WORK)))
    assert is_dead == (f"{last} traction: touch" not in found)


def test_energising_opens_the_way_for_every_circuit_that_shares_the_points() -> None:
    """The plug that feeds the auxiliary link feeds the bus too."""
    assert "10 traction: touch" in told(DEAD + "  - energise: auxiliary\n    with: supply\n" + WORK)


def test_circuits_that_were_joined_wait_as_long_as_the_slowest() -> None:
    """The link has no bleed resistor, so after plugging the bus to it no wait is enough for either."""
    joined = OFF + LOCK + WAIT + "  - plug: X4\n" + WAIT + COVER
    assert ["7 auxiliary: touch", "7 traction: touch", "9 traction: cover"] == told(joined)


def test_circuits_are_joined_through_a_third() -> None:
    """What is joined to the link later is joined to the bus too, whichever was plugged first."""
    bus, supply = "  - plug: X4\n", "  - fit_temporary: bridge\n    joins: [X3/1, X5/1]\n"
    for text in (DEAD + bus + supply + WORK, DEAD + supply + bus + WORK):
        assert "11 traction: touch" in told(text)
    undone = "  - disconnect: isolator-48\n" + bus + supply
    assert "14 traction: prove" in told(DEAD + undone + WORK + "  - reconnect: isolator-48\n" + PROVE)


def test_a_lock_on_a_point_that_cannot_be_locked_is_none() -> None:
    """Without `secure_with` there is nothing to lock with."""
    plug = "service-plug: {name: Service plug, kind: plug, breaks: middle of the battery, leaves_live: none, first: [aux-negative], only_when: {mode: off, open: [charge-lead]}"
    assert ["7 traction: cover"] == told(DEAD + WORK, (plug + ", secure_with: Padlock}", plug + "}"))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (WORK, ["1 traction: touch"]),
        ("  - do: Wipe.\n    on: traction\n", ["1 traction: touch"]),
        ("  - do: Wipe.\n    on: X7 cable\n", ["1 traction: touch"]),
        ("  - do: Wipe.\n    on: X7\n", []),
        ("  - do: Wipe.\n    on: inverter-terminals\n", ["1 traction: touch"]),
        ("  - unplug: X7\n", ["1 traction: touch"]),
        ("  - tighten: inverter-terminals\n", ["1 traction: touch"]),
        ("  - fit_temporary: cap\n    at: X7 cable\n", ["1 traction: touch"]),
        (COVER, ["1 traction: cover"]),
        ("  - refit: inverter-cover\n", ["1 traction: cover"]),
        (PROVE, ["1 traction: prove"]),
        ("  - secure: charge-lead\n", ["1 charge-lead: secure"]),
        ("  - disconnect: charge-lead\n", ["1 charge-lead: disconnect"]),
        ("  - disconnect: left-fuse\n", ["1 left-fuse: disconnect"]),
        (OFF + LOCK + "  - reconnect: charge-lead\n", ["6 charge-lead: reconnect"]),
        (OFF + LOCK + WAIT + COVER + "  - unplug: X21\n", ["8 traction: beside"]),
        (OFF + LOCK + WAIT + COVER + "  - tighten: Some screw\n    torque: 6 N·m\n", []),
        (DEAD + "  - set: {mode: off}\n" + RELEASE + "  - reconnect: charge-lead\n",
         ["11 traction: made live"]),
    ],
)  # fmt: skip
def test_a_demand_that_is_not_met_is_found(text: str, expected: list[str]) -> None:
    """Each demand by its name; what follows goes on as if it were met."""
    assert expected == told(text)


def test_a_demand_is_told_once_and_then_taken_as_met() -> None:
    """The path goes on as if the circuit were dead."""
    assert ["1 traction: touch"] == told(WORK + WORK + "  - unplug: X7\n")


def test_what_cannot_be_met_is_told_once() -> None:
    """Nothing takes the inside of a pack off; what follows on the same path is the same mistake."""
    never = ("battery: {taken_off_by: [[service-plug], [left-fuse, right-fuse]]}", "cells: never")
    assert ["1 traction: touch"] == told(WORK + WORK, never)


def test_a_circuit_that_was_found_not_dead_is_left_alone() -> None:
    """Unless the procedure says that it is for this fault: then it still has to be proved dead."""
    text = DEAD + "    outcomes: {not_dead: next}\n" + WORK
    assert ["9 traction: not dead"] == told(text)
    assert ["9 traction: touch"] == told(text, handles=("not dead",))


def test_a_charged_piece_is_not_joined_to_anything() -> None:
    """The charge is told where the plug goes back, and is taken as let out behind it."""
    assert ["11 X7: charged"] == told(DEAD + X7_OFF + ON_DEVICE + "  - plug: X7\n" + WORK)


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("live", ["1 traction: cover", "3 traction: beside"]),
        ("disconnected", ["1 traction: cover", "3 traction: beside"]),
        ("secured", ["1 traction: cover", "3 traction: beside"]),
        ("waited", ["3 traction: beside"]),
        ("proved dead", []),
    ],
)
def test_a_procedure_that_expects_a_state_begins_in_the_least_safe_of_it(word: str, expected: list[str]) -> None:
    """What is more than it expects is not there."""
    text = COVER + "  - wait: 10 min\n    for: [traction]\n  - unplug: X21\n"
    assert expected == told(text, expects=(("traction", word),))


def test_of_several_ways_that_are_expected_each_is_looked_at() -> None:
    """Taking one fuse in is nothing where the plug is out, and live where the fuses are."""
    steps = "  - release: left-fuse\n  - reconnect: left-fuse\n" + WORK
    assert ["3 traction: touch"] == told(steps, expects=(("traction", "proved dead"),))


def test_a_loop_is_walked_twice() -> None:
    """What is found on the way back is not there when no step may be come to again."""
    again = replace(do("X1/1"), id="again")
    steps = [*steps_of(DEAD), again, step(actions.Pause("break")), ask(("once more", "again"), ("done", "next"))]
    job = {"van/job": procedure("van/job", steps)}
    expected = {Found(("9",), "traction", "touch")}

    assert expected == judge("van/job", job, vehicle()) == judge("van/job", job, vehicle(), None)
    assert set() == judge("van/job", job, vehicle(), 1)


def test_a_callee_comes_back_by_its_conclusions_and_never_from_a_stop() -> None:
    """The state of each way back is that of the paths to it."""
    callee = procedure(
        "van/callee", [ask(("can be done", "next"), ("cannot", "given-up"), ("damaged", "damaged")), *steps_of(DEAD)],
        [conclusion("given-up", stops=False), conclusion("damaged", stops=True)],
    )  # fmt: skip
    for target, expected in (("stop", []), ("next", [("2",), ("2",)])):
        job = procedure("van/job", [perform("van/callee", ("given-up", target)), *steps_of(WORK)])
        found = judge("van/job", {"van/job": job, "van/callee": callee}, vehicle())
        assert expected[:1] == [one.path for one in found]


def test_a_fault_of_the_caller_holds_in_what_it_performs() -> None:
    """A stuck contactor is a fact of the vehicle."""
    battery = ("battery: {taken_off_by: [[service-plug], [left-fuse, right-fuse]]}",
               "battery: {taken_off_by: [[service-plug, main-contactor]]}")  # fmt: skip
    isolate = (
        OFF.replace("service-plug", "[main-contactor, service-plug]")
        + "  - secure: [main-contactor, charge-lead, service-plug]\n"
        + WAIT
    )
    made = {"van/callee": procedure("van/callee", steps_of(COVER))}
    for faults, expected in (((), []), (("contactor stuck",), [("7", "1")])):
        made["van/job"] = procedure("van/job", [*steps_of(isolate), perform("van/callee")], faults=faults)
        assert expected == [one.path for one in judge("van/job", made, vehicle(*[battery]))]


@pytest.mark.parametrize(
    ("stored", "expected"),
    [
        ("{capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: 1 min}", 125.2),  # safety rules: 125 s
        ("{capacitance: 1.1 mF, bleed: 47 kΩ, stated_wait: 1 min}", 125.2),  # the same tolerances are reckoned with
        ("{capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: 5 min}", 300),  # the maker's time
        ("{capacitance: 500 µF ± 20 %, bleed: 20 kΩ ± 5 %, stated_wait: 1 s}", 24.2),  # 12.6 s · ln(410/60)
        ("{capacitance: 1.1 mF ± 20 %, bleed: none, stated_wait: 5 min}", inf),
        ("{bleed: 47 kΩ, stated_wait: 5 min}", inf),  # what is not written counts as the worst
        ("{capacitance: 1.1 mF, bleed: 47 kΩ}", inf),
        ("{capacitance: 1.1 mF, bleed: 47 kΩ, stated_wait: none}", 125.2),
        ("{capacitance: not known, bleed: 47 kΩ, stated_wait: 5 min}", 300),
        ("{capacitance: not known, bleed: not known, stated_wait: 5 min}", 300),
        ("{capacitance: not known, bleed: none, stated_wait: 5 min}", inf),
        ("none", 0),
    ],
)
def test_the_wait(stored: str, expected: float) -> None:
    """The longer of what is stated and what is computed against the reader."""
    old = "{capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: 5 min, to_chassis: 0.4 µF}"
    assert pytest.approx(expected, abs=0.05) == required_wait(vehicle((old, stored)).circuits["traction"])


def test_the_oracle_shares_no_code_with_the_walk() -> None:
    """Only the line that names the judges may import it."""
    files = [one for one in Path(__file__).parent.glob("*.py") if one.name != "judges.py"]
    imported = {
        name for one in files for node in ast.walk(ast.parse(one.read_text("utf-8")))
        for name in ([node.module or ""] if isinstance(node, ast.ImportFrom) else
                     [alias.name for alias in node.names] if isinstance(node, ast.Import) else [])
    }  # fmt: skip
    assert "bayleaf.graph.build" in imported
    assert [] == sorted(name for name in imported if name.startswith(("bayleaf.safety", "bayleaf.rules")))


def test_a_pair_is_proved_in_either_order() -> None:
    """Which probe is the red one does not matter."""
    pairs = (
        "    between:\n      - [X1/2 cable, X1/1 cable]\n      - [chassis, X1/1 cable]\n      - [X1/2 cable, chassis]\n"
    )
    assert [] == told(DEAD.replace(TESTER, pairs + TESTER) + WORK)
