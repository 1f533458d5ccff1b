"""Writing with the preview beside the editor, in a real browser: the page follows what is saved and tells what is wrong."""

import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from kit import PLACES, PROCEDURE, VEHICLE, write_manual
from photo_kit import plug

JOB, PROFILE = PLACES["procedure"], "procedures/test-van/vehicle.yml"
#: A job of many steps.
LONG = PROCEDURE + "".join(f"  - do: Look at corner {number}.\n    on: nothing\n" for number in range(2, 40))
#: The same with a misspelt key in its third step.
WRONG = LONG.replace("Look at corner 3.\n", "Look at corner 3.\n    expct: It is dry.\n")


@contextmanager
def preview(folder: Path, *options: str) -> Iterator[str]:
    """The address of a running preview of a manual."""
    call = [sys.executable, "-m", "bayleaf", "preview", "--port", "0", *options]
    with subprocess.Popen(call, cwd=folder, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        try:
            yield process.stdout.readline().split(" is at ")[1].split(" ")[0]
        finally:
            process.terminate()


@pytest.fixture
def manual(tmp_path: Path) -> Path:
    """The small manual."""
    return write_manual(tmp_path, {})


def save(manual: Path, file: str, text: str) -> None:
    """As editors do: a new file takes the place of the old one."""
    beside = manual / f"{file}.new"
    beside.write_text(text, encoding="utf-8")
    beside.replace(manual / file)


def test_the_page_follows_what_is_saved(manual: Path, browser: Any) -> None:
    """A mistake in step 3 stands at step 3, goes when it is mended; another file moves the page; no form, no page."""
    tab = browser.new_page(viewport={"width": 390, "height": 800})
    with preview(manual) as address:
        tab.goto(address)
        save(manual, JOB, WRONG)
        fault = tab.locator("#step-3 .bl-fault")
        fault.wait_for()
        said = fault.inner_text()
        bar = tab.locator("#bl-preview").inner_text()
        save(manual, JOB, LONG)
        tab.locator("#bl-preview.bl-preview-right").wait_for()
        gone, there = tab.locator(".bl-fault").count(), tab.url
        save(manual, PROFILE, VEHICLE.replace("name: Test van", "name: Trial van", 1))
        tab.wait_for_url("**/test-van/vehicle.html")
        save(manual, JOB, "format: 1\ntitle: [\n")
        tab.locator(".bl-unread .bl-fault").wait_for()

        assert "expct" in said and "line " in said and "column 5" in said and "expect" in said.partition("Mend")[2]
        assert "1 error on this page: step 3" in bar
        assert (0, f"{address}test-van/job.html") == (gone, there.partition("#")[0])
        assert tab.url.startswith(f"{address}test-van/job.html")
    tab.close()


def test_with_stay_the_page_stays(manual: Path, browser: Any) -> None:
    """Place and typed figures stay as well, though the page is another one; the bar tells of the other file."""
    tab = browser.new_page(viewport={"width": 390, "height": 800})
    save(manual, JOB, LONG)
    with preview(manual, "--stay") as address:
        tab.goto(f"{address}test-van/job.html")
        tab.get_by_label("Job number of the workshop").fill("2026-0815")
        for _ in range(5):  # what comes into view is laid out only then, and moves the rest
            tab.locator("section.bl-step").nth(20).evaluate(
                "node => scrollTo({ top: scrollY + node.getBoundingClientRect().top, behavior: 'instant' })"
            )
            tab.wait_for_timeout(100)
        save(manual, PROFILE, VEHICLE.replace("name: Test van", "nam: Test van", 1))
        tab.locator("#bl-preview.bl-preview-wrong").wait_for()
        tab.wait_for_function("document.readyState === 'complete'")

        assert tab.url.endswith("/test-van/job.html")
        assert "test-van/vehicle" in tab.locator("#bl-preview").inner_text()
        assert "2026-0815" == tab.get_by_label("Job number of the workshop").input_value()
        tab.wait_for_function(
            "Math.abs(document.querySelectorAll('section.bl-step')[20].getBoundingClientRect().top) < 400"
        )
    tab.close()


#: The heater with a photo of 640 by 480 pixels, and a number on it.
PICTURED = VEHICLE.replace(
    "  cabin-heater:\n    name: Cabin heater\n",
    "  cabin-heater:\n    name: Cabin heater\n    photo: {file: photos/heater.jpg, shows: The heater, "
    "callouts: [{at: '160, 120', text: The plug}]}\n",
)


def _opened(browser: Any, address: str, width: int) -> tuple[Any, Any, Any]:
    """A page with the vehicle; the photo on it, and what tells of a place."""
    context = browser.new_context(viewport={"width": width, "height": 800}, has_touch=width < 500)
    context.set_default_timeout(8000)
    tab = context.new_page()
    tab.goto(f"{address}test-van/vehicle.html")
    return context, tab, tab.locator(".bl-photo-open").first


@pytest.mark.parametrize("width", [390, 1280])
def test_a_tap_on_a_photo_tells_the_place_under_it(manual: Path, browser: Any, width: int) -> None:
    """As a call-out says it, within what a finger can be off; again where the enlarged photo is tapped, also nearer."""
    save_photo(manual)
    with preview(manual) as address:
        context, tab, photo = _opened(browser, address, width)
        photo.scroll_into_view_if_needed()
        photo.locator("img").evaluate("image => image.decode()")
        tapped = [place(tap(tab, photo.locator(".bl-photo-number")))]
        large = tab.locator(".bl-photo-large")
        tapped.append(place(tap(tab, large.locator(".bl-photo-number"))))
        large.get_by_role("button", name="Nearer").click()
        tapped.append(place(tap(tab, large.locator(".bl-photo-number"))))
        assert large.get_attribute("data-near") is not None
        context.close()

    for x, y in tapped:
        assert abs(x - 160) <= 3 and abs(y - 120) <= 3, tapped


def test_a_place_is_told_and_copied_by_keys_alone(manual: Path, browser: Any) -> None:
    """The mark begins in the middle; arrow keys move it by a hundredth of the width, with Shift by one pixel."""
    save_photo(manual)
    with preview(manual) as address:
        context, tab, photo = _opened(browser, address, 1280)
        context.grant_permissions(["clipboard-read", "clipboard-write"])
        photo.press("Enter")
        tab.get_by_role("button", name="Mark in the middle").press("Enter")
        begun = tab.locator(".bl-place output").inner_text()
        for key in ("ArrowRight", "Shift+ArrowDown", "Shift+ArrowLeft"):
            tab.locator(".bl-place-mark").press(key)
        tab.locator(".bl-place-mark").press("Enter")
        tab.get_by_text("copied").wait_for()
        copied = tab.evaluate("navigator.clipboard.readText()")
        context.close()

    assert ("at: 320, 240", "at: 325, 241") == (begun, copied)


def save_photo(manual: Path) -> None:
    """The photo, and the profile that shows it."""
    (manual / "procedures/test-van/photos").mkdir()
    (manual / "procedures/test-van/photos/heater.jpg").write_bytes(plug())
    save(manual, PROFILE, PICTURED)


def tap(tab: Any, node: Any) -> Any:
    """A tap on the middle of something that stands on the photo; gives the page."""
    box = node.bounding_box()
    tab.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    return tab


def place(tab: Any) -> tuple[int, int]:
    """The place that is told."""
    told = tab.locator(".bl-place output", has_text="at: ")
    x, y = told.inner_text().removeprefix("at: ").split(", ")
    return int(x), int(y)
