"""The filters of the search: by vehicle, system, kind and voltage class, each with the number of hits."""

from pathlib import Path

import pytest
from bayleaf.mkdocs_shell import open_shell
from bayleaf.site.facts import ManualFacts, PageFacts
from fake_manual import facts, page, pages, record, write_manual

HIGH, LOW = "Class B, high voltage", "12 V and 24 V"


@pytest.fixture(scope="module")
def site(tmp_path_factory) -> Path:
    """The site of the made-up manual, with what is known of its pages."""
    folder = tmp_path_factory.mktemp("manual")
    open_shell(write_manual(folder), pages(), facts=facts()).write(folder / "site")
    return folder / "site"


@pytest.fixture(scope="module")
def many(tmp_path_factory) -> Path:
    """400 procedures of four vehicles that all hold the same word; those of one are far beyond what is shown at first."""
    folder = tmp_path_factory.mktemp("many")
    listed, known = list(pages()), {}
    for number in range(400):
        url = f"v{0 if number < 300 else number % 3 + 1}/p{number}.html"
        known[url] = PageFacts(f"System {number % 5}", HIGH if number % 2 else LOW)
        listed.append(page(url, f"Replace pump {number}", search=[record(url, f"Replace pump {number}", "procedure")]))
    vehicles = {f"v{number}": f"Vehicle {number}" for number in range(4)}
    open_shell(write_manual(folder), listed, facts=ManualFacts(known, vehicles)).write(folder / "site")
    return folder / "site"


@pytest.fixture
def tab(browser, serve):
    """A function that opens a site with the dialog of the search, on a phone."""
    opened = []

    def go(site: Path, as_folder: bool = False):
        made = browser.new_page(viewport={"width": 390, "height": 844})
        opened.append(made)
        made.goto((site.as_uri() + "/" if as_folder else serve(site)) + "vehicles.html")
        made.keyboard.press("/")
        return made

    yield go
    for made in opened:
        made.close()


def _type(tab, text: str) -> list[str]:
    tab.fill("#find-field", text)
    return _answered(tab, text)


def _answered(tab, text: str) -> list[str]:
    tab.wait_for_function("text => document.querySelector('.find').dataset.answered === text", arg=text)
    return tab.locator(".find__title").all_text_contents()


def _offered(tab) -> dict[str, list[str]]:
    """What each list above the hits offers."""
    labels = tab.locator(".find__filter:visible")
    return {
        labels.nth(at).locator("span").inner_text(): labels.nth(at).locator("option").all_text_contents()
        for at in range(labels.count())
    }


@pytest.mark.parametrize("as_folder", [False, True], ids=["server", "folder"])
def test_each_list_offers_what_occurs_among_the_hits_with_its_number(tab, site, as_folder):
    """One that could part nothing is left out; here all hits lie in two kinds, one vehicle or none."""
    opened = tab(site, as_folder)
    titles = _type(opened, "interlock")

    assert ["P0A0D-07 · Interlock open", "Open the interlock"] == titles
    assert {"Kind": ["all (2)", "step (1)", "trouble code (1)"]} == _offered(opened)


def test_a_choice_leaves_the_hits_that_have_it(tab, site):
    """And a choice can be taken back."""
    opened = tab(site)
    _type(opened, "interlock")
    opened.locator("#find-kind").select_option("step")
    assert ["Open the interlock"] == _answered(opened, "interlock")
    opened.locator("#find-kind").select_option("")
    assert 2 == len(_answered(opened, "interlock"))


def test_a_hit_names_vehicle_and_kind(tab, site):
    """Pumps look alike in every list."""
    opened = tab(site)
    _type(opened, "coolant pump")
    hit = opened.locator(".find__hit").first

    assert "part" == hit.locator(".find__kind").inner_text()
    assert "Larkway M12" in hit.locator(".find__where").inner_text()


def test_a_choice_that_leaves_nothing_says_so(tab, site):
    """And stays in the list, so that it can be taken back."""
    opened = tab(site)
    _type(opened, "interlock")
    opened.locator("#find-kind").select_option("step")
    assert [] == _type(opened, "kuhlmittel")

    assert "Choose “all” above" in opened.locator(".find__status").inner_text()
    assert "step (0)" in _offered(opened)["Kind"]


#: What is chosen of the 400, and how many of them have it.
CHOICES = [
    ({"vehicle": "Vehicle 2"}, 33),
    ({"system": "System 3"}, 80),
    ({"class": HIGH}, 200),
    ({"vehicle": "Vehicle 0", "class": LOW}, 150),
    ({"vehicle": "Vehicle 3", "system": "System 0"}, 7),
]


@pytest.mark.parametrize(("chosen", "number"), CHOICES)
def test_a_filter_reaches_hits_that_were_not_among_the_first(tab, many, chosen, number):
    """All hits are filtered, not those on the screen; the number of each choice is that of all pages that have it."""
    opened = tab(many)
    found = opened.evaluate("chosen => bayleafSearch.look('replace pump', chosen)", chosen)
    offered = {one["name"]: {each["word"]: each["count"] for each in one["choices"]} for one in found["filters"]}

    assert min(number, 20) <= len(found["hits"]) <= number
    for name, word in chosen.items():
        assert number == offered[name][word]
    if "vehicle" in chosen:
        assert {chosen["vehicle"]} == {hit["vehicle"] for hit in found["hits"]}


def test_with_gloves_every_target_is_large(tab, site):
    """108 px, about 20 mm, where the pages of procedures were set to gloves."""
    opened = tab(site)
    opened.keyboard.press("Escape")
    opened.locator(".find").wait_for(state="hidden")
    opened.evaluate("localStorage.setItem('bayleaf-job-view:Bay', JSON.stringify({ gloves: true }))")
    opened.keyboard.press("/")
    _type(opened, "interlock")
    targets = opened.locator(".find__field, .find__close, .find__filter:visible select, .find__hit")
    boxes = [targets.nth(at).bounding_box() for at in range(targets.count())]

    assert len(boxes) >= 5
    assert [] == [box for box in boxes if box["height"] < 108 or box["width"] < 108]
