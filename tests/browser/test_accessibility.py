"""Every kind of page against the rules of axe-core, in both colour schemes, also with a job, the search and one step open.

Source: axe-core, the rules of WCAG 2.2 A and AA and its best practices; https://github.com/dequelabs/axe-core (MPL-2.0).
"""

from collections.abc import Callable, Iterator
from typing import Any

import job_kit
import pytest
from axe_playwright_python.sync_playwright import Axe
from browser.kinds import ALIKE as ALIKE_PAGES
from browser.kinds import KINDS, LONGEST, SHORTER
from job_kit import SHORT, begin
from thinned import IS_CAMPAIGN


@pytest.fixture(params=["light", "dark"])
def scheme(request: Any) -> str:
    """What the device prefers."""
    return request.param


@pytest.fixture
def tab(scheme: str, browser: Any) -> Iterator[Any]:
    """A phone in a colour scheme."""
    context = browser.new_context(viewport=job_kit.PHONE, color_scheme=scheme, has_touch=True)
    yield context.new_page()
    context.close()


#: In the dark scheme only the colours are others.
RULES: dict[str, dict[str, Any]] = {
    "light": {}, "dark": {"runOnly": {"type": "rule", "values": ["color-contrast", "link-in-text-block"]}},
}  # fmt: skip
#: A hundred rows or steps are made by the same lines: of elements that are alike in tag, class and role, and in those of
#: the three that they stand in, the first three are looked at, and in a campaign all. Of a page that is only read the
#: others are taken away.
ALIKE = """(is_read) => {
  const seen = new Map();
  const own = (one) => one && [one.localName, one.getAttribute("role"), one.getAttribute("class")].join(".").replace(/bl-kind-\\w+/, "");
  for (const one of document.body.querySelectorAll("*")) {
    const parent = one.parentElement;
    if (parent.closest("[data-alike], th")) continue;
    const name = [one, parent, parent.parentElement, parent.parentElement?.parentElement].map(own).join(" ");
    seen.set(name, (seen.get(name) ?? 0) + 1);
    if (seen.get(name) > 3) one.dataset.alike = "";
  }
  if (is_read) for (const one of document.querySelectorAll("[data-alike]")) one.remove();
}"""


def told(tab: Any, options: dict[str, Any] | None = None, is_read: bool = False) -> list[str]:
    """What axe-core finds on the page as it stands: rule, how grave, the first element."""
    options = {"resultTypes": ["violations"], **(options or {})}
    if not IS_CAMPAIGN:
        tab.evaluate(ALIKE, is_read)
    # What is laid out only when it comes near moves while axe-core scrolls, and lies below the bar when it looks. The
    # colours of another scheme are looked at when they have come.
    tab.add_style_tag(content="* { content-visibility: visible !important; transition: none !important; }")
    if not tab.evaluate("'axe' in window"):
        tab.evaluate(Axe().axe_script)
    run = "([context, options]) => axe.run(context, options).then((found) => found.violations)"
    found = tab.evaluate(run, [{"exclude": [["[data-alike]"]]}, options])
    return [f"{tab.url} {one['id']} {one['impact']} {one['nodes'][0]['html'][:120]}" for one in found]


def test_no_kind_of_page_breaks_a_rule(browser: Any, serve: Callable[..., str], site: Any) -> None:
    """As it opens, and in the other scheme, no page has a fault that axe-core knows. Of pages that are alike one is looked at."""
    address, found = serve(site), []
    context = browser.new_context(viewport=job_kit.PHONE, color_scheme="light", has_touch=True)
    tab = context.new_page()
    for page in KINDS if IS_CAMPAIGN else (*SHORTER, *(one for one in KINDS if one not in (*LONGEST, *ALIKE_PAGES))):
        tab.goto(address + page)
        found += told(tab, is_read=True)
        tab.emulate_media(color_scheme="dark")
        tab.evaluate("document.body.dataset.mdColorScheme = 'slate'")  # what a dark device gets as it opens
        found += told(tab, RULES["dark"], is_read=True)
        tab.emulate_media(color_scheme="light")
    context.close()

    assert [] == found


def test_a_job_breaks_no_rule(tab: Any, scheme: str, serve: Callable[..., str], site: Any) -> None:
    """With fields, verdict, barred exits and the bar of the job."""
    tab.goto(serve(site) + SHORT)
    begin(tab, "2026-0101")
    found = told(tab, RULES[scheme])
    tab.locator(".job-reading input").first.fill("400")
    tab.locator(".job-reading button", has_text="Enter").first.click()
    found += told(tab, RULES[scheme])
    tab.get_by_role("button", name="One step at a time").first.click()
    found += told(tab, RULES[scheme])

    assert [] == found


def test_the_search_breaks_no_rule(tab: Any, scheme: str, serve: Callable[..., str], site: Any) -> None:
    """With hits and filters."""
    tab.goto(serve(site) + "index.html")
    tab.keyboard.press("/")
    tab.fill("#find-field", "insulation")
    tab.wait_for_function("document.querySelector('.find').dataset.answered === 'insulation'")

    assert [] == told(tab, RULES[scheme])


def test_a_fault_would_be_found(tab: Any) -> None:
    """Such as a picture without words."""
    page = "<html lang='en'><title>Page</title><main><h1>Page</h1><table>{}</table></main></html>"
    fault = "<tr><td><img src='data:image/gif;base64,R0lGODlhAQABAAAAACw='></td></tr>"
    tab.set_content(page.format(fault))

    assert [one for one in told(tab) if "image-alt" in one]
