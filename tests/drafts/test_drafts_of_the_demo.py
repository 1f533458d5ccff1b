"""Whatever is touched on the vehicles of the demo, a draft from answers is safe on every path and tidy."""

from pathlib import Path

import pytest
from bayleaf.loading.load import load
from drafts_kit import ROOT, VEHICLES, Bench, bare, demo, is_tidy
from hypothesis import given, settings
from hypothesis import strategies as st
from kit import PLACES, write_manual
from thinned import IS_CAMPAIGN, some

JOBS = ("replacement", "repair", "diagnosis", "inspection", "maintenance")
PROFILES = {
    vehicle: load(
        f"{vehicle}/vehicle.yml", (ROOT / "procedures" / vehicle / "vehicle.yml").read_bytes(), "vehicle"
    ).model
    for vehicle in VEHICLES
}
THINGS = {vehicle: (*profile.parts, *profile.connectors) for vehicle, profile in PROFILES.items()}
EACH = [(vehicle, thing) for vehicle in VEHICLES for thing in THINGS[vehicle]]


@pytest.mark.parametrize(("vehicle", "thing"), some(EACH, 3))
def test_a_new_part_or_a_fault_at_any_part_and_connector(vehicle: str, thing: str) -> None:
    """Nothing is said of the draft but that places are to be filled, and tidying leaves it as it is."""
    for kind in ("replacement", "diagnosis"):
        made = demo().draft(vehicle, kind, thing)

        assert () == demo().findings(made.file, made.text), made.text
        assert is_tidy(made)
        assert made.todos >= 2


@settings(max_examples=500 if IS_CAMPAIGN else 30, deadline=None)
@given(st.data())
def test_several_things_in_any_order(data: st.DataObject) -> None:
    """Any kind of job, up to five things: no danger, no error, and only warnings of practice."""
    vehicle = data.draw(st.sampled_from(VEHICLES))
    touched = data.draw(st.lists(st.sampled_from(THINGS[vehicle]), max_size=5, unique=True))
    made = demo().draft(vehicle, data.draw(st.sampled_from(JOBS)), *touched)

    found = demo().findings(made.file, made.text)
    assert [] == [one for one in found if one.severity == "error" or one.kind != "practice"], made.text
    assert is_tidy(made)


def test_the_signal_of_a_sensor_is_read_with_a_meter_of_which_it_is_to_be_said_where() -> None:
    """Not with a tester, which is made to tell live from dead; a signal says little before it was seen to move."""
    made = demo().draft("granbrook-t8", "repair", "right-plate-sensor")

    (read,) = (step for step in made.text.split("\n\n") if "prove_safe: right-plate" in step and " V" in step)
    assert "using: multimeter" in read and "TODO: say at which contacts" in read
    assert () == demo().findings(made.file, made.text)


@pytest.mark.parametrize("vehicle", VEHICLES)
@pytest.mark.parametrize("kind", ["isolation", "return to service"])
def test_switching_off_and_on(vehicle: str, kind: str) -> None:
    """With nothing named they are about all dangerous circuits. Of a return is advised where it is to be performed."""
    made = demo().draft(vehicle, kind)

    found = demo().findings(made.file, made.text)
    assert [] == [one for one in found if one.severity != "advice"]
    assert {one.rule for one in found} <= {"performed-by-nobody"}
    assert all(f"`perform: {vehicle}/drafted` at the end" in str(one.help) for one in found)
    assert is_tidy(made)


def test_without_any_procedure_the_profile_gives_the_isolation(tmp_path: Path) -> None:
    """All parts and connectors again, where no vehicle has an isolation or a return to service."""
    bench = bare(tmp_path)
    for vehicle, thing in some(EACH, 5):
        made = bench.draft(vehicle, "replacement", thing)

        assert () == bench.findings(made.file, made.text), made.text
        assert is_tidy(made)


@pytest.mark.parametrize(
    ("vehicle", "thing", "left_out", "danger"),
    [
        ("larkway-m12", "X7", "perform: larkway-m12/isolate-traction", "live-conductor-touched"),
        ("thistledown-v4", "X3", "perform: thistledown-v4/isolate-48v", "live-conductor-touched"),
        ("larkway-m12", "X2", "prove_dead: drive-phases", "live-conductor-touched"),
        ("larkway-m12", "heater-hoses", "prove_safe: heater-coolant", "other-energy-not-safe"),
        ("granbrook-t8", "left-pack", "fit_temporary: terminal-caps", "sealed-source-uncapped"),
        ("larkway-m12", "cabin-heater", "tighten: ", "left-out-of-place"),
    ],
)
def test_each_step_of_a_draft_is_needed(vehicle: str, thing: str, left_out: str, danger: str) -> None:
    """The tests above are not blind: without this step the check finds the danger."""
    made = demo().draft(vehicle, "replacement", thing)
    head, key, body = made.text.partition("\nsteps:\n")
    steps = body.split("\n\n")
    kept = [step for step in steps if left_out not in step]
    assert len(kept) < len(steps)

    assert danger in {one.rule for one in demo().findings(made.file, head + key + "\n\n".join(kept))}


def test_a_vehicle_with_an_isolation_and_no_way_back(tmp_path: Path) -> None:
    """What its isolation has opened is closed in the reverse order by steps of the draft."""
    bench = Bench(write_manual(tmp_path, {PLACES["procedure"]: ""}))
    for thing in (*bench.manual.vehicles["test-van"].parts, *bench.manual.vehicles["test-van"].connectors):
        made = bench.draft("test-van", "replacement", thing)

        found = bench.findings(made.file, made.text)
        assert [] == [one.message for one in found if one.severity == "error"], made.text
        assert is_tidy(made)
    assert "reconnect: service-plug" in bench.draft("test-van", "diagnosis", "X7").text
