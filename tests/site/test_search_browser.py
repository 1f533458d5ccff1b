"""The search in a browser, from a server and from a folder."""

import random
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from bayleaf.mkdocs_shell import open_shell
from fake_manual import facts, page, pages, record, write_manual
from thinned import some

START = {"root": "vehicles.html", "vehicle": "larkway-m12/isolate.html", "book": "book/voltage.html"}


@pytest.fixture(scope="module")
def site(tmp_path_factory) -> Path:
    """The site of the made-up manual."""
    folder = tmp_path_factory.mktemp("manual")
    open_shell(write_manual(folder), pages(), facts=facts()).write(folder / "site")
    return folder / "site"


@pytest.fixture(params=["server", "folder"])
def at(request, browser, serve, site):
    """A function that opens a page of the site; afterwards no other host may have been asked."""
    base = serve(site) if request.param == "server" else site.as_uri() + "/"
    tab = browser.new_page(viewport={"width": 390, "height": 844})
    asked, faults = [], []
    tab.on("request", lambda request: asked.append(request.url))
    tab.on("pageerror", lambda error: faults.append(str(error)))

    def go(url: str):
        tab.goto(base + url)
        return tab

    yield go
    tab.close()
    hosts = {urlsplit(url).hostname or "" for url in asked}
    assert hosts == ({"127.0.0.1"} if request.param == "server" else {""})
    assert faults == []


def _search(tab, text: str) -> list[str]:
    """Type a text; the titles of the hits, once the answer stands."""
    if not tab.locator("dialog.find[open]").count():
        tab.keyboard.press("/")
    tab.fill("#find-field", text)
    tab.wait_for_function("text => document.querySelector('.find').dataset.answered === text", arg=text)
    return tab.locator(".find__title").all_text_contents()


#: What is typed, and the title that must come first.
FIRST = {
    "p0aa6": "P0AA6 · Insulation fault",
    "P0A0D07": "P0A0D-07 · Interlock open",
    "p0a0d": "P0A0D-07 · Interlock open",
    "P0AA6-1A": "P0AA6 · Insulation fault",
    "p0aa61a": "P0AA6 · Insulation fault",
    "x210/3": "X210/3 compressor",
    "X210": "X210/3 compressor",
    "LW4472081": "Coolant pump",
    "lw 447 20-81": "Coolant pump",
    "l w 44720 81": "Coolant pump",
    "larkway-m12/isolate": "Beta & <two>",
    "trouble co": "Trouble codes",
    "interlock": "P0A0D-07 · Interlock open",
    "45 Nm": "Open the interlock",
    "2,5 mohm": "Open the interlock",
    "kuhlm": "Coolant pump",
    "class b volt": "Class B",
}


@pytest.mark.parametrize("start", some(list(START.values()), 2), ids=some(list(START), 2))
def test_what_is_typed_finds_the_thing_first(at, start):
    """Codes, connectors, part numbers, titles, words: at every depth of the site."""
    tab = at(start)

    assert {typed: first for typed, first in FIRST.items()} == {typed: _search(tab, typed)[0] for typed in FIRST}


def test_enter_opens_the_chosen_hit_at_its_anchor(at):
    """Arrows choose, Enter opens."""
    tab = at(START["root"])
    titles = _search(tab, "interlock")
    tab.keyboard.press("ArrowDown")
    tab.keyboard.press("Enter")
    tab.wait_for_url("**/isolate.html#step-1")

    assert titles[1] == "Open the interlock"
    assert not tab.locator("dialog.find[open]").count()


def test_escape_closes_and_gives_the_focus_back(at):
    """Also while a text stands in the field."""
    tab = at(START["root"])
    tab.click("[data-find]")
    tab.keyboard.type("p0a")
    tab.keyboard.press("Escape")

    assert not tab.locator("dialog.find[open]").count()
    assert tab.evaluate("document.activeElement.matches('[data-find]')")


def test_nothing_found_says_what_can_be_typed(at):
    """And which text it was that is not there."""
    tab = at(START["root"])

    assert _search(tab, "zzzz <b>") == []
    said = tab.locator(".find__status").text_content()
    assert "Nothing found for “zzzz <b>”" in said
    assert "trouble code" in said and "part number" in said


def test_a_screen_reader_is_told_what_is_there(at):
    """Dialog, combobox, list box and the number of hits have their roles and names."""
    tab = at(START["root"])
    _search(tab, "interlock")
    field = tab.get_by_role("combobox", name="Search the manual")

    assert tab.get_by_role("dialog", name="Search").is_visible()
    assert field.get_attribute("aria-expanded") == "true"
    assert field.get_attribute("aria-activedescendant") == "find-hit-0"
    assert tab.get_by_role("status").text_content() == "2 hits"
    assert tab.get_by_role("listbox", name="Hits").get_by_role("option").first.get_attribute("aria-selected") == "true"


def test_what_is_touched_is_at_least_48_pixels_high(at):
    """In the bar, the drawer, the contents, the crumbs, and the search."""
    tab = at(START["vehicle"])
    _search(tab, "p0a")
    small = tab.evaluate(
        """() => [...document.querySelectorAll(
            '.bar__button, .bar__home, .bar label:not([hidden]), .site-nav a, .on-page summary, .crumbs a, '
            + '.find__field, .find__close, .find__hit, .find__filter select')]
            .filter((e) => e.getBoundingClientRect().height > 0 && e.getBoundingClientRect().height < 48)
            .map((e) => e.outerHTML.slice(0, 80))"""
    )

    assert small == []
    box = tab.locator("dialog.find").bounding_box()
    assert (box["x"], box["y"], box["width"], box["height"]) == (0, 0, 390, 844)


def test_the_menu_opens_by_keyboard_and_by_touch(at):
    """A closed drawer holds nothing that Tab could reach."""
    tab = at(START["root"])
    links = tab.locator(".site-nav a").first

    assert not links.is_visible()
    tab.focus(".bar__menu")
    tab.keyboard.press("Enter")
    links.wait_for(state="visible")
    assert tab.get_attribute(".bar__menu", "aria-expanded") == "true"
    tab.keyboard.press("Escape")
    links.wait_for(state="hidden")
    tab.click(".bar__menu")
    links.wait_for(state="visible")


def test_an_index_that_is_not_there_is_said(browser, tmp_path):
    """A site that was copied without its folder `search`."""
    open_shell(write_manual(tmp_path), pages()).write(tmp_path / "site")
    (tmp_path / "site/search/index.js").unlink()
    tab = browser.new_page()
    tab.goto((tmp_path / "site/index.html").as_uri())
    tab.keyboard.press("/")
    tab.keyboard.type("x")
    tab.get_by_text("could not be read").wait_for()
    tab.close()


def test_a_browser_that_kept_an_older_index_reads_the_new_one(browser, serve, tmp_path):
    """Its cache holds `index.js` of the site before; the pieces are new."""
    config_file = write_manual(tmp_path)
    open_shell(config_file, pages()).write(tmp_path / "site")
    older = (tmp_path / "site/search/index.js").read_text(encoding="utf-8")
    more = page("larkway-m12/new.html", "Newly added", search=[record("larkway-m12/new.html", "Newly added", "page")])
    open_shell(config_file, [*pages(), more]).write(tmp_path / "site")
    tab = browser.new_page()
    tab.route("**/search/index.js", lambda route: route.fulfill(body=older, content_type="text/javascript"))
    tab.goto(serve(tmp_path / "site") + "index.html")

    found = tab.evaluate("async () => (await bayleafSearch.find('newly add'))[0].title")
    tab.close()
    assert found == "Newly added"


def test_on_a_thousand_procedures_every_code_connector_and_part_comes_first(browser, serve, tmp_path):
    """200 of them at random, each looked up as it is printed; and a query fetches little."""
    chosen = random.Random(7)
    things, listed = [], list(pages())
    for number in range(1000):
        url = f"v{number % 8}/p{number}.html"
        code, pin, part = (
            f"P{number:04X}-{number % 90:02d}",
            f"X{number}/{number % 40 + 1}",
            f"BL {number:04d}-{number * 7:05d}",
        )
        of = [
            record(
                url, f"Procedure {number}: replace unit {number % 50}", "procedure", f"v{number % 8}/p{number}", code
            )
        ]
        of += [
            record(
                f"{url}#code", f"{code} Unit {number % 50} lost", "trouble code", code, words=f"see {pin} and {part}"
            ),
            record(f"{url}#pin", f"{pin} of unit {number % 50}", "connector", pin, words=f"carries {code}"),
            record(f"{url}#part", f"Seal {number % 30}", "part", part, words=f"for {pin}"),
        ]
        of += [record(f"{url}#s{n}", f"Step {n}", "step", words=f"Tighten {pin} to {n} N·m, {code}") for n in range(36)]
        things += [(code, f"{url}#code"), (pin, f"{url}#pin"), (part, f"{url}#part")]
        listed.append(page(url, of[0].title, "<p>x</p>", search=of))
    open_shell(write_manual(tmp_path), listed).write(tmp_path / "site")
    tab = browser.new_page()
    fetched = []
    tab.on("response", lambda response: fetched.append(response) if "/search/" in response.url else None)
    tab.goto(serve(tmp_path / "site") + "v3/p3.html")
    tab.evaluate("bayleafSearch.find('tighten unit 7')")
    first = sum(len(response.body()) for response in fetched)
    asked = chosen.sample(things, 200)

    answers = tab.evaluate(
        "async (texts) => { const out = []; "
        "for (const t of texts) out.push((await bayleafSearch.find(t))[0]?.address); return out; }",
        [text for text, _ in asked],
    )
    tab.close()

    assert [(text, address) for (text, address), got in zip(asked, answers, strict=True) if got != address] == []
    assert first < 600_000, f"{first} bytes for one query of three words"
