"""The manual in Firefox, where there is one: pages, a whole job, search and colours, from a folder and over http."""

import os
import shutil
from collections.abc import Iterator

import pytest
from browser.kinds import KINDS, LONGEST
from firefox_kit import Firefox
from job_kit import MOST_STEPS, PAGE, PHONE, WORK, loaded

PROGRAM = os.environ.get("BAYLEAF_FIREFOX") or shutil.which("firefox") or shutil.which("firefox-esr")
pytestmark = pytest.mark.skipif(PROGRAM is None, reason="Firefox is not installed")
ENTER, ARROW_RIGHT, ESCAPE = "\ue007", "\ue014", "\ue00c"

PRESS = """(words) => {
  const said = (one) => one.textContent.trim() === words && one.getClientRects().length;
  [...document.querySelectorAll("button")].find(said).click();
}"""
SEEN = "(selector) => document.querySelector(selector)?.textContent ?? null"
TEXTS = "(selector) => [...document.querySelectorAll(selector)].map((one) => one.textContent).join(' ')"


@pytest.fixture(scope="module")
def firefox() -> Iterator[Firefox]:
    """It, as wide as a phone."""
    with Firefox(str(PROGRAM)) as started:
        started.resize(**PHONE)
        yield started


@pytest.fixture(autouse=True)
def nothing_fails(firefox: Firefox) -> Iterator[None]:
    """No script fails in any of the tests."""
    yield
    assert [] == firefox.faults


def test_every_kind_of_page_opens_and_fits(firefox: Firefox, folder: str) -> None:
    """Nothing sticks out to the side of a narrow phone, and no other host is asked for anything."""
    firefox.resize(320, 640)
    firefox.asked.clear()
    too_wide = []
    for page in (one for one in KINDS if one not in LONGEST[1:]):
        firefox.open(folder + page)
        if firefox.ask("() => document.documentElement.scrollWidth > document.documentElement.clientWidth"):
            too_wide.append(page)
    firefox.resize(**PHONE)

    assert too_wide == []
    assert [] == [url for url in firefox.asked if url.startswith(("http", "ws"))]


def test_a_whole_job_from_the_first_tick_to_the_record(firefox: Firefox, base: str) -> None:
    """Steps one at a time, a reading by keys, reloads in the middle, the proof again, and the end."""
    firefox.open(base + PAGE)
    firefox.tap(".job-begin input")
    firefox.keys("2026-0700")
    firefox.ask("() => { document.querySelector('.job-begin select').value = 'series-2'; }")
    firefox.ask(PRESS, "Begin the job")

    firefox.ask(PRESS, "One step at a time")
    assert firefox.ask(SEEN, ".job-stage .bl-number") == "1"
    firefox.keys([ARROW_RIGHT, ESCAPE])
    _work(firefox, until="isolate/prove")
    firefox.tap("#step-isolate-prove .job-figure")
    firefox.keys("0,4 V")
    assert firefox.ask(SEEN, "#step-isolate-prove .job-verdict").startswith("✓Dead.")
    firefox.reload()
    assert firefox.ask("() => document.querySelector('#step-isolate-prove .job-figure').value") == "0,4 V"

    firefox.ask(PRESS, "One step at a time")
    firefox.keys([ARROW_RIGHT] * 20)  # it scrolls to the end of the step first
    assert firefox.ask(SEEN, ".job-stage-said").startswith("First enter the figure that is typed here")
    firefox.keys(ESCAPE)

    _work(firefox, until="heater")
    firefox.reload()
    assert "Not proved" in firefox.ask(TEXTS, ".job-panel .job-lost-note")
    _work(firefox, {"bus": ["0.3", "6"], "heater": ["0.2"]})
    record = loaded(firefox.ask("() => bayleafJob.desk.file()"))

    assert firefox.ask("() => bayleafJob.desk.way.place") is None
    assert record.job == "2026-0700" and record.conclusion
    proofs = [entry.verdict for entry in record.entries if entry.step == ("isolate", "prove")]
    assert proofs and set(proofs) == {"dead"}


def _work(firefox: Firefox, plan: dict[str, list[str]] | None = None, until: str | None = None) -> None:
    """Do one step after the other, and let the time pass that has to."""
    left = plan or {}
    wait = 1
    while wait:
        told = firefox.ask(WORK, [left, until, MOST_STEPS])
        left, wait = told["plan"], told["wait"]
        firefox.ask(
            "(ms) => sessionStorage.setItem('ahead', Number(sessionStorage.getItem('ahead')) + ms)", wait * 1000
        )
        firefox.ask("() => bayleafJob.desk.second()")


def test_the_search_finds_and_a_tap_leads_there(firefox: Firefox, base: str) -> None:
    """By keys alone."""
    firefox.open(base + "codes.html")
    firefox.tap(".bar__find")
    firefox.keys("P0AA6")
    firefox.ask("""async () => {
        while (document.querySelector(".find")?.dataset.answered !== "P0AA6") await new Promise((go) => setTimeout(go, 50));
    }""")
    assert "Trouble code P0AA6" in firefox.ask(SEEN, ".find__hit")

    firefox.keys(ENTER)
    firefox.ask("""async () => {
        while (!location.hash) await new Promise((go) => setTimeout(go, 50));
    }""")
    assert firefox.ask("() => location.hash") == "#P0AA6"


def test_colours_and_a_calculator(firefox: Firefox, base: str) -> None:
    """A tap turns them, and a reload keeps them; the example is computed."""
    firefox.open(base + "calculators/discharge.html")
    before = firefox.ask("() => document.body.dataset.mdColorScheme")
    firefox.tap(".bar__colours")
    firefox.reload()
    assert firefox.ask("() => document.body.dataset.mdColorScheme") != before
    firefox.tap(".bar__colours")

    firefox.tap("[data-fill]")
    results = firefox.ask(
        "(one) => [...document.querySelectorAll(one)].map((place) => place.textContent)", "[data-result]"
    )
    example = firefox.ask(
        "(one) => [...document.querySelectorAll(one)].map((place) => place.textContent)", ".bl-calc-example dd"
    )
    assert results == example


def test_a_photo_is_enlarged_by_a_tap(firefox: Firefox, folder: str) -> None:
    """And put back by Escape."""
    firefox.open(folder + LONGEST[0])
    is_open = "() => document.querySelector('dialog.bl-photo-large')?.open ?? false"
    firefox.tap(".bl-photo-open")
    assert firefox.ask(is_open)

    firefox.keys(ESCAPE)
    assert not firefox.ask(is_open)
