"""What somebody has done or typed is not lost: not by a second window, nor a full store, nor a reload; and what comes from
elsewhere is judged by the page itself."""

from typing import Any

import pytest
from job_kit import ROOT, SHORT, begin, enter, exported, finish, loaded, lost, opened, place, section, tick
from thinned import some

#: A store that is full as long as the page says so.
FULL = """
    globalThis.isFull = false;
    const set = Storage.prototype.setItem;
    Storage.prototype.setItem = function (...given) {
      if (globalThis.isFull) throw new DOMException("full", "QuotaExceededError");
      return set.apply(this, given);
    };
"""
#: A window to which no news of another one come.
DEAF = """
    const add = globalThis.addEventListener;
    globalThis.addEventListener = (kind, ...more) => kind === "storage" || add.call(globalThis, kind, ...more);
"""
NOT_KEPT = "This browser does not keep the job"


def two_windows(context: Any, address: str, job: str, until: str) -> tuple[Any, Any]:
    """The same job in both. They have one clock, which is put forward by the waits."""
    one = opened(context, address)
    begin(one, job)
    finish(one, {}, until=until)
    other = context.new_page()
    other.goto(address)
    other.get_by_role("button", name=f"Go on with {job}").click()
    return one, other


def entries(tab: Any) -> list[str]:
    return tab.evaluate("bayleafJob.desk.job.entries.map((one) => one.step)")


def read_in(tab: Any, text: str) -> None:
    """Take up a job from its file."""
    tab.locator("input[type=file]").set_input_files({"name": "a.yml", "mimeType": "text/yaml", "buffer": text.encode()})


# ---- two windows -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "hears", some([False, True], 2), ids=lambda hears: "told at once" if hears else "told of nothing"
)
def test_two_windows_lose_nothing_of_each_other(context: Any, folder: str, hears: bool) -> None:
    """Remark, odometer, a reading that is not entered, a part, a wait: whatever is done in the other window afterwards."""
    if not hears:
        context.add_init_script(DEAF)
    one, other = two_windows(context, folder + SHORT, "2026-0800", "settle")
    one.get_by_label("Remarks").fill("Plug was dull")
    one.get_by_label("Odometer").fill("84210")
    one.get_by_label("Part fitted").select_option("cabin-heater")
    one.get_by_role("button", name="Add the part").click()
    section(one, "step-prove").locator("input").first.fill("0,")
    section(one, "step-settle").get_by_role("button", name="Start the wait").click()
    if hears:
        section(other, "step-settle").locator(".job-clock", has_text="left").wait_for()
        assert "Plug was dull" == other.get_by_label("Remarks").input_value()
    other.get_by_label("Minutes worked").fill("54")
    tick(other, "step-zone")

    assert "0," == section(other, "step-prove").locator("input").first.input_value()
    assert "left" in section(other, "step-settle").locator(".job-clock").text_content()
    one.reload()
    assert "Plug was dull" == one.get_by_label("Remarks").input_value()
    assert "84210 km" == one.evaluate("bayleafJob.desk.job.odometer")
    assert "54" == one.get_by_label("Minutes worked").input_value()
    assert 1 == one.locator(".job-panel .job-list li").count()
    assert "0," == section(one, "step-prove").locator("input").first.input_value()
    assert "left" in section(one, "step-settle").locator(".job-clock").text_content()


def test_acts_in_two_windows_are_both_kept(context: Any, folder: str) -> None:
    """Also where neither has heard of the other."""
    context.add_init_script(DEAF)
    one, other = two_windows(context, folder + SHORT, "2026-0801", "condition")
    tick(one, "step-timer-series-2")
    tick(other, "step-off")
    tick(one, "step-charge-out")

    assert ["zone", "timer-series-2", "off", "charge-out"] == entries(one)
    other.reload()
    assert ["zone", "timer-series-2", "off", "charge-out"] == entries(other)


def test_what_a_second_window_takes_away_stays_away(context: Any, folder: str) -> None:
    """With the page opened anew nothing counts as proved, in both windows; a tick in the first brings no proof back."""
    one, other = two_windows(context, folder + SHORT, "2026-0802", "tag")
    one.locator(".job-panel .job-lost-note", has_text="Not proved: Traction DC bus").wait_for()
    tick(one, "step-tag")

    other.locator('[id="step-tag"].job-complete').wait_for()
    assert "Not proved: Traction DC bus" in lost(one)
    assert "Not proved: Traction DC bus" in lost(other)


def test_the_field_in_hand_is_left_alone(context: Any, folder: str) -> None:
    """What is typed in it stays, with its verdict, while the fields around it take what the other window has kept."""
    one, other = two_windows(context, folder + SHORT, "2026-0803", "prove")
    here = section(one, "step-prove").locator(".job-reading")
    here.first.locator("input").focus()
    here.first.locator("input").fill("48")
    fields = section(other, "step-prove").locator(".job-reading input")
    fields.first.fill("0.3")
    fields.nth(1).fill("0.2")
    one.wait_for_function("document.querySelectorAll('#step-prove .job-reading input')[1].value === '0.2'")

    assert "48" == here.first.locator("input").input_value()
    assert "Not dead" in here.first.locator(".job-verdict").text_content()
    here.first.get_by_role("button", name="Enter").click()
    other.wait_for_function("document.querySelector('#step-prove .job-reading input').value === ''")
    assert "Not dead" in fields.first.locator("xpath=../..").locator(".job-verdict").text_content()


def test_a_job_of_an_older_page_goes_on(context: Any, folder: str) -> None:
    """It has no stamp."""
    one, other = two_windows(context, folder + SHORT, "2026-0804", "condition")
    other.close()
    key = one.evaluate("bayleafJobStore.key(bayleafJob.desk.data, '2026-0804')")
    old = one.evaluate("(({ stamp, before, ...old }) => JSON.stringify(old))(bayleafJob.desk.job)")
    one.evaluate("([key, old]) => localStorage.setItem(key, old)", [key, old])
    one.reload()
    tick(one, "step-off")

    assert ["zone", "off"] == entries(one)
    assert ["zone", "off"] == one.evaluate(
        "(key) => JSON.parse(localStorage.getItem(key)).entries.map((one) => one.step)", key
    )


# ---- a store that is full -----------------------------------------------------------------------------


def test_a_full_store_is_told_with_the_next_key(context: Any, folder: str) -> None:
    """And as soon as there is room again, all of it is kept."""
    context.add_init_script(FULL)
    tab = opened(context, folder + SHORT)
    begin(tab, "2026-0810")
    assert NOT_KEPT not in lost(tab)
    tab.evaluate("isFull = true")
    tab.get_by_label("Remarks").fill("damp")
    assert NOT_KEPT in lost(tab)
    section(tab, "step-prove").locator("input").first.fill("0,")

    tab.evaluate("isFull = false")
    tick(tab, "step-zone")
    assert NOT_KEPT not in lost(tab)
    tab.reload()
    assert "damp" == tab.get_by_label("Remarks").input_value()
    assert "0," == section(tab, "step-prove").locator("input").first.input_value()


def test_a_job_that_is_not_kept_is_not_left_without_a_question(context: Any, folder: str) -> None:
    """Not for other jobs, nor with the page; the file is offered first."""
    context.add_init_script(FULL)
    tab = opened(context, folder + SHORT)
    begin(tab, "2026-0811")
    tab.evaluate("isFull = true")
    tick(tab, "step-zone")
    tab.get_by_role("button", name="Other jobs").click()
    assert "What is not in its file is lost" in tab.locator(".job-panel").text_content()
    with tab.expect_download():
        tab.get_by_role("button", name="Keep its file first").click()
    tab.get_by_role("button", name="Stay with it").click()
    assert ["zone"] == entries(tab)

    asked: list[str] = []
    tab.on("dialog", lambda found: (asked.append(found.type), found.dismiss()))
    tab.close(run_before_unload=True)
    tab.wait_for_function("bayleafJob.desk.job.entries.length === 1")
    assert ["beforeunload"] == asked

    tab.get_by_role("button", name="Other jobs").click()
    tab.get_by_role("button", name="Leave it all the same").click()
    tab.get_by_label("Job number of the workshop").wait_for()


def test_what_is_no_job_is_not_listed(context: Any, folder: str) -> None:
    """Whatever lies in the store, a job can be begun; of what is maimed the entries are left."""
    tab = opened(context, folder + SHORT)
    for number, text in enumerate(("{}", "[]", "null", "7", '{"job": "2026-0004", "entries": [null]}')):
        key = tab.evaluate(f"bayleafJobStore.key(bayleafJob.desk.data, '2026-000{number}')")
        tab.evaluate("(pair) => localStorage.setItem(...pair)", [key, text])
    tab.reload()

    assert 0 == tab.locator(".job-list li").count()
    tab.evaluate("""() => {
      const key = bayleafJobStore.key(bayleafJob.desk.data, "2026-0005");
      const maimed = { job: "2026-0005", started: "", entries: [{ step: "zone", done: true }], losses: 1, waits: 2, drafts: 3, fitted: 4, judged: 5 };
      localStorage.setItem(key, JSON.stringify(maimed));
    }""")
    tab.reload()
    tab.get_by_role("button", name="Go on with 2026-0005").click()
    tick(tab, "step-off")
    tab.get_by_role("button", name="Other jobs").click()
    begin(tab, "2026-0000")
    assert "Job 2026-0000" in tab.locator(".job-stand").inner_text()


# ---- fields of the panel ------------------------------------------------------------------------------


#: A field, what is typed there, what is told of it.
UNCLEAR = [
    ("Odometer", "12.345 km", "`12.345 km` is not understood: write whole kilometres, such as 84210"),
    ("Minutes worked", "1h30", "`1h30` is not understood: write whole minutes, such as 90"),
    ("Vehicle identification", "AX7LM12627P00418", "It has 17 letters and digits; these are 16"),
]


@pytest.mark.parametrize(("label", "typed", "told"), some(UNCLEAR, 3))
def test_what_is_not_understood_says_so_in_words(context: Any, folder: str, label: str, typed: str, told: str) -> None:
    """Beside the field, also after a reload; the file is not written without a question."""
    tab = opened(context, folder + SHORT)
    begin(tab, "2026-0820")
    tick(tab, "step-zone")
    tab.get_by_label(label).fill(typed)
    tab.reload()

    field = tab.locator(".job-panel .job-field", has=tab.get_by_label(label))
    assert typed == tab.get_by_label(label).input_value()
    assert told in field.locator(".job-problem").inner_text()
    tab.get_by_role("button", name="Keep the record file").click()
    assert f"Not in the file: {label}" in tab.locator(".job-panel").text_content()
    with tab.expect_download():
        tab.get_by_role("button", name="Keep the file without it").click()

    tab.get_by_label(label).fill("")
    assert not field.locator(".job-problem").is_visible()
    exported(tab)


def test_what_is_begun_but_not_finished_is_there_after_a_reload(context: Any, folder: str) -> None:
    """The typed number of a job, and a part that is chosen but not added, for which the file is not written unasked."""
    tab = opened(context, folder + SHORT)
    tab.get_by_label("Job number of the workshop").fill("2026-0821")
    tab.get_by_label("Version of the vehicle").select_option("series-1")
    tab.reload()
    assert "2026-0821" == tab.get_by_label("Job number of the workshop").input_value()
    assert "series-1" == tab.get_by_label("Version of the vehicle").input_value()
    tab.get_by_role("button", name="Begin the job").click()
    tick(tab, "step-zone")
    tab.get_by_label("Part fitted").select_option("cabin-heater")
    tab.reload()

    assert "cabin-heater" == tab.get_by_label("Part fitted").input_value()
    tab.get_by_role("button", name="Keep the record file").click()
    assert (
        "Part fitted “Cabin heater for coolant, 5 kW” (chosen, not added)" in tab.locator(".job-panel").text_content()
    )
    tab.get_by_role("button", name="Mend it first").click()
    tab.get_by_role("button", name="Add the part").click()
    assert ["cabin-heater"] == [one.part for one in loaded(exported(tab)).fitted]

    tab.get_by_role("button", name="Other jobs").click()
    assert "" == tab.get_by_label("Job number of the workshop").input_value()


def test_the_number_of_a_vehicle_is_no_job_number(context: Any, folder: str) -> None:
    """Unless records of the workshop may hold it."""
    tab = opened(context, folder + SHORT)
    tab.evaluate("bayleafJob.desk.data.vin = false")
    begin(tab, "AX7 LM12627P004187")
    assert "type the workshop's own job number" in tab.locator(".job-begin .job-problem").inner_text()

    tab.evaluate("bayleafJob.desk.data.vin = true")
    begin(tab, "AX7LM12627P004187")
    assert "Job ax7lm12627p004187" in tab.locator(".job-stand").inner_text()


def test_a_number_that_was_kept_is_dropped_where_records_may_not_hold_it(context: Any, folder: str) -> None:
    """It has no field there to see or to delete it in."""
    tab = opened(context, folder + SHORT)
    begin(tab, "2026-0822")
    tick(tab, "step-zone")
    tab.get_by_label("Vehicle identification").fill("AX7LM12627P004187")
    tab.get_by_role("button", name="Other jobs").click()
    tab.evaluate("bayleafJob.desk.data.vin = false")
    tab.get_by_role("button", name="Go on with 2026-0822").click()

    assert "vin:" not in exported(tab)
    assert tab.evaluate("!JSON.stringify({ ...localStorage }).includes('AX7LM')")


# ---- what comes from elsewhere ------------------------------------------------------------------------


def test_a_verdict_of_a_file_is_not_believed(context: Any, folder: str) -> None:
    """The proof that the file calls dead is not; the step is told until somebody has read it."""
    text = (ROOT / "records" / "2026-0417.yml").read_text(encoding="utf-8")
    assert "reading: 0.4 V" in text
    tab = opened(context, folder + SHORT)
    read_in(tab, text.replace("reading: 0.4 V", "reading: 48 V", 1))
    told = "Step 14, 48 V: it is “Not dead: hands off”, not “Dead” as was noted."
    tab.locator(".job-stand", has_text=told).wait_for()
    assert "not dead" == next(one for one in loaded(exported(tab)).entries if one.step == ("prove",)).verdict
    tab.reload()
    assert told in tab.locator(".job-stand").inner_text()

    tab.get_by_role("button", name="I have read this").click()
    assert told not in tab.locator(".job-stand").inner_text()


def test_a_kept_job_is_judged_by_the_page_that_opens_it(context: Any, folder: str) -> None:
    """Under another revision, with other limits, what was dead may not be."""
    tab = opened(context, folder + SHORT)
    begin(tab, "2026-0830")
    finish(tab, {}, until="prove")
    enter(tab, "step-prove", "3")
    tab.get_by_role("button", name="Other jobs").click()
    tab.evaluate("""() => {
      const { data } = bayleafJob.desk;
      data.revision += 1;
      for (const one of data.steps.find((step) => step.path === "prove").readings) Object.assign(one, { limit: { low: null, high: "2" }, text: "at most 2 V" });
    }""")
    tab.get_by_role("button", name="Go on with 2026-0830").click()

    assert (
        "Step 14, 3 V: it is “Not dead: hands off”, not “Dead” as was noted." in tab.locator(".job-stand").inner_text()
    )
    entry = loaded(exported(tab)).entries[-1]
    assert ("not dead", "at most 2 V") == (entry.verdict, str(entry.limits))


def test_the_screen_stays_on_for_a_wait_that_runs_when_the_page_opens(context: Any, folder: str) -> None:
    """After a reload as after the start of the wait."""
    context.add_init_script("""
        globalThis.asked = [];
        const lock = () => Object.assign(new EventTarget(), { release: async () => asked.push("rest") });
        Object.defineProperty(navigator, "wakeLock", { value: { request: async (kind) => (asked.push(kind), lock()) } });
    """)
    tab = opened(context, folder + SHORT)
    begin(tab, "2026-0840")
    finish(tab, {}, until="settle")
    tab.reload()
    assert [] == tab.evaluate("asked")
    section(tab, "step-settle").get_by_role("button", name="Start the wait").click()
    tab.reload()

    assert ["screen"] == tab.evaluate("asked")
    assert "settle" == (place(tab) or {})["path"]
