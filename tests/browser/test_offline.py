"""The manual without a network: kept on the device, from a folder, as one file; and a newer version is told, not swapped."""

import functools
import http.server
import shutil
import threading
from collections.abc import Iterator
from datetime import datetime, time, timedelta
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from bayleaf.manual import Manual
from bayleaf.site import offline, outputs
from bayleaf.site.facts import facts_of
from demo_kit import demo_shell

ROOT = Path(__file__).resolve().parents[2]
PROCEDURE = "larkway-m12/isolate-traction"
NEVER_VISITED = "granbrook-t8/replace-inverter-coolant-pump.html"


class Server:
    """A server of a folder that can be stopped for good, and started again at the same port."""

    def __init__(self, folder: Path, port: int = 0) -> None:
        class Quiet(http.server.SimpleHTTPRequestHandler):
            def log_message(self, *_: object) -> None:
                """Say nothing."""

        class Calm(http.server.ThreadingHTTPServer):
            def handle_error(self, *_: object) -> None:
                """A browser that went away is no news."""

        self._server = Calm(("127.0.0.1", port), functools.partial(Quiet, directory=str(folder)))
        threading.Thread(target=self._server.serve_forever, daemon=True).start()
        self.base = f"http://127.0.0.1:{self._server.server_port}/"

    def stop(self) -> None:
        """Nobody answers at this port afterwards."""
        self._server.shutdown()
        self._server.server_close()


@pytest.fixture(scope="module")
def newest(demo: Manual) -> datetime:
    """The day of the newest revision, at midnight."""
    day = facts_of(demo).newest
    assert day is not None
    return datetime.combine(day, time())


#: What a device need not keep in these tests, so that it has kept the rest in a fraction of the time.
LEFT_OUT = shutil.ignore_patterns("rules", "thistledown-v4", "calculators", "book", "photos", "*.map", "replace-[!i]*")


@pytest.fixture
def copied(site: Path, tmp_path: Path) -> Path:
    """A smaller site that a test may change: its list says what is left."""
    made = Path(shutil.copytree(site, tmp_path / "site", ignore=LEFT_OUT))
    _list_anew(made)
    return made


@pytest.fixture
def context(browser) -> Iterator[object]:
    """A browser of its own on a phone; no script may fail in it, no other host be asked."""
    made = browser.new_context(viewport={"width": 390, "height": 844}, accept_downloads=True, service_workers="allow")
    made.set_default_timeout(15_000)
    made.faults, made.asked = [], []
    made.on("weberror", lambda found: made.faults.append(str(found.error)))
    made.on("request", lambda request: made.asked.append(request.url))
    yield made
    made.close()
    assert [] == made.faults
    assert {urlsplit(url).hostname for url in made.asked if not url.startswith(("data:", "blob:"))} <= {
        "127.0.0.1",
        None,
    }


def _kept(tab) -> None:
    tab.get_by_text("Kept on this device").wait_for()
    tab.wait_for_function("navigator.serviceWorker.controller")


def _first_hit(tab, text: str) -> str:
    tab.keyboard.press("/")
    tab.fill("#find-field", text)
    tab.wait_for_function("text => document.querySelector('.find').dataset.answered === text", arg=text)
    return tab.locator(".find__title").first.text_content()


def test_with_the_server_gone_search_and_a_page_never_visited_work(context, copied: Path) -> None:
    """One page was opened once; then the radio is dead."""
    server = Server(copied)
    tab = context.new_page()
    tab.goto(server.base + f"{PROCEDURE}.html")
    _kept(tab)
    server.stop()

    tab.reload()
    assert tab.locator("#step-prove").count() == 1
    tab.goto(server.base + NEVER_VISITED)
    assert "Replace the coolant pump" in tab.locator("h1").inner_text()
    assert _first_hit(tab, "P0AA6").startswith("Trouble code P0AA6")
    tab.locator(".find__hit").first.click()
    tab.wait_for_url("**/codes.html#P0AA6")
    tab.goto(server.base)
    assert tab.locator("h1").count() == 1
    tab.goto(server.base + "gone.html")
    assert "not there" in tab.locator("h1").inner_text()


def test_the_foot_of_a_page_says_version_and_age(context, site: Path, newest: datetime) -> None:
    """The age by the clock of the device, from a folder as well; there nothing has to be kept."""
    tab = context.new_page()
    tab.clock.set_fixed_time(newest + timedelta(days=18, hours=10))
    tab.goto((site / "vehicles.html").as_uri())
    said = tab.locator("[data-version] span").first
    said.wait_for()

    assert f"Newest revision of {newest.date()}, 18 days old · version " in said.inner_text()
    assert "" == tab.locator("[data-kept]").inner_text()


#: Time since the midnight of the newest revision, and what is said of it.
AGES = {
    timedelta(hours=23): "from today",
    timedelta(days=1, hours=1): "1 day old",
    timedelta(days=120, hours=12): "3 months old",
    timedelta(days=3 * 365 + 10): "3 years old",
    timedelta(days=-2000): "dated later than the clock of this device",
}


@pytest.mark.parametrize(("since", "age"), AGES.items(), ids=AGES.values())
def test_an_age_is_said_in_the_words_of_a_calendar(
    context, site: Path, newest: datetime, since: timedelta, age: str
) -> None:
    """A clock that stands wrong is told too."""
    tab = context.new_page()
    tab.clock.set_fixed_time(newest + since)
    tab.goto((site / "vehicles.html").as_uri())
    tab.locator("[data-version]").get_by_text(f"{newest.date()}, {age} ·").wait_for()


def test_from_a_folder_nothing_is_complained_of(context, site: Path) -> None:
    """Not even in the console: no manifest, no worker."""
    tab = context.new_page()
    complaints: list[str] = []
    tab.on("console", lambda line: complaints.append(line.text) if line.type in ("error", "warning") else None)
    for page in ("index.html", f"{PROCEDURE}.html", "larkway-m12/vehicle.html", "calculators.html"):
        tab.goto((site / page).as_uri())
        tab.locator("[data-version] span").first.wait_for(state="attached")

    assert [] == complaints


def test_a_newer_version_is_told_and_used_only_when_somebody_says_so(context, copied: Path) -> None:
    """Until then the page and all that it opens are of the version that was begun with."""
    server = Server(copied)
    tab = context.new_page()
    tab.goto(server.base + f"{PROCEDURE}.html")
    _kept(tab)
    _renew(copied)
    tab.evaluate("navigator.serviceWorker.getRegistration().then((found) => found.update())")
    bar = tab.locator(".newer")
    bar.wait_for()

    assert "NEWER" not in tab.locator("h1").inner_text()
    other = context.new_page()
    other.goto(server.base + f"{PROCEDURE}.html")
    assert "NEWER" not in other.locator("h1").inner_text()
    assert all(box["height"] >= 48 for box in (one.bounding_box() for one in bar.locator("button").all()))
    with tab.expect_navigation():
        bar.get_by_role("button", name="Use the newer version").click()
    assert "NEWER" in tab.locator("h1").inner_text()
    assert tab.locator(".newer").count() == 0
    server.stop()


def test_a_mixture_of_two_versions_is_never_kept(context, copied: Path) -> None:
    """A page that does not fit its list is on the server for a moment while a site is replaced: nothing is kept then."""
    page = copied / NEVER_VISITED
    page.write_text(page.read_text(encoding="utf-8") + "<!-- of another version -->", encoding="utf-8")
    server = Server(copied)
    tab = context.new_page()
    tab.goto(server.base + "vehicles.html")
    tab.get_by_text("Not kept on this device: the next opening tries again.").wait_for()

    assert not tab.evaluate("navigator.serviceWorker.getRegistration().then((found) => Boolean(found?.active))")
    server.stop()


def _renew(site: Path) -> None:
    """The same manual with another heading, as a rendering of tomorrow leaves it."""
    page = site / f"{PROCEDURE}.html"
    page.write_text(page.read_text(encoding="utf-8").replace("<h1>", "<h1>NEWER "), encoding="utf-8")
    _list_anew(site)


def _list_anew(site: Path) -> None:
    """The list of the files of a site and its version, as rendering leaves them."""
    for name in (offline.WORKER, offline.VERSION, offline.MANIFEST):
        (site / name).unlink()
    offline.write(site, "Depot workshop", None)


def test_a_sheet_works_alone_from_a_folder_and_asks_nothing(context, tmp_path: Path) -> None:
    """One file on a stick: it is read, worked with, and its record kept, without a request of any kind."""
    sheet = outputs.write_sheet(demo_shell(), PROCEDURE, tmp_path / "stick")
    tab = context.new_page()
    complaints: list[str] = []
    tab.on("console", lambda line: complaints.append(line.text) if line.type == "error" else None)
    tab.goto(sheet.as_uri())
    tab.get_by_label("Job number of the workshop").fill("2026-0421")
    version = tab.get_by_label("Version of the vehicle")
    if version.count():
        version.select_option(index=1)
    tab.get_by_role("button", name="Begin the job").click()
    tab.locator(".job-panel").get_by_text("2026-0421").first.wait_for()

    assert tab.locator(".bl-step").count() >= 12
    assert [sheet.as_uri()] == [url for url in context.asked if not url.startswith(("data:", "blob:"))]
    assert [] == complaints
    assert not tab.evaluate("document.documentElement.scrollWidth > document.documentElement.clientWidth")
    assert [] == tab.evaluate(
        "[...document.querySelectorAll('a[href]')].map((a) => a.getAttribute('href')).filter((to) => !to.startsWith('#'))"
    )
