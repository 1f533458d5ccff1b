"""A page as one file: everything in it, nothing asked."""

import re

import pytest
from bayleaf.site.bound import Chapter, bound
from bayleaf.site.single_file import parts_of, single_file

FILES = {
    "assets/a.css": b".x{background:url(dot.png)} .y{background:url('gone.png')} .z{mask:url(\"data:image/svg+xml,<svg/>\")}"
    b"/*# sourceMappingURL=a.css.map */",
    "assets/dot.png": b"\x89PNG",
    "assets/job.js": b"let text = '</script>';\n//# sourceMappingURL=job.js.map",
    "assets/search.js": b"searching",
    "assets/javascripts/bundle.js": b"framing",
    "m/photo.png": b"photo",
    "assets/small.jpg": b"small",
    "assets/large.jpg": b"large",
    "assets/large.webp": b"webp",
}
PAGE = """<html lang="de"><head><title>Isolate - Bay</title>
<link rel="stylesheet" href="../assets/a.css"><link rel="icon" href="../assets/dot.png">
<link rel="stylesheet" href="https://elsewhere.example/b.css"></head>
<body dir="ltr" data-md-color-scheme="default"><nav><a href="x.html">x</a></nav>
<article id="content"><h1 id="top">Isolate</h1><a class="c" href="../codes.html#P1">P1</a> <a href="#step-1">1</a>
<section id="step-1"><img alt="" src="photo.png"></section>
<a class="o" href="../assets/large.jpg"><picture><source type="image/webp" srcset="../assets/large.webp 1600w" sizes="9vw">
<img src="../assets/small.jpg" srcset="../assets/large.jpg 1600w, ../assets/small.jpg 480w" sizes="9vw" width="4" height="3"
 alt="Plug" loading="lazy"></picture></a></article>
<script src="../assets/javascripts/bundle.js" defer></script><script src="../assets/search.js" defer></script>
<script src="../assets/job.js" defer></script></body></html>"""


@pytest.fixture
def text() -> str:
    """The file."""
    return single_file(parts_of(PAGE, "m/p.html", FILES.get), "One sheet of <Bay>")


def test_nothing_in_it_names_another_file(text):
    """No address but places of the file itself and data."""
    named = re.findall(r'(?:src|href)="([^"]*)"', text) + re.findall(r"url\(['\"]?([^'\")]*)", text)

    assert named
    assert [] == [each for each in named if not each.startswith(("#", "data:"))]
    assert "sourceMappingURL" not in text and "elsewhere" not in text


def test_pictures_styles_and_the_scripts_of_the_page_are_in_it(text):
    """Those of the frame are not, since the frame is not."""
    assert '<img alt="" src="data:image/png;base64,cGhvdG8=">' in text
    assert '.x{background:url("data:image/png;base64,iVBORw==")}' in text
    assert "let text = '<\\/script>';" in text
    assert "searching" not in text and "framing" not in text and "<nav>" not in text


def test_of_a_picture_in_several_sizes_the_largest_is_in_it(text):
    """Once, in the form that every browser shows, without what would put it off until it is scrolled to."""
    found = re.search(r'<a class="o"><picture>\s*(.*?)</picture></a>', text, re.DOTALL)[1]
    assert '<img src="data:image/jpeg;base64,bGFyZ2U=" width="4" height="3"\n alt="Plug">' == found


def test_a_way_out_is_text_and_a_way_within_stays(text):
    """The other pages are not there."""
    assert '<a class="c">P1</a> <a href="#step-1">1</a>' in text
    assert "One sheet of &lt;Bay&gt;" in text


def test_a_policy_forbids_every_request(text):
    """Also to scripts and styles of somebody's own."""
    assert "default-src 'none'" in text


def test_without_scripts_there_is_none():
    """For paper."""
    assert "<script" not in single_file(parts_of(PAGE, "m/p.html", FILES.get), with_scripts=False)


def test_in_the_bound_manual_every_place_has_a_name_of_its_own():
    """Several procedures have a step 1; links stay within their page."""
    parts = parts_of(PAGE, "m/p.html", FILES.get)
    chapters = [Chapter("Alder", "One", parts, "a/1"), Chapter("Birch", "Two & more", parts, "b/2")]
    text = bound("Bay", "Newest", chapters, "", {"p1": 3, "p2": 17})
    places = re.findall(r'\sid="([^"]+)"', text)

    assert len(places) == len(set(places))
    assert '<a href="#p2-step-1">' in text and 'id="p2-step-1"' in text
    assert '<a href="#p2"><span>Two &amp; more</span><span class="bound-number">17</span></a>' in text
    assert ["<h2>Alder</h2>", "<h2>Birch</h2>"] == re.findall(r"<h2>.*?</h2>", text)
