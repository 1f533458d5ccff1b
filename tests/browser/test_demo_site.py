"""The demo manual in a real browser: it opens from a server and from a folder, fits a phone, asks nobody else."""

import posixpath
import re
from html import unescape
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from bayleaf.site.folder import listing
from browser.kinds import KINDS, LONGEST, SHORTER
from thinned import some

ROOT = Path(__file__).resolve().parents[2]

SIZES = {
    name: {"width": width, "height": height}
    for name, width, height in (("phone", 360, 740), ("tablet", 820, 1180), ("desktop", 1440, 900))
}


def test_what_is_published_is_only_the_site(site: Path) -> None:
    """No YAML file, no record, no original photo: only pages, what they need, and the search."""
    endings = {name.rpartition(".")[2] for name in listing(site) if not name.startswith("assets/photos/")}

    assert endings <= {"html", "js", "css", "svg", "xml", "gz", "map", "png", "bayleaf-site", "txt", "json"}
    assert not [name for name in listing(site) if name.endswith((".yml", ".yaml"))]
    originals = {path.read_bytes() for path in (ROOT / "procedures").rglob("photos/*")}
    assert originals
    assert not [name for name in listing(site) if (site / name).read_bytes() in originals]


def test_every_link_leads_somewhere(site: Path) -> None:
    """On every page of the demo each address is that of a file of the site, and each anchor is there."""
    names = set(listing(site))
    texts = {name: (site / name).read_text("utf-8") for name in names if name.endswith(".html")}
    ids = {name: set(re.findall(r'\s(?:id|name)="([^"]+)"', text)) for name, text in texts.items()}
    dead, seen = [], 0
    for name, text in texts.items():
        for found in re.findall(r'\s(?:href|src)="([^"]*)"', text):
            split = urlsplit(unescape(found))
            if split.scheme or found.startswith("/") and name == "404.html":
                continue
            seen += 1
            target = posixpath.normpath(posixpath.join(posixpath.dirname(name), split.path)) if split.path else name
            if target not in names or split.fragment and split.fragment not in ids.get(target, ()):
                dead.append(f"{name}: {found}")

    assert seen > 10_000
    assert [] == dead


def test_the_colours_are_those_of_the_device_until_somebody_chooses(context, folder: str) -> None:
    """The choice holds on every page from then on; the button names what a tap brings."""
    tab = context.new_page()
    scheme = lambda: tab.locator("body").get_attribute("data-md-color-scheme")  # noqa: E731
    tab.emulate_media(color_scheme="dark")
    tab.goto(folder + KINDS[0])
    assert scheme() == "slate"
    tab.emulate_media(color_scheme="light")
    tab.wait_for_selector("[data-md-color-scheme=default]")

    tab.get_by_role("button", name="Dark colours").click()
    tab.goto(folder + KINDS[1])

    assert scheme() == "slate"
    tab.get_by_role("button", name="Light colours").click()
    tab.emulate_media(color_scheme="dark")
    tab.reload()
    assert scheme() == "default"


@pytest.mark.parametrize(
    ("base", "sizes"), [("folder", ["phone", "desktop"]), ("server", ["tablet"])], indirect=["base"]
)
def test_every_kind_of_page_opens_and_fits(browser, base: str, sizes: list[str]) -> None:
    """No script fails, nothing sticks out to the side, and no other host is asked for anything."""
    tab = browser.new_page()
    asked: list[str] = []
    faults: list[str] = []
    tab.on("request", lambda request: asked.append(request.url))
    tab.on("pageerror", lambda error: faults.append(str(error)))
    too_wide = []

    for page in (
        [one for one in KINDS if one not in LONGEST[1:]]
        if base.startswith("file:")
        else (*SHORTER, *some([one for one in KINDS if one not in LONGEST], 2))
    ):
        tab.goto(base + page)
        assert tab.locator("h1").count() == 1, page
        for size in sizes:
            tab.set_viewport_size(SIZES[size])
            if tab.evaluate("document.documentElement.scrollWidth > document.documentElement.clientWidth"):
                too_wide.append((page, size))
    tab.close()

    assert faults == []
    assert too_wide == []
    assert {urlsplit(url).hostname or "" for url in asked} <= {urlsplit(base).hostname or ""}


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("P0AA6", "Trouble code P0AA6"),
        ("x7/1", "X7 Cabin heater HV inlet, Larkway M12 battery-electric minibus"),
        ("larkway-m12/isolate-traction", "Isolate the high-voltage system and prove it dead"),
    ],
)
def test_the_search_finds_the_thing_itself_first(browser, base: str, typed: str, first: str) -> None:
    """A code, a contact and an identifier lead to what they name."""
    tab = browser.new_page(viewport={"width": 390, "height": 844})
    tab.goto(base + "vehicles.html")
    tab.keyboard.press("/")
    tab.fill("#find-field", typed)
    tab.wait_for_function("text => document.querySelector('.find').dataset.answered === text", arg=typed)

    found = tab.locator(".find__title").first.text_content()
    tab.close()

    assert found is not None and found.startswith(first)


#: What somebody types, and what is among the first hits then, seen from a page of the van.
WORDED = [
    ("20 newton metres", "Bolts of the converter"),
    ("20 N m", "Bolts of the converter"),
    ("15 ft lb", "Terminal screws in the distribution box"),
    ("won't charge", "DC/DC converter does not charge the 12 V battery"),
    ("doesnt charge", "DC/DC converter does not charge the 12 V battery"),
    ("12-volt battery", "Test or renew the 12 V battery"),
    ("replacing heater", "Replace the cabin heater"),
    ("slowly waking", "Drive CAN is disturbed"),
    ("insulaton fault", "Find an insulation fault"),
    ("baterry", "Replace the 48 V battery"),
    ("P0AA6-1A insulation", "Find an insulation fault"),
    ("p0aa6 1a larkway", "Find an insulation fault"),
    ("number LM-4410-07", "Replace the cabin heater"),
    ("X7 1", "X7 Cabin heater HV inlet"),
    ("x7.1", "X7 Cabin heater HV inlet"),
    ("return to service", "Return the 48 V supply to service"),
    ("insulation qqqqqq", "nsulation"),
]


def test_it_is_found_as_somebody_words_it(browser, folder: str) -> None:
    """Units by their names, negations, other endings, slips of the finger, a code with its failure type beside words."""
    tab = browser.new_page()
    tab.goto(folder + "thistledown-v4/vehicle.html")
    found = tab.evaluate(
        """async (all) => Promise.all(all.map(async (typed) =>
            (await bayleafSearch.look(typed)).hits.slice(0, 5).map((hit) => hit.title)))""",
        [typed for typed, _ in WORDED],
    )
    tab.close()
    missing = [
        (typed, wanted, titles)
        for (typed, wanted), titles in zip(WORDED, found, strict=True)
        if not any(wanted in title for title in titles)
    ]

    assert [] == missing


def test_what_has_some_of_the_words_only_is_said_to(browser, folder: str) -> None:
    """And that there are more hits than are shown."""
    tab = browser.new_page()
    tab.goto(folder + "vehicles.html")
    tab.keyboard.press("/")
    said = {}
    for typed in ("insulation qqqqqq", "battery"):
        tab.fill("#find-field", typed)
        tab.wait_for_function("text => document.querySelector('.find').dataset.answered === text", arg=typed)
        said[typed] = tab.locator(".find__status").text_content()
    tab.close()

    assert "No page has all of these words; these have some." in said["insulation qqqqqq"]
    assert re.match(r"The first 20 of about \d+ hits: another word or a choice above leaves fewer\.", said["battery"])


def test_an_outcome_leads_to_its_step(browser, folder: str) -> None:
    """A tap on what follows a reading brings the reader to that step of the same page."""
    tab = browser.new_page(viewport={"width": 390, "height": 844})
    tab.goto(folder + "larkway-m12/find-insulation-fault.html")
    link = tab.locator("#step-bus .bl-exits a").first
    target = link.get_attribute("href") or ""
    link.click()

    assert tab.evaluate("location.hash") == target
    assert tab.locator(target).bounding_box()["y"] < 844
    tab.close()


def test_what_is_far_from_the_window_is_found(browser, folder: str) -> None:
    """Steps that are not laid out yet are reached by their address and by a search in the page, also without scripts."""
    page = folder + "larkway-m12/find-insulation-fault.html"
    for is_scripted in (True, False):
        context = browser.new_context(java_script_enabled=is_scripted, viewport={"width": 390, "height": 844})
        tab = context.new_page()
        step = tab.locator("#step-bring-back")
        tab.goto(page)
        assert not step.locator(".bl-step-title").evaluate("one => one.checkVisibility({contentVisibilityAuto: true})")
        if is_scripted:
            assert tab.evaluate(_FOUND_IN_STEP, "step-bring-back")
            tab.goto("about:blank")
        tab.goto(f"{page}#step-bring-back")
        assert 0 <= step.bounding_box()["y"] < 844
        context.close()


#: Searches the page for the title of a step, as somebody does by hand, until the step itself is marked.
_FOUND_IN_STEP = """anchor => {
    const step = document.getElementById(anchor);
    const words = step.querySelector(".bl-step-title > span").textContent;
    for (let count = 0; count < 5; count += 1) if (find(words) && step.contains(getSelection().anchorNode)) return true;
    return false;
}"""


@pytest.mark.parametrize(
    ("page", "own"),
    [
        ("index.html", []),
        ("codes.html", []),
        ("calculators/discharge.html", ["calculators"]),
        ("larkway-m12/isolate-traction.html", ["photos", "job"]),
        ("larkway-m12/isolate-traction.briefing.html", []),
    ],
)
def test_a_page_loads_the_style_sheets_that_it_needs(browser, folder: str, page: str, own: list[str]) -> None:
    """Those of frame and pages, its own, and that of paper without waiting for it."""
    tab = browser.new_page()
    tab.goto(folder + page)
    found = tab.evaluate(
        "[...document.querySelectorAll('link[rel=stylesheet]')].map(one => [one.href.split('/').pop(), one.media])"
    )
    tab.close()

    ours = [(name.removesuffix(".css"), media) for name, media in found if ".min." not in name]
    assert [(name, "") for name in ("shell", "pages", *own)] + [("paper", "print")] == ours


def test_without_script_a_procedure_can_be_read(browser, folder: str) -> None:
    """Steps, limits and outcomes are there with scripts switched off."""
    context = browser.new_context(java_script_enabled=False, viewport={"width": 390, "height": 844})
    tab = context.new_page()
    tab.goto(folder + "larkway-m12/isolate-traction.html")

    assert tab.locator(".bl-step").count() >= 12
    assert tab.locator("#step-prove .bl-figure").text_content() == "at most 5\xa0V"
    context.close()


def test_only_a_safety_message_has_its_colours(browser, folder: str) -> None:
    """A box of a free page is plain, unless it says DANGER, WARNING or CAUTION (ANSI Z535.6)."""
    tab = browser.new_page(viewport={"width": 390, "height": 844})
    looks = []
    for page in ("index.html", "larkway-m12/what-is-known-of-insulation-faults.html"):
        tab.goto(folder + page)
        looks.append(
            tab.locator(".admonition-title").first.evaluate(
                "(one) => [getComputedStyle(one).backgroundColor, getComputedStyle(one, '::before').content]"
            )
        )
    tab.close()

    assert [["rgba(0, 0, 0, 0)", '""'], ["rgb(155, 36, 35)", '"DANGER"']] == looks
