"""Whatever figures stand at limits, cables, sensors, fasteners and instruments: something is told, nothing breaks."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from kit import PLACES, VEHICLE, WORKSHOP, check, completed
from kit import PROCEDURE as BASE

NUMBERS = ("0", "-1", "0.000001", "1", "17", "999999", "1000000000000")


def quantity(*units: str) -> st.SearchStrategy[str]:
    """Any number in one of these units."""
    return st.builds("{} {}".format, st.sampled_from(NUMBERS), st.sampled_from(units))


FASTENER = st.fixed_dictionaries(
    {"torque": st.one_of(quantity("N·m", "lbf·ft"), st.just("{rule: tightening torque}"))},
    optional={
        "size": st.sampled_from(("M8", "M3", "M24x2", "M7.3", "3/8-16", "odd")),
        "class": st.sampled_from(("8.8", "12.9", "A2-70", "grade 8", "8", "9.9")),
        "material": st.sampled_from(("brass", "copper", "A4-80", "wood")),
        "friction": st.sampled_from(("0.10 to 0.16", "0.0001", "0.9", "B", "oiled")),
        "engagement": quantity("mm"),
        "into": st.sampled_from(("aluminium", "steel", "cheese")),
        "yields": st.sampled_from(("yes", "no")),
        "then_turn": quantity("°"),
        "adapter": st.builds("{{length: {}, angle: {}}}".format, quantity("mm"), st.sampled_from(("0°", "90°", "180°", "-30°"))),
    },
)  # fmt: skip
LIMITS = st.fixed_dictionaries(
    {"rule": st.sampled_from((
        "insulation resistance", "potential equalisation", "voltage drop", "cable resistance", "CAN levels",
        "CAN termination", "supply range", "discharge", "temperature sensor",
    ))},
    optional={
        "of": st.sampled_from(("traction", "ground-strap", "body", "cabin-heater", "ground path", "nothing-known")),
        "at": st.one_of(quantity("A", "min", "°C", "V"), st.just("20 °C ± 3 K"), st.just("-300 °C to 20 °C")),
        "line": st.sampled_from(("high", "low", "between")),
        "code": st.sampled_from(("A", "E", "H")),
        "at_most": quantity("Ω", "V", "mV"),
    },
)  # fmt: skip
QUANTITIES = st.sampled_from(("voltage", "voltage drop", "resistance", "insulation resistance", "bonding resistance"))
SENSOR = st.sampled_from((
    "{kind: Pt100, class: A}", "{kind: NTC, at_25: 0 Ω, beta: 3435 K, tolerance: 5 %}", "{kind: NTC, tolerance: -5 %}",
    "{kind: NTC, tolerance: 5 %, points: [{at: 25 °C, is: 10 kΩ}, {at: 0 °C, is: 28 kΩ}]}",
    "{kind: NTC, tolerance: 500 %, at_25: 10 kΩ, beta: -7 K}",
))  # fmt: skip
OLD_FASTENER = "heater-bracket: {part: cabin-heater, size: M8 × 1.25, class: 8.8, count: 4, torque: 20 N·m}"
OLD_CABLE = "area: 25 mm2, length: 0.6 m"
OLD_WRENCH = "range: 5 N·m to 25 N·m, accuracy: 4 %"
OLD_RANGE = "{range: 60 V, resolution: 10 mV, accuracy: 0.5 % + 2 digits}"


def in_braces(keys: dict[str, str]) -> str:
    """A map as a file has it."""
    return "{" + ", ".join(f"{key}: {value}" for key, value in keys.items()) + "}"


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    FASTENER,
    LIMITS,
    QUANTITIES,
    SENSOR,
    quantity("mm2"),
    quantity("m", "mm"),
    quantity("N·m"),
    quantity("V"),
    quantity("mV"),
)
def test_nothing_breaks(tmp_path, fastener, limits, kind, sensor, area, length, most, top, last) -> None:
    """No stage raises on what an author wrote."""
    for old, text in ((OLD_FASTENER, VEHICLE), (OLD_CABLE, VEHICLE), (OLD_WRENCH, WORKSHOP), (OLD_RANGE, WORKSHOP)):
        assert old in text
    vehicle = VEHICLE.replace(OLD_FASTENER, f"heater-bracket: {in_braces(fastener)}")
    vehicle = vehicle.replace(OLD_CABLE, f"area: {area}, length: {length}")
    vehicle = vehicle.replace(
        "    highest_test_voltage: 1000 V\n", f"    highest_test_voltage: 1000 V\n    sensor: {sensor}\n"
    )
    workshop = WORKSHOP.replace(OLD_WRENCH, f"range: 5 N·m to {most}, accuracy: 4 %, length: 210 mm")
    workshop = workshop.replace(OLD_RANGE, f"{{range: {top}, resolution: {last}, accuracy: 0.5 % + 2 digits}}")
    steps = (
        f"steps:\n  - set: {{mode: ignition}}\n  - id: one\n    measure: It\n    quantity: {kind}\n    between: [X210/3, X210/1]\n"
        f"    using: multimeter\n    limits: {in_braces(limits)}\n  - compute: Both\n    formula: difference\n    of: [one, one]\n"
        "    quantity: voltage\n    limits: at most 3 V\n    source: workshop practice\n"
        "  - loosen: heater-bracket\n  - tighten: heater-bracket\n    tools: torque-wrench-small\n"
    )

    manual = check(
        tmp_path,
        {PLACES["vehicle"]: vehicle, PLACES["workshop"]: workshop, PLACES["procedure"]: completed(steps, BASE)},
    )

    assert all(finding.message for finding in manual.findings)


@pytest.mark.parametrize("text", ["0 m", "-1 m"])
def test_a_cable_without_length_is_told_in_words(tmp_path, text: str) -> None:
    """What a calculation refuses stands in the finding."""
    vehicle = VEHICLE.replace("length: 0.6 m", f"length: {text}")
    steps = (
        "steps:\n  - measure: It\n    quantity: resistance\n    between: [X210/5, chassis]\n    using: multimeter\n"
        "    limits: {rule: cable resistance, of: ground-strap}\n"
    )
    manual = check(tmp_path, {PLACES["vehicle"]: vehicle, PLACES["procedure"]: completed(steps, BASE)})

    messages = [one.message for one in manual.findings if one.rule == "limit-rule-lacks-fact"]
    assert 1 == len(messages)
    assert "length" in messages[0]
