"""One step at a time: nothing ahead is passed unseen, and nothing of the page below is touched."""

from typing import Any

import pytest
from job_kit import PAGE, SHORT, begin, finish, lost, opened, place, section
from thinned import some

_NUMBER = "document.querySelector('.job-stage .bl-number').textContent"
#: Whether the end of what a selector finds stands between the upper end of the window and the bar.
_IN_VIEW = """(look) => {
  const [box, bar] = [look, ".job-stage-bar"].map((one) => document.querySelector(one).getBoundingClientRect());
  return box.height > 0 && box.bottom > 0 && box.bottom <= bar.top + 1;
}"""


def shown(context: Any, folder: str, page: str, until: str | None = None, size: tuple[int, int] | None = None) -> Any:
    """The view of one step, in a job that has come to a step."""
    tab = opened(context, folder + page)
    if size is not None:
        tab.set_viewport_size({"width": size[0], "height": size[1]})
    begin(tab, "2026-0850")
    if until is not None:
        finish(tab, {}, until=until)
    tab.get_by_role("button", name="One step at a time").click()
    return tab


def scrolled(tab: Any) -> float:
    return float(tab.evaluate("document.querySelector('.job-one').scrollTop"))


def test_no_step_comes_before_its_warning_was_in_view(context: Any, folder: str) -> None:
    """By the space bar alone, all the way: what is ahead, and the end of the step, were in the window first."""
    tab = shown(context, folder, SHORT)
    tab.evaluate("bayleafJob.desk.act({ step: 'condition', at: bayleafJobStore.now(), answer: 'none of these' })")
    warned: list[str] = []
    for _ in range(120):
        number, ahead = tab.evaluate(_NUMBER), tab.locator(".job-coming .bl-message").count()
        seen = tab.evaluate(_IN_VIEW, ".job-coming") if ahead else tab.evaluate(_IN_VIEW, ".job-stage > .bl-step")
        tab.keyboard.press("Space")
        if number != tab.evaluate(_NUMBER):
            assert seen, number
            warned += [tab.evaluate(_NUMBER)] * bool(ahead)
        if tab.locator(".job-stage-said").text_content():
            break

    assert len(warned) >= 3
    assert (
        "First decide here: enter the reading, or choose the answer." == tab.locator(".job-stage-said").text_content()
    )


@pytest.mark.parametrize("key", some(["ArrowDown", "PageDown"], 2))
def test_a_long_step_is_read_by_keys(context: Any, folder: str, key: str) -> None:
    """Downwards to its end, and upwards to its beginning, with nothing left out."""
    tab = shown(context, folder, PAGE, until="bus")
    number, places = tab.evaluate(_NUMBER), [0.0]
    while not tab.locator(".job-stage-said").text_content():
        tab.keyboard.press(key)
        places.append(scrolled(tab))
    part = tab.evaluate(
        "document.querySelector('.job-one').clientHeight - document.querySelector('.job-stage-foot').offsetHeight"
    )
    assert len(places) > 4
    assert all(0 <= after - before < part for before, after in zip(places, places[1:], strict=False))
    assert tab.evaluate(_IN_VIEW, ".job-stage-said")
    for _ in places:
        tab.keyboard.press("ArrowUp" if key == "ArrowDown" else "PageUp")
    assert (number, 0) == (tab.evaluate(_NUMBER), scrolled(tab))


def test_the_arrow_to_the_left_goes_back_at_once(context: Any, folder: str) -> None:
    """Also from the middle of a step."""
    tab = shown(context, folder, SHORT, until="cover-loose")
    number = tab.evaluate(_NUMBER)
    while number == tab.evaluate(_NUMBER):
        tab.keyboard.press("ArrowRight")
    while not scrolled(tab):
        tab.keyboard.press("ArrowDown")
    tab.keyboard.press("ArrowLeft")

    assert (number, 0) == (tab.evaluate(_NUMBER), scrolled(tab))


def test_what_is_said_goes_when_it_holds_no_longer(context: Any, folder: str) -> None:
    """At a question, at a figure that is typed, and at a stop, which is told where it can be seen."""
    tab = shown(context, folder, SHORT, until="prove")
    said = tab.locator(".job-stage-said")
    assert "status" == said.get_attribute("role")
    press = "for (let at = 0; at < 20; at += 1) document.querySelector('.job-stage-bar .job-main').click()"
    tab.evaluate(press)
    assert said.text_content().startswith("First decide here")
    fields = tab.locator(".job-stage .job-reading")
    fields.nth(0).locator("input").fill("400")
    assert "" == said.text_content()
    tab.evaluate(press)
    assert said.text_content().startswith("First enter the figure that is typed here")
    for at in range(3):
        fields.nth(at).locator("input").fill("400")
        fields.nth(at).get_by_role("button", name="Enter").click()
    assert "" == said.text_content()
    tab.evaluate(press)

    assert said.text_content().startswith("Stop: The high-voltage bus is not dead")
    assert tab.evaluate(_IN_VIEW, ".job-stage-said")


def test_nothing_of_the_page_below_is_reached(context: Any, folder: str) -> None:
    """Tab stays in the view, the space bar presses nothing behind it, and Escape leads back to the step."""
    tab = shown(context, folder, SHORT)
    begun = tab.evaluate("bayleafJob.desk.job.entries.length")
    count = tab.evaluate("document.querySelectorAll('.job-one :is(a, button, input, select)').length")
    places = []
    for _ in range(count + 5):
        tab.keyboard.press("Tab")
        places.append(tab.evaluate("document.activeElement.closest('.job-one, body').className"))
    assert "job-one" in places
    assert "job-one" in {one for one in places[:3]}
    outside = "document.activeElement !== document.body && !document.activeElement.closest('.job-one')"
    assert not tab.evaluate(outside)
    tab.evaluate("document.querySelector('.job-panel button').focus()")
    assert not tab.evaluate(outside)
    assert begun == tab.evaluate("bayleafJob.desk.job.entries.length")

    tab.keyboard.press("Escape")
    assert 0 == tab.locator(".job-one[open]").count()
    assert section(tab, "step-condition").is_visible()


def test_a_link_to_another_page_leaves_the_job_as_it_is(context: Any, folder: str) -> None:
    """It opens beside the page: the view stays, and so does what was proved."""
    tab = shown(context, folder, PAGE, until="bus")
    with context.expect_page() as waiting:
        tab.locator(".job-stage a[href^='vehicle.html']").first.click()
    assert "vehicle.html" in waiting.value.url
    assert 1 == tab.locator(".job-one[open]").count()
    assert "" == lost(tab)

    tab.get_by_role("button", name="Whole page").click()
    tab.locator("#step-bus a[href^='vehicle.html']").first.click()
    tab.wait_for_url("**/vehicle.html*")


def test_the_work_is_broken_off_and_handed_over_there_too(context: Any, folder: str) -> None:
    """As from the panel: the record holds why, and nothing counts as proved any more."""
    tab = shown(context, folder, SHORT, until="tag")
    view = tab.locator(".job-one")
    view.get_by_role("button", name="Break or hand-over").click()
    view.get_by_role("button", name="Hand-over", exact=True).click()

    assert "Hand-over noted. From here on nothing counts as proved." == view.locator(".job-stage-said").text_content()
    assert ["hand-over"] == tab.evaluate("bayleafJob.desk.job.entries.map((one) => one.paused).filter(Boolean)")
    assert "tag" == (place(tab) or {})["path"]
    assert "not proved" in view.locator(".job-stage").text_content()


def test_it_is_told_where_the_browser_does_not_keep_the_job(context: Any, folder: str) -> None:
    """As soon as something typed could not be kept, and until it can."""
    tab = shown(context, folder, SHORT, until="prove")
    note, field = tab.locator(".job-stage-unkept"), tab.locator(".job-stage .job-figure").first
    assert not note.is_visible()
    tab.evaluate(
        "() => { Storage.prototype.kept = Storage.prototype.setItem; Storage.prototype.setItem = () => { throw new Error('full') } }"
    )
    field.fill("0.3")
    assert "This browser does not keep the job" in note.inner_text()
    assert tab.evaluate(_IN_VIEW, ".job-stage-unkept")
    tab.evaluate("() => { Storage.prototype.setItem = Storage.prototype.kept }")
    field.fill("0.4")
    assert not note.is_visible()


def test_the_bar_leaves_room_on_the_smallest_screen(context: Any, folder: str) -> None:
    """With targets for gloves, 320 by 640: less than a third, and all its buttons in one row."""
    tab = opened(context, folder + PAGE)
    tab.set_viewport_size({"width": 320, "height": 640})
    tab.get_by_role("button", name="Large targets for gloves").click()
    begin(tab, "2026-0851")
    tab.get_by_role("button", name="One step at a time").click()
    sizes = tab.locator(".job-one > div > button, .job-stage-bar button").evaluate_all(
        "all => all.map((one) => [one.offsetWidth, one.offsetHeight])"
    )

    assert tab.locator(".job-stage-foot").bounding_box()["height"] < 640 / 3
    assert len(sizes) == 4
    assert [] == [one for one in sizes if min(one) < 108]
