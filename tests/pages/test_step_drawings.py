"""The drawings on the page of a procedure: where each stands, and what it says."""

import re
from pathlib import Path

from bayleaf.pages.all import all_pages
from kit import ISOLATION, MKDOCS, PLACES, PROCEDURE, VEHICLE, check, completed

STEPS = """\
steps:
  - id: supply
    set: {mode: ignition}
  - id: control
    measure: Supply of the heater control
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
    limits: 11.5 V to 14.8 V
    source: workshop practice
    outcomes: {below: fuse, above: charger, not_decided: supply}
  - do: Write the reading down.
    on: nothing
conclusions:
  fuse: {finding: The fuse is blown, say: Fit a new one}
  charger: {finding: The charger is set too high, say: Read its codes, end: stop}
"""
FACE = "  X210:\n    face: {rows: [[1, 3], [5]], seen_from: Wire side of the plug}\n"
BRACKET = "{part: cabin-heater, size: M8 × 1.25, class: 8.8, count: 4, torque: 20 N·m"


def page(folder: Path, steps: str, vehicle: str = VEHICLE, url: str = "test-van/job.html") -> str:
    """A page of a small manual."""
    files: dict[str, str | bytes] = {
        "mkdocs.yml": MKDOCS, PLACES["procedure"]: completed(steps, PROCEDURE), PLACES["vehicle"]: vehicle,
    }  # fmt: skip
    manual = check(folder, files)
    return next(one.make().html for one in all_pages(manual) if one.url == url)


def labels(html: str) -> list[str]:
    """The text alternatives of the drawings in steps."""
    found = re.findall(r'<figure class="bl-drawing".*?aria-label="([^"]*)"', html)
    return [one.replace("\u00a0", " ") for one in found]


def test_a_measuring_step_shows_its_connector(tmp_path: Path) -> None:
    """With the pins in their rows, what each is, and the number of the pair in the list as well."""
    html = page(tmp_path, STEPS, VEHICLE.replace("  X210:\n", FACE))

    (label,) = labels(html)
    assert label.startswith(
        "Probe points at X210 Heater control plug: Probed at: both halves, mated. Seen from: wire side"
    )
    assert (
        "probe point 1: pin 3: switched supply, 12 V supply. probe point 1: pin 1: ground, brown, 12 V supply" in label
    )
    assert label.endswith("Rows of pins: 1 3; 5")
    assert '<li><span class="bl-callout">1</span> between ' in html


def test_a_proof_shows_the_test_points_of_its_circuit(tmp_path: Path) -> None:
    """Three pairs at one connector, numbered as in the row of test points."""
    html = page(tmp_path, STEPS, url="test-van/isolate.html")

    proof = next(one for one in labels(html) if "X1 Inverter DC inlet" in one)
    assert "probe points 1, 2: pin 1: HV+" in proof and "probe points 2, 3: chassis" in proof
    assert ["1", "2", "3"] == re.findall('<span class="bl-callout">(.)</span>', html)
    assert "prove_dead" in ISOLATION and "between" not in ISOLATION


def test_a_wait_shows_how_the_voltage_falls(tmp_path: Path) -> None:
    """With the time waited among the marks: 125 s to 60 V and 287 s to 5 V, from 1.1 mF + 20 %, 47 kΩ + 5 %, 410 V."""
    curve = next(one for one in labels(page(tmp_path, STEPS, url="test-van/isolate.html")) if "Discharge" in one)

    assert "Discharge of Traction DC bus: 125 s: 60 V at worst; 287 s: 5 V at worst; 5 min: waited here" == curve


def test_a_wait_for_words_or_for_what_stores_nothing_shows_none(tmp_path: Path) -> None:
    """It has no curve."""
    steps = (
        "steps:\n  - wait: 5 min\n    for: the control units to fall asleep\n  - wait: 1 min\n    for: [supply-12]\n"
    )
    assert [] == labels(page(tmp_path, steps))


def test_a_tightening_step_shows_the_order_of_its_bolts(tmp_path: Path) -> None:
    """Instead of the list of places, which has other numbers than the turns that stand in the bolts."""
    vehicle = VEHICLE.replace(BRACKET, f"{BRACKET}, order: crosswise, passes: 2")
    html = page(tmp_path, "steps:\n  - tighten: heater-bracket\n", vehicle)

    (label,) = labels(html)
    assert label.startswith("Order of tightening: heater bracket: 4 bolts; their turns, clockwise: 1, 3, 2, 4.")
    assert "In 2 passes, each in this order, the last with 20 N·m." in label
    assert "<dt>Order</dt>" not in html
    assert [] == labels(page(tmp_path / "plain", "steps:\n  - tighten: heater-bracket\n"))


def test_a_procedure_that_branches_shows_its_flow(tmp_path: Path) -> None:
    """Once, before what is needed and before the steps; every link leads to an anchor of the page."""
    html = page(tmp_path, STEPS)

    assert 1 == html.count('class="bl-flow-picture"')
    assert html.index("bl-flow-picture") < html.index('id="steps"')
    flow = re.search(r'<div class="bl-flow-picture">.*?</div>', html, re.DOTALL)
    assert flow is not None
    targets = re.findall(r'href="#([^"]+)"', flow[0])
    assert {"step-supply", "step-control", "step-3", "conclusion-fuse", "conclusion-charger"} == set(targets)
    assert set() == set(targets) - set(re.findall(r'\sid="([^"]+)"', html))
    assert (
        "Step 2: Below: end: The fuse is blown; Above: stop: The charger is set too high; Not decided: step 1; "
        "Within limits: next step." in flow[0].replace("\u00a0", " ")
    )


def test_a_straight_procedure_shows_none(tmp_path: Path) -> None:
    """Every step is followed by the next; that a reading may stop the job is no branch."""
    assert "bl-flow" not in page(tmp_path, "steps:\n  - do: Look.\n    on: nothing\n  - do: Listen.\n    on: nothing\n")
