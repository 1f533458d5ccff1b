"""The words of the energy map and its page: a missing fact is said and counts as unsafe, danger comes first."""

from dataclasses import replace
from pathlib import Path

import pytest
from bayleaf.manual import Manual
from bayleaf.model.vehicle import LivePlace, Rotation, Source, Stored, Voltage
from bayleaf.pages.all import all_pages
from bayleaf.pages.drawings.energy_map import ways
from bayleaf.pages.energy_words import by_danger, fed_by, group_of, stored_words, turning_words, unstated_sources
from drawing_kit import circuit, point, texts, vehicle, volts
from kit import PLACES, VEHICLE, check

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize(
    ("changes", "of", "expected"),
    [
        ({"voltage": Voltage("dc", volts("48 V"), None)}, "circuit:supply", "not known: treated as voltage class B"),
        ({"voltage": None}, "circuit:supply", "not known: treated as voltage class B"),
        ({"fused": None}, "circuit:supply", "fuse not stated: counts as not fused"),
        ({}, "circuit:supply", "What it stores is not known: counts as charged"),
        ({"says": frozenset({"stored"})}, "circuit:supply", "Stores nothing"),
        ({"says": frozenset({"stored"}), "broken": True}, "circuit:supply", "counts as charged"),
        ({}, "circuit:supply", "No point to measure at is stated"),
        ({"energy": "pressure"}, "circuit:supply", "Safe to open when: not stated, so counts as dangerous"),
        ({}, "unstated", "Not stated: charging, converter, external"),
        ({"sources": ()}, "unstated", "as not to be taken off"),
        ({"sources": (Source((), "pump", "points", ()),), "energy": "pressure"}, "source:pump", "Cannot be taken off"),
        ({"sources": (Source((), "cells", "never"),)}, "source:cells", "Cannot be taken off"),
        ({"sources": (Source((), "battery", "points", (("no-such",),)),)}, "point:no-such", "not in the profile"),
        ({"rotation": Rotation((), "belt", None, None)}, "turning", "any turning counts as live"),
        ({"sealed_in": "pack"}, "sealed", "pack, which is not in the profile"),
    ],
)
def test_a_missing_fact_is_said_and_counts_as_unsafe(changes: dict, of: str, expected: str) -> None:
    """The map never looks safer because the profile says less."""
    one = circuit(**changes)

    assert expected in texts(ways(vehicle(one, point("pole")), one), of)


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({}, "nothing stays live at it"),
        ({"broken": True}, "what stays live is not known"),
        ({"leaves_live": (LivePlace("stud", None),)}, "stays live: stud, voltage not known"),
        ({"leaves_live": (LivePlace("stud", volts("205 V")),)}, "stays live: stud, 205 V"),
        ({"leaves_live": (LivePlace("tank", None),), "breaks": "flow"}, "stays under pressure: tank"),
        ({"secure_with": None}, "cannot be secured"),
        ({"breaks": "coil supply only"}, "counts for nothing if a contactor may be stuck"),
    ],
)
def test_an_isolation_point_says_what_must_be_known_at_it(changes: dict, expected: str) -> None:
    """Under the name of a point stand what stays live, and why it may not do."""
    one = circuit()

    assert expected in texts(ways(vehicle(one, point("pole", **changes)), one), "point:pole")


def test_a_source_that_does_not_exist_is_neither_drawn_nor_missing() -> None:
    """`none` is a fact: there is nothing to take off, and nothing to ask for."""
    none = tuple(Source(("circuits", "supply", "sources", key), key, "none") for key in ("charging", "converter"))
    one = circuit(sources=(*circuit().sources, *none))

    assert [source.name for source in fed_by(one)] == ["battery"]
    assert unstated_sources(one) == ("external",)


@pytest.mark.parametrize(
    ("kind", "highest", "fused", "energy", "expected"),
    [
        # Class B: above 60 V DC or 30 V AC (UN R100, ISO 6469-3).
        ("dc", "60.1 V", True, "electrical", "class-b"),
        ("ac", "30.1 V", True, "electrical", "class-b"),
        ("dc", None, True, "electrical", "class-b"),
        ("dc", "60 V", True, "electrical", "power"),
        ("dc", "32.1 V", True, "electrical", "power"),
        ("dc", "15 V", False, "electrical", "power"),
        ("dc", "15 V", None, "electrical", "power"),
        ("dc", "32 V", True, "electrical", "low"),
        ("ac", "30 V", True, "electrical", "low"),
        ("dc", "410 V", True, "pressure", "other"),
    ],
)
def test_circuits_are_grouped_by_danger(kind, highest, fused, energy, expected) -> None:
    """Class B, power below it, other energies, fused low voltage."""
    voltage = Voltage(kind, None, volts(highest) if highest else None)

    assert expected == group_of(circuit(voltage=voltage, fused=fused, energy=energy))


def test_the_most_dangerous_circuits_come_first(demo: Manual) -> None:
    """On the page and in the list at its head."""
    order = ["class-b", "power", "other", "low"]
    for profile in demo.vehicles.values():
        groups = [order.index(group_of(one)) for one in by_danger(profile)]
        assert groups == sorted(groups)


def test_turning_is_told_with_its_voltage() -> None:
    """80 V per 1000 rpm at 300 rpm are 24 V; odd figures are rounded up."""
    exact = Rotation((), "wheels", volts("80 V per 1000 rpm"), volts("300 rpm"))
    odd = Rotation((), "wheels", volts("14 V per 1000 rpm"), volts("201 rpm"))  # 2.814 V

    assert "which is 24\u00a0V" in turning_words(exact)[1]
    assert "which is 2.9\u00a0V" in turning_words(odd)[1]


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({}, "Stored: capacitance not stated, bleed resistance not stated|Waiting time not stated: measure"),
        ({"none": frozenset({"bleed"})}, "nothing bleeds it: it stays charged"),
        ({"none": frozenset({"stated_wait"})}, "The maker states no waiting time: measure"),
        ({"stated_wait": volts("10 min")}, "Wait 10 min, then measure"),
    ],
)
def test_what_is_not_known_of_stored_energy_is_said(changes: dict, expected: str) -> None:
    """Nothing that is left out looks like nothing that is there."""
    stored = replace(Stored((), None, None, None, None), **changes)

    assert expected in "|".join(stored_words(circuit(stored=stored))).replace("\u00a0", " ")


def test_the_wait_stands_by_itself(demo: Manual) -> None:
    """How long to wait is one of the five questions the map answers."""
    one = demo.vehicles["larkway-m12"].circuits["traction"]

    assert stored_words(one)[1].replace("\u00a0", " ") == "Wait 5 min, then measure"


# ---- the page --------------------------------------------------------------------------------------


def test_texts_of_the_author_are_never_markup(tmp_path) -> None:
    """Names and places that look like HTML are drawn as they were written."""
    wild = VEHICLE.replace("Traction service plug", "'<b>plug</b> & \"'").replace(
        "both contacts of", "<script>x</script>"
    )

    manual = check(tmp_path, {PLACES["vehicle"]: wild})
    html = next(page for page in all_pages(manual) if page.url == "test-van/energy.html").make().html

    assert [finding.message for finding in manual.findings if finding.severity == "error"] == []
    assert "<b>" not in html and "<script" not in html
    assert "&lt;b&gt;plug&lt;/b&gt; &amp;" in html


def test_page_and_vehicle_link_to_each_other(demo: Manual) -> None:
    """The map is beside the vehicle's page, and says that it approves nothing."""
    made = {page.url: page.make() for page in all_pages(demo) if page.url.startswith("larkway-m12/")}

    assert 'href="energy.html"' in made["larkway-m12/vehicle.html"].html
    assert 'href="vehicle.html"' in made["larkway-m12/energy.html"].html
    assert "approves nothing" in made["larkway-m12/energy.html"].html
    assert [record.url for record in made["larkway-m12/energy.html"].search] == ["larkway-m12/energy.html"]


def test_the_page_of_a_vehicle_without_circuits_says_so(tmp_path) -> None:
    """Nothing stated means that everything counts as live."""
    manual = check(tmp_path, {PLACES["vehicle"]: "format: 1\nvehicle: test-van\nname: Test van\n"})

    html = next(page for page in all_pages(manual) if page.url == "test-van/energy.html").make().html

    assert "every wire, line and moving part counts as live" in html
