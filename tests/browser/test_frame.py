"""The frame of a page without the script of the theme: its bar, its contents, what is folded."""

import pytest
from browser.kinds import LONGEST

DESKTOP = {"width": 1440, "height": 900}
PAGE = LONGEST[0]
ACTIVE = "md-header__title--active"


@pytest.fixture
def tab(context, folder: str):
    """The longest procedure on a desktop."""
    opened = context.new_page()
    opened.set_viewport_size(DESKTOP)
    opened.goto(folder + PAGE)
    return opened


def marked(tab) -> str | None:
    """The place that the contents mark."""
    tab.wait_for_timeout(200)  # two frames: scrolled, marked
    return tab.evaluate("document.querySelector('.on-page [aria-current]')?.getAttribute('href') ?? null")


def test_the_contents_mark_where_the_reader_is(tab) -> None:
    """Nothing at the top, then the place that a tap led to, wherever it is, and the mark is within sight."""
    links = tab.evaluate("[...document.querySelectorAll('.on-page li > a')].map((link) => link.getAttribute('href'))")
    assert marked(tab) is None

    for link in (links[1], links[len(links) // 2], links[-8], links[2]):
        tab.evaluate("(link) => document.querySelector(`.on-page a[href='${link}']`).click()", link)
        assert marked(tab) == link
        is_seen = """() => {
            const box = document.querySelector(".md-sidebar--secondary .md-sidebar__scrollwrap").getBoundingClientRect();
            const mark = document.querySelector(".on-page [aria-current]").getBoundingClientRect();
            return mark.top >= box.top && mark.bottom <= box.bottom && box.bottom <= innerHeight;
        }"""
        assert tab.evaluate(is_seen), link


def test_the_bar_says_what_page_this_is_once_its_heading_is_gone(tab) -> None:
    """And the name of the manual again at the top."""
    bar = tab.locator(".md-header__title")
    shown = lambda: tab.wait_for_timeout(200) or ACTIVE in bar.get_attribute("class")  # noqa: E731
    assert not shown()

    tab.evaluate("scrollTo(0, 3000)")
    assert shown()
    assert bar.locator(".md-header__topic").nth(1).inner_text() == tab.locator("h1").inner_text()

    tab.evaluate("scrollTo(0, 0)")
    assert not shown()


def test_a_link_into_what_is_folded_opens_it(tab) -> None:
    """From this page and from another."""
    inside = tab.evaluate("document.querySelector('details.bl-performed [id^=step-]').id")
    fold = "(id) => { document.getElementById(id).closest('details').open = false; }"
    is_open = "(id) => document.getElementById(id).closest('details').open"
    tab.evaluate(fold, inside)

    tab.evaluate("(id) => { location.hash = id; }", inside)

    tab.wait_for_function(is_open, arg=inside)


def test_what_is_folded_is_open_on_paper_and_folded_again_after_it(tab) -> None:
    """The words of a drawing; what somebody had opened stays open."""
    states = "() => [...document.querySelectorAll('#content details')].map((part) => part.open)"
    before = tab.evaluate(states)
    tab.evaluate("addEventListener('beforeprint', () => { window.printed = (" + states + ")(); })")

    tab.pdf()

    assert False in before
    assert set(tab.evaluate("window.printed")) == {True}
    assert tab.evaluate(states) == before


def test_the_sides_stay_in_the_window_and_scroll_by_themselves(tab) -> None:
    """On a wide screen, at the top and far below it, below the bar."""
    inside = """() => [...document.querySelectorAll(".md-sidebar__scrollwrap")].map((box) => {
        const { top, bottom } = box.getBoundingClientRect();
        return top >= 48 && bottom <= innerHeight && bottom - top > 300 && getComputedStyle(box).overflowY === "auto";
    })"""
    for far in (0, 6000):
        tab.evaluate("(far) => scrollTo(0, far)", far)
        assert tab.evaluate(inside) == [True, True]


def test_the_whole_menu_can_be_reached_on_a_phone(context, folder: str) -> None:
    """It is longer than the window, and scrolls below a finger; the page behind it stays."""
    tab = context.new_page()
    tab.goto(folder + PAGE)
    tab.locator(".bar__menu").click()
    last = tab.locator(".site-nav a").last
    tab.mouse.move(100, 300)
    assert not last.evaluate("(link) => link.getBoundingClientRect().top < innerHeight")

    tab.mouse.wheel(0, 6000)

    tab.wait_for_function(
        "[...document.querySelectorAll('.site-nav a')].pop().getBoundingClientRect().bottom <= innerHeight"
    )
    assert tab.evaluate("scrollY") == 0
