"""The rules about what follows what: variants, groups, loops, and that one mistake gives one error."""

import pytest
from flow_kit import findings, told
from kit import VEHICLE


@pytest.mark.parametrize(
    "steps",
    [
        "steps:\n  - do: Look.\n    on: nothing\n    then: seel\n  - id: seal\n    do: Look.\n    on: nothing\n",
        "steps:\n  - ask: Dry?\n    answers:\n      - {answer: yes, then: end}\n      - {answer: no}\n",
        "steps:\n  - perform: test-van/callee\n    then: end\n  - id: dry\n    do: Dry it.\n    on: nothing\n",
    ],
    ids=["misspelt target", "answer without target", "conclusion without target"],
)
def test_a_way_out_that_is_missing_is_one_error(tmp_path, steps: str) -> None:
    """What it should have reached is not reported as well."""
    text = steps + "conclusions:\n  bad: {finding: It is bad.}\n"

    assert 1 == len(findings(tmp_path, text))


def test_the_jump_that_passes_over_a_step_is_shown(tmp_path) -> None:
    """`see` points at what is written there."""
    found = findings(
        tmp_path,
        """\
steps:
  - do: Look.
    on: nothing
    then: last
  - do: Never.
    on: nothing
  - do: Never either.
    on: nothing
  - id: last
    do: Look again.
    on: nothing
""",
    )

    assert [(5, "step-never-reached", "no path leads to step 2")] == told(found)
    assert [(4, "step 1 goes on here instead")] == [(see.place.line, see.text) for see in found[0].see]


def test_each_run_that_nothing_reaches_is_told_at_its_first_step(tmp_path) -> None:
    """Two runs, two errors; a conclusion that only such steps lead to is not a third."""
    found = findings(
        tmp_path,
        """\
steps:
  - do: Look.
    on: nothing
    then: third
  - do: Never.
    on: nothing
    then: bad
  - id: third
    do: Look.
    on: nothing
    then: end
  - do: Never.
    on: nothing
conclusions:
  bad: {finding: It is bad.}
""",
    )

    assert [(5, "step-never-reached"), (12, "step-never-reached")] == [entry[:2] for entry in told(found)]


VARIANTS = VEHICLE.replace("  long: {name: Long wheelbase}\n", "  long: {name: Long}\n  short: {name: Short}\n")


def test_a_step_for_another_variant_is_no_branch(tmp_path) -> None:
    """It is passed over, so what is behind it is reached for every variant."""
    steps = """\
steps:
  - do: Look at the frame.
    on: nothing
    only_for: long
    then: end
  - do: Look at the step.
    on: nothing
    only_for: short
"""

    assert [] == told(findings(tmp_path, steps, vehicle=VARIANTS))


def test_a_step_is_reached_if_some_variant_that_has_it_reaches_it(tmp_path) -> None:
    """With a jump that all variants take, a step for one of them is never reached, and the message names it."""
    steps = """\
steps:
  - do: Look at the frame.
    on: nothing
    then: end
  - do: Look at the step.
    on: nothing
    only_for: short
"""
    expected = "no path leads to step 2; it is only for `short`"

    assert [(5, "step-never-reached", expected)] == told(findings(tmp_path, steps, vehicle=VARIANTS))


def test_a_loop_that_only_one_variant_has(tmp_path) -> None:
    """For the long one the way out is passed over with the step that holds it."""
    steps = """\
steps:
  - id: lamp
    do: Look at the lamp.
    on: nothing
  - do: Go on to the frame.
    on: nothing
    only_for: short
    then: end
  - do: Switch it on.
    on: nothing
    then: lamp
"""
    expected = "there is no way out from step 1 (`lamp`) on: 1 → 3 → 1"

    assert [(3, "path-without-end", expected)] == told(findings(tmp_path, steps, vehicle=VARIANTS))


def test_groups_are_judged_once_for_each_line_that_is_written(tmp_path) -> None:
    """The same steps at three places are one mistake, not three."""
    steps = """\
steps:
  - for_each: [X1, X7, X210]
    steps:
      - id: seal
        do: Clean the seal.
        on: nothing
      - ask: Is it clean?
        answers:
          - {answer: yes, then: next}
          - {answer: no, then: seal}
          - {answer: never, then: nowhere}
"""
    found = findings(tmp_path, steps)

    assert [(10, "loop-without-bound"), (11, "target-not-in-procedure")] == [entry[:2] for entry in told(found)]


BOUND = "    repeat: at most 2\n"


@pytest.mark.parametrize(("first", "second", "expected"), [
    ("", "", [7]), (BOUND, "", []), ("", BOUND, []), (BOUND, BOUND, []),
])  # fmt: skip
def test_one_bound_on_a_round_is_enough(tmp_path, first: str, second: str, expected: list[int]) -> None:
    """Whichever step of the loop holds it; a step of the round that comes to it counts its visits."""
    lines = f"""\
steps:
  - id: clean
    do: Clean the seal.
    on: nothing
{first}  - ask: Is it clean?
{second}    answers:
      - {{answer: no, then: clean}}
      - {{answer: yes, then: end}}
"""
    found = [line for line, rule, _ in told(findings(tmp_path, lines)) if rule == "loop-without-bound"]

    assert expected == found


def test_two_ways_back_to_one_step_are_one_warning(tmp_path) -> None:
    """`repeat` on that step bounds both; the other way back is shown."""
    found = findings(
        tmp_path,
        """\
steps:
  - id: clean
    do: Clean the seal.
    on: nothing
  - ask: Is it clean?
    answers:
      - {answer: yes, then: end}
      - {answer: no, then: clean}
      - {answer: hardly, then: clean}
""",
    )

    assert [(8, "loop-without-bound")] == [entry[:2] for entry in told(found)]
    assert [3, 9] == [see.place.line for see in found[0].see]


def test_a_step_that_only_lies_above_is_no_loop(tmp_path) -> None:
    """A jump to an earlier line that never comes back goes round nothing."""
    steps = """\
steps:
  - do: Begin.
    on: nothing
    then: middle
  - id: tail
    do: Close up.
    on: nothing
    then: end
  - id: middle
    do: Look.
    on: nothing
    then: tail
"""

    assert [] == told(findings(tmp_path, steps))


def test_limits_that_cannot_be_read_are_one_error(tmp_path) -> None:
    """The exits that the limits would have are not reported as well."""
    steps = """\
steps:
  - read: Charge
    quantity: voltage
    limits: 12 V
    source: workshop practice
    outcomes:
      below: stop
"""

    assert 1 == len(findings(tmp_path, steps))


def test_two_exits_that_cannot_come_out_of_no_limits_are_one_error(tmp_path) -> None:
    """What is missing is the limits."""
    found = findings(tmp_path, "steps:\n  - read: Charge\n    outcomes:\n      below: stop\n      above: end\n")

    assert [(4, "exit-not-possible", "`below` cannot come out: this step has no limits")] == told(found)


@pytest.mark.parametrize(
    ("limits", "exit", "expected"),
    [
        ("at most 5 V", "below", "did you mean `above`?"),
        ("at least 5 V", "above", "did you mean `below`?"),
    ],
)
def test_the_other_side_is_offered(tmp_path, limits: str, exit: str, expected: str) -> None:
    """Mostly the sides were changed over."""
    text = f"steps:\n  - read: U\n    quantity: voltage\n    limits: {limits}\n    source: workshop practice\n"
    found = findings(tmp_path, text + f"    outcomes: {{{exit}: stop}}\n")

    assert [expected] == [finding.help for finding in found]


OFF = "steps:\n  - set: {mode: off}\n  - unplug: X210\n"
ASK = "  - ask: Dry?\n    on: X210\n    answers:\n      - {answer: no, then: wet}\n      - {answer: yes, then: dry}\n"


@pytest.mark.parametrize(
    ("steps", "expected"),
    [
        (OFF + ASK + "  - id: wet\n    plug: X210\n  - id: dry\n    plug: X210\n", []),
        (
            OFF + ASK + "  - id: wet\n    plug: X210\n    then: last\n  - id: dry\n    plug: X210\n"
            "  - id: last\n    plug: X210\n",
            ["step 6 (`last`) plugs in `X210`, which step 5 (`dry`) has plugged in already"],
        ),
        (OFF + "  - plug: X210\n  - perform: test-van/isolate\n  - plug: X210\n", []),
        (OFF + "  - plug: X210\n  - pause: break\n  - plug: X210\n", []),
        (OFF + "  - plug: X210\n  - unplug: X210\n  - plug: X210\n", []),
        (OFF + "  - id: back\n    plug: X210\n" + ASK.replace("wet", "again").replace("dry", "end")
         + "  - id: again\n    unplug: X210\n    then: back\n", []),
        ("steps:\n  - plug: X210\n", []),
        (OFF + "  - plug: X210\n    only_for: [long]\n  - plug: X210\n", []),
        ("steps:\n  - tighten: heater-bracket\n  - tighten: heater-bracket\n", []),
    ],
    ids=["one way only", "both ways", "performed between", "a break", "unplugged between", "a loop", "found unplugged",
         "one variant only", "second pass"],
)  # fmt: skip
def test_done_already_is_told_only_where_every_path_has_done_it(tmp_path, steps: str, expected: list[str]) -> None:
    """What some path leaves otherwise, what is performed and what a break may change is not told; nor a second pass."""
    found = findings(tmp_path, steps)

    assert expected == [one.message for one in found if one.rule == "done-already"]
    assert [] == [one.message for one in found if one.kind == "form"], "what is not told is written rightly"
