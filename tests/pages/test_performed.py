"""The steps of a performed procedure, made once and put into every page with that page's own numbers."""

import re
from pathlib import Path

import pytest
from bayleaf.manual import Manual
from bayleaf.pages.all import all_pages
from kit import PLACES, PROCEDURE, check

STAYS_OFF = "stays_off: [charge-lead, aux-negative, service-plug, inverter-cover]\n"
PERFORM = "  - id: {id}\n    perform: test-van/{callee}\n"


def procedure(name: str, *callees: str) -> str:
    """A procedure that looks at the vehicle, then performs others and leaves it isolated."""
    text = PROCEDURE.replace("test-van/job", f"test-van/{name}").replace("Test job", f"Job {name}")
    return text + "".join(PERFORM.format(id=f"do-{callee}", callee=callee) for callee in callees) + STAYS_OFF


def html(manual: Manual) -> dict[str, str]:
    """The pages of the procedures."""
    return {page.url: page.make().html for page in all_pages(manual) if page.url.startswith("test-van/")}


@pytest.fixture
def pages(tmp_path: Path) -> dict[str, str]:
    """Two procedures that perform the isolation at different steps, and one that performs one of these."""
    files = {
        PLACES["procedure"]: procedure("job", "isolate"),
        "procedures/test-van/later.yml": procedure("later", "job", "isolate"),
    }
    return html(check(tmp_path, files))


def test_numbers_and_anchors_are_those_of_the_page(pages: dict[str, str]) -> None:
    """Step 2 performs it on one page, step 3 on the other, and within step 2 of what step 2 performs."""
    assert 'id="step-do-isolate-1"' in pages["test-van/job.html"]
    assert 'aria-label="Step 2.1"' in pages["test-van/job.html"]
    later = pages["test-van/later.html"]
    assert 'id="step-do-isolate-1"' in later and 'aria-label="Step 3.1"' in later
    assert 'id="step-do-job-do-isolate-1"' in later and 'aria-label="Step 2.2.1"' in later


def test_anchors_are_unique_and_links_on_a_page_have_one(pages: dict[str, str]) -> None:
    """No two steps of a page share an anchor, and no link within it leads nowhere."""
    for url, page in pages.items():
        anchors = re.findall(r'\sid="([^"]+)"', page)
        assert len(anchors) == len(set(anchors)), url
        assert set() == set(re.findall(r'href="#([^"]+)"', page)) - set(anchors), url


def test_nothing_is_left_of_what_stood_in_for_the_numbers(pages: dict[str, str]) -> None:
    """The two letters of private use are replaced wherever they stood."""
    assert [] == [url for url, page in pages.items() if re.search("[\ue000\ue001]", page)]


def test_procedures_that_perform_each_other_end(tmp_path: Path) -> None:
    """It is an error, and the pages are made all the same; in whatever order, they are the same."""
    files = {PLACES["procedure"]: procedure("job", "other"), "procedures/test-van/other.yml": procedure("other", "job")}
    manual = check(tmp_path, files)
    made = html(manual)
    backwards = {page.url: page.make().html for page in reversed(all_pages(manual)) if page.url in made}
    assert manual.has_errors
    assert "Job other" in made["test-van/job.html"]
    assert made == backwards


def test_what_a_performed_procedure_uses_up_is_laid_out_before_the_job(tmp_path: Path) -> None:
    """Consumables and parts of all that is performed, each once; those that only it needs with its title."""
    used = "consumables: [Cloths]\nparts: [{part: cabin-heater}]\n"
    files = {
        PLACES["procedure"]: procedure("job", "fill") + "consumables: [Cloths, Grease]\n",
        "procedures/test-van/fill.yml": procedure("fill", "isolate") + used.replace("Cloths", "Cloths, Coolant"),
    }
    page = html(check(tmp_path, files))["test-van/job.html"]
    head = dict(re.findall(r"<dt>([^<]+)</dt><dd>(.*?)</dd>", page))

    assert "Cloths<br>Grease<br>Coolant (Job fill)" == head["Consumables"]
    assert head["Parts to have ready"].endswith(" (Job fill)")
