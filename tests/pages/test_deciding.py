"""What the page of a measurement shows of its limit: the gauge, the computation, the error."""

import re
from dataclasses import replace
from itertools import product

import pytest
from bayleaf.model import actions
from bayleaf.pages.all import all_pages
from bayleaf.pages.deciding import gauge
from bayleaf.pages.drawings.limit_gauge import GaugeEnd, limit_gauge
from bayleaf.pages.naming import Naming
from bayleaf.pages.working_readings import readings_of
from demo_kit import demo, demo_bodies
from drawing_kit import faults_of, texts
from kit import MKDOCS, PLACES, WORKSHOP, check, completed
from kit import PROCEDURE as BASE

ENDS = (
    GaugeEnd("11.5 V", "11.59 V"), GaugeEnd("205 kΩ", None), GaugeEnd("−40.0 °C", "−38.75 °C"), GaugeEnd("0 V", "0.02 V"),
    GaugeEnd("1.074 MΩ", "1.0862 MΩ"), GaugeEnd("14.5 lbf·ft", None),
)  # fmt: skip


@pytest.mark.parametrize(("low", "high"), [*product((None, *ENDS), (None, *ENDS))][1:])
def test_nothing_overlaps_in_a_gauge(low: GaugeEnd | None, high: GaugeEnd | None) -> None:
    """Whatever the figures, on a phone. The mark of a limit stands on its zone, and nowhere else."""
    on_purpose = {"line through bad", "line through close", "line through good"}
    assert set() == set(faults_of(limit_gauge(low, high))) - on_purpose


def test_a_gauge_says_in_words_what_it_draws() -> None:
    """Zones by words, limits and first good figures beside their lines."""
    drawing = limit_gauge(GaugeEnd("11.5 V", "11.59 V"), GaugeEnd("14.8 V", "14.69 V"))

    assert "too low too high" == texts(drawing, "bad")
    assert "close close" == texts(drawing, "close")
    assert "good" == texts(drawing, "good")
    assert "11.5 V 14.8 V" == texts(drawing, "limit")
    assert "11.59 V 14.69 V" == texts(drawing, "accepts")


def test_without_an_instrument_nothing_is_too_close() -> None:
    """Two zones, one limit."""
    drawing = limit_gauge(None, GaugeEnd("50 mV", None))

    assert {"good", "bad"} == {box.of for box in drawing.boxes}


def page(tmp_path, steps: str, workshop: str = WORKSHOP) -> str:
    """The page of a procedure with these steps."""
    files: dict[str, str | bytes] = {
        "mkdocs.yml": MKDOCS, PLACES["procedure"]: completed(f"steps:\n{steps}", BASE), PLACES["workshop"]: workshop,
    }  # fmt: skip
    manual = check(tmp_path, files)
    assert [] == [one.message for one in manual.findings]
    return next(one.make().html for one in all_pages(manual) if one.url == "test-van/job.html")


def rows(html: str) -> dict[str, str]:
    """The rows of all steps by their label, as text."""
    found = re.findall(r"<dt>(.*?)</dt><dd>(.*?)</dd>", html)
    return {label: re.sub("<[^>]*>", "", text).replace("\u00a0", " ") for label, text in found}


DROP = """\
  - set: {mode: ignition}
  - measure: Supply of the heater control
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
"""


def test_limit_error_and_gauge_stand_on_the_page(tmp_path) -> None:
    """0.5 % + 2 digits of 10 mV: ±78 mV at 11.5 V, ±94 mV at 14.8 V; U = 2a/√3 leaves a ratio of 15."""
    html = page(tmp_path, DROP + "    limits: 11.5 V to 14.8 V\n    source: workshop practice\n")

    assert (
        "±78 mV at 11.5 V, ±94 mV at 14.8 V; the limits are 15 times as wide as the uncertainty" == rows(html)["Error"]
    )
    assert 'aria-label="Gauge of the limit: at least 11.5\u00a0V, surely good from 11.58\u00a0V' in html


def test_a_guard_band_moves_the_first_good_figure(tmp_path) -> None:
    """r = 1: 1.155 times the error, 89.5 mV, rounded inward to the last place of the display."""
    html = page(
        tmp_path,
        DROP + "    limits: 11.5 V to 14.8 V\n    source: workshop practice\n",
        WORKSHOP + "policy: {guard_band: 1.0}\n",
    )
    assert "surely good from 11.59\u00a0V" in html


def test_the_computation_and_its_source_stand_beside_the_rule(tmp_path) -> None:
    """With a link to the page that explains the rule."""
    html = page(tmp_path, DROP + "    limits: {rule: supply range, code: C}\n")

    assert "supply range: 12 V, code C: 9 V to 16 V (ISO 16750-2:2012, table 1, from memory)" == rows(html)["By rule"]
    assert 'href="../limit-rules.html#supply-range"' in html


def section(url: str, step: str) -> str:
    """A step on a page of the demo."""
    return demo_bodies()[url].html.partition(f'id="step-{step}"')[2].partition("</section>")[0]


@pytest.mark.parametrize(
    ("url", "step", "drawn", "error"),
    [
        # 2 % + 3 digits of 0.1 V at 5 V are 0.4 V; 1.155 of it is kept, rounded inward to the last place.
        ("larkway-m12/isolate-traction.html", "prove", "at most 5 V, surely good up to 4.5 V", "±400 mV at 5 V"),
        (
            "granbrook-t8/auxiliary-link-keeps-charge.html", "let-out", "at most 5 V, surely good up to 4.5 V", "±400 mV at 5 V",
        ),
        # 0.5 % + 2 digits of 0.1 mV, rounded up. The verdict on what is safe takes the reading as it stands, so no band is drawn.
        (
            "granbrook-t8/renew-plate-seals.html", "no-pressure", "at least 0.45 V; at most 0.54 V",
            "±2.5 mV at 0.45 V, ±2.9 mV at 0.54 V; not counted in the verdict",
        ),
    ],
)  # fmt: skip
def test_a_proof_shows_its_limit_and_what_its_instrument_may_be_wrong_by(
    url: str, step: str, drawn: str, error: str
) -> None:
    """As a measurement does; the figures by hand from the accuracies in the workshop file."""
    html = section(url, step).replace("\u00a0", " ")

    assert f'aria-label="Gauge of the limit: {drawn}"' in html
    assert error == rows(html)["Error"]


def test_the_band_of_a_gauge_is_that_of_the_verdict() -> None:
    """Wherever a gauge is drawn: it has a zone that is too close to call just where page and record reckon with an error."""
    manual, seen = demo(), set()
    for procedure in manual.procedures.values():
        naming = Naming(manual.vehicles[procedure.folder], manual.workshop)
        for step in procedure.steps:
            drawn = str(gauge(step, procedure, naming))
            judged = [one for one in readings_of(step, procedure, naming) if "limit" in one and not one.get("residual")]
            if drawn:
                counts = bool(judged[0]["ranges"]) or "band" in judged[0]
                assert counts == ("surely good" in drawn), (procedure.id, step.number)
                seen.add((step.action.key, counts))
            else:
                assert not judged or len(judged) > 1, (procedure.id, step.number)

    proofs = {("prove_dead", True), ("discharge", True), ("prove_safe", False)}
    assert proofs | {("measure", True), ("read", False), ("compute", True)} <= seen


def test_a_proof_without_limits_of_its_own_is_held_against_those_of_policy_and_profile() -> None:
    """What the workshop calls dead; what the profile calls safe, where that is one figure."""
    manual = demo()
    procedure = manual.procedures["larkway-m12/isolate-traction"]
    step = next(one for one in procedure.steps if one.id == "prove")

    def drawn(action: actions.Action, vehicle: str) -> str:
        naming = Naming(manual.vehicles[vehicle], manual.workshop)
        return str(gauge(replace(step, action=action), procedure, naming)).replace("\u00a0", " ")

    dead = actions.ProveDead("traction", (), "voltage-tester", None, None, None, None, None)
    assert "at most 5 V, surely good up to 4.5 V" in drawn(dead, "larkway-m12")
    assert "at most 0.1 bar" in drawn(actions.ProveSafe("refrigerant", "station-gauge", None), "larkway-m12")
    assert "" == drawn(actions.ProveSafe("right-plate", "multimeter", None), "granbrook-t8")


@pytest.mark.parametrize(
    ("page", "step", "expected"),
    [
        ("larkway-m12/isolate-traction", "prove", ["Reading 1", "Reading 2", "Reading 3"]),
        (
            "larkway-m12/find-insulation-fault", "bus",
            ["Reading 1", "Left after the test", "Reading 2", "Left after the test"],
        ),
        ("granbrook-t8/renew-plate-seals", "no-pressure", ["Reading"]),
        ("granbrook-t8/renew-plate-seals", "seats", ["Answer"]),
        ("granbrook-t8/renew-plate-seals", "drain-open", []),
    ],
)  # fmt: skip
def test_on_paper_there_is_a_line_for_each_reading(page: str, step: str, expected: list[str]) -> None:
    """A proof at the three pairs of the profile has three; what a test has left is written down too."""
    paper = section(f"{page}.html", step).partition('class="job-paper"')[2]

    assert expected == [one for one in re.findall(r"<span>([^<]+) <span", paper) if one != "At"]
    assert (not expected) == ("<b></b> Done" in paper)


def test_a_tightening_step_says_how_hard_it_clamps(tmp_path) -> None:
    """Preload between the highest and lowest friction, the share of yield, the wrench and its accuracy."""
    html = page(tmp_path, "  - tighten: heater-bracket\n    tools: torque-wrench-small\n")

    assert "Small torque wrench: 20 N·m, accurate to ±4 %" == rows(html)["Set"]
    assert "Clamps" not in rows(html), "the friction is not stated"
