"""Which protection a step asks for, and which class of gloves a voltage."""

import pytest
from bayleaf.loading.load import load
from bayleaf.model.procedure import Step
from bayleaf.model.vehicle import Vehicle
from bayleaf.safety.protection import GLOVE_CLASSES, Wanted, glove_class_for, glove_class_named, protection_for
from data.glove_check_values import CLASSES, SELECTIONS
from hypothesis import given
from hypothesis import strategies as st
from kit import BASES, PLACES, VEHICLE, completed

CLASS_B = ("gloves", "over-gloves", "face shield", "insulated tools")
POWER = ("eye protection", "insulated tools")

#: Beside the bus of the small vehicle a 48 V circuit; its isolator also takes the converter of the 12 V supply off.
POWER_48 = """\
  power-48:
    name: 48 V supply
    energy: electrical
    voltage: {kind: dc, max: 54 V}
    sources: {battery: {taken_off_by: [[isolator-48]]}}
"""
ISOLATOR_48 = """\
  isolator-48: {name: Isolator, kind: switch, breaks: conductor, leaves_live: none, first: none, only_when: none}
"""


def vehicle(text: str = VEHICLE) -> Vehicle:
    """The vehicle of the small manual, or another one."""
    text = text.replace("  supply-12:\n    name", POWER_48 + "  supply-12:\n    name", 1)
    text = text.replace("isolation_points:\n", "isolation_points:\n" + ISOLATOR_48, 1)
    text = text.replace("{taken_off_by: [[mode-off]]}", "{taken_off_by: [[mode-off], [isolator-48], [service-plug]]}")
    return load(PLACES["vehicle"], text.encode("utf-8"), "vehicle").model


def step(line: str) -> Step:
    """A step of which these are the lines."""
    text = completed(f"steps:\n  - {line}\n", BASES["procedure"])
    return load(PLACES["procedure"], text.encode("utf-8"), "procedure").model.steps[0]


def told(wanted: tuple[Wanted, ...]) -> list[tuple[str, tuple[str, ...]]]:
    """The circuits in their order, each with what is asked for because of it."""
    found: dict[str, list[str]] = {}
    for one in wanted:
        found.setdefault(one.circuit, []).append(one.kind)
    return [(circuit, tuple(kinds)) for circuit, kinds in found.items()]


def test_the_classes_are_those_of_the_standard() -> None:
    """Names and both voltages, from the lowest class up."""
    assert [(one.name, one.ac, one.dc) for one in CLASSES] == [(one.name, one.ac, one.dc) for one in GLOVE_CLASSES]


@pytest.mark.parametrize("row", SELECTIONS, ids=lambda row: f"{row.volts}-{row.kind}")
def test_the_class_for_a_voltage(row) -> None:
    """The lowest class that may be used."""
    found = glove_class_for(row.volts, row.kind)

    assert row.name == (found.name if found is not None else None)


@given(st.integers(0, 60_000), st.integers(0, 60_000), st.sampled_from(("dc", "ac")))
def test_a_higher_voltage_never_asks_for_a_lower_class(one: int, other: int, kind) -> None:
    """And no class at all is more than any."""
    low, high = (
        GLOVE_CLASSES.index(found) if (found := glove_class_for(volts, kind)) else len(GLOVE_CLASSES)
        for volts in sorted((one, other))
    )

    assert low <= high


@pytest.mark.parametrize("name", ["5", "", "00 ", None])
def test_a_class_that_does_not_exist_is_none(name) -> None:
    """Only the names of the standard are classes."""
    assert glove_class_named(name) is None


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("disconnect: service-plug", [("traction", CLASS_B)]),
        ("reconnect: service-plug", [("traction", CLASS_B)]),
        # A charge lead is made to be pulled by anybody (common practice).
        ("disconnect: charge-lead", []),
        # The pole of the 12 V battery is 12 V, whatever hangs on it.
        ("disconnect: aux-negative", []),
        ("disconnect: isolator-48", [("power-48", POWER)]),
        ("disconnect: [isolator-48, service-plug]", [("power-48", POWER), ("traction", CLASS_B)]),
        ("remove: inverter-cover", [("traction", CLASS_B)]),
        ("remove: cabin-heater", []),
        ("refit: inverter-cover", []),
        ("unplug: X7", [("traction", CLASS_B)]),
        ("unplug: X210", []),
        ("loosen: inverter-terminals", [("traction", CLASS_B)]),
        ("tighten: inverter-terminals", [("traction", CLASS_B)]),
        ("loosen: heater-bracket", []),
        ("prove_dead: traction\n    using: voltage-tester", [("traction", CLASS_B)]),
        ("prove_dead: power-48\n    using: voltage-tester", [("power-48", POWER)]),
        ("prove_dead: supply-12\n    using: voltage-tester", []),
        ("discharge: traction\n    between: [X1/1, X1/2]", [("traction", CLASS_B)]),
        ("measure: U\n    quantity: voltage\n    between: [X7/1 cable, chassis]", [("traction", CLASS_B)]),
        ("measure: U\n    quantity: voltage\n    between: [X210/3, X210/1]", []),
        ("do: Look.\n    on: traction", []),
        ("set: {mode: off}", []),
    ],
)
def test_what_a_step_asks_for(line: str, expected) -> None:
    """By what its action meets, never by its words."""
    assert expected == told(protection_for(step(line), vehicle()))


def test_the_voltage_is_the_undivided_one() -> None:
    """The plug in the middle of the battery leaves 205 V at its socket; the bus has 410 V."""
    found = protection_for(step("disconnect: service-plug"), vehicle())

    assert {("410 V", "dc", 410)} == {(str(one.voltage), one.voltage_kind, one.volts) for one in found}


def test_a_voltage_that_is_not_known_counts_as_the_top_of_class_b() -> None:
    """1500 V DC (UN R100, ISO 6469-3); more is refused in a profile."""
    found = protection_for(step("remove: inverter-cover"), vehicle(VEHICLE.replace(", max: 410 V", "")))

    assert {(None, 1500)} == {(one.voltage, one.volts) for one in found}


@pytest.mark.parametrize(
    ("line", "still"),
    [
        ("unplug: X7", False),
        ("remove: inverter-cover", False),
        ("loosen: inverter-terminals", False),
        ("measure: R\n    quantity: resistance\n    between: [X7/1 cable, X7/2 cable]", False),
        ("measure: U\n    quantity: voltage\n    between: [X7/1 cable, X7/2 cable]", True),
        ("measure: R\n    quantity: insulation resistance\n    between: [X7/1 cable, chassis]", True),
        ("prove_dead: traction\n    using: voltage-tester", True),
        ("disconnect: service-plug", True),
    ],
)
def test_what_is_proved_dead_asks_for_less(line: str, still: bool) -> None:
    """Touching asks for nothing more; proving, live readings, test voltages and isolation points still do."""
    assert still == bool(protection_for(step(line), vehicle(), frozenset({"traction"})))
    assert bool(protection_for(step(line), vehicle(), frozenset({"power-48"})))
