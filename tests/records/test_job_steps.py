"""The steps of a job: what is performed stands in its place, and every exit leads to a step or to an end of the job."""

import pytest
from bayleaf.records.job_steps import Ended, JobStep, Target, by_name, can_be_followed, job_steps
from record_kit import GOOD, manual_with


@pytest.fixture(scope="module")
def steps(tmp_path_factory: pytest.TempPathFactory) -> tuple[JobStep, ...]:
    manual = manual_with(tmp_path_factory.mktemp("manual"), GOOD)
    return job_steps(manual.procedures["test-van/job"], manual.procedures)


def test_performed_steps_stand_behind_the_step_that_performs_them(steps: tuple[JobStep, ...]) -> None:
    """By the paths of a record and the numbers of the page."""
    assert [("look", "1"), ("isolate", "2"), ("isolate/1", "2.1"), ("isolate/2", "2.2")] == [
        (step.path, step.number) for step in steps[:4]
    ]
    assert ("heater-off", "3") == (steps[10].path, steps[10].number)
    assert can_be_followed(steps, {})


@pytest.mark.parametrize("name", ["isolate/8", "2/8", "2.8"])
def test_a_step_has_several_names(steps: tuple[JobStep, ...], name: str) -> None:
    """Ids or numbers along the path, or the number on the page."""
    assert "isolate/8" == by_name(steps)[name].path


@pytest.mark.parametrize(
    ("path", "exit", "target"),
    [
        ("look", "dry", "isolate"),
        ("look", "wet, or green", Ended("plug-wet", False, "Water in the plug.")),
        ("isolate/7", "next", "isolate/8"),
        ("isolate/8", "dead", "heater-off"),  # the end of what is performed leads on
        ("isolate/8", "not_dead", Ended(None, True, "The traction system cannot be made dead.")),  # a stop within it
        ("isolate/8", "not_decided", Ended(None, True)),
        ("one", "not_decided", "clean"),
        ("one", "exhausted", Ended("coil-bad", False, "A coil is broken.")),
        ("clean", "next", "one"),
        ("bracket", "next", Ended("coil-good", False, "Both coils are good.")),
        ("bracket", "sideways", None),
    ],
)
def test_where_an_exit_leads(steps: tuple[JobStep, ...], path: str, exit: str, target: Target | None) -> None:
    """Through all that is performed."""
    assert target == by_name(steps)[path].target(exit)
