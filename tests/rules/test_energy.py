"""What a profile and a workshop must say of energy: what examples on the pages of the rules cannot show."""

from typing import Any

import pytest
import yaml
from bayleaf.manual import Manual
from bayleaf.rules.rule import all_rules
from kit import PLACES, RECORD, VEHICLE, WORKSHOP, check, completed

ENERGY = frozenset(rule.name for rule in all_rules() if rule.family == "energy")


def told(manual: Manual, kind: str = "vehicle") -> list[tuple[str, str]]:
    """Rule and message of what these rules say of one file."""
    found = [one for one in manual.findings if one.place.file == PLACES[kind]]
    return [(one.rule, one.message) for one in found if kind != "vehicle" or one.rule in ENERGY]


def changed(*changes: tuple[str, str]) -> str:
    """The profile of the tests, with texts replaced where they stand first."""
    text = VEHICLE
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


STORED = "    stored: {capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: 5 min, to_chassis: 0.4 µF}\n"
MAX = "voltage: {kind: dc, nominal: 355 V, max: 410 V}"
POINTS = (
    "      - {pair: [X1/1 cable, X1/2 cable], access: inverter-cover}\n"
    "      - {pair: [X1/1 cable, chassis], access: inverter-cover}\n"
    "      - {pair: [X1/2 cable, chassis], access: inverter-cover}\n"
)


def stored(text: str) -> tuple[str, str]:
    """What the traction circuit stores, written anew."""
    return STORED, f"    stored: {{{text}}}\n"


WAITING = "waiting-time-not-known"


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        # What is missing in the figures of the waiting time.
        ([stored("bleed: 47 kΩ")], [(WAITING, "`stored` of `traction` has no `stated_wait` and `capacitance`")]),
        ([stored("to_chassis: 1 µF")],
         [(WAITING, "`stored` of `traction` has no `stated_wait`, `capacitance` and `bleed`")]),
        ([stored("capacitance: at least 1 mF, bleed: 47 kΩ, stated_wait: 5 min")],
         [(WAITING, "`capacitance: at least 1 mF` tells only the least capacitance")]),
        ([stored("capacitance: not known, bleed: not known, stated_wait: none")], []),
        ([stored("capacitance: 1.1 mF, bleed: none, stated_wait: 5 min")], []),
        # Without the highest voltage: a warning, but an error where a waiting time depends on it. One of the two.
        ([(MAX, "voltage: {kind: dc, nominal: 355 V}")],
         [(WAITING, "the waiting time of `traction` cannot be reckoned: its highest voltage is not written")]),
        ([(f"    {MAX}\n", "")],
         [(WAITING, "the waiting time of `traction` cannot be reckoned: its highest voltage is not written")]),
        ([(MAX, "voltage: {kind: dc, nominal: 355 V}"), (STORED, "    stored: none\n")],
         [("highest-voltage-missing", "`traction` does not say its highest voltage")]),
        # Tolerances that are assumed: 1.1 mF and 47 kΩ at 410 V, +20 % and +5 %, 125.2 s by the formula.
        ([stored("capacitance: 1.1 mF, bleed: 47 kΩ, stated_wait: 2 min")],
         [("stated-wait-too-short", "the stated wait of `2 min` is shorter than the computed one, 126 s")]),
        ([stored("capacitance: 1.1 mF, bleed: 47 kΩ, stated_wait: 126 s")], []),
        # Limits of voltage class B: ISO 6469-3 (upper ends from memory).
        ([(MAX, "voltage: {kind: dc, max: 1501 V}"), (STORED, "    stored: none\n")],
         [("voltage-beyond-class-b", "`1501 V` is above 1500 V DC, where voltage class B ends")]),
        ([(MAX, "voltage: {kind: ac, max: 1.01 kV}"), (STORED, "    stored: none\n")],
         [("voltage-beyond-class-b", "`1.01 kV` is above 1000 V AC, where voltage class B ends")]),
        # Test points.
        ([(POINTS, POINTS.splitlines(keepends=True)[1])],
         [("test-point-missing", "`X1/2`, HV− of `traction`, is in no test point".replace("X1/2", "X1/2 cable"))]),
        ([(POINTS, POINTS.splitlines(keepends=True)[0])],
         [("test-point-missing",
           "`traction` is not read between `X1/1 cable` and `chassis`, nor at 1 more pair")]),
        ([(POINTS, POINTS.replace(", access: inverter-cover", ""))],
         [("test-point-access-not-stated", "a test point of `traction` does not say which cover comes off for it")]),
        ([(POINTS, POINTS.replace("access: inverter-cover", "access: none"))], []),
        # Points.
        ([("    secure_with: Padlock in the receptacle\n", "")],
         [("isolation-cannot-be-secured", "`service-plug` cannot be secured, but it isolates `traction`")]),
        ([("    breaks: middle of the battery\n", "")],
         [("isolation-by-control-only",
           "the source `battery` of `traction` is only switched off: `service-plug` parts no conductor")]),
        ([("breaks: middle of the battery", "breaks: coil supply only")],
         [("isolation-by-control-only",
           "the source `battery` of `traction` is only switched off: `service-plug` parts no conductor")]),
        ([("kind: plug\n", "kind: contactor\n")],
         [("isolation-by-control-only",
           "the source `battery` of `traction` is only switched off: `service-plug` parts no conductor")]),
        ([("charging: {taken_off_by: [[charge-lead]]}", "charging: {taken_off_by: [[charge-lead, mode-off]]}")],
         [("isolation-cannot-be-secured",
           "the source `charging` of `traction` is taken off by `mode-off` together with `charge-lead`, "
           "which no lock can hold")]),
        ([("charging: {taken_off_by: [[charge-lead]]}", "charging: {taken_off_by: [[mode-off], [charge-lead]]}")], []),
        ([("      charging: {taken_off_by: [[charge-lead]]}\n", "")],
         [("source-not-stated", "`traction` does not say whether `charging` feeds it")]),
    ],
)  # fmt: skip
def test_profile(tmp_path, changes: list[tuple[str, str]], expected: list[tuple[str, str]]) -> None:
    """What these rules say of a profile."""
    manual = check(tmp_path, {PLACES["vehicle"]: changed(*changes)})

    assert expected == told(manual)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("max: 410 V", "max: 410 VDC"),
        ("nominal: 355 V", "nominal: 355"),
        ("capacitance: 1.1 mF", "capacitance: 1.1 mH"),
        ("bleed: 47 kΩ ± 5 %", "bleed: 47 k"),
        ("stated_wait: 5 min", "stated_wait: 5"),
        ("[X1/2 cable, chassis]", "[X1/2 from behind, chassis]"),
        ("max: 15 V", "max: 15 VDC"),
        ("[[service-plug]]}\n      charging", "[[service-plgu]]}\n      charging"),
    ],
)
def test_what_could_not_be_read_is_not_judged_again(tmp_path, old: str, new: str) -> None:
    """One mistake, one error."""
    manual = check(tmp_path, {PLACES["vehicle"]: changed((old, new))})

    assert [] == told(manual)
    assert 1 == len([one for one in manual.findings if one.place.file == PLACES["vehicle"]])


PHASES = """\
circuits:
  phases:
    name: Motor phases
    energy: electrical
    voltage: {kind: ac, max: 290 V}
    sources: {battery: {taken_off_by: [[service-plug]]}, charging: none, converter: none, external: none}
    monitor: none
    stored: none
    dead_at:
"""
SIX = [
    ("X1/1", "X1/2"), ("X1/1", "X1/3"), ("X1/2", "X1/3"), ("X1/1", "chassis"), ("X1/2", "chassis"), ("X1/3", "chassis"),
]  # fmt: skip


def phases(pairs: list[tuple[str, str]]) -> str:
    """A circuit of three phases that is read at these pairs."""
    points = "".join(f"      - {{pair: [{one}, {other}], access: inverter-cover}}\n" for one, other in pairs)
    text = VEHICLE.replace("circuits:\n", PHASES + points, 1)
    pins = "      1: {signal: HV+, circuit: traction}\n      2: {signal: HV−, circuit: traction}\n  X7:"
    three = "".join(f"      {n}: {{signal: phase {n}, circuit: phases}}\n" for n in (1, 2, 3))
    assert text.count(pins) == 1
    return text.replace(pins, three + "  X7:").replace("[X1/1 cable", "[X7/1 cable").replace("X1/2 cable", "X7/2 cable")


def test_three_phases_have_six_pairs(tmp_path) -> None:
    """n·(n − 1)/2 + n with n = 3 (computed)."""
    assert [] == told(check(tmp_path, {PLACES["vehicle"]: phases(SIX)}))


@pytest.mark.parametrize("missing", SIX, ids=str)
def test_a_pair_of_six_that_is_missing_is_named(tmp_path, missing: tuple[str, str]) -> None:
    """Whichever it is."""
    manual = check(tmp_path, {PLACES["vehicle"]: phases([pair for pair in SIX if pair != missing])})

    ((rule, message),) = told(manual)
    assert "test-point-missing" == rule
    assert f"`phases` is not read between `{missing[0]}` and `{missing[1]}`" == message


def test_a_phase_that_is_forgotten_is_named(tmp_path) -> None:
    """Three pairs of two phases look complete, but the connector carries a third."""
    manual = check(tmp_path, {PLACES["vehicle"]: phases([pair for pair in SIX if "X1/3" not in pair])})

    assert [("test-point-missing", "`X1/3`, phase 3 of `phases`, is in no test point")] == told(manual)


@pytest.mark.parametrize("kept", ["sealed_in: cabin-heater\n    ", ""])
def test_of_a_circuit_that_is_never_touched_little_is_asked(tmp_path, kept: str) -> None:
    """The inside of a battery: no other sources, no waiting time; where it is not sealed, its test points are missed."""
    text = (
        "circuits:\n  inside:\n    name: Inside the battery\n    energy: electrical\n    voltage: {kind: dc, max: 410 V}\n"
        f"    {kept}sources: {{cells: never}}\n    monitor: never\n"
    )
    manual = check(tmp_path, {PLACES["vehicle"]: VEHICLE.replace("circuits:\n", text, 1)})

    expected = [] if kept else [("test-point-missing", "`inside` has no test point")]
    assert expected == told(manual)


@pytest.mark.parametrize(
    ("voltage", "fused", "rules"),
    [
        ("{kind: dc, max: 54 V}", "fused: yes", ["source-not-stated", "waiting-time-of-power-not-known"]),
        ("{kind: dc, max: 15 V}", "fused: no", ["source-not-stated", "waiting-time-of-power-not-known"]),
        ("{kind: dc, max: 15 V}", "", ["source-not-stated", "waiting-time-of-power-not-known"]),
        ("{kind: dc, max: 32.1 V}", "fused: yes", ["source-not-stated", "waiting-time-of-power-not-known"]),
        ("{kind: dc, max: 32 V}", "fused: yes", []),
    ],
)
def test_48_v_power_and_unfused_cables_say_sources_and_wait(tmp_path, voltage: str, fused: str, rules: object) -> None:
    """Fused low voltage says neither; it may be switched off by the mode alone."""
    text = (
        f"circuits:\n  other:\n    name: Other\n    energy: electrical\n    voltage: {voltage}\n    sources: "
        "{battery: {taken_off_by: [[aux-negative]]}}\n" + (f"    {fused}\n" if fused else "")
    )
    manual = check(tmp_path, {PLACES["vehicle"]: VEHICLE.replace("circuits:\n", text, 1)})

    assert rules == sorted(rule for rule, _ in told(manual))


def test_missing_waiting_time_is_an_error_of_class_b_and_a_warning_of_power(tmp_path) -> None:
    """48 V kills nobody by touch."""
    severity = {rule.name: rule.severity for rule in all_rules()}

    assert ("error", "warning") == (severity[WAITING], severity["waiting-time-of-power-not-known"])


NEEDED = [
    ("circuits", "traction", "monitor"), ("circuits", "traction", "stored"), ("circuits", "traction", "dead_at"),
    ("circuits", "traction", "voltage"), ("circuits", "traction", "voltage", "max"),
    *(("circuits", "traction", "stored", key) for key in ("capacitance", "bleed", "stated_wait")),
    *(("circuits", "traction", "sources", key) for key in ("battery", "charging", "converter", "external")),
    *(("circuits", "traction", "dead_at", n) for n in range(3)),
    *(("circuits", "traction", "dead_at", n, "access") for n in range(3)),
    *(("isolation_points", name, key) for name in ("charge-lead", "service-plug") for key in ("breaks", "secure_with")),
]  # fmt: skip


@pytest.mark.parametrize("path", NEEDED, ids=lambda path: "/".join(map(str, path)))
def test_a_fact_that_is_deleted_is_missed(tmp_path, path: tuple[Any, ...]) -> None:
    """A missing fact is unsafe: each of these, taken out of a profile that is right, is told."""
    data = yaml.load(VEHICLE, Loader=yaml.BaseLoader)
    at = data
    for key in path[:-1]:
        at = at[key]
    del at[path[-1]]

    manual = check(tmp_path, {PLACES["vehicle"]: yaml.safe_dump(data, allow_unicode=True)})

    assert told(manual)


@pytest.mark.parametrize(
    ("policy", "expected"),
    [
        ("dead_below: 60 V", []),
        ("dead_below: 60.1 V", [("policy-below-floor", "`60.1 V` is above 60 V, where voltage class B begins")]),
        ("dead_below: 1 kV", [("policy-below-floor", "`1 kV` is above 60 V, where voltage class B begins")]),
        ("guard_band: 1.0", []),
        ("guard_band: 2", []),
        ("guard_band: 0.99",
         [("policy-below-floor", "a guard band of `0.99` is narrower than the uncertainty of the reading")]),
        ("proof_holds: 60 min", []),
        ("proof_holds: 1 h", []),
        ("proof_holds: 61 min", [("proof-holds-too-long", "a proof holds for 60 min, not for `61 min`")]),
    ],
)  # fmt: skip
def test_policy(tmp_path, policy: str, expected: list[tuple[str, str]]) -> None:
    """A policy can ask for more than the floor, never for less."""
    manual = check(tmp_path, {PLACES["workshop"]: completed(f"policy: {{{policy}}}\n", WORKSHOP)})

    assert expected == told(manual, "workshop")


VIN = completed("vin: ABCDEFGH123456789\nentries:\n  - {step: 1, done: yes}\n", RECORD)


@pytest.mark.parametrize(
    ("workshop", "rules"),
    [
        (WORKSHOP, ["vin-not-allowed"]),
        (completed("policy: {allow_vin: no}\n", WORKSHOP), ["vin-not-allowed"]),
        (completed("policy: {dead_below: 5 V}\n", WORKSHOP), ["vin-not-allowed"]),
        (completed("policy: {allow_vin: yes}\n", WORKSHOP), []),
    ],
)
def test_number_of_the_vehicle_in_a_record(tmp_path, workshop: str, rules: list[str]) -> None:
    """Allowed only where the policy of the workshop says so."""
    manual = check(tmp_path, {PLACES["record"]: VIN, PLACES["workshop"]: workshop})

    assert rules == [rule for rule, _ in told(manual, "record")]


@pytest.mark.parametrize(
    ("step", "found"), [("1", []), ("8", []), ("9", ["9"]), ("0", ["0"]), ("8.2", []), ("9.2", ["9.2"])]
)
def test_number_of_a_step_in_a_record(tmp_path, step: str, found: list[str]) -> None:
    """The procedure ends with step 8; 8.2 may be a step of what step 8 performs."""
    text = completed(f"procedure: test-van/isolate\nentries:\n  - {{step: {step}, done: yes}}\n", RECORD)
    manual = check(tmp_path, {PLACES["record"]: text})

    expected = [
        ("record-step-number-not-found", f"the procedure `test-van/isolate` has no step {one}: it ends with step 8")
        for one in found
    ]
    assert expected == told(manual, "record")
