"""What a printed sheet carries: margins with title, number and revision, and the code of the address."""

import pytest
import segno
from bayleaf.mkdocs_shell import open_shell
from bayleaf.site import outputs, paper
from bayleaf.site.facts import ManualFacts, PageFacts
from fake_manual import facts, pages, write_manual

KNOWN = PageFacts("Traction system", "Class B, high voltage", "m12/isolate", "3 of 2026-10-02")

#: A text, and as CSS reads it between quotation marks.
TEXTS = {
    "Plain": '"Plain"',
    'A "quoted" word': '"A \\22 quoted\\22  word"',
    "back\\slash": '"back\\5c slash"',
    "</style><script>": '"\\3c /style\\3e \\3c script\\3e "',
}


@pytest.mark.parametrize(("text", "expected"), TEXTS.items())
def test_a_text_in_a_margin_can_end_neither_the_style_nor_the_page(text, expected):
    """Titles are an author's own."""
    assert expected == paper.css_text(text)


def test_a_page_with_a_number_has_it_with_title_and_revision_in_the_margins():
    """On every sheet, since margins are of the sheet and not of the text."""
    found = paper.sheet_parts("Isolate", "m12/isolate.html", KNOWN, None)

    assert '@top-left{content:"Isolate"}' in found
    assert '@bottom-left{content:"m12/isolate · revision 3 of 2026-10-02"}' in found


def test_a_page_without_a_number_has_its_title_on_every_sheet_and_no_code():
    """An index is no sheet to work by, yet a loose one can be told apart."""
    style = '<style media="print">@page {@top-left{content:"Codes"}@bottom-left{content:""}}:root{--sheet-line:"Codes"}</style>'

    assert style == paper.sheet_parts("Codes", "codes.html", PageFacts(), "https://manual.example/")


@pytest.mark.parametrize("site_url", ["https://manual.example/bay/", "https://manual.example/bay"])
def test_with_an_address_of_the_site_the_code_is_that_of_the_page(site_url):
    """Read back by its modules: the drawing is the code of just this address, and the address is printed under it."""
    address = "https://manual.example/bay/m12/isolate.html"
    expected = segno.make(address, error="q", micro=False).svg_inline(
        border=4, omitsize=True, svgclass=None, lineclass=None
    )

    assert f"{expected}<p>{address}</p>" == paper.address_code("m12/isolate.html", site_url)


def test_without_an_address_the_place_is_said_in_words():
    """A code that leads nowhere is worse than none."""
    assert "<p>Page m12/isolate.html of the manual</p>" == paper.address_code("m12/isolate.html", None)


def test_the_shell_puts_it_into_the_page(tmp_path):
    """By the address in `mkdocs.yml`."""
    config_file = write_manual(tmp_path, site_url="https://manual.example/bay/")
    shell = open_shell(config_file, pages(), facts=facts())

    assert "<p>https://manual.example/bay/larkway-m12/isolate.html</p>" in shell.page_html("larkway-m12/isolate.html")
    assert "sheet-code" not in shell.page_html("codes.html")


def test_the_bound_manual_goes_by_vehicle_the_profile_first_then_each_procedure_behind_its_briefing():
    """Energy map and review behind the profile, then the indexes and the free pages; rules and formats stay out."""
    numbers = {
        f"{one}{ending}": PageFacts(number=one)
        for one in ("a/y", "a/x", "b/z")
        for ending in (".html", ".briefing.html")
    }
    known = ManualFacts(numbers, {"a": "Alder", "b": "Birch"})
    urls = ["index.html", "book/mine.html", "calculators/r.html", "limits.html", "codes.html", "tools.html", "rules/r.html", "b/z.html", "a/y.html", "a/vehicle.html", "a/energy.html", "a/review.html",
            "a/x.html", "a/x.briefing.html", "b/vehicle.html"]  # fmt: skip

    expected = ("a/vehicle.html", "a/energy.html", "a/review.html", "a/x.briefing.html", "a/x.html", "a/y.html",
                "b/vehicle.html", "b/z.html", "codes.html", "limits.html", "tools.html", "book/mine.html")  # fmt: skip
    assert expected == outputs.bound_urls(urls, known)
