"""Where printed material contradicts itself: what is true, and what a common mistake would give instead."""

from itertools import pairwise
from math import isclose

import pytest
from bayleaf.calculations import bonding, conductor, discharge, insulation, readings
from bayleaf.calculations.conductor_tables import KINDS
from bayleaf.calculations.formula import formula_named


@pytest.mark.parametrize("bus", list(insulation.OHMS_PER_VOLT))
def test_the_insulation_limit_has_no_step_at_500_volts(bus: str) -> None:
    """Training pages let 100 Ω/V become 500 Ω/V above 500 V; UN R100 goes by the kind of bus, at every voltage."""
    limits = [insulation.least_resistance(volts, bus) / volts for volts in (60, 400, 499.9, 500, 500.1, 800, 1500)]

    assert all(isclose(insulation.ohms_per_volt(bus), one) for one in limits)


def test_a_megohm_for_100_volts_is_not_the_limit_of_a_vehicle() -> None:
    """That rule would ask for 4 MΩ at 400 V; UN R100 asks for 40 kΩ or 200 kΩ."""
    assert 40e3 == insulation.least_resistance(400, "dc")
    assert 200e3 == insulation.least_resistance(400, "ac")


def test_both_printed_forms_of_the_voltmeter_formula_are_equal() -> None:
    """A copy of the text breaks the second form off after `1/V1' - Vb`; with 1/V1' − 1/V1 it equals the first."""
    vb, v1, v2, loaded, known = 400, 372.093, 27.907, 219.178, 200e3
    first = known * (vb / loaded - vb / v1)
    misprint = known * vb * (1 / loaded - vb)

    assert isclose(first, insulation.by_voltmeter(vb, v1, v2, loaded, known))
    assert misprint < 0


def us_form(v1: float, v2: float, loaded: float, known: float) -> float:
    """The form of older US rules, from memory: Ro·(1 + V2/V1)·(V1 − V1')/V1'."""
    return known * (1 + v2 / v1) * (v1 - loaded) / loaded


@pytest.mark.parametrize(
    ("v1", "v2", "loaded", "true", "us"),
    [
        (190.4762, 190.4762, 56.3380, 1_000_000, 952_381),
        (258.0645, 129.0323, 98.7654, 500_000, 483_871),
        (355.2398, 42.6288, 280.5049, 60_000, 59_680),
        # computed here: 5 MΩ and 5 MΩ with a meter of 10 MΩ
        (160.0, 160.0, 14.545455, 5_000_000, 4_000_000),
    ],
)
def test_the_us_form_is_low_with_a_real_voltmeter_and_ours_is_not(v1, v2, loaded, true, us) -> None:
    """400 V, 200 kΩ, a meter of 10 MΩ: up to a fifth too low, since it takes V1 + V2 for the whole voltage."""
    assert pytest.approx(true, rel=1e-3) == insulation.by_voltmeter(400, v1, v2, loaded, 200e3)
    assert pytest.approx(us, rel=1e-3) == us_form(v1, v2, loaded, 200e3)


def test_with_an_ideal_voltmeter_both_forms_agree() -> None:
    """Where V1 + V2 is the whole voltage."""
    assert pytest.approx(us_form(266.667, 133.333, 100.0, 200e3)) == insulation.by_voltmeter(
        400, 266.667, 133.333, 100, 200e3
    )


@pytest.mark.parametrize(
    ("positive", "negative"), [(1e6, 1e6), (500e3, 1e6), (150e3, 2e6), (2e6, 1.5e6), (5e6, 5e6)]
)  # fmt: skip
def test_the_method_gives_the_weaker_pole_and_not_both_in_parallel(positive: float, negative: float) -> None:
    """An on-board monitor that shows the parallel value (from memory) shows less."""
    v1 = 400 * negative / (positive + negative)
    v2 = 400 - v1
    side, other = (negative, positive) if v1 >= v2 else (positive, negative)
    with_resistor = readings.parallel([side, 200e3])
    loaded = 400 * with_resistor / (with_resistor + other)

    found = insulation.by_voltmeter(400, v1, v2, loaded, 200e3)

    assert isclose(min(positive, negative), found, rel_tol=1e-9)
    assert readings.parallel([positive, negative]) < found


def test_10_awg_has_3_277_ohms_per_kilometre() -> None:
    """An old list prints 0.8441 Ω for 1000 ft; it is 0.9988 Ω."""
    per_1000_ft = conductor.gauge_ohms_per_km("10") * 0.3048

    assert pytest.approx(0.9988, rel=5e-4) == per_1000_ft
    assert abs(per_1000_ft - 0.8441) > 0.15


def test_copper_is_annealed_copper_of_the_standard() -> None:
    """17.241 nΩ·m. With 16.8 nΩ·m, a default seen elsewhere, 1 km of 10 AWG comes out at 3.193 Ω, 2.6 % low."""
    ohms = conductor.cable_resistance(1000, conductor.gauge_area("10"), "pure copper")
    low = 0.0168 * 1000 / conductor.gauge_area("10")

    assert pytest.approx(3.277, abs=5e-4) == ohms
    assert pytest.approx(3.193, abs=5e-4) == low
    assert pytest.approx(0.026, abs=1e-3) == 1 - low / ohms


def test_the_correction_table_of_iec_60228_has_a_coefficient_of_its_own() -> None:
    """0.004 gives the printed 0.833 at 70 °C; the 0.00393 of copper would give 0.836."""
    assert 0.833 == round(conductor.factor_to_20(70), 3)
    assert 0.836 == round(1 / conductor.temperature_factor(70), 3)


def test_class_5_does_not_always_lie_above_class_2() -> None:
    """At 50 mm² it is below, and still each table falls with every size."""
    assert conductor.ohms_per_km(50, "class 5") < conductor.ohms_per_km(50, "class 2")
    for rows in KINDS.values():
        assert all(thin[0] < thick[0] and thin[1] > thick[1] for thin, thick in pairwise(rows))


def test_a_dark_lamp_for_extra_low_voltage_does_not_show_60_volts() -> None:
    """Extra-low voltage ends at 120 V dc (IEC), high voltage on a vehicle begins above 60 V: so discharges end at 60 V.

    That a two-pole detector lights its lamp by the first is from memory. As the lamp goes out, 400 V that discharge are
    still above the limit of a vehicle, and much of the time is to come.
    """
    dark = discharge.time_to_fall(400, 120, 47e3, 1.1e-3)
    limit = next(one for one in formula_named("discharge").inputs if one.name == "to")

    assert "60 V" == limit.default
    assert discharge.voltage_after(dark, 400, 47e3, 1.1e-3) > 60
    assert discharge.time_to_fall(400, 60, 47e3, 1.1e-3) > 1.5 * dark


def test_a_bond_that_reads_good_at_too_small_a_current_is_not_shown() -> None:
    """The ohms range of a multimeter sends far less than 0.2 A."""
    assert bonding.is_bonded(0.05)
    assert not bonding.current_suffices(0.001)
