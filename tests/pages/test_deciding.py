"""What the page of a measurement shows of its limit: the gauge, the computation, the error."""

import re
from itertools import product

import pytest
from bayleaf.pages.all import all_pages
from bayleaf.pages.drawings.limit_gauge import GaugeEnd, limit_gauge
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


def test_a_tightening_step_says_how_hard_it_clamps(tmp_path) -> None:
    """Preload between the highest and lowest friction, the share of yield, the wrench and its accuracy."""
    html = page(tmp_path, "  - tighten: heater-bracket\n    tools: torque-wrench-small\n")

    assert "Small torque wrench: 20 N·m, accurate to ±4 %" == rows(html)["Set"]
    assert "Clamps" not in rows(html), "the friction is not stated"
