"""Limits that a rule computes: each rule gives the published figure, from the profile and with its source."""

import json
from dataclasses import replace
from typing import NamedTuple

import pytest
from bayleaf import folders
from bayleaf.limits.limit_rule import Lack, computed, limit_rules
from bayleaf.loading.load import load
from bayleaf.model.actions import ProveDead
from bayleaf.model.cited import Computed
from bayleaf.model.procedure import Procedure, Step
from bayleaf.model.vehicle import Vehicle
from bayleaf.quantities.display import show
from kit import VEHICLE, completed


class Case(NamedTuple):
    """What is measured, the limits as written, what is changed in the profile; the limit, its words, its source."""

    measured: str
    limits: str
    changes: tuple[tuple[str, str], ...]
    low: str | None
    high: str | None
    words: str
    source: str


INSULATION = "quantity: insulation resistance, between: [X7/1 device, chassis]"
SUPPLY = "quantity: voltage, between: [X210/3, X210/1]"
CAN = "quantity: voltage, between: [X210/5, chassis]"
OHMS = "quantity: resistance, between: [X210/1, chassis]"
DROP = "quantity: voltage drop, between: [X210/1, chassis]"
#: A machine with windings of 290 V AC beside the traction bus, and a bus whose joining to it is told.
PHASES = """  phases:
    name: Phases
    energy: electrical
    voltage: {kind: ac, max: 290 V}
    sources: {battery: {taken_off_by: [[service-plug]]}, charging: none, converter: none, external: none}
    monitor: none
    stored: none
isolation_points:"""
WITH_PHASES = (("isolation_points:", PHASES),)
JOINED = (
    *WITH_PHASES,
    (
        "    monitor: {taken_off_by: [[service-plug]]}\n",
        "    monitor: {taken_off_by: [[service-plug]]}\n    joined_with: [phases]\n",
    ),
)
PROTECTED = (*JOINED, ("    joined_with: [phases]\n", "    joined_with: [phases]\n    protected: yes\n"))
APART = (
    *WITH_PHASES,
    (
        "    monitor: {taken_off_by: [[service-plug]]}\n",
        "    monitor: {taken_off_by: [[service-plug]]}\n    joined_with: none\n",
    ),
)
ONE_SIDED = (*APART, ("{kind: ac, max: 290 V}", "{kind: ac, max: 290 V}\n    joined_with: [traction]"))
SENSOR = "    highest_test_voltage: 1000 V\n"


def sensor(text: str) -> tuple[tuple[str, str], ...]:
    """A sensor in the heater."""
    return ((SENSOR, f"{SENSOR}    sensor: {text}\n"),)


BOTH_LINES = (
    (
        "3: {signal: switched supply, circuit: supply-12, area: 1.5 mm2}",
        "3: {signal: CAN low, circuit: none, bus: body}",
    ),
)
TERMINATED = (("rate: 500 kbit/s}", "rate: 500 kbit/s, terminated_in: [cabin-heater, traction-battery]}"),)
R100, IEC = "UN R100, 5.1.3", "IEC 60228:2004, class 5"

#: The figures are those of data/calculations/, each with its own source there.
CASES = {
    "a DC bus alone: 100 Ω/V": Case(INSULATION, "rule: insulation resistance", (), "41 kΩ", None, "100 Ω/V × 410 V = 41 kΩ", R100),
    "no switch to 500 Ω/V above 500 V": Case(INSULATION, "rule: insulation resistance", (("max: 410 V}\n    sources:\n      battery", "max: 820 V}\n    sources:\n      battery"),), "82 kΩ", None, "100 Ω/V × 820 V", R100),
    "joined to AC: 500 Ω/V of the higher voltage": Case(INSULATION, "rule: insulation resistance", JOINED, "205 kΩ", None, "500 Ω/V × 410 V", R100),
    "joined to AC that is protected": Case(INSULATION, "rule: insulation resistance", PROTECTED, "41 kΩ", None, "100 Ω/V × 410 V", R100),
    "told on one side only: joined": Case(INSULATION, "rule: insulation resistance", ONE_SIDED, "205 kΩ", None, "500 Ω/V × 410 V", R100),
    "told not to be joined": Case(INSULATION, "rule: insulation resistance", APART, "41 kΩ", None, "100 Ω/V × 410 V", R100),
    "not told, beside AC: counts as joined": Case(INSULATION, "rule: insulation resistance", WITH_PHASES, "205 kΩ", None, "500 Ω/V × 410 V", R100),
    "an AC bus named by the author": Case(INSULATION, "rule: insulation resistance, of: phases", WITH_PHASES, "145 kΩ", None, "500 Ω/V × 290 V", R100),
    "a bond": Case("quantity: bonding resistance, between: [X210/1, chassis]", "rule: potential equalisation", (), None, "100 mΩ", "at 0.2 A", "UN R100, 5.1.2.2"),
    "a ground path": Case(DROP, "rule: voltage drop, of: ground path", (), None, "100 mV", "guide value", "vocational training"),
    # 300 A · 2 m · 0.554 Ω/km (35 mm²) = 0.332 V, the row of voltage_drop
    "a cable under current": Case(DROP, "rule: voltage drop, of: ground-strap, at: 300 A", (("area: 25 mm2, length: 0.6 m", "area: 35 mm2, length: 2 m"),), None, "332 mV", "300 A × 1.11 mΩ", IEC),
    "a cable": Case(OHMS, "rule: cable resistance, of: ground-strap", (), None, "468 µΩ", "0.6 m of 25 mm²", IEC),
    # 1 + 0.00393 · 40 = 1.1572, the row of conductor
    "a warm cable": Case(OHMS, "rule: cable resistance, of: ground-strap, at: 60 °C", (), None, "541 µΩ", "at 60 °C", IEC),
    "CAN high": Case(CAN, "rule: CAN levels, of: body, line: high", (), "2.25 V", "3.25 V", "mean", "ISO 11898-2"),
    "CAN low, bus from the pin": Case(CAN, "rule: CAN levels, line: low", (), "1.75 V", "2.75 V", "mean", "ISO 11898-2"),
    "between the lines": Case(CAN.replace("chassis", "X210/3"), "rule: CAN levels, line: between", BOTH_LINES, "0 V", "1 V", "mean", "ISO 11898-2"),
    "two terminating resistors": Case(OHMS, "rule: CAN termination, of: body", TERMINATED, "45 Ω", "70 Ω", "2 × 120 Ω in parallel = 60 Ω", "ISO 11898-2"),
    "a 12 V component of code C": Case(SUPPLY, "rule: supply range, code: C", (), "9 V", "16 V", "12 V, code C", "from memory"),
    "a 48 V component": Case(SUPPLY, "rule: supply range", (("nominal: 12 V, max: 15 V", "nominal: 48 V, max: 54 V"),), "36 V", "52 V", "48 V", "ISO 21780"),
    # 410 V · e^(−300 s / (49.35 kΩ · 1.32 mF)) = 4.1 V
    "what is left after five minutes": Case("quantity: voltage, between: [X1/1, X1/2]", "rule: discharge, at: 5 min", (), None, "4.09 V", "from 410 V", "charge law"),
    # class B at 100 °C: 138.5055 Ω ± 0.303 Ω
    "Pt100 at 100 °C": Case(OHMS, "rule: temperature sensor, of: cabin-heater, at: 100 °C", sensor("{kind: Pt100, class: B}"), "138.3 Ω", "138.8 Ω", "Pt100 at 100 °C", "IEC 60751, class B"),
    # 1074.05 Ω − 0.73 Ω at 19 °C, 1097.3 Ω + 0.78 Ω at 25 °C
    "Pt1000 between two temperatures": Case(OHMS, "rule: temperature sensor, of: cabin-heater, at: 22 °C ± 3 K", sensor("{kind: Pt1000, class: A}"), "1.074 kΩ", "1.098 kΩ", "Pt1000 at 22 °C ± 3 K", "IEC 60751, class A"),
    # 12 171 Ω at 20 °C and 8 270 Ω at 30 °C (β 3435), 5 % wider
    "NTC by its β": Case(OHMS, "rule: temperature sensor, of: cabin-heater, at: 25 °C ± 5 K", sensor("{kind: NTC, at_25: 10 kΩ, beta: 3435 K, tolerance: 5 %}"), "7.856 kΩ", "12.77 kΩ", "NTC at 25 °C", "law of the thermistor"),
    "NTC by its table": Case(OHMS, "rule: temperature sensor, of: cabin-heater, at: 25 °C", sensor("{kind: NTC, tolerance: 10 %, points: [{at: 0 °C, is: 28 kΩ}, {at: 25 °C, is: 10 kΩ}, {at: 85 °C, is: 1.45 kΩ}]}"), "9 kΩ", "11 kΩ", "NTC at 25 °C", "table of the maker"),
}  # fmt: skip


def asked(measured: str, limits: str, changes: tuple[tuple[str, str], ...]) -> tuple[Step, Vehicle]:
    """A measuring step with these limits, and the profile with these changes."""
    text = VEHICLE
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    step = f"steps:\n  - {{measure: It, using: multimeter, limits: {{{limits}}}, {measured}}}\n"
    vehicle = load("procedures/test-van/vehicle.yml", text.encode(), "vehicle")
    procedure = load("procedures/test-van/job.yml", completed(step, "").encode(), "procedure")
    assert [] == [one.message for one in vehicle.findings]
    assert isinstance(vehicle.model, Vehicle) and isinstance(procedure.model, Procedure)
    return procedure.model.steps[0], vehicle.model


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_a_rule_gives_its_limit(case: Case) -> None:
    """The limit with the unit a workshop reads, the computation and the source."""
    found = computed(*asked(case.measured, case.limits, case.changes))

    assert isinstance(found, Computed), found
    assert (case.low, case.high) == tuple(
        None if end is None else show(end).replace("\u00a0", " ") for end in (found.low, found.high)
    )
    assert case.words in found.words
    assert case.source in found.source


@pytest.mark.parametrize(
    ("joints", "told"),
    [("", "for joints, for a fuse"), (", joints: 1", "its 1 joint, for"), (", joints: 3", "its 3 joints, for")],
)
def test_a_drop_along_a_cable_says_what_is_not_in_it(joints: str, told: str) -> None:
    """A reading just above may be that of the lugs or of the fuse."""
    changes = (("length: 0.6 m}", f"length: 0.6 m{joints}}}"),)
    found = computed(*asked(DROP, "rule: voltage drop, of: ground-strap, at: 300 A", changes))

    assert isinstance(found, Computed)
    assert told in (found.remark or "")


def test_every_rule_is_held_to_a_figure_and_can_be_written() -> None:
    """No rule without a case above, none that the schema does not offer, and none offered that is not there."""
    common = json.loads((folders.schema() / "common.schema.json").read_text("utf-8"))
    offered = set(common["$defs"]["limit"]["properties"]["rule"]["enum"])
    used = {case.limits.split("rule: ")[1].split(",")[0] for case in CASES.values()}

    assert set(limit_rules()) == used == offered


LACKS = {
    "no such circuit": (INSULATION, "rule: insulation resistance, of: tractoin", (), "no circuit `tractoin`"),
    "no highest voltage": (INSULATION, "rule: insulation resistance", ((", max: 410 V}\n    sources:\n      battery", "}\n    sources:\n      battery"),), "highest voltage of `traction`"),
    "not class B": (OHMS.replace("resistance", "insulation resistance"), "rule: insulation resistance", (), "`supply-12` is not of voltage class B"),
    "no contacts of a circuit": ("quantity: insulation resistance", "rule: insulation resistance", (), "no electrical circuit"),
    "no cable named": (DROP, "rule: voltage drop", (), "no cable is named"),
    "no such cable": (OHMS, "rule: cable resistance, of: strap", (), "no cable `strap`"),
    "cable without length": (OHMS, "rule: cable resistance, of: ground-strap", ((", length: 0.6 m", ""),), "length of `ground-strap`"),
    "no current": (DROP, "rule: voltage drop, of: ground-strap", (), "`at` has to say a current"),
    "a time for a temperature": (OHMS, "rule: cable resistance, of: ground-strap, at: 5 min", (), "`at` has to say a temperature"),
    "no bus": (SUPPLY, "rule: CAN levels, line: high", (), "which bus is meant"),
    "no line": (CAN, "rule: CAN levels", (), "which line is read"),
    "the wrong line for the contacts": (CAN, "rule: CAN levels, line: between", (), "is read between both lines"),
    "a bus of another kind": (CAN, "rule: CAN levels, line: high", (("kind: CAN,", "kind: LIN,"),), "`body` is LIN"),
    "no code": (SUPPLY, "rule: supply range", (), "a 12 V component has a code, A to D"),
    "a code of 24 V": (SUPPLY, "rule: supply range, code: E", (), "a 12 V component has a code, A to D"),
    "no system of that voltage": ("quantity: voltage, between: [X1/1, X1/2]", "rule: supply range", (), "no nominal voltage of 12 V"),
    "nothing stored": (SUPPLY, "rule: discharge, at: 5 min", (), "what `supply-12` stores"),
    "no time": ("quantity: voltage, between: [X1/1, X1/2]", "rule: discharge", (), "`at` has to say a time"),
    "no sensor": (OHMS, "rule: temperature sensor, of: cabin-heater, at: 20 °C", (), "`cabin-heater` has no sensor"),
    "a current below nothing": (DROP, "rule: voltage drop, of: ground-strap, at: -10 A", (), "`at: -10 A` is not above 0"),
    "a tolerance beyond all": (OHMS, "rule: temperature sensor, of: cabin-heater, at: 20 °C", sensor("{kind: NTC, at_25: 10 kΩ, beta: 3435 K, tolerance: 150 %}"), "tolerance of 150 %"),
    "no temperature": (OHMS, "rule: temperature sensor, of: cabin-heater", sensor("{kind: Pt100}"), "`at` has to say a temperature"),
    "beyond the law": (OHMS, "rule: temperature sensor, of: cabin-heater, at: 900 °C", sensor("{kind: Pt100}"), "900 °C lies outside"),
    "a thermistor without tolerance": (OHMS, "rule: temperature sensor, of: cabin-heater, at: 20 °C", sensor("{kind: NTC, at_25: 10 kΩ, beta: 3435 K}"), "tolerance of the sensor"),
    "a thermistor without figures": (OHMS, "rule: temperature sensor, of: cabin-heater, at: 20 °C", sensor("{kind: NTC, tolerance: 5 %}"), "figures of the thermistor"),
}  # fmt: skip


@pytest.mark.parametrize(("measured", "limits", "changes", "message"), LACKS.values(), ids=LACKS)
def test_a_rule_says_what_it_lacks(
    measured: str, limits: str, changes: tuple[tuple[str, str], ...], message: str
) -> None:
    """The fact that is missing, and what to write."""
    found = computed(*asked(measured, limits, changes))

    assert isinstance(found, Lack), found
    assert message in found.message
    assert found.help


def test_a_rule_that_does_not_fit_computes_nothing() -> None:
    """A rule for insulation says nothing of a supply voltage."""
    assert None is computed(*asked(SUPPLY, "rule: insulation resistance, at_least: 11 V", ()))


def test_a_proof_takes_no_limit_from_a_rule() -> None:
    """What is called dead is never computed."""
    step, vehicle = asked("quantity: voltage, between: [X1/1, X1/2]", "rule: discharge, at: 5 min", ())
    proof = replace(step, action=ProveDead("traction", (), None, None, None, None, None, None))

    assert None is computed(proof, vehicle)
