"""How long a circuit is waited for, and what a missing fact does to that."""

from fractions import Fraction
from math import inf

import pytest
from bayleaf.loading.load import load
from bayleaf.model.vehicle import Circuit
from bayleaf.safety.wait import required_wait, time_to, voltage_after

_410 = "voltage: {kind: dc, max: 410 V}"
_48 = "voltage: {kind: dc, max: 54 V}"
_WHOLE = "capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: 5 min"


def circuit(*lines: str, energy: str = "electrical") -> Circuit:
    """A circuit of which these lines are written."""
    head = "format: 1\nvehicle: test-van\nname: Test van\ncircuits:\n  one:\n    name: One\n"
    text = head + "".join(f"    {line}\n" for line in (f"energy: {energy}", "sources: {battery: none}", *lines))
    loaded = load("procedures/test-van/vehicle.yml", text.encode("utf-8"), "vehicle")
    return loaded.model.circuits["one"]


@pytest.mark.parametrize(
    ("lines", "seconds", "lacks"),
    [
        # The longest of the two times; the computed one (125.19 s, 112.7 s, see below) is rounded up.
        ([_410, f"stored: {{{_WHOLE}}}"], 300, ()),
        ([_410, "stored: {capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: 100 s}"], 126, ()),
        ([_410, "stored: {capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: none}"], 126, ()),
        ([_410, "stored: {capacitance: 1.1 mF, bleed: 47 kΩ, stated_wait: none}"], 126, ()),
        ([_410, "stored: {capacitance: at most 1.32 mF, bleed: 40 kΩ to 49.35 kΩ, stated_wait: none}"], 126, ()),
        ([_48, "stored: {capacitance: 8 mF ± 20 %, bleed: 4.7 kΩ ± 5 %, stated_wait: none}"], 113, ()),
        (["voltage: {kind: dc, max: 5 V}", "stored: {capacitance: 8 mF, bleed: 4.7 kΩ, stated_wait: none}"], 0, ()),
        # Nothing stored.
        ([_410, "stored: none"], 0, ()),
        (["stored: none"], 0, ()),
        # Only a discharge with a reading helps.
        ([_410, "stored: {capacitance: 1.1 mF, bleed: none, stated_wait: 5 min}"], None, ()),
        # The author has asked, and the maker publishes none.
        ([_410, "stored: {capacitance: not known, bleed: 47 kΩ, stated_wait: 5 min}"], 300, ()),
        ([_410, "stored: {capacitance: 1.1 mF, bleed: not known, stated_wait: 5 min}"], 300, ()),
        ([_410, "stored: {capacitance: not known, bleed: not known, stated_wait: none}"], None, ()),
        # What is missing is unsafe.
        ([_410], None, ("stored",)),
        ([_410, "stored: {bleed: 47 kΩ, stated_wait: 5 min}"], None, ("capacitance",)),
        ([_410, "stored: {capacitance: 1.1 mF, stated_wait: 5 min}"], None, ("bleed",)),
        ([_410, "stored: {capacitance: 1.1 mF, bleed: 47 kΩ}"], None, ("stated_wait",)),
        ([_410, "stored: {capacitance: not known, bleed: not known}"], None, ("stated_wait",)),
        ([_410, "stored: {capacitance: at least 1 mF, bleed: 47 kΩ, stated_wait: 5 min}"], None, ("capacitance",)),
        (["voltage: {kind: dc}", f"stored: {{{_WHOLE}}}"], None, ("max",)),
        ([f"stored: {{{_WHOLE}}}"], None, ("voltage",)),
        ([_48], None, ("stored",)),
        # Fused low voltage: nothing is asked of it.
        (["voltage: {kind: dc, max: 32 V}", "fused: yes"], 0, ()),
        (["voltage: {kind: dc, max: 32.1 V}", "fused: yes"], None, ("stored",)),
        (["voltage: {kind: dc, max: 15 V}", "fused: no"], None, ("stored",)),
        (["voltage: {kind: dc, max: 15 V}"], None, ("stored",)),
        (["voltage: {kind: ac, max: 24 V}", "fused: yes"], None, ("stored",)),
    ],
)
def test_required_wait(lines: list[str], seconds: int | None, lacks: tuple[str, ...]) -> None:
    """The seconds (None: no waiting settles it) and what is missing."""
    wait = required_wait(circuit(*lines))

    assert (None if seconds is None else Fraction(seconds)) == wait.seconds
    assert lacks == wait.lacks


@pytest.mark.parametrize(
    ("energy", "lines", "seconds", "lacks"),
    [
        ("pressure", [], 0, ()),
        ("pyrotechnic", ["stored: none"], 0, ()),
        # NHTSA interim guidance: restraints may stay active up to 5 min after the 12 V supply is off.
        ("pyrotechnic", ["stored: {stated_wait: 5 min}"], 300, ()),
        ("pyrotechnic", ["stored: {capacitance: 2 mF}"], None, ("stated_wait",)),
    ],
)
def test_required_wait_of_other_energies(energy: str, lines: list[str], seconds: int | None, lacks: object) -> None:
    """Only the stated time counts; nothing is asked where nothing is written."""
    wait = required_wait(circuit(*lines, energy=energy))

    assert (None if seconds is None else Fraction(seconds)) == wait.seconds
    assert lacks == wait.lacks


def test_worst_values_are_told() -> None:
    """Tolerances against the reader: those written, else 20 % and 5 %. 1.1 mF and 47 kΩ, 410 V: 125 s to 60 V."""
    written = required_wait(circuit(_410, "stored: {capacitance: 1.1 mF ± 10 %, bleed: 47 kΩ, stated_wait: 5 min}"))

    assert (1.21e-3, 49350.0) == pytest.approx((written.capacitance, written.bleed))
    assert ("bleed",) == written.assumed
    assert (410.0, 60.0) == (written.start, written.end)
    assert Fraction(300) == written.stated

    assumed = required_wait(circuit(_410, "stored: {capacitance: 1.1 mF, bleed: 47 kΩ, stated_wait: 5 min}"))

    assert ("capacitance", "bleed") == assumed.assumed
    assert 125 == pytest.approx(assumed.computed, abs=0.5)


@pytest.mark.parametrize(
    ("voltage", "end"),
    [
        ("{kind: dc, max: 60.1 V}", 60),
        ("{kind: dc, max: 60 V}", 5),
        ("{kind: ac, max: 30.1 V}", 30),
        ("{kind: ac, max: 30 V}", 5),
        ("{kind: dc}", 60),
        ("{kind: ac}", 30),
    ],
)
def test_safe_voltage(voltage: str, end: float) -> None:
    """60 V DC and 30 V AC bound voltage class B (UN R100); below it the limit of the reading counts, 5 V."""
    assert end == required_wait(circuit(f"voltage: {voltage}", "stored: none")).end


def test_a_value_that_could_not_be_read_is_not_judged_again() -> None:
    """It has been told where it was read: one mistake, one error."""
    unreadable = circuit(_410, "stored: {capacitance: 1.1 mH, bleed: 47 kΩ, stated_wait: 5 min}")

    assert (Fraction(300), ()) == (required_wait(unreadable).seconds, required_wait(unreadable).lacks)

    without_max = circuit("voltage: {kind: dc, max: 410 VDC}", f"stored: {{{_WHOLE}}}")

    assert (Fraction(300), ()) == (required_wait(without_max).seconds, required_wait(without_max).lacks)


def test_voltage_and_time_at_worst() -> None:
    """1.1 mF ± 20 %, 47 kΩ ± 5 %, 410 V: 125 s to 60 V, 287 s to 5 V; computed from the formula."""
    traction = circuit(_410, f"stored: {{{_WHOLE}}}")

    assert 125 == pytest.approx(time_to(traction, 60), abs=0.5)
    assert 287 == pytest.approx(time_to(traction, 5), abs=0.5)
    assert 60 == pytest.approx(voltage_after(traction, 125), abs=0.5)
    assert 410 == voltage_after(traction, 0)
    assert 0 == time_to(traction, 410)


def test_what_is_never_reached_and_what_is_not_known() -> None:
    """Without a bleed the voltage stays; where a figure is missing nothing is said; where nothing is stored it is 0."""
    kept = circuit(_410, "stored: {capacitance: 1.1 mF, bleed: none, stated_wait: 5 min}")
    unknown = circuit(_410, "stored: {capacitance: not known, bleed: 47 kΩ, stated_wait: 5 min}")
    empty = circuit(_410, "stored: none")

    assert (410, None) == (voltage_after(kept, 3600), time_to(kept, 60))
    assert (None, None) == (voltage_after(unknown, 3600), time_to(unknown, 60))
    assert (None, None) == (voltage_after(circuit(_410), 3600), time_to(circuit(_410), 60))
    assert (0, 0) == (voltage_after(empty, 0), time_to(empty, 60))
    assert inf == required_wait(kept).bleed


@pytest.mark.parametrize("without", ["capacitance", "bleed", "stated_wait", "stored", "voltage", "max"])
def test_without_a_fact_no_waiting_settles_it(without: str) -> None:
    """Deleting a key never shortens the wait."""
    figures = {"capacitance": "1.1 mF ± 20 %", "bleed": "47 kΩ ± 5 %", "stated_wait": "5 min"}
    figures.pop(without, None)
    stored = ", ".join(f"{key}: {value}" for key, value in figures.items())
    lines = {"voltage": "{kind: dc}" if without == "max" else "{kind: dc, max: 410 V}", "stored": f"{{{stored}}}"}
    lines.pop(without, None)

    assert required_wait(circuit(*(f"{key}: {value}" for key, value in lines.items()))).seconds is None
