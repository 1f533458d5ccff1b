"""How a page that is worked with is looked at: gloves, narrow screens, one step at a time, colours, paper."""

from pathlib import Path
from typing import Any

import pytest
from job_kit import PAGE, PHONE, SHORT, begin, enter, finish, opened, section, tick


def press_on(tab: Any, key: str) -> None:
    """Press a key until another step is shown, or something is said."""
    shows = "document.querySelector('.job-stage .bl-number').textContent + document.querySelector('.job-stage-said').textContent"
    before = tab.evaluate(shows)
    for _ in range(100):
        tab.keyboard.press(key)
        if before != tab.evaluate(shows):
            return
    raise AssertionError(f"nothing comes after {before}")


def is_in_view(tab: Any, look: str) -> bool:
    """Whether all of what a selector finds stands between the upper end of the window and its bar."""
    return tab.evaluate(
        """(look) => [...document.querySelectorAll(look)].every((one) => {
            const [box, bar] = [one.getBoundingClientRect(), document.querySelector(".job-stage-bar").getBoundingClientRect()];
            return box.height > 0 && box.top >= 0 && box.bottom <= bar.top + 1;
        })""",
        look,
    )


def test_targets_are_large_enough_for_gloves(context: Any, site: Path) -> None:
    """108 px and more each way, also after a reload; links within a sentence are left out."""
    tab = opened(context, f"{site.as_uri()}/{PAGE}")
    tab.get_by_role("button", name="Large targets for gloves").click()
    begin(tab, "2026-0800")
    tab.reload()
    small = tab.evaluate("""() => [...document.querySelectorAll(
        ".bl-procedure :is(button, select, input, textarea, .bl-exits a, .bl-number), .bl-briefing-link a, " +
        ".bar :is(button, a), .crumbs a, .on-page :is(summary, a)")].filter((one) => one.offsetParent)
        .map((one) => [one.textContent || one.className, one.getBoundingClientRect()])
        .filter(([, box]) => box.width < 108 || box.height < 108).map(([text, box]) => [text, box.width, box.height])""")
    count = tab.evaluate("document.querySelectorAll('.bl-procedure button').length")

    assert [] == small
    assert count > 100


def test_opposite_answers_stand_apart(context: Any, site: Path) -> None:
    """Whether both leads hold or one was off: 8 px and more between the two, with gloves and without."""
    tab = opened(context, f"{site.as_uri()}/{PAGE}")
    begin(tab, "2026-0805")
    field = section(tab, "step-bus").locator(".job-reading").first
    field.get_by_role("button", name="No figure (OL)").click()
    for _ in range(2):
        holds, off = (one.bounding_box() for one in field.locator(".job-leads button").all())
        assert off["y"] - (holds["y"] + holds["height"]) >= 8
        tab.get_by_role("button", name="Large targets for gloves").click()


def test_a_reload_keeps_the_place_of_the_window(browser: Any, folder: str) -> None:
    """The step that is read stays where it stands, and the step that the address names does not come instead."""
    context = browser.new_context(viewport=PHONE)
    tab = context.new_page()  # a clock of ours hides from the page that it is loaded anew
    tab.goto(f"{folder}{SHORT}#step-zone")
    begin(tab, "2026-0806")
    top = "Math.round(document.getElementById('step-prove').getBoundingClientRect().top)"
    tab.evaluate("document.getElementById('step-prove').scrollIntoView()")
    tab.wait_for_function(f"{top} > 0 && {top} < 200")
    before = tab.evaluate(top)
    tab.reload()
    tab.wait_for_function(f"Math.abs({top} - {before}) < 3")
    tab.goto("about:blank")
    tab.goto(f"{folder}{SHORT}#step-off")
    tab.wait_for_function("Math.abs(document.getElementById('step-off').getBoundingClientRect().top) < 200")
    context.close()


@pytest.mark.parametrize("gloves", [False, True])
def test_nothing_sticks_out_at_320_px(context: Any, site: Path, gloves: bool) -> None:
    """Before a job and in it, with large targets too."""
    tab = opened(context, f"{site.as_uri()}/{PAGE}")
    tab.set_viewport_size({"width": 320, "height": 640})
    wide = "document.documentElement.scrollWidth > document.documentElement.clientWidth"
    if gloves:
        tab.get_by_role("button", name="Large targets for gloves").click()
    assert not tab.evaluate(wide)
    begin(tab, "2026-0801")
    enter(tab, "step-bus", "0.3", "OL")

    assert not tab.evaluate(wide)
    tab.get_by_role("button", name="One step at a time").click()
    assert not tab.evaluate(
        "(() => { const v = document.querySelector('.job-one'); return v.scrollWidth > v.clientWidth })()"
    )


def test_one_step_at_a_time(context: Any, folder: str) -> None:
    """By a tap anywhere, the space bar and the arrows; the next warning stands there before its step."""
    tab = opened(context, folder + SHORT)
    begin(tab, "2026-0802")
    tab.get_by_role("button", name="One step at a time").click()
    number = tab.locator(".job-stage .bl-number")
    assert "1" == number.inner_text()
    size = tab.evaluate("parseFloat(getComputedStyle(document.querySelector('.job-stage .bl-step-title')).fontSize)")
    assert size >= 26

    for _ in range(10):
        if "1" == number.inner_text():
            tab.mouse.click(4, 300)  # beside the text
    assert "2" == number.inner_text()
    said = tab.locator(".job-stage-said")
    press_on(tab, "Space")
    assert "2" == number.inner_text()
    assert said.inner_text().startswith("First decide here")
    assert is_in_view(tab, ".job-stage-said")
    tab.get_by_role("button", name="none of these").click()
    assert "" == said.inner_text()
    press_on(tab, "Space")
    assert "4" == number.inner_text()  # the third is for another version
    for key in ("ArrowRight", "ArrowDown", "PageDown", " "):
        press_on(tab, key)
    assert "8" == number.inner_text()
    assert "Ahead, at step 9" in tab.locator(".job-coming").inner_text()
    assert "DANGER" in tab.locator(".job-coming").inner_text()
    tab.keyboard.press("ArrowLeft")
    assert "7" == number.inner_text()
    tick(tab, "step-support-out")
    tab.keyboard.press("Escape")
    assert "Done at" in section(tab, "step-support-out").text_content()
    assert section(tab, "step-support-out").evaluate("(one) => one.previousElementSibling.id") == "step-charge-out"


def test_schemes_of_high_contrast_are_remembered(context: Any, site: Path) -> None:
    """Night and bright light, over the scheme of the page."""
    tab = opened(context, f"{site.as_uri()}/{SHORT}")
    ground = "getComputedStyle(document.body).backgroundColor"
    scheme = tab.get_by_role("button", name="Colours:")
    scheme.click()
    tab.reload()
    assert "rgb(0, 0, 0)" == tab.evaluate(ground)
    scheme.click()
    assert "rgb(255, 255, 255)" == tab.evaluate(ground)
    assert "Colours: bright light" == scheme.inner_text()


def test_without_scripts_there_are_lines_to_write_on(browser: Any, folder: str) -> None:
    """No control without a script; every step can be read, and has a place for what was done."""
    context = browser.new_context(java_script_enabled=False, viewport=PHONE)
    tab = context.new_page()
    tab.goto(folder + SHORT)

    assert 0 == tab.locator(".job-button").count()
    assert tab.locator(".bl-step").count() == tab.locator(".bl-step .job-paper:visible").count()
    assert "Reading" in section(tab, "step-prove").locator(".job-paper").text_content()
    context.close()


def test_what_is_filled_in_is_printed(context: Any, site: Path) -> None:
    """On paper stand the readings and ticks, and no button that is of no use there."""
    tab = opened(context, f"{site.as_uri()}/{SHORT}")
    begin(tab, "2026-0803")
    tick(tab, "step-zone")
    enter(tab, "step-prove", "0.4")
    tab.emulate_media(media="print")

    assert section(tab, "step-prove").get_by_text(": 0.4 V").is_visible()
    assert section(tab, "step-zone").get_by_text("Done at").is_visible()
    assert not section(tab, "step-prove").get_by_role("button", name="Enter").first.is_visible()
    assert not tab.get_by_role("button", name="Begin the job").is_visible()


def test_only_what_was_done_is_printed_where_that_is_asked(context: Any, site: Path) -> None:
    """At the end of a job: without the steps that were passed over, which are named; the page itself stays whole."""
    tab = opened(context, f"{site.as_uri()}/{SHORT}")
    begin(tab, "2026-0804")
    assert not tab.get_by_role("button", name="Print only what was done").is_visible()
    finish(tab, {})
    steps = tab.locator(".bl-step")
    passed = steps.evaluate_all("all => all.filter((one) => one.matches('.job-complete')).length")
    tab.evaluate("window.print = () => {}")
    tab.get_by_role("button", name="Print only what was done").click()
    tab.emulate_media(media="print")

    left_out = [one for one in steps.all() if not one.is_visible()]
    note = tab.locator(".job-left-out-note").inner_text()
    assert passed == steps.count() - len(left_out) and left_out
    assert all(one.locator(".bl-number").text_content() in note for one in left_out)

    tab.evaluate("dispatchEvent(new Event('afterprint'))")
    assert tab.locator(".job-left-out, .job-left-out-note").count() == 0
