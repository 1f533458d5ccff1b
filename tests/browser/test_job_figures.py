"""Figures that are typed, entered, computed, corrected and taken back on a page that is worked with."""

from typing import Any

from job_kit import PAGE, SHORT, begin, enter, exported, finish, loaded, opened, place, section, tick

SENSOR = "larkway-m12/inlet-sensor-implausible.html"
WHEEL = "larkway-m12/change-wheel.html"


def field(tab: Any, anchor: str) -> Any:
    """The first reading of a step."""
    return section(tab, anchor).locator(".job-reading").first


def words(tab: Any, anchor: str) -> list[str]:
    """What stands behind each exit of a step."""
    return section(tab, anchor).locator(".job-bar-word").all_text_contents()


# ---- a value that is computed --------------------------------------------------------------------------


def test_a_computed_value_is_not_taken_where_the_readings_give_another(context: Any, folder: str) -> None:
    """The words name the computed value and the button that takes it; rounded within its last digit it is taken."""
    tab = opened(context, folder + SENSOR)
    begin(tab, "2026-0900")
    finish(tab, {"cold": ["1080.0 Ω"], "warm": ["1132.4 Ω"]}, until="rise")
    rise = field(tab, "step-rise")
    enter(tab, "step-rise", "90")

    said = rise.locator(".job-verdict").text_content()
    assert said.startswith("The readings give 52.4 Ω, not 90 Ω. Press “Take 52.4 Ω, computed from the readings”")
    assert "rise" == (place(tab) or {})["path"]
    assert {"✕ barred"} == set(words(tab, "step-rise"))
    enter(tab, "step-rise", "OL")
    assert "rise" == (place(tab) or {})["path"]

    rise.get_by_role("button", name="Take 52.4 Ω").click()
    assert "52.4" == rise.locator("input").input_value()
    enter(tab, "step-rise", "52")
    assert "wires-off" == (place(tab) or {})["path"]
    assert ["52 Ω"] == [str(one.reading) for one in loaded(exported(tab)).entries if one.step == ("rise",)]


def test_a_computed_value_that_fits_no_longer_is_not_decided(context: Any, folder: str) -> None:
    """After a reading that it rests on was corrected: the step says so, shows the new one, and bars its exits."""
    tab = opened(context, folder + SENSOR)
    begin(tab, "2026-0901")
    finish(tab, {"cold": ["1080 Ω"], "warm": ["1132 Ω"]}, until="rise")
    enter(tab, "step-rise", "52")
    rise = section(tab, "step-rise")
    assert "➜ this way" in words(tab, "step-rise")
    enter(tab, "step-warm", "1170 Ω")

    assert "52 Ω no longer fits the readings: they give 90 Ω now" == rise.locator(".job-verdict").text_content()
    assert rise.locator(".job-entered").text_content().startswith("Entered before: 52 Ω (Within limits), at")
    assert {"✕ barred"} == set(words(tab, "step-rise"))
    assert "job-complete" not in (rise.get_attribute("class") or "")
    assert not rise.get_by_role("link", name="Go on").is_visible()
    assert 0 == rise.locator(".job-mark").count()

    rise.get_by_role("button", name="Take 90 Ω").click()
    rise.get_by_role("button", name="Enter").click()
    assert "➜ this way" in words(tab, "step-rise")


# ---- a figure that is not entered ----------------------------------------------------------------------


def test_a_new_figure_at_a_complete_step_stands_beside_no_old_verdict(context: Any, folder: str) -> None:
    """Until it is entered or taken back no exit follows, and what was entered is told as what it is."""
    tab = opened(context, folder + SENSOR)
    begin(tab, "2026-0902")
    finish(tab, {}, until="ambient")
    enter(tab, "step-ambient", "20")
    ambient, reading = section(tab, "step-ambient"), field(tab, "step-ambient")
    onward, entered = ambient.get_by_role("link", name="Go on"), reading.locator(".job-entered")
    assert "➜ this way" == words(tab, "step-ambient")[0]
    good = ambient.locator(".job-mark").get_attribute("d")
    reading.locator("input").fill("90")

    assert {"✕ barred"} == set(words(tab, "step-ambient"))
    assert "Too high" in reading.locator(".job-verdict").text_content()
    assert entered.text_content().startswith("Entered before: 20 °C (Within limits), at")
    assert not onward.is_visible()
    assert good != ambient.locator(".job-mark").get_attribute("d")
    tab.evaluate("bayleafJob.desk.refresh()")
    assert {"✕ barred"} == set(words(tab, "step-ambient"))

    reading.locator("input").fill("")
    assert "➜ this way" == words(tab, "step-ambient")[0]
    assert entered.text_content().startswith("Entered at")
    assert onward.is_visible()
    assert good == ambient.locator(".job-mark").get_attribute("d")


#: What is typed, and what it is behind the button for the sign.
TURNED = [("+5", "-5"), ("5", "-5"), ("-5", "5"), ("−5", "5"), ("OL", "OL"), ("", "-"), ("-", "")]


def test_the_sign_button_turns_a_sign_and_nothing_else(context: Any, folder: str) -> None:
    """A plus becomes a minus; what a display shows instead of a figure has no sign; a minus alone is not judged yet."""
    tab = opened(context, folder + SHORT)
    begin(tab, "2026-0904")
    proof = field(tab, "step-prove")
    found = []
    for typed, _ in TURNED:
        proof.locator("input").fill(typed)
        proof.get_by_role("button", name="Change the sign").click()
        turned, told = proof.locator("input").input_value(), proof.locator(".job-verdict").text_content()
        assert "not a number" not in told
        assert (turned in ("", "-")) == (told == "")
        found.append((typed, turned))

    assert found == TURNED


# ---- taken back, opened, tapped twice ------------------------------------------------------------------


def test_a_torque_is_taken_back(context: Any, folder: str) -> None:
    """By a second tap, as a tick is: the record says of the step that it is not done, and keeps both."""
    tab = opened(context, folder + WHEEL)
    begin(tab, "2026-0905")
    step = next(one for one in tab.evaluate("bayleafJob.desk.data.steps") if one.get("torques"))
    finish(tab, {}, until=step["path"])
    torque = section(tab, step["anchor"]).locator(".job-torque button").first
    torque.click()
    assert "true" == torque.get_attribute("aria-pressed")
    torque.click()
    assert "true" == torque.get_attribute("aria-pressed")  # at once: the glove has bounced
    tab.clock.fast_forward(2000)
    torque.click()

    assert "false" == torque.get_attribute("aria-pressed")
    assert step["path"] == (place(tab) or {})["path"]
    last = loaded(exported(tab)).entries[-2:]
    assert [None, False] == [one.done for one in last]
    assert last[0].torque is not None


def test_an_exit_that_was_opened_does_not_look_measured(context: Any, folder: str) -> None:
    """It says that it was opened with a reason, and shows no state that the plan expects behind it."""
    tab = opened(context, folder + PAGE)
    begin(tab, "2026-0906")
    finish(tab, {}, until="bus")
    row = section(tab, "step-bus").locator(".bl-exits > li").first
    row.get_by_role("button", name="Open all the same").click()
    tab.get_by_label("Reason").fill("The lead was damp")
    tab.get_by_role("button", name="Open this exit").click()

    assert "opened with a reason, not measured" == row.locator(".job-bar-word").text_content()
    assert "job-follows" not in (row.get_attribute("class") or "")
    assert not row.locator(".bl-dead").is_visible()


def test_a_second_tap_at_once_counts_as_one(context: Any, folder: str) -> None:
    """Within 700 ms a tick is not taken back; after that it is."""
    tab = opened(context, folder + SHORT)
    begin(tab, "2026-0907")
    tab.clock.pause_at("2030-01-01")
    tick(tab, "step-zone")
    tab.clock.run_for(650)
    tick(tab, "step-zone")
    assert [True] == tab.evaluate("bayleafJob.desk.job.entries.map((one) => one.done)")
    tab.clock.run_for(700)
    tick(tab, "step-zone")

    assert [True, False] == tab.evaluate("bayleafJob.desk.job.entries.map((one) => one.done)")
