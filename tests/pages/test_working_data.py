"""What the script of a page is told: every step of the page, where its exits lead, what its readings are held against."""

import json
import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from bayleaf.limits.instrument import sharpness
from bayleaf.manual import Manual
from bayleaf.model import actions
from bayleaf.pages.procedure_page import procedure_body
from bayleaf.pages.step_view import Performed
from bayleaf.pages.working_data import data_of, scripts
from bayleaf.quantities import unit
from demo_kit import demo
from kit import ISOLATION, PLACES, PROCEDURE, WORKSHOP, check

ROOT = Path(__file__).resolve().parents[2]
DEMO = demo()
PERFORMED = Performed(DEMO)
#: Policies of a workshop, and whether its pages ask for the number of the vehicle.
ALLOWED = {"": False, "policy: {allow_vin: no}\n": False, "policy: {allow_vin: yes}\n": True}

#: A job that performs the isolation, with a tightening, a question, a wait and a loop.
JOB = (
    PROCEDURE.partition("steps:")[0]
    + """\
steps:
  - id: look
    ask: Is the cover on?
    on: inverter-cover
    answers:
      - answer: yes, it is
        then: next
      - answer: no
        then: ended
  - id: isolate
    perform: test-van/isolate
  - id: read
    measure: Supply at the plug
    quantity: voltage
    between: [X210/3, X210/1]
    using: multimeter
    limits: 11.5 V to 14.8 V
    source: workshop practice
    repeat: at most 2
    outcomes: {below: read, above: stop, not_decided: read}
  - tighten: inverter-terminals
    tools: torque-screwdriver
conclusions:
  ended:
    finding: The cover is off.
    end: stop
    say: Put it on.
"""
)


def data(manual: Manual, name: str) -> dict[str, Any]:
    performed = Performed(manual)
    procedure = manual.procedures[name]
    return data_of(procedure, manual, performed, performed.told(procedure))


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    manual = check(tmp_path_factory.mktemp("working"), {"procedures/test-van/job.yml": JOB})
    return data(manual, "test-van/job")


def step(found: dict[str, Any], path: str) -> dict[str, Any]:
    return next(one for one in found["steps"] if one["path"] == path)


def leads(found: dict[str, Any], path: str) -> dict[str, list[str]]:
    return {one["name"]: one["to"] for one in step(found, path)["exits"]}


@pytest.mark.parametrize("name", DEMO.procedures)
def test_the_steps_are_those_of_the_page(name: str) -> None:
    """The same anchors in the same order, each exit one of the list that the page shows, every path once."""
    procedure = DEMO.procedures[name]
    html = procedure_body(procedure, DEMO, PERFORMED).html
    embedded = re.search(r'<script type="application/json" id="bl-working">(.*?)</script>', html)
    assert embedded is not None
    found = json.loads(embedded[1])
    sections = re.split(r'(?=<section class="bl-step )', html)[1:]
    anchors = [re.search(r'id="([^"]+)"', one)[1] for one in sections]  # type: ignore[index]
    shown = [re.sub(r'<ul class="bl-states.*?</ul>', "", one.split('class="bl-exits"')[1].split("</ul>\n")[0], flags=re.S).count("<li")
             if 'class="bl-exits"' in one else 0 for one in sections]  # fmt: skip

    assert anchors == [one["anchor"] for one in found["steps"]]
    assert len(anchors) == len({one["path"] for one in found["steps"]})
    assert shown == [len(one["exits"]) if count else 0 for one, count in zip(found["steps"], shown, strict=True)]
    places = [place["to"] for one in found["steps"] for place in one["exits"]]
    assert {place[1] for place in places if place[0] == "step"} <= set(anchors)


def test_exits_lead_through_what_is_performed(job: dict[str, Any]) -> None:
    """Into its first step, and from its end to the step behind it; a stop within it stops the job."""
    assert "step-isolate-1" == step(job, "isolate")["first"]
    assert ["step", "step-read"] == step(job, "isolate/8")["exits"][0]["to"]
    assert ["stop", "", "The traction system cannot be made dead.", ""] == leads(job, "isolate/8")["not_dead"]
    assert ["stop", "ended", "The cover is off."] == leads(job, "look")["no"]
    assert ["end", ""] == step(job, "4")["exits"][0]["to"]
    assert {"below": "step-read", "within": "step-4"} == {
        name: leads(job, "read")[name][1] for name in ("below", "within")
    }
    assert 2 == step(job, "read")["repeat"]


def test_a_reading_has_its_limits_ranges_and_units_exact(job: dict[str, Any]) -> None:
    """In the coherent unit, as fractions; the unit of the limit stands beside the field."""
    (reading,) = step(job, "read")["readings"]

    assert {"low": "23/2", "high": "74/5"} == reading["limit"]
    assert "11.5 V to 14.8 V" == reading["text"]
    assert [{"top": "60", "offset": "0", "percent": "1/2", "digits": "2", "resolution": "1/100"}] == reading["ranges"]
    assert (["X210/3", "X210/1"], "multimeter", "V") == (
        reading["between"], reading["instrument"], reading["unit"],
    )  # fmt: skip
    assert {"mV", "V", "kV"} == set(reading["ladder"])
    assert {"factor": "1/1000", "offset": "0"}.items() <= job["units"]["mV"].items()


def test_a_proof_is_read_at_every_pair_and_only_its_size_counts(job: dict[str, Any]) -> None:
    """At the test points of the profile where the step names none; reversed leads make nothing dead."""
    proof = step(job, "isolate/8")

    assert "traction" == proof["proves"]
    assert [["X1/1 cable", "X1/2 cable"], ["X1/1 cable", "chassis"], ["X1/2 cable", "chassis"]] == [
        one["between"] for one in proof["readings"]
    ]
    assert [True] * 3 == [one["sizeOnly"] for one in proof["readings"]]
    assert ["100", "1200"] == [one["top"] for one in proof["readings"][0]["ranges"]]


def test_waits_torques_and_proved_circuits(job: dict[str, Any]) -> None:
    """Seconds, what is set on the wrench, and where circuits are shown as proved dead."""
    assert "300" == step(job, "isolate/6")["wait"]
    (torque,) = step(job, "4")["torques"]
    assert "6 N·m" == torque["torque"]
    assert ["Set Torque screwdriver to 6\u00a0N·m"] == torque["set"]
    demo = data(DEMO, "larkway-m12/find-insulation-fault")
    assert ["traction"] == step(demo, "bus")["dead"]
    assert "dead" not in step(demo, "isolate/prove")


@pytest.mark.parametrize("name", ["isolate-traction", "make-air-springs-safe", "seal-auxiliary-inverter"])
def test_circuits_that_are_proved_dead_have_one_order(name: str) -> None:
    """Or two renderings of one manual would differ, and every device would fetch its pages anew."""
    found = [step.get("dead", []) for step in data(DEMO, f"granbrook-t8/{name}")["steps"]]
    assert found == [sorted(dead) for dead in found]
    assert any(len(dead) > 1 for dead in found)


@pytest.mark.parametrize("name", DEMO.procedures)
def test_units_and_limits_are_those_of_the_procedure(name: str) -> None:
    """Every unit by its exact factor; every limit that stands at a step of the procedure itself."""
    found = data(DEMO, name)

    for symbol, one in found["units"].items():
        assert (unit(symbol).factor, unit(symbol).offset) == (Fraction(one["factor"]), Fraction(one["offset"]))
        assert symbol.replace(" ", "") in one["spellings"]
    for one in DEMO.procedures[name].steps:
        limit = getattr(one.action, "limit", None)
        if isinstance(one.action, actions.Measure) and limit is not None:
            readings = step(found, one.id or one.number)["readings"]
            assert {(limit.low and str(limit.low.si), limit.high and str(limit.high.si))} == {
                (reading["limit"]["low"], reading["limit"]["high"])
                for reading in readings
                if not reading.get("residual")
            }


def test_the_ranges_give_the_error_that_the_page_shows() -> None:
    """The band at a limit, reckoned from the ranges of the data, is the one from the workshop file."""
    procedure = DEMO.procedures["larkway-m12/find-insulation-fault"]
    bus = next(one for one in procedure.steps if one.id == "bus").action
    (first, *_) = step(data(DEMO, procedure.id), "bus")["readings"]
    assert isinstance(bus, actions.Measure)
    assert bus.limit is not None
    ranges = tuple(
        one for one in DEMO.workshop.instruments["insulation-tester"].functions["insulation resistance"]
        if one.test_voltage is not None and one.test_voltage.si == 500
    )  # fmt: skip
    sharp = sharpness(bus.limit, ranges, DEMO.workshop.policy.guard_band)
    assert sharp is not None
    assert sharp.low is not None
    small = first["ranges"][0]
    error = Fraction(first["limit"]["low"]) * Fraction(small["percent"]) / 100 + Fraction(small["digits"]) * Fraction(
        small["resolution"]
    )

    assert sharp.low.error == error


def test_the_page_asks_for_the_vehicles_number_only_where_the_policy_allows_it(tmp_path: Path) -> None:
    """A workshop that says nothing of it has not allowed it."""
    said = {policy: check(tmp_path, {PLACES["workshop"]: WORKSHOP + policy}) for policy in ALLOWED}

    assert ALLOWED == {policy: data(manual, "test-van/isolate")["vin"] for policy, manual in said.items()}


def test_no_text_can_end_the_script(tmp_path: Path) -> None:
    """A title that holds an end tag stays text."""
    text = JOB.replace("Test job", '"Test </script><b>job"')
    manual = check(tmp_path, {"procedures/test-van/job.yml": text, "procedures/test-van/isolate.yml": ISOLATION})
    html = procedure_body(manual.procedures["test-van/job"], manual, Performed(manual)).html
    embedded = html.split('id="bl-working">')[1].split("</script>")[0]

    assert "Test </script><b>job" == json.loads(embedded)["title"]


def test_every_script_lies_in_the_theme() -> None:
    """And each is short."""
    assets = ROOT / "site_theme" / "assets"

    assert scripts()
    for script in scripts():
        lines = (assets.parent / script.url).read_text(encoding="utf-8").splitlines()
        assert len(lines) < 300, script.url


def test_a_discharge_is_read_by_its_size_unless_its_limit_reaches_below_zero() -> None:
    """A rest of −0.7 V is below −0.5 V to 0.5 V: it tells of leads the wrong way round."""
    by_sign = step(data(DEMO, "thistledown-v4/starter-generator-no-output"), "rest-charge")["readings"]
    by_size = step(data(DEMO, "thistledown-v4/inspect-48v-yearly"), "rest-out")["readings"]

    assert [("-1/2", None)] == [(one["limit"]["low"], one.get("sizeOnly")) for one in by_sign]
    assert [(None, True)] == [(one["limit"]["low"], one.get("sizeOnly")) for one in by_size]


def test_behind_each_test_stands_what_it_has_left() -> None:
    """Where a step says `discharged`, the residual voltage is read at the same contacts, by its size, in its own limit."""
    readings = step(data(DEMO, "larkway-m12/find-insulation-fault"), "bus")["readings"]

    assert [False, True, False, True] == [one.get("residual", False) for one in readings]
    for test, left in zip(readings[::2], readings[1::2], strict=True):
        assert (test["between"], "V", {"low": None, "high": "5"}) == (left["between"], left["unit"], left["limit"])
        assert left["sizeOnly"]
        assert ["100", "1000"] == [one["top"] for one in left["ranges"]], "a direct voltage on the tester itself"
