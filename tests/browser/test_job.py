"""A procedure's page is worked with in a real browser, on a phone: over http and from a folder."""

from pathlib import Path
from typing import Any

from job_kit import (
    PAGE,
    ROOT,
    SHORT,
    begin,
    enter,
    exported,
    finish,
    loaded,
    lost,
    opened,
    place,
    section,
    tapped,
    tick,
)

#: The bus leaks, and it is the heater; after the repair the bus is good.
LEAKING_HEATER = {"bus": ["0.3", "6"], "heater": ["0.2"]}


def test_a_whole_job_from_the_first_tick_to_the_record(context: Any, base: str) -> None:
    """Round the loop and to an end; the record is read by the checker, and taken up again as the same job."""
    tab = opened(context, base + PAGE)
    begin(tab, "2026-0421")
    done = tapped(tab, {}, until="isolate/tag") if base.startswith("http") else []
    done += finish(tab, {key: list(values) for key, values in LEAKING_HEATER.items()})
    text = exported(tab)
    record = loaded(text)

    assert 2 == done.count("bus")
    assert {"isolate/prove", "dead-again", "heater"} <= set(done)
    assert "isolate/timer-series-1" not in done
    assert ("2026-0421", "larkway-m12/find-insulation-fault", 3, "series-2") == (
        record.job, record.procedure, record.revision, record.variant,
    )  # fmt: skip
    verdicts = [entry.verdict for entry in record.entries if entry.step == ("bus",)]
    assert ["below", "within", "below", "within", *["within"] * 4] == verdicts
    proofs = [entry for entry in record.entries if entry.step == ("isolate", "prove")]
    assert [("dead", "at most 5 V", "voltage-tester")] * 3 == [
        (one.verdict, str(one.limits), one.instrument) for one in proofs
    ]
    assert [entry.time for entry in record.entries] == sorted(entry.time or "" for entry in record.entries)

    tab.get_by_role("button", name="Take it out of this browser").click()
    tab.get_by_role("button", name="Take it out", exact=True).click()
    tab.locator("input[type=file]").set_input_files(
        {"name": "2026-0421.yml", "mimeType": "text/yaml", "buffer": text.encode()}
    )
    tab.locator(".job-stand", has_text="Job 2026-0421").wait_for()
    assert text == exported(tab)


def test_a_job_is_picked_up_after_a_reload(context: Any, base: str) -> None:
    """What was ticked and typed is there; the wait has gone on; what was proved dead is not proved any more."""
    tab = opened(context, base + SHORT)
    begin(tab, "2026-0500")
    finish(tab, {}, until="settle")
    section(tab, "step-settle").get_by_role("button", name="Start the wait").click()
    tab.clock.fast_forward(100_000)
    tab.reload()
    clock = section(tab, "step-settle").locator(".job-clock")
    assert clock.text_content().startswith("3:")

    tab.clock.fast_forward(300_000)
    assert "The time is over" == clock.text_content()
    tick(tab, "step-settle")
    finish(tab, {}, until="prove")
    enter(tab, "step-prove", "0,4 V", "0.2", "200 mV")
    dead = section(tab, "step-tag").locator(".bl-dead").first
    assert dead.is_visible()
    assert "" == lost(tab)

    section(tab, "step-prove").locator("input").first.fill("0,")
    tab.reload()
    assert not dead.is_visible()
    assert "not proved" in section(tab, "step-tag").text_content()
    assert lost(tab).startswith("Not proved: Traction DC bus. Touch nothing of it until it is proved again: step 14")
    assert "0," == section(tab, "step-prove").locator("input").first.input_value()

    enter(tab, "step-prove", "0.3", "0.3", "0.3")
    assert dead.is_visible()
    assert "" == lost(tab)
    assert "tag" == (place(tab) or {})["path"]


def test_after_a_hand_over_nothing_is_proved(context: Any, folder: str) -> None:
    """The button asks why, notes it, and takes the proof away."""
    tab = opened(context, folder + SHORT)
    begin(tab, "2026-0501")
    finish(tab, {}, until="tag")
    tab.get_by_role("button", name="Break or hand-over").click()
    tab.get_by_role("button", name="Hand-over", exact=True).click()

    assert "Not proved: Traction DC bus" in lost(tab)
    assert "job-complete" not in (section(tab, "step-prove").get_attribute("class") or "")
    assert "tag" == (place(tab) or {})["path"]
    assert "hand-over" == loaded(exported(tab)).entries[-1].paused


def test_a_proof_grows_old_while_nothing_is_entered(context: Any, folder: str) -> None:
    """How old it is stands above the steps and where the work is; when its hour is over the circuit is not proved any more."""
    tab = opened(context, folder + SHORT)
    begin(tab, "2026-0502")
    finish(tab, {}, until="tag")
    since = tab.evaluate("[...bayleafJob.desk.way.ages.times.values()][0].slice(11)")
    here, dead = section(tab, "step-tag").locator(".job-age"), section(tab, "step-tag").locator(".bl-dead").first
    assert f"Traction DC bus: proved dead at {since}. Holds until" in here.text_content()
    assert here.text_content() == tab.locator(".job-panel .job-age").inner_text()

    tab.clock.fast_forward(52 * 60_000)
    assert f"the proof of {since} is too old in" in here.text_content()
    assert dead.is_visible()
    assert "" == lost(tab)

    tab.clock.fast_forward(8 * 60_000)
    assert 0 == here.count()
    assert not dead.is_visible()
    assert lost(tab).startswith(f"Traction DC bus: the proof of {since} is too old. Not proved: Traction DC bus.")
    assert "job-complete" not in (section(tab, "step-prove").get_attribute("class") or "")

    enter(tab, "step-prove", "0.3", "0.3", "0.3")
    assert dead.is_visible()
    assert "" == lost(tab)


def test_the_browser_is_asked_to_keep_the_job_and_the_screen(context: Any, folder: str) -> None:
    """Storage that is not swept when a job begins; a screen that stays on for a wait, again after the page was hidden."""
    context.add_init_script("""
        globalThis.asked = [];
        const lock = () => Object.assign(new EventTarget(), { release: async () => asked.push("rest") });
        Object.defineProperty(navigator, "storage", { value: { persist: async () => asked.push("keep") } });
        Object.defineProperty(navigator, "wakeLock", { value: { request: async (kind) => (asked.push(kind), (globalThis.last = lock())) } });
    """)
    tab = opened(context, folder + SHORT)
    assert [] == tab.evaluate("asked")
    begin(tab, "2026-0504")
    assert ["keep"] == tab.evaluate("asked")
    finish(tab, {}, until="settle")
    section(tab, "step-settle").get_by_role("button", name="Start the wait").click()
    assert ["keep", "screen"] == tab.evaluate("asked.filter((one) => one !== 'rest')")

    tab.evaluate("last.dispatchEvent(new Event('release')); document.dispatchEvent(new Event('visibilitychange'))")
    assert "screen" == tab.evaluate("asked.at(-1)")
    assert 2 == tab.evaluate("asked.filter((one) => one === 'screen').length")


def test_what_is_typed_stays_when_a_proof_grows_old(context: Any, folder: str) -> None:
    """The reading in hand is not taken out of the field."""
    tab = opened(context, folder + PAGE)
    begin(tab, "2026-0503")
    finish(tab, {}, until="bus")
    field = section(tab, "step-bus").locator(".job-reading input").first
    field.fill("3.")
    tab.clock.fast_forward(70 * 60_000)

    assert "is too old. Not proved" in lost(tab)
    assert "3." == field.input_value()


def test_two_jobs_stand_side_by_side(context: Any, folder: str) -> None:
    """Each keeps its own ticks; the page lists both, and a number is given only once."""
    tab = opened(context, folder + SHORT)
    begin(tab, "2026-0600")
    finish(tab, {}, until="off")
    tab.get_by_role("button", name="Other jobs").click()
    begin(tab, "2026-0601", "series-1")
    finish(tab, {}, until="condition")
    tab.get_by_role("button", name="Other jobs").click()

    listed = tab.locator(".job-list li").all_text_contents()
    assert ["Go on with 2026-0600", "Go on with 2026-0601"] == [one.strip()[:20] for one in listed]
    begin(tab, "2026-0601")
    assert "is begun already" in tab.locator(".job-begin .job-problem").inner_text()
    tab.get_by_role("button", name="Go on with 2026-0600").click()
    assert "off" == (place(tab) or {})["path"]
    tab.reload()
    assert "Job 2026-0600" in tab.locator(".job-stand").inner_text()


def test_a_barred_exit_is_opened_with_a_reason(context: Any, folder: str) -> None:
    """The exit that follows is shown, the others are barred; one that is opened all the same says so in the record."""
    tab = opened(context, folder + PAGE)
    begin(tab, "2026-0700")
    finish(tab, {}, until="bus")
    rows = section(tab, "step-bus").locator(".bl-exits > li")
    assert ["✕ barred"] * 4 == rows.locator(".job-bar-word").all_text_contents()

    enter(tab, "step-bus", "0.3", "1", "4", "1")
    assert [False, True, False, False] == [
        "job-follows" in (rows.nth(at).get_attribute("class") or "") for at in range(4)
    ]
    rows.nth(0).locator("a").first.click()
    assert "dead-again" == (place(tab) or {})["path"]
    tab.get_by_role("button", name="Open this exit").click()
    assert "Write a reason first." == rows.nth(0).locator(".job-problem").text_content()
    tab.get_by_label("Reason").fill('Lead was damp: "read again", 6 MΩ # dry')
    tab.get_by_role("button", name="Open this exit").click()

    entry = loaded(exported(tab)).entries[-1]
    assert ("within", 'Lead was damp: "read again", 6 MΩ # dry') == (entry.exit, entry.reason)
    assert "Not proved" in lost(tab)
    assert "bring-back/dead-still" == (place(tab) or {})["path"]


def test_what_a_test_has_charged_is_read_before_the_work_goes_on(context: Any, folder: str) -> None:
    """The residual voltage decides no exit, but without one within its limit there is none; its sign does not count."""
    tab = opened(context, folder + PAGE)
    begin(tab, "2026-0702")
    finish(tab, {}, until="bus")
    enter(tab, "step-bus", "4", "-12", "4")
    assert "bus" == (place(tab) or {})["path"]
    left = section(tab, "step-bus").locator(".job-reading").nth(1)
    assert "left after the test" in left.locator("label").text_content()
    assert "Still charged by the test: touch nothing" in left.locator(".job-verdict").text_content()

    left.locator("input").fill("4.8")  # 1 % + 3 digits of 0.1 V of the tester may hide more than 5 V
    assert "Too close" in left.locator(".job-verdict").text_content()
    assert "Still charged by the test: touch nothing" in left.locator(".job-verdict").text_content()

    left.locator("input").fill("-1.5")
    left.get_by_role("button", name="Enter").click()
    assert "bus" == (place(tab) or {})["path"]
    section(tab, "step-bus").locator(".job-reading").nth(3).locator("input").fill("0.2")
    section(tab, "step-bus").locator(".job-reading").nth(3).get_by_role("button", name="Enter").click()
    assert "bring-back/dead-still" == (place(tab) or {})["path"]

    found = [one for one in loaded(exported(tab)).entries if one.step == ("bus",)]
    assert ["within", "above", "within", "within", "within"] == [one.verdict for one in found]


def test_odometer_and_parts_fitted_are_in_the_record(context: Any, folder: str) -> None:
    """Thousands may be set apart; a part is chosen from the vehicle's, with the number printed on it; all survive a reload."""
    tab = opened(context, folder + SHORT)
    begin(tab, "2026-0703")
    finish(tab, {}, until="off")
    tab.get_by_label("Odometer").fill("84 210 km")
    tab.get_by_label("Part fitted").select_option("cabin-heater")
    tab.get_by_label("Number printed on it").fill("LK 7 31-204 C")
    tab.reload()
    assert "LK 7 31-204 C" == tab.get_by_label("Number printed on it").input_value()
    tab.get_by_role("button", name="Add the part").click()
    tab.get_by_label("Part fitted").select_option("dcdc-converter")
    tab.get_by_role("button", name="Add the part").click()
    tab.get_by_role("button", name="Not fitted").last.click()
    text = exported(tab)
    record = loaded(text)

    assert "84210 km" == str(record.odometer)
    assert [("cabin-heater", "LK 7 31-204 C")] == [(one.part, one.number) for one in record.fitted]

    tab.get_by_role("button", name="Other jobs").click()
    tab.locator("input[type=file]").set_input_files({"name": "a.yml", "mimeType": "text/yaml", "buffer": text.encode()})
    tab.get_by_role("button", name="Put the file in its place").click()
    assert text == exported(tab)


def test_the_number_of_the_vehicle_is_asked_for_where_records_may_hold_it(context: Any, folder: str) -> None:
    """The demo's workshop allows it. Small letters and blanks do; I, O and Q are in no such number; the file brings it back."""
    tab = opened(context, folder + SHORT)
    begin(tab, "2026-0704")
    finish(tab, {}, until="off")
    number = tab.get_by_label("Vehicle identification number")
    number.fill("AX7LM12627PO04187")
    assert "true" == number.get_attribute("aria-invalid")
    assert "`O` is in no such number" in tab.locator(".job-panel").text_content()
    number.fill("ax7 lm1262 7p004187")
    text = exported(tab)

    assert "AX7LM12627P004187" == loaded(text).vin

    tab.get_by_role("button", name="Other jobs").click()
    tab.locator("input[type=file]").set_input_files({"name": "a.yml", "mimeType": "text/yaml", "buffer": text.encode()})
    tab.get_by_role("button", name="Put the file in its place").click()
    assert "AX7LM12627P004187" == tab.get_by_label("Vehicle identification number").input_value()
    assert text == exported(tab)


def test_where_records_may_not_hold_it_no_number_is_asked_for(context: Any, folder: str) -> None:
    """Nor taken in with a file: it would stand in the next one without a field to see or delete it in."""
    tab = opened(context, folder + SHORT)
    tab.evaluate("bayleafJob.desk.data.vin = false")
    begin(tab, "2026-0705")
    finish(tab, {}, until="off")
    assert 0 == tab.get_by_label("Vehicle identification number").count()

    text = exported(tab).replace("\nstarted:", "\nvin: AX7LM12627P004187\nstarted:")
    tab.get_by_role("button", name="Other jobs").click()
    tab.locator("input[type=file]").set_input_files({"name": "a.yml", "mimeType": "text/yaml", "buffer": text.encode()})
    tab.get_by_text("keeps none in its records: take the line `vin:` out").wait_for()


def test_an_overload_asks_for_the_leads(context: Any, folder: str) -> None:
    """Once somebody has looked, it is within a limit that is open upwards; a circuit is not dead by it."""
    tab = opened(context, folder + PAGE)
    begin(tab, "2026-0701")
    field = section(tab, "step-bus").locator(".job-reading").first
    field.get_by_role("button", name="No figure (OL)").click()
    assert "Do the leads hold?" in field.locator(".job-verdict").text_content()
    field.get_by_role("button", name="A lead was off").click()
    assert "" == field.locator("input").input_value()
    field.get_by_role("button", name="No figure (OL)").click()
    field.get_by_role("button", name="Both leads hold").click()
    assert "Within limits" in field.locator(".job-verdict").text_content()
    field.get_by_role("button", name="Enter").click()

    proof = section(tab, "step-isolate-prove").locator(".job-reading").first
    proof.locator("input").fill("OL")
    assert "No reading" in proof.locator(".job-verdict").text_content()
    proof.get_by_role("button", name="Both leads hold").click()
    assert "Not dead" in proof.locator(".job-verdict").text_content()
    entry = loaded(exported(tab)).entries[-1]
    assert (True, "within") == (entry.no_reading, entry.verdict)


#: What is typed at a limit of at least 1 MΩ, or of 1.18 MΩ; what is said, and in which zone of the gauge the mark stands.
VERDICTS = [
    ("0.9", "1000000", "Too low", "bad"), ("6 MΩ", "1000000", "Within limits", "good"), ("−3", "1000000", "Too low", "bad"),
    ("900 kΩ", "1000000", "Too low", "bad"), ("1,2", "1180000", "Too close", "close"),
]  # fmt: skip
#: The same at a proof: at most 5 V, of which a tester that may be wrong by 0.4 V is sure up to 4.5 V; the sign does not count.
PROOFS = [("0.3", "Dead", "good"), ("-0.3", "Dead", "good"), ("4.8", "Too close", "close"), ("-30", "Not dead", "bad")]
_TYPED = """([path, typed, limit]) => {
  const step = bayleafJob.desk.data.steps.find((one) => one.path === path);
  if (limit) step.readings[0].limit.low = limit;
  const section = document.getElementById(step.anchor);
  const input = section.querySelector(".job-reading input");
  input.value = typed;
  input.dispatchEvent(new Event("input", { bubbles: true }));
  const mark = section.querySelector(".job-mark")?.getBBox();
  const zone = [...section.querySelectorAll(".bl-gauge .bl-map-box")].find((one) => {
    const box = one.getBBox();
    const middle = mark ? mark.x + mark.width / 2 : -1;
    return box.x <= middle && middle <= box.x + box.width;
  });
  const verdict = section.querySelector(".job-verdict");
  return [verdict.textContent, verdict.className, zone?.getAttribute("class")];
}"""


def test_the_verdict_is_there_with_the_key(context: Any, site: Path) -> None:
    """In words, by a border and as a mark on the gauge, before the event of the key is over."""
    tab = opened(context, f"{site.as_uri()}/{PAGE}")
    begin(tab, "2026-0702")
    for typed, limit, said, zone in VERDICTS:
        text, border, mark = tab.evaluate(_TYPED, ["bus", typed, limit])

        assert said in text, typed
        assert f"job-verdict-{zone}" in border, typed
        assert f"bl-map-zone-{zone}" in (mark or ""), typed


def test_a_proof_has_its_mark_on_the_gauge_too(context: Any, site: Path) -> None:
    """Where it is good, too close or too high, as at a measurement."""
    tab = opened(context, f"{site.as_uri()}/{SHORT}")
    begin(tab, "2026-0702")
    for typed, said, zone in PROOFS:
        text, border, mark = tab.evaluate(_TYPED, ["prove", typed, None])

        assert said in text, typed
        assert f"job-verdict-{zone}" in border, typed
        assert f"bl-map-zone-{zone}" in (mark or ""), typed


def test_the_sign_button_turns_the_sign_and_reversed_leads_prove_nothing(context: Any, site: Path) -> None:
    """Minus 400 V is not dead."""
    tab = opened(context, f"{site.as_uri()}/{SHORT}")
    begin(tab, "2026-0703")
    field = section(tab, "step-prove").locator(".job-reading").first
    field.locator("input").fill("400")
    field.get_by_role("button", name="Change the sign").click()

    assert "-400" == field.locator("input").input_value()
    assert "Not dead" in field.locator(".job-verdict").text_content()


def test_a_wait_that_is_not_over_bars_the_way(context: Any, site: Path) -> None:
    """A tick before the time asks for a reason, which the record keeps."""
    tab = opened(context, f"{site.as_uri()}/{SHORT}")
    begin(tab, "2026-0704")
    finish(tab, {}, until="settle")
    tick(tab, "step-settle")
    assert "settle" == (place(tab) or {})["path"]
    tab.get_by_label("Reason").fill("Waited with the old page")
    tab.get_by_role("button", name="Go on before the time").click()

    assert "cover-loose" == (place(tab) or {})["path"]
    assert "Waited with the old page" == loaded(exported(tab)).entries[-1].reason


def test_a_loop_is_gone_round_only_so_often(context: Any, site: Path) -> None:
    """What cannot be decided is waited for and read again once; then the last exit is taken, and the record names it."""
    tab = opened(context, f"{site.as_uri()}/{SHORT}")
    begin(tab, "2026-0706")
    done = finish(tab, {"prove": ["4.9", "4.9"]})

    assert ["prove", "settle-more", "prove", "settle-more"] == done[-4:]
    record = loaded(exported(tab))
    assert "failed-to-isolate" == record.conclusion
    assert {"not decided"} == {entry.verdict for entry in record.entries if entry.step == ("prove",)}
    assert "Step 14 has been done as often as it may be" in lost(tab)
    assert "Stop: The high-voltage bus is not dead" in tab.locator(".job-stand").inner_text()


def test_a_tick_is_taken_back(context: Any, site: Path) -> None:
    """The step comes next again; the record keeps both."""
    tab = opened(context, f"{site.as_uri()}/{SHORT}")
    begin(tab, "2026-0707")
    tick(tab, "step-zone")
    assert "condition" == (place(tab) or {})["path"]
    tab.clock.fast_forward(2000)
    tick(tab, "step-zone")

    assert "zone" == (place(tab) or {})["path"]
    assert [True, False] == [entry.done for entry in loaded(exported(tab)).entries]


def test_a_new_revision_is_told(context: Any, site: Path) -> None:
    """A job that was begun with another revision says so."""
    tab = opened(context, f"{site.as_uri()}/{SHORT}")
    begin(tab, "2026-0705")
    tick(tab, "step-zone")
    tab.evaluate("bayleafJob.desk.job.revision = 2; bayleafJob.desk.keep()")
    tab.reload()

    assert "begun with revision 2; the page holds revision 4" in lost(tab)


def test_a_record_written_by_hand_is_taken_up(context: Any, site: Path) -> None:
    """The record of the demo, entries in braces included."""
    tab = opened(context, f"{site.as_uri()}/{SHORT}")
    text = (ROOT / "records" / "2026-0417.yml").read_text(encoding="utf-8")
    tab.locator("input[type=file]").set_input_files(
        {"name": "2026-0417.yml", "mimeType": "text/yaml", "buffer": text.encode()}
    )
    tab.locator(".job-stand", has_text="Job 2026-0417").wait_for()
    before, after = loaded(text), loaded(exported(tab))

    assert before.entries == after.entries
    assert (before.odometer, before.minutes, before.started) == (after.odometer, after.minutes, after.started)
    tab.get_by_role("button", name="Other jobs").click()
    tab.locator("input[type=file]").set_input_files(
        {"name": "x.yml", "mimeType": "text/yaml", "buffer": text.replace("isolate-traction", "other").encode()}
    )
    tab.get_by_text("belongs to another procedure: `larkway-m12/other`").wait_for()
