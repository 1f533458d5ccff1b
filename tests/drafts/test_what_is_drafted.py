"""What stands in a draft: whose isolation, which proof, which torques, and what was left out."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from bayleaf.drafts.readings import reading_at
from drafts_kit import bare, demo


def actions(text: str) -> list[str]:
    """The actions of the steps in their order, as `key: value`."""
    steps = re.split(r"\n\n", text.split("\nsteps:\n")[1].split("\nconclusions:")[0])
    lines = [[line.strip().removeprefix("- ") for line in step.splitlines()] for step in steps]
    return [next(line for line in step if not line.startswith("id: ")) for step in lines if step[0]]


def test_a_heater_is_replaced() -> None:
    """Isolated, read as cold and without pressure, taken apart, put together in the reverse order, returned."""
    assert [
        "perform: larkway-m12/isolate-traction",
        "prove_safe: heater-coolant",
        "prove_safe: heater-coolant",
        "unplug: [X7, X210]",
        "drain: heater-coolant",
        "loosen: [heater-bracket, heater-bond]",
        "remove: cabin-heater",
        "refit: cabin-heater",
        "tighten: [heater-bond, heater-bracket]",
        "fill: heater-coolant",
        "plug: [X210, X7]",
        "perform: larkway-m12/return-to-service",
        'do: "TODO: say how it is seen that the vehicle is in order again."',
    ] == actions(demo().draft("larkway-m12", "replacement", "cabin-heater").text)


def test_a_circuit_that_the_isolation_leaves_waiting_is_proved_where_its_cover_comes_off() -> None:
    """The motor phases of the Larkway are locked off by its isolation, and not proved."""
    found = actions(demo().draft("larkway-m12", "diagnosis", "X2").text)

    assert ["loosen: phase-cover-screws", "remove: phase-cover", "prove_dead: drive-phases"] == found[2:5]
    assert ["refit: phase-cover", "tighten: phase-cover-screws"] == found[-4:-2]


def test_a_part_on_three_circuits() -> None:
    """The on-board charger lies on the bus, on the mains side and on the drive coolant: each is made safe."""
    text = demo().draft("larkway-m12", "replacement", "onboard-charger").text

    assert "perform: larkway-m12/isolate-traction" in text
    assert "prove_dead: charge-inlet" in text
    assert 2 == text.count("prove_safe: drive-coolant")


def test_a_connector_on_the_48_volt_system() -> None:
    """Its own isolation is performed, and its nuts are tightened with the torque of the profile."""
    found = actions(demo().draft("thistledown-v4", "repair", "X1").text)

    assert "perform: thistledown-v4/isolate-48v" == found[0]
    assert "tighten: sg-terminal-nuts" in found


@pytest.mark.parametrize(("vehicle", "thing"), [("granbrook-t8", "left-side-panel"), ("larkway-m12", "dash-display")])
def test_what_is_on_no_dangerous_circuit_needs_no_isolation(vehicle: str, thing: str) -> None:
    """The vehicle is switched off, and that is all."""
    made = demo().draft(vehicle, "replacement", thing)

    assert "perform:" not in made.text
    assert "set: {mode: off}" in made.text


def test_a_liquid_that_stands_above_the_part_is_pinched_off_before_it_is_read() -> None:
    """Switching off stops the pump, and not what runs out of a tank: the points of the profile come first."""
    steps = actions(demo().draft("granbrook-t8", "replacement", "pack-pump").text)

    assert steps.index("disconnect: inlet-pinch") < steps.index("prove_safe: pump-section")
    assert steps.index("disconnect: outlet-pinch") < steps.index("prove_safe: pump-section")
    assert steps.index("reconnect: inlet-pinch") > steps.index("refit: pack-pump")


def test_what_nothing_makes_safe_is_not_taken_apart() -> None:
    """The compressor stays on its lines; its plug may be pulled; why is said in the draft and to whoever asked."""
    made = demo().draft("larkway-m12", "replacement", "ac-compressor")

    assert "remove: ac-compressor" not in made.text
    assert "unplug: X9" in made.text
    assert made.notes == (
        "ac-compressor is not taken apart in this draft: nothing in the profile takes its filling off “Refrigerant of "
        "the air conditioning”.",
    )


def test_an_isolation_made_from_the_profile(tmp_path: Path) -> None:
    """Points in the order of `first`, all locked, the computed wait, the cover, the proof with the unit before and
    after; and back in the reverse order."""
    text = bare(tmp_path).draft("larkway-m12", "diagnosis", "X7").text

    assert [
        "disconnect: charge-lead", "disconnect: aux-negative", "disconnect: service-plug",
        "secure: [charge-lead, aux-negative, service-plug]", "wait: 5 min", "loosen: inverter-cover-screws",
        "remove: inverter-cover", "prove_dead: traction",
    ] == actions(text)[4:12]  # fmt: skip
    assert "tester_proved: {before: proving-unit, after: proving-unit}" in text
    assert [
        "refit: inverter-cover", "tighten: inverter-cover-screws",
        "release: [charge-lead, aux-negative, service-plug]", "reconnect: service-plug", "reconnect: aux-negative",
        "tighten: aux-clamp",
    ] == actions(text)[-7:-1]  # fmt: skip
    assert "stays_off: charge-lead" in text or "stays_off: [charge-lead]" in text


#: What an author takes the `#` away from, with figures.
LIMITS = [
    ("    # TODO: write the limits, take these # away:\n", ""),
    ("# limits: … Ω to … Ω", "limits: 100 Ω to 200 Ω"),
    ("# source: …", "source: workshop practice"),
    ("# outcomes:", "outcomes:"),
]


@pytest.mark.parametrize("plug", ["X7", "X210"])
def test_a_diagnosis_offers_a_reading_at_a_pulled_plug(plug: str) -> None:
    """It is free of faults as it stands, and with its limits filled in all readings lead to the question at the end."""
    made = demo().draft("larkway-m12", "diagnosis", plug)
    assert f"  - id: read-{plug.lower()}\n" in made.text
    text = made.text
    for before, after in LIMITS:
        assert 1 == text.count(before)
        text = text.replace(before, after)
    for one in (made.text, text):
        assert [] == [found.message for found in demo().findings(made.file, one)]


@pytest.mark.parametrize(("energy", "offered"), [("electrical", True), ("pyrotechnic", False)])
def test_no_ohmmeter_is_offered_at_an_igniter(energy: str, offered: bool) -> None:
    """Its current may fire what is behind the plug."""
    around = demo().around("larkway-m12")
    circuits = {name: replace(one, energy=energy) for name, one in around.vehicle.circuits.items()}
    vehicle = replace(around.vehicle, circuits=circuits)
    assert offered == bool(reading_at("X210", replace(around, vehicle=vehicle)))
