"""A photo in the bay: enlarged by a tap or a key, and back again; its place kept free; on a narrow screen and on paper."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from bayleaf.site.outputs import write_sheet
from demo_kit import demo_shell
from job_kit import PHONE, SHORT, begin
from thinned import some

VEHICLE = "larkway-m12/vehicle.html"
STEP = "#step-plug-out"
LARGE = ".bl-photo-large"


@pytest.fixture(scope="module")
def sheet(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The procedure as one file that asks for nothing."""
    return write_sheet(demo_shell(), SHORT.removesuffix(".html"), tmp_path_factory.mktemp("sheet"))


@pytest.fixture(params=["server", "folder", "sheet"])
def address(request: Any, serve: Callable[[Path], str], site: Path) -> str:
    """The page of the procedure: over http, as a folder, and as a single file."""
    if request.param == "sheet":
        return request.getfixturevalue("sheet").as_uri()
    return (serve(site) if request.param == "server" else site.as_uri() + "/") + SHORT


@pytest.fixture
def tab(browser: Any) -> Iterator[Any]:
    """A phone on which no script may fail, and that asks no other host."""
    context = browser.new_context(viewport=PHONE, has_touch=True)
    context.set_default_timeout(8000)
    faults: list[str] = []
    context.on("weberror", lambda found: faults.append(str(found.error)))
    context.on(
        "request", lambda one: one.url.startswith(("http://127.0.0.1", "file:", "data:")) or faults.append(one.url)
    )
    yield context.new_page()
    context.close()
    assert [] == faults


def photo(tab: Any, within: str = STEP) -> Any:
    return tab.locator(f"{within} .bl-photo-open")


def is_shown(tab: Any, within: str) -> bool:
    """Whether its picture has arrived, and is as wide as was said."""
    return tab.locator(f"{within} img").evaluate("(one) => one.decode().then(() => one.naturalWidth > 0)")


def test_a_tap_enlarges_and_the_button_closes(tab: Any, address: str) -> None:
    """The picture with its numbers and their texts, over the whole screen; the focus comes back to the photo."""
    tab.goto(address)
    photo(tab).tap()

    assert tab.locator(LARGE).is_visible()
    assert is_shown(tab, LARGE)
    assert ["1", "2", "3"] == tab.locator(f"{LARGE} .bl-photo-number").all_inner_texts()
    assert "Red latch" in tab.locator(f"{LARGE} .bl-photo-texts").inner_text()
    assert tab.locator(LARGE).bounding_box() == {"x": 0, "y": 0, **PHONE}
    tab.get_by_role("button", name="Close").tap()
    assert tab.locator(LARGE).is_hidden()
    assert photo(tab).evaluate("(one) => one === document.activeElement")
    assert tab.url.partition("#")[0] == address


@pytest.mark.parametrize("key", ["Enter", " "])
def test_a_key_enlarges_and_escape_closes(tab: Any, address: str, key: str) -> None:
    """The focus is on the button that closes, and comes back to the photo."""
    tab.goto(address)
    photo(tab).focus()
    tab.keyboard.press(key)

    assert tab.locator(LARGE).is_visible()
    assert "Close" == tab.evaluate("document.activeElement.textContent")
    tab.keyboard.press("Escape")
    assert tab.locator(LARGE).is_hidden()
    assert photo(tab).evaluate("(one) => one === document.activeElement")


def test_a_second_tap_brings_the_tapped_place_near(tab: Any, site: Path) -> None:
    """What was tapped is in view then, the page behind does not move, and a third tap shows the whole again."""
    tab.goto(f"{site.as_uri()}/{SHORT}")
    photo(tab).tap()
    is_shown(tab, LARGE)
    number = tab.locator(f"{LARGE} .bl-photo-number").first
    small = tab.locator(f"{LARGE} .bl-photo-frame").bounding_box()
    number.tap()

    large = tab.locator(f"{LARGE} .bl-photo-frame").bounding_box()
    box = number.bounding_box()
    assert large["width"] >= 2 * small["width"]
    assert 0 <= box["x"] and box["x"] + box["width"] <= PHONE["width"]
    assert 0 <= box["y"] and box["y"] + box["height"] <= PHONE["height"]
    assert "true" == tab.get_by_role("button", name="Nearer").get_attribute("aria-pressed")
    number.tap()
    assert small == tab.locator(f"{LARGE} .bl-photo-frame").bounding_box()


def test_enlarging_does_nothing_to_the_job(tab: Any, site: Path) -> None:
    """No step is ticked by a tap on a photo or on what is enlarged; nor does the view of one step go on or close."""
    tab.goto(f"{site.as_uri()}/{SHORT}")
    begin(tab, "2026-0900")
    entries = "bayleafJob.desk.job.entries.length"
    before = tab.evaluate(entries)
    tab.evaluate("location.hash = 'step-plug-out'")
    photo(tab).tap()
    tab.locator(f"{LARGE} .bl-photo-frame").tap()
    tab.keyboard.press("Escape")
    assert before == tab.evaluate(entries)

    tab.get_by_role("button", name="One step at a time").first.click()
    for _ in range(200):
        if tab.locator(f".job-stage {STEP}").count():
            break
        tab.evaluate("document.querySelector('.job-stage .bl-exits a, .job-stage .bl-number')?.click()")
        answer = tab.locator(".job-stage").get_by_role("button", name="none of these")
        if answer.count() and answer.is_visible():
            answer.click()
    number = tab.locator(".job-stage .bl-number").inner_text()
    assert "9" == number
    before = tab.evaluate(entries)
    photo(tab, ".job-stage").tap()
    tab.keyboard.press(" ")
    photo(tab, ".job-stage").focus()
    tab.keyboard.press(" ")
    for key in ("ArrowRight", "ArrowDown", "Escape"):
        tab.keyboard.press(key)
    assert tab.locator(LARGE).is_hidden()
    assert number == tab.locator(".job-stage .bl-number").inner_text()
    assert before == tab.evaluate(entries)


@pytest.mark.parametrize("page", [SHORT, VEHICLE])
@pytest.mark.parametrize("gloves", [False, True])
def test_nothing_sticks_out_at_320_px(tab: Any, site: Path, page: str, gloves: bool) -> None:
    """The page, and what is enlarged."""
    tab.set_viewport_size({"width": 320, "height": 640})
    tab.goto(f"{site.as_uri()}/{page}")
    if gloves:
        tab.evaluate("document.documentElement.setAttribute('data-job-gloves', '')")
    wide = "(one) => one.scrollWidth > one.clientWidth"
    assert not tab.evaluate("document.documentElement.scrollWidth > document.documentElement.clientWidth")
    assert not tab.locator(".bl-photo").first.evaluate(wide)
    tab.locator(".bl-photo-open").first.tap()
    assert not tab.locator(LARGE).evaluate(wide)
    assert not tab.locator(".bl-photo-pan").evaluate(wide)


def test_targets_are_large_enough_for_gloves(tab: Any, site: Path) -> None:
    """108 px each way and more: the photo, and the buttons of what is enlarged."""
    tab.goto(f"{site.as_uri()}/{SHORT}")
    tab.get_by_role("button", name="Large targets for gloves").click()
    photo(tab).tap()
    targets = [photo(tab), *tab.locator(f"{LARGE} button").all()]
    boxes = [one.bounding_box() for one in targets]

    assert 3 == len(boxes)
    assert [] == [box for box in boxes if box["width"] < 108 or box["height"] < 108]


@pytest.mark.parametrize("width", some([320, 390, 820, 1280], 3))
def test_the_place_is_kept_free_before_the_picture_comes(
    browser: Any, serve: Callable[..., str], site: Path, width: int
) -> None:
    """Nothing moves when it arrives: the frame is as high without it as with it."""
    heights = []
    for blocked in (True, False):
        context = browser.new_context(viewport={"width": width, "height": 800})
        if blocked:
            context.route("**/assets/photos/**", lambda route: None)  # never answered
        tab = context.new_page()
        tab.goto(serve(site) + SHORT, wait_until="domcontentloaded")
        photo(tab).scroll_into_view_if_needed()
        if not blocked:
            assert is_shown(tab, STEP)
        heights.append(
            tab.locator(f"{STEP} img").evaluate(
                "(one) => [one.getBoundingClientRect().width, one.getBoundingClientRect().height]"
            )
        )
        context.close()

    assert heights[0] == heights[1]
    assert abs(heights[0][0] * 3 / 4 - heights[0][1]) < 1.5


def test_a_phone_does_not_load_the_largest(browser: Any, serve: Callable[..., str], site: Path) -> None:
    """And what is far below is not loaded at all until it is scrolled to."""
    context = browser.new_context(viewport={"width": 320, "height": 600}, device_scale_factor=1)
    asked: list[str] = []
    context.on("request", lambda one: "/photos/" in one.url and asked.append(one.url))
    tab = context.new_page()
    tab.goto(serve(site) + SHORT, wait_until="networkidle")
    assert [] == asked
    photo(tab).scroll_into_view_if_needed()
    assert is_shown(tab, STEP)
    context.close()

    assert ["-480.webp"] == [one[one.rindex("-") :] for one in asked]


def test_without_scripts_the_photo_leads_to_its_largest_size(
    browser: Any, serve: Callable[..., str], site: Path
) -> None:
    """A plain link."""
    context = browser.new_context(java_script_enabled=False, viewport=PHONE)
    tab = context.new_page()
    tab.goto(serve(site) + SHORT)
    photo(tab).click()
    tab.wait_for_url("**/assets/photos/*-1600.jpg")
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_rule_of_accessibility_is_broken(browser: Any, site: Path, scheme: str) -> None:
    """Enlarged, and nearer. Source: axe-core, WCAG 2.2 A and AA."""
    context = browser.new_context(viewport=PHONE, color_scheme=scheme, has_touch=True)
    tab = context.new_page()
    tab.goto(f"{site.as_uri()}/{VEHICLE}")
    found = []
    photo(tab, "#service-plug").tap()
    for _ in range(2):
        answer = Axe().run(tab, "dialog[open]", options={"resultTypes": ["violations"]}).response
        found += [f"{one['id']} {one['nodes'][0]['html'][:120]}" for one in answer["violations"]]
        tab.get_by_role("button", name="Nearer").tap()
    context.close()

    assert [] == found


def test_on_paper_the_texts_stand_beside_the_picture(browser: Any, site: Path) -> None:
    """The picture is there although nobody scrolled to it, with its numbers, and the step stays on one sheet."""
    context = browser.new_context(viewport={"width": 718, "height": 1000})
    tab = context.new_page()
    tab.goto(f"{site.as_uri()}/{SHORT}")
    tab.emulate_media(media="print")
    picture, texts = tab.locator(f"{STEP} img").bounding_box(), tab.locator(f"{STEP} .bl-photo-texts").bounding_box()
    hint = tab.locator(f"{STEP} .bl-photo-hint").is_visible()
    context.close()

    assert picture["x"] + picture["width"] <= texts["x"]
    assert texts["y"] < picture["y"] + picture["height"]
    assert not hint
