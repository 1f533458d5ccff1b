"""A drafted profile makes no fact up: what is not known is marked, and the check refuses work that would rest on it."""

from pathlib import Path

import pytest
from bayleaf.drafts.danger import why_never_safe
from bayleaf.drafts.new_vehicle import ENERGIES, POINTS, VOLTS, AskedVehicle, vehicle_draft
from bayleaf.drafts.procedure import Draft
from bayleaf.drafts.surroundings import around_of
from bayleaf.loading.tidying.tidy import Tidied, tidied
from bayleaf.manual import Manual
from bayleaf.manual_files import File
from drafts_kit import DAY, demo
from hypothesis import given, settings
from hypothesis import strategies as st

ALL = AskedVehicle("mossford-e2", "Mossford E2", tuple(ENERGIES), {"traction": "410 V"}, tuple(POINTS))


def judged(text: str) -> Manual:
    return demo().keeper.manual(DAY, drafts={File("procedures/mossford-e2/vehicle.yml", "vehicle"): text.encode()})


def rules(draft: Draft) -> set[tuple[str, str]]:
    return {(one.kind, one.rule) for one in judged(draft.text).by_file[draft.file]} - {("practice", "todo-left")}


@settings(max_examples=40, deadline=None)
@given(st.lists(st.sampled_from(tuple(ENERGIES)), min_size=1, unique=True), st.sets(st.sampled_from(tuple(POINTS))))
def test_whatever_a_vehicle_has(energies: list[str], points: set[str]) -> None:
    """The file has no fault of form, is tidy, and nothing dangerous in it can be made safe yet."""
    asked = AskedVehicle("mossford-e2", "Mossford E2", tuple(energies), {}, tuple(points))
    made = vehicle_draft(asked)

    assert {kind for kind, _ in rules(made)} <= {"danger", "validity"}, made.text
    found = tidied(made.file, made.text.encode(), "vehicle")
    assert isinstance(found, Tidied) and found.is_tidy
    around = around_of(judged(made.text), "mossford-e2")
    assert [] == [name for name in around.rig.dangerous if why_never_safe(name, around) is None]


def test_it_is_told_what_must_be_filled_in() -> None:
    """Sources, waiting time, test points, locks and monitors, each by its own rule."""
    assert {
        "source-not-stated", "waiting-time-not-known", "test-point-missing", "isolation-cannot-be-secured",
        "monitor-not-stated", "isolation-by-control-only",
    } <= {rule for _, rule in rules(vehicle_draft(ALL))}  # fmt: skip


def test_a_highest_voltage_that_is_known_stands_in_it() -> None:
    """One that is not known is left out, and its circuit counts as class B."""
    text = vehicle_draft(ALL).text
    assert text.count("voltage: {kind: dc, max: 410 V}") == 2
    assert "voltage: {kind: dc, nominal: 48 V}" in text
    assert set(VOLTS) == {name for name in ENERGIES if name in ("traction", "power-48", "supply-12", "supply-24")}


def test_filled_in_it_is_a_profile_to_work_with(tmp_path: Path) -> None:
    """Each mark is one edit; then nothing is said of the profile, and a job on it can be drafted and is safe."""
    asked = AskedVehicle(
        "mossford-e2", "Mossford E2", ("traction", "supply-12"), {"traction": "410 V", "supply-12": "15 V"},
        ("service-plug", "charge-lead", "aux-negative"),
    )  # fmt: skip
    text = vehicle_draft(asked).text
    for remark, line in FILLED:
        start = text.index(f"# TODO: {remark}")
        end = text.index("\n", start)
        while text[end + 1 :].lstrip(" ").startswith("# ") and not text[end + 1 :].lstrip(" ").startswith("# TODO"):
            end = text.index("\n", end + 1)
        text = text[:start] + line + text[end:]
    for mark, words in WORDS:
        assert mark in text
        text = text.replace(f'"{mark}"', words, 1)

    assert "TODO" not in text
    manual = judged(text)
    assert () == manual.by_file.get("procedures/mossford-e2/vehicle.yml", ())


FILLED = (
    ("built", "built: 2024 to today"),
    ("fused", "fused: yes"),
    ("monitor", "monitor: none"),
    ("stored", "stored: {capacitance: 1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: 5 min, to_chassis: 0.2 µF}"),
    ("rotation", "location: Under the floor"),
    ("dead_at", "dead_at:\n      - {pair: [X1/1 cable, X1/2 cable], access: cover}\n"
     "      - {pair: [X1/1 cable, chassis], access: cover}\n      - {pair: [X1/2 cable, chassis], access: cover}"),
    ("converter", "converter: none"),
    ("external", "external: none"),
    ("fused", "fused: yes\n    monitor: none\n    stored: none"),
    ("charging", "charging: none"),
    ("converter", "converter: {taken_off_by: [[mode-off], [service-plug]]}"),
    ("external", "external: none"),
    ("secure_with", "secure_with: Padlock through the cap"),
    ("breaks", "breaks: middle of the battery"),
    ("secure_with", "secure_with: Padlock through the flap"),
    ("secure_with", "secure_with: Cap over the post"),
    ("connectors", "connectors:\n  X1:\n    name: Studs of the inverter\n    pins:\n"
     "      1: {signal: HV+, circuit: traction}\n      2: {signal: HV−, circuit: traction}"),
)  # fmt: skip
WORDS = (
    ("TODO: say in two sentences how the vehicle is built and where its batteries lie.", "A van. Invented."),
    ("TODO: say what else it is not for", "Conversions"),
    (
        "TODO: say what stays live here when it is open; where nothing does, write leaves_live: none",
        "Both contacts of its socket",
    ),
    ("TODO: say where it is", "Left sill"),
    (
        "TODO: say what stays live here when it is open; where nothing does, write leaves_live: none",
        "The plug at the post",
    ),
    ("TODO: say where it is", "Left rear"),
    (
        "TODO: say what stays live here when it is open; where nothing does, write leaves_live: none",
        "The positive post",
    ),
    ("TODO: say where it is", "Under the seat"),
    (
        "TODO: say where it lies",
        "Under the floor\n  cover:\n    name: Cover\n    circuits: none\n    exposes: [traction]",
    ),
)


@pytest.mark.parametrize("circuit", sorted(VOLTS))
def test_bounds_of_highest_voltages(circuit: str) -> None:
    """No kind of system reaches into the next one: what is told apart by voltage stays apart."""
    lowest, most = VOLTS[circuit]
    assert 0 < lowest < most <= 1500
    assert (circuit == "traction") == (most > 60)
