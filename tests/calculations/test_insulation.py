"""Insulation resistance: laws, and the method held to a circuit that is solved. Figures: data/calculations/insulation.py."""

from math import isclose

import numpy
import pytest
from bayleaf.calculations import insulation
from bayleaf.calculations.formula import formula_named
from hypothesis import assume, given
from hypothesis import strategies as st

OHMS = st.floats(1e3, 5e7)
VOLTS = st.floats(60, 1500)
METER = st.floats(1e6, 1e9)
BUSES = st.sampled_from(list(insulation.OHMS_PER_VOLT))


def voltages(vb: float, across: list[float], over: list[float]) -> tuple[float, float]:
    """Volts over the positive and over the negative side, each a list of resistances in parallel, solved as a system."""
    plus, minus = sum(1 / one for one in across), sum(1 / one for one in over)
    solved = numpy.linalg.solve([[1.0, 1.0], [plus, -minus]], [vb, 0.0])
    return float(solved[0]), float(solved[1])


def read(vb: float, positive: float, negative: float, known: float, meter: float | None) -> tuple[float, float, float]:
    """V1, V2 and the higher one with the resistor, as a voltmeter of this resistance shows them; None is an ideal one."""
    extra = [] if meter is None else [meter]
    v1 = voltages(vb, [positive], [negative, *extra])[1]
    v2 = voltages(vb, [positive, *extra], [negative])[0]
    if v1 >= v2:
        return v1, v2, voltages(vb, [positive], [negative, known, *extra])[1]
    return v1, v2, voltages(vb, [positive, known, *extra], [negative])[0]


@given(VOLTS, OHMS, OHMS, st.floats(1e4, 1e6), METER)
def test_the_method_finds_the_weaker_pole(
    vb: float, positive: float, negative: float, known: float, meter: float
) -> None:
    """Whatever the resistance of the voltmeter and whichever resistor is taken."""
    v1, v2, loaded = read(vb, positive, negative, known, meter)
    assume(loaded < 0.999 * max(v1, v2))  # a difference that a float can tell

    found = insulation.by_voltmeter(vb, v1, v2, loaded, known)

    assert isclose(insulation.weaker_of(positive, negative), found, rel_tol=1e-6)


@pytest.mark.parametrize(
    ("positive", "negative", "v1", "v2", "loaded"),
    [
        (1e6, 1e6, 190.4762, 190.4762, 56.3380),
        (500e3, 1e6, 258.0645, 129.0323, 98.7654),
        (60e3, 500e3, 355.2398, 42.6288, 280.5049),
    ],
)
def test_the_solved_circuit_reads_as_the_table_says(positive, negative, v1, v2, loaded) -> None:
    """400 V, 200 kΩ, a meter of 10 MΩ."""
    assert pytest.approx((v1, v2, loaded), abs=5e-5) == read(400, positive, negative, 200e3, 10e6)


@given(VOLTS, OHMS, OHMS)
def test_both_forms_of_the_formula_are_equal(vb: float, positive: float, negative: float) -> None:
    """Ro·(Vb/V' − Vb/V) and Ro·Vb·(1/V' − 1/V)."""
    v1, v2, loaded = read(vb, positive, negative, 200e3, 10e6)
    assume(loaded < 0.999 * max(v1, v2))
    first = 200e3 * (vb / loaded - vb / max(v1, v2))

    assert isclose(first, insulation.by_voltmeter(vb, v1, v2, loaded, 200e3), rel_tol=1e-9)


@given(VOLTS, OHMS, OHMS)
def test_swapped_poles_give_the_same(vb: float, positive: float, negative: float) -> None:
    """The formula is mirrored for V2 above V1."""
    v1, v2, loaded = read(vb, positive, negative, 200e3, 10e6)
    assume(loaded < max(v1, v2))

    assert insulation.by_voltmeter(vb, v1, v2, loaded, 200e3) == insulation.by_voltmeter(vb, v2, v1, loaded, 200e3)


@given(VOLTS, OHMS, OHMS, st.one_of(st.none(), METER))
def test_the_readings_of_a_circuit_never_exceed_the_whole(vb: float, positive: float, negative: float, meter) -> None:
    """V1 + V2 ≤ Vb; a real voltmeter lowers the sum."""
    v1, v2, _ = read(vb, positive, negative, 200e3, meter)

    assert insulation.readings_fit(vb, v1, v2)
    assert not insulation.readings_fit(vb, v1, vb - v1 + 0.01 * vb)


def test_the_error_of_the_meter_widens_what_fits() -> None:
    """Two readings that are each 0.5 % too high and a whole that is 0.5 % too low still fit."""
    assert not insulation.readings_fit(398, 201, 201)
    assert insulation.readings_fit(398, 201, 201, accuracy=0.5)
    assert not insulation.readings_fit(398, 202, 201, accuracy=0.5)


def test_a_pole_on_the_chassis_has_no_resistance() -> None:
    """The other pole reads the whole voltage, with the resistor and without."""
    assert 0.0 == insulation.by_voltmeter(400, 400, 0, 400, 200e3)


@given(VOLTS, BUSES, st.floats(1, 3))
def test_the_limit_is_proportional_to_the_voltage(volts: float, bus: str, times: float) -> None:
    """And so the current at the limit is the same at every voltage."""
    least = insulation.least_resistance(volts, bus)

    assert isclose(times * least, insulation.least_resistance(times * volts, bus))
    assert isclose(insulation.current_at_limit(bus), volts / least)


@given(st.floats(1, 2500), st.sampled_from(list(insulation.TEST_SHARES)))
def test_a_tester_voltage_meets_its_rule(volts: float, rule: str) -> None:
    """It is not below what the rule asks for; what meets ISO 6469-3 meets UN R100."""
    least = insulation.least_test_voltage(volts, rule)

    assert least <= insulation.tester_voltage(least)
    assert insulation.least_test_voltage(volts, "UN R100") <= insulation.least_test_voltage(volts, "ISO 6469-3")


def test_the_tester_is_taken_as_one_that_errs_by_30_per_cent() -> None:
    """What IEC 61557-2 allows at most, where nothing else is typed."""
    accuracy = formula_named("insulation limit").inputs[2]

    assert "30 %" == accuracy.default
    assert pytest.approx((200e3, 200e3 / 0.7, 500, 0.002)) == formula_named("insulation limit").function(
        400, "ac", 30.0
    )


@given(st.floats(1, 1e8), st.floats(0, 99))
def test_a_reading_that_suffices_does_so_at_its_worst(limit: float, accuracy: float) -> None:
    """Less the error of the tester it still is the limit."""
    needed = insulation.reading_needed(limit, accuracy)

    assert isclose(limit, needed * (1 - accuracy / 100), rel_tol=1e-9)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: insulation.least_resistance(0, "dc"), "working voltage is 0; it has to be above 0"),
        (lambda: insulation.least_resistance(400, "hv"), "bus `hv` is not known; known are dc, ac, joined"),
        (lambda: insulation.by_voltmeter(0, 0, 0, 0, 2e5), "pole to pole is 0"),
        (lambda: insulation.by_voltmeter(400, 200, 200, 100, 0), "known resistor is 0"),
        (lambda: insulation.by_voltmeter(400, 0, 0, 0, 2e5), "no voltage from either pole"),
        (lambda: insulation.by_voltmeter(400, -200, 200, 100, 2e5), "negative pole to the chassis is -200"),
        (lambda: insulation.by_voltmeter(400, 300, 200, 100, 2e5), "together are 500 V, more than the 400 V"),
        (lambda: insulation.by_voltmeter(400, 250, 150, 260, 2e5), "260 V with the resistor is more than 250 V"),
        (lambda: insulation.by_voltmeter(400, 250, 150, 0, 2e5), "voltage with the resistor is 0"),
        (lambda: insulation.by_voltmeter(float("inf"), 250, 150, 100, 2e5), "has no end"),
        (lambda: insulation.readings_fit(400, 200, 200, 100), "accuracy is 100 %"),
        (lambda: insulation.weaker_of(-1, 5), "positive pole is -1"),
        (lambda: insulation.least_test_voltage(400, "any"), "rule `any` is not known"),
        (lambda: insulation.tester_voltage(3000), "no usual tester gives 3000 V"),
        (lambda: insulation.reading_needed(2e5, 100), "accuracy is 100 %"),
    ],
)
def test_what_has_no_meaning_is_refused(call, named: str) -> None:
    """The sentence names what is wrong."""
    with pytest.raises(ValueError, match=named):
        call()
