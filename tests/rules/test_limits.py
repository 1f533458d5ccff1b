"""Rules about limits, instruments and fasteners: what their examples cannot show."""

import pytest
from bayleaf.diagnostics.finding import Finding
from kit import PLACES, VEHICLE, WORKSHOP, check, completed
from kit import PROCEDURE as BASE

IGNITION = "  - set: {mode: ignition}\n"


def found(tmp_path, steps: str, rule: str, *, vehicle: str = VEHICLE, workshop: str = WORKSHOP) -> list[Finding]:
    """The findings of a rule in a procedure with these steps."""
    files: dict[str, str | bytes] = {
        PLACES["procedure"]: completed(f"steps:\n{steps}", BASE),
        PLACES["vehicle"]: vehicle,
        PLACES["workshop"]: workshop,
    }
    return [finding for finding in check(tmp_path, files).findings if finding.rule == rule]


def measured(limits: str, quantity: str = "voltage", between: str = "[X210/3, X210/1]", more: str = "") -> str:
    """A measurement with the multimeter of the small manual."""
    return (
        f"{IGNITION}  - measure: It\n    quantity: {quantity}\n    between: {between}\n    using: multimeter\n"
        f"    limits: {limits}\n    source: workshop practice\n{more}"
    )


FINE = """\
  fine-meter:
    name: Fine meter
    functions:
      dc voltage:
        - {range: 6 V, resolution: 0.1 mV, accuracy: 0.05 % + 2 digits}
        - {range: 60 V, resolution: 1 mV, accuracy: 0.05 % + 2 digits}
proving_units:
"""


def test_the_better_instrument_of_the_workshop_is_named(tmp_path) -> None:
    """Who reads the error sees at once what to take instead."""
    steps = measured("at most 15 mV", "voltage drop")

    alone = found(tmp_path / "a", steps, "instrument-cannot-decide")
    beside = found(
        tmp_path / "b", steps, "instrument-cannot-decide", workshop=WORKSHOP.replace("proving_units:\n", FINE)
    )

    assert ["no instrument of the workshop file decides it"] == [str(one.help).split(":")[0] for one in alone]
    assert ["write `using: fine-meter`, which decides it"] == [one.help for one in beside]


@pytest.mark.parametrize(
    ("limits", "rule"),
    [
        ("11.5 V to 14.8 V", None),
        ("12.0 V to 12.4 V", "instrument-barely-decides"),
        ("12.0 V to 12.1 V", "instrument-cannot-decide"),
        ("at most 0.01 V", "instrument-cannot-decide"),
        ("at least 0.01 V", None),  # what is well above can be told
    ],
)
def test_ratio(tmp_path, limits: str, rule: str | None) -> None:
    """4:1 without a word, down to 1:1 a warning, below an error (ANSI/NCSL Z540.3)."""
    names = ("instrument-barely-decides", "instrument-cannot-decide")
    hits = {name: len(found(tmp_path / name, measured(limits), name)) for name in names}

    assert {name: int(name == rule) for name in names} == hits


def test_a_guard_band_of_the_workshop_counts(tmp_path) -> None:
    """Twice the uncertainty leaves nothing of a limit that could be decided before."""
    steps = measured("at most 60 mV", "voltage drop")
    strict = WORKSHOP + "policy: {guard_band: 3}\n"

    assert [] == found(tmp_path / "a", steps, "instrument-cannot-decide")
    assert 1 == len(found(tmp_path / "b", steps, "instrument-cannot-decide", workshop=strict))


@pytest.mark.parametrize(
    ("limits", "between", "quantity", "expected"),
    [
        ("at most 16 V", "[X210/3, X210/1]", "voltage", "16 V is never there: `supply-12` has at most 15 V"),
        ("at least 15.1 V", "[X210/3, X210/1]", "voltage", "15.1 V is never there"),
        ("at most 15 V", "[X210/3, X210/1]", "voltage", None),
        (
            "at most 5.5 V",
            "[X210/5, chassis]",
            "voltage",
            "5.5 V is never there: `body` is CAN, of which no line is above 5 V",
        ),
        ("at most 5 V", "[X210/5, chassis]", "voltage", None),
        ("at most 500 Ω", "[X210/5, chassis]", "resistance", None),
    ],
)
def test_what_a_system_can_show(tmp_path, limits: str, between: str, quantity: str, expected: str | None) -> None:
    """The highest voltage of the profile; 5 V on a CAN bus (ISO 11898-2)."""
    messages = [one.message for one in found(tmp_path, measured(limits, quantity, between), "limit-beyond-system")]

    assert (expected is None) == (messages == [])
    assert expected is None or messages[0].startswith(expected)


def test_a_range_by_rule_may_be_wider_than_the_supply(tmp_path) -> None:
    """A component that works up to 16 V is not wrong on a supply of 15 V."""
    assert [] == found(tmp_path, measured("{rule: supply range, code: C}"), "limit-beyond-system")


def test_an_insulation_tester_without_the_test_voltage_is_told(tmp_path) -> None:
    """Its ranges are there, but none with 500 V."""
    tester = "  insulation-tester: {name: Insulation tester, kind: insulation tester}\n"
    ranges = tester.replace(
        "kind: insulation tester}",
        "kind: insulation tester, functions: {insulation resistance: "
        "[{range: 200 MΩ, resolution: 0.1 MΩ, accuracy: 3 % + 3 digits, test_voltage: 1000 V}]}}",
    )
    assert tester in WORKSHOP
    steps = (
        "  - perform: test-van/isolate\n  - unplug: X7\n  - measure: Heater\n    quantity: insulation resistance\n"
        "    between: [X7/1 device, chassis]\n    using: insulation-tester\n    test_voltage: 500 V\n"
        "    discharged: at most 5 V\n    limits: at least 5 MΩ\n    source: workshop practice\n"
    )
    hits = found(tmp_path, steps, "instrument-range-too-small", workshop=WORKSHOP.replace(tester, ranges))

    assert ["`insulation-tester` has no range of `insulation resistance` with 500 V"] == [one.message for one in hits]
    assert ["its ranges have 1000 V"] == [one.because for one in hits]


def bolt(tmp_path, keys: str, rule: str) -> list[Finding]:
    """The findings of a rule about the heater's bracket with these keys."""
    old = "heater-bracket: {part: cabin-heater, size: M8 × 1.25, class: 8.8, count: 4, torque: 20 N·m}"
    assert old in VEHICLE
    return found(
        tmp_path, "  - do: Look.\n    on: nothing\n", rule, vehicle=VEHICLE.replace(old, f"heater-bracket: {{{keys}}}")
    )


@pytest.mark.parametrize(
    ("keys", "hits"),
    [
        # M8, 8.8 at µ 0.10: 90 % of yield is 21.57 N·m by VDI 2230, so yield is 24.0 N·m
        ("size: M8, class: 8.8, friction: 0.10, torque: 23.9 N·m", 0),
        ("size: M8, class: 8.8, friction: 0.10, torque: 24.1 N·m", 1),
        ("size: M8, class: 8.8, friction: 0.10, torque: 24.1 N·m, then_turn: 90°, yields: yes", 0),
        ("size: M8, class: 10.9, friction: 0.10, torque: 24.1 N·m", 0),
        ("size: M8, class: 8.8, friction: 0.10, torque: 23 N·m ± 10 %", 1),  # the upper end counts
        # friction not stated: only what is too much even at 0.16 (33.2 N·m)
        ("size: M8, class: 8.8, torque: 30 N·m", 0),
        ("size: M8, class: 8.8, torque: 36 N·m", 1),
        ("size: M8, material: brass, class: 8.8, torque: 40 N·m", 0),  # told by the table of studs
        ("size: M8, torque: 200 N·m", 0),  # without a class nothing is known
    ],
)
def test_beyond_yield(tmp_path, keys: str, hits: int) -> None:
    """Equivalent stress at the lowest friction (VDI 2230, 2001 and later)."""
    assert hits == len(bolt(tmp_path, keys, "torque-beyond-yield"))


@pytest.mark.parametrize(
    ("torque", "hits"), [("6 N·m", 0), ("5.9 N·m", 0), ("3 N·m", 0), ("6.1 N·m", 1), ("20 N·m", 1)]
)
def test_a_brass_stud_is_held_to_its_own_table(tmp_path, torque: str, hits: int) -> None:
    """M8: 6 N·m (maker of terminal boards), where a steel bolt of 8.8 takes 24 N·m."""
    assert hits == len(bolt(tmp_path, f"size: M8, class: 8, material: brass, torque: {torque}", "stud-torque-too-high"))


ADAPTER = (
    "size: M10, class: 8.8, torque: 27 N·m, adapter: {length: 60 mm}",
    "  torque-wrench-small: {name: Small torque wrench, kind: torque wrench, range: 5 N·m to 25 N·m, accuracy: 4 %, length: 210 mm}\n",
)


def test_with_an_adapter_the_setting_counts(tmp_path) -> None:
    """27 N·m with a crow foot of 60 mm on a wrench of 210 mm is set to 21 N·m, which the small wrench covers."""
    old = "heater-bracket: {part: cabin-heater, size: M8 × 1.25, class: 8.8, count: 4, torque: 20 N·m}"
    small = next(line for line in WORKSHOP.splitlines(keepends=True) if "torque-wrench-small" in line)
    vehicle = VEHICLE.replace(old, f"heater-bracket: {{{ADAPTER[0]}}}")
    steps = "  - tighten: heater-bracket\n    tools: torque-wrench-small\n"

    straight = found(
        tmp_path / "a", steps, "torque-outside-wrench", vehicle=vehicle.replace(", adapter: {length: 60 mm}", "")
    )
    corrected = found(
        tmp_path / "b", steps, "torque-outside-wrench", vehicle=vehicle, workshop=WORKSHOP.replace(small, ADAPTER[1])
    )
    unknown = found(tmp_path / "c", steps, "torque-outside-wrench", vehicle=vehicle)

    assert ["`torque-wrench-small` would be set to 27 N·m; its range is 5 N·m to 25 N·m"] == [
        one.message for one in straight
    ]
    assert ["write `tools: torque-wrench-large`"] == [one.help for one in straight]
    assert [] == corrected
    assert [True] == ["does not state" in str(one.because) for one in unknown]


def test_a_torque_that_no_wrench_covers_is_told_without_a_tool_named(tmp_path) -> None:
    """A workshop that lists its wrenches and has none for it."""
    steps = "  - tighten: Wheel nuts\n    torque: 600 N·m\n    size: M22 × 1.5\n    source: workshop practice\n    on: nothing\n"

    assert ["no torque wrench of the workshop covers 600 N·m"] == [
        one.message for one in found(tmp_path, steps, "torque-outside-wrench")
    ]


@pytest.mark.parametrize(
    ("keys", "steps", "hits"),
    [
        ("yields: yes, then_turn: 90°", ("loosen", "tighten"), 1),
        ("yields: yes, then_turn: 90°", ("loosen", "tighten new"), 0),
        ("yields: yes, then_turn: 90°", ("tighten new", "tighten"), 1),  # stretched a second time
        ("one_use: yes", ("loosen", "tighten"), 1),
        ("one_use: yes", ("tighten new", "tighten"), 0),  # its torque is checked
        ("one_use: no", ("loosen", "tighten"), 0),
    ],
)
def test_a_bolt_that_is_used_once(tmp_path, keys: str, steps: tuple[str, ...], hits: int) -> None:
    """Undone and tightened again, or stretched twice."""
    old = "heater-bracket: {part: cabin-heater, size: M8 × 1.25, class: 8.8, count: 4, torque: 20 N·m}"
    vehicle = VEHICLE.replace(old, old.replace("count: 4", f"count: 4, {keys}"))
    text = "".join(
        f"  - {step.split()[0]}: heater-bracket\n" + ("    new: yes\n" if step.endswith("new") else "")
        for step in steps
    )
    assert hits == len(found(tmp_path, text, "stretched-bolt-used-again", vehicle=vehicle))


def test_a_profile_may_waive_a_practice_warning(tmp_path) -> None:
    """A soft seal that bears no more: the warning stays as advice, with the reason."""
    old = "heater-bracket: {part: cabin-heater, size: M8 × 1.25, class: 8.8, count: 4, torque: 20 N·m}"
    weak = VEHICLE.replace(old, old.replace("20 N·m", "3 N·m"))
    waived = weak + "waive:\n  - rule: preload-too-low\n    why: The seal bears no more.\n"
    steps = "  - do: Look.\n    on: nothing\n"

    assert ["warning"] == [one.severity for one in found(tmp_path / "a", steps, "preload-too-low", vehicle=weak)]
    after = found(tmp_path / "b", steps, "preload-too-low", vehicle=waived)
    assert ["advice"] == [one.severity for one in after]
    assert "The seal bears no more." in str(after[0].because)
