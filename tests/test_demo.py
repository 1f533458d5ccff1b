"""The demo manual is real work, not a toy: its size, its coverage, its honesty."""

from pathlib import Path

import pytest
from bayleaf import folders
from bayleaf.limits.instrument import ranges_for, sharpness
from bayleaf.limits.limit_rule import limit_rules
from bayleaf.loading.tidying.tidy import Tidied, tidied
from bayleaf.manual import Manual
from bayleaf.manual_files import find_files
from bayleaf.model import actions
from bayleaf.model.procedure import Procedure
from kit import unwaived

ROOT = Path(__file__).resolve().parents[1]
VEHICLES = ("granbrook-t8", "larkway-m12", "thistledown-v4")


def of_kind(demo: Manual, *kinds: str) -> list[Procedure]:
    return [procedure for procedure in demo.procedures.values() if procedure.kind in kinds]


def test_nothing_is_wrong_with_it(demo: Manual) -> None:
    """The demo checks clean: no error, no warning, and no advice but for what is waived with its reason."""
    found = unwaived(demo.findings)

    assert [(one.place.file, one.place.line, one.rule, one.message) for one in found] == []


def test_what_is_waived_is_waived_for_something(demo: Manual) -> None:
    """Each waiver of the demo answers a warning that there would be, and stays in the report with its reason."""
    files = {one.file: one.waivers for one in (*demo.procedures.values(), *demo.vehicles.values()) if one.waivers}
    left = unwaived(demo.findings)
    told = {(one.place.file, one.rule) for one in demo.findings if one not in left}

    assert told == {(file, waiver.rule) for file, waivers in files.items() for waiver in waivers}
    assert len(told) >= 2


@pytest.mark.parametrize("folder", [ROOT, folders.starter()], ids=["demo", "starter"])
def test_its_files_are_tidy(folder: Path) -> None:
    """What others begin from is in the order and spelling of the format; the starter too."""
    files = find_files(folder).files
    found = {file.path: tidied(file.path, (folder / file.path).read_bytes(), file.kind) for file in files}

    assert len(found) >= 5
    assert [] == [
        path for path, one in found.items() if path.endswith(".yml") and not (isinstance(one, Tidied) and one.is_tidy)
    ]


def test_every_vehicle_has_a_way_in_a_way_out_and_a_job(demo: Manual) -> None:
    """For each vehicle: isolate and prove dead, return to service, and a job between them."""
    assert tuple(sorted(demo.vehicles)) == VEHICLES
    for vehicle in VEHICLES:
        kinds = [procedure.kind for procedure in demo.procedures.values() if procedure.folder == vehicle]
        assert {"isolation", "return to service"} < set(kinds)
        assert len(kinds) >= 3


def test_an_isolation_has_at_least_twelve_steps_and_opens_every_point(demo: Manual) -> None:
    """It deals with every source of the profile: each isolation point that can be opened is opened or the mode set."""
    for procedure in of_kind(demo, "isolation"):
        vehicle = demo.vehicles[procedure.folder]
        dangerous = [one for one in vehicle.circuits.values() if one.is_class_b and one.sealed_in is None] or [
            one
            for one in vehicle.circuits.values()
            if one.energy == "electrical" and one.fused is not True and one.sealed_in is None
        ]
        needed = {
            point
            for circuit in dangerous
            for source in circuit.sources
            if source.kind == "points"
            for point in source.taken_off_by[0]
        }
        opened = {
            point
            for step in procedure.steps
            if isinstance(step.action, actions.Disconnect)
            for point in step.action.points
        }

        assert len(procedure.steps) >= 12, procedure.id
        assert needed - {"mode-off"} <= opened, procedure.id
        assert any(isinstance(step.action, actions.ProveDead) for step in procedure.steps), procedure.id


@pytest.mark.parametrize("vehicle", VEHICLES)
def test_a_job_is_of_the_size_of_a_job(demo: Manual, vehicle: str) -> None:
    """Each vehicle has one of at least 25 steps, with three branches, a loop and two performed procedures."""
    jobs = [
        one for one in demo.procedures.values()
        if one.folder == vehicle and one.kind not in ("isolation", "return to service")
    ]  # fmt: skip
    assert any(map(is_of_full_size, jobs))


def is_of_full_size(job: Procedure) -> bool:
    branches = [
        step for step in job.steps
        if any(target not in ("next", "stop") for _, target in step.outcomes)
        or (isinstance(step.action, actions.Ask) and len(step.action.answers) > 1)
    ]  # fmt: skip
    performed = {step.action.procedure for step in job.steps if isinstance(step.action, actions.Perform)}
    return (
        len(job.steps) >= 25 and len(branches) >= 3 and any(step.repeat for step in job.steps) and len(performed) >= 2
    )


#: Actions that cannot touch a thing of the vehicle; they are not counted for or against.
UNTOUCHING = (actions.Perform, actions.Compute, actions.Pause)


def touches(step) -> bool:
    """Whether a step names what it touches: by its action, its points, or what it is on."""
    action = step.action
    named = any(
        getattr(action, name, None)
        for name in (
            "points",
            "connectors",
            "parts",
            "fasteners",
            "circuit",
            "circuits",
            "pairs",
            "around",
            "where",
            "what_for",
        )
    )
    return bool(
        named
        or (step.on and step.on != ("nothing",))
        or isinstance(action, (actions.SetMode, actions.Read, actions.Command))
    )


def test_four_steps_in_five_touch_a_named_thing(demo: Manual) -> None:
    """The steps are about the vehicle, and say what of it; at most a quarter of those in words touch nothing."""
    steps = [step for one in demo.procedures.values() for step in one.steps if not isinstance(step.action, UNTOUCHING)]
    in_words = [step for step in steps if isinstance(step.action, actions.Do)]

    assert sum(map(touches, steps)) / len(steps) >= 0.8
    assert sum(step.on == ("nothing",) for step in in_words) / len(in_words) <= 0.25


def test_half_of_the_rules_for_limits_are_cited(demo: Manual) -> None:
    """And each that is cited could be computed from the profile."""
    cited = [step.cited for procedure in demo.procedures.values() for step in procedure.steps if step.cited is not None]

    assert [] == [one.rule for one in cited if one.computed is None]
    assert 2 * len({one.rule for one in cited}) >= len(limit_rules())


def test_every_measurement_with_an_instrument_shows_what_it_can_decide(demo: Manual) -> None:
    """The workshop states range, resolution and accuracy of every instrument that a limit is read with."""
    for procedure in demo.procedures.values():
        for step in procedure.steps:
            measured = step.action
            if isinstance(measured, actions.Measure) and measured.limit is not None and measured.using is not None:
                instrument, vehicle = demo.workshop.instruments[measured.using], demo.vehicles[procedure.folder]
                ranges = ranges_for(measured, instrument, vehicle)
                found = sharpness(measured.limit, ranges, demo.workshop.policy.guard_band)
                assert found is not None and all(end.error is not None for end in found.ends), (
                    procedure.id,
                    step.number,
                )
