"""The rules about the age of a proof, and about the wait before it: beyond their examples."""

import pytest
from kit import ISOLATION, PROCEDURE, WORKSHOP, completed
from validity_kit import ISOLATED, JOB, PROOF, found, replaced, rules, told

# How old a proof is


def lasting(minutes: int, more: str = "") -> str:
    """A step that takes its time."""
    return f"  - do: Take the dashboard out.\n    on: nothing\n    time: {minutes} min\n{more}"


def old(age: int, step: int = 4, holds: int = 60) -> tuple[str, str]:
    """What is told of a proof."""
    message = (
        f"step {step} unplugs `X7` up to {age} min after `traction` was proved dead, and a proof holds for {holds} min"
    )
    return "proof-grown-old", message


PLUGS = "  - unplug: X7\n  - plug: X7\n"


@pytest.mark.parametrize(("first", "second", "expected"), [(30, 30, []), (30, 31, [old(61)]), (100, 20, [old(120)])])
def test_the_times_of_the_steps_are_added(tmp_path, first: int, second: int, expected: list[tuple[str, str]]) -> None:
    """Up to the hour itself it holds; only the first step that comes too late is told."""
    job = ISOLATED.format(lasting(first) + lasting(second) + PLUGS)

    assert expected == told(found(tmp_path, job))


def test_the_longest_of_several_paths_counts(tmp_path) -> None:
    """One answer leads round the long way."""
    ask = "  - ask: Is the dashboard out?\n    answers:\n      - {answer: yes, then: off}\n      - {answer: no, then: next}\n"
    job = ISOLATED.format(ask + lasting(90) + "  - id: off\n" + PLUGS.replace("  - unplug", "    unplug", 1))

    assert ["proof-grown-old"] == rules(found(tmp_path, job))


@pytest.mark.parametrize(("rounds", "expected"), [(2, []), (3, ["proof-grown-old"])])
def test_a_loop_counts_as_often_as_it_may_be_gone(tmp_path, rounds: int, expected: list[str]) -> None:
    """17 minutes and two or three rounds more of them: 51 or 68 minutes."""
    loop = lasting(17, f"    id: again\n    repeat: at most {rounds}\n")
    ask = "  - ask: Once more?\n    answers:\n      - {answer: yes, then: again}\n      - {answer: no, then: next}\n"

    assert expected == rules(found(tmp_path, ISOLATED.format(loop + ask + PLUGS)))


def test_a_proof_within_the_loop_makes_it_young_again(tmp_path) -> None:
    """However often it is gone round."""
    loop = lasting(30, "    id: again\n    repeat: at most 9\n") + PROOF
    ask = "  - ask: Once more?\n    answers:\n      - {answer: yes, then: again}\n      - {answer: no, then: next}\n"

    assert [] == found(tmp_path, ISOLATED.format(loop + ask + PLUGS))


def test_a_workshop_may_ask_for_younger_proofs(tmp_path) -> None:
    """It may ask for more than the floor."""
    workshop = WORKSHOP + "policy: {proof_holds: 20 min}\n"
    job = ISOLATED.format(lasting(21) + PLUGS)

    assert [old(21, 3, 20)] == told(found(tmp_path, job, workshop=workshop))


def test_a_proof_grows_old_through_what_is_performed(tmp_path) -> None:
    """It is told where the procedure is performed, with the step and the proof beside it."""
    called = completed(
        "id: test-van/called\nexpects: {traction: proved dead}\nsteps:\n" + lasting(50) + PLUGS, PROCEDURE
    )

    findings = found(tmp_path, ISOLATED.format(lasting(40) + "  - perform: test-van/called\n"), called=called)

    assert [(JOB, "proof-grown-old")] == [(one.place.file, one.rule) for one in findings]
    assert "step 2 of `test-van/called` unplugs `X7` up to 90 min" in findings[0].message
    assert ["step 2 of `test-van/called`", "proved here, by step 8"] == [see.text for see in findings[0].see]


# The wait and the limit


@pytest.mark.parametrize(("limit", "expected"), [("5 V", []), ("4 V", ["proof-limit-below-waiting"])])
def test_a_limit_below_what_the_wait_reaches_is_told(tmp_path, limit: str, expected: list[str]) -> None:
    """1.1 mF + 20 %, 47 kΩ + 5 %, 410 V: 410 V · e^(−300 s / 65.14 s) = 4.1 V after the 300 s that the maker states."""
    isolation = replaced(ISOLATION, "limits: at most 5 V", f"limits: at most {limit}")

    assert expected == rules(found(tmp_path, "steps:\n  - do: Look.\n    on: nothing\n", isolation=isolation))


def test_a_longer_wait_on_every_path_is_enough(tmp_path) -> None:
    """At worst it takes ln(410/4) · 1.32 mF · 49.35 kΩ = 301.6 s to 4 V (computed from the formula of the wait)."""
    isolation = replaced(ISOLATION, "limits: at most 5 V", "limits: at most 4 V").replace("wait: 5 min", "wait: 302 s")

    assert [] == found(tmp_path, "steps:\n  - do: Look.\n    on: nothing\n", isolation=isolation)
