"""What stands in the place of a tag on the site: the link, or the very drawing of the other page."""

import re
from html import unescape
from pathlib import Path

import pytest
from bayleaf.manual import load_manual
from bayleaf.mkdocs_shell import open_shell
from bayleaf.mkdocs_shell.direct import Shell
from bayleaf.pages.all import all_pages
from bayleaf.pages.tags import Tags
from bayleaf.site import folder
from bayleaf.site.facts import facts_of
from kit import TODAY, VEHICLE, write_manual
from mkdocs.commands.build import build
from mkdocs.config import load_config

PAGE = "procedures/book/deep/notes.md"
URL = "book/deep/notes.html"
UP = "../../"

#: The small manual, with a code, a face and a title that Markdown would take for its own signs.
MORE = {
    "procedures/test-van/vehicle.yml": VEHICLE.replace("name: Cabin heater\n", 'name: "Heater *5* <kW>_[x]_ | A&B"\n')
    .replace("variants:\n", "codes:\n  P0AA6: {means: Too little insulation}\nvariants:\n")
    .replace("connectors:\n", "connectors:\n  X90:\n    name: Test socket\n    face:\n      rows: [['1'], ['2']]\n"
             "      seen_from: Mating side of the plug\n    pins:\n      1: {signal: a, circuit: supply-12}\n"
             "      2: {signal: b, circuit: supply-12}\n"),
}  # fmt: skip


def opened(where: Path, text: str, place: str = PAGE) -> Shell:
    """The manual with a free page, ready to be shown; no finding in it."""
    manual = load_manual(write_manual(where, {**MORE, place: text}), TODAY)
    assert () == manual.findings
    return open_shell(where / "mkdocs.yml", all_pages(manual), manual.findings, facts_of(manual), Tags(manual))


def article(html: str) -> str:
    """What stands between head and foot."""
    return html[html.index("<article") : html.index("</article>")]


#: A tag, its words, its address.
LINKS = [
    ("[[vehicle: test-van]]", "Test van", "test-van/vehicle.html"),
    ("[[procedure: test-van/isolate]]", "Isolate the traction system", "test-van/isolate.html"),
    ("[[step: test-van/isolate 6]]", "Isolate the traction system, step 6", "test-van/isolate.html#step-6"),
    ("[[code: P0AA6]]", "P0AA6", "codes.html#P0AA6"),
    ("[[rule: unknown-key]]", "unknown-key", "rules/unknown-key.html"),
    ("[[circuit: test-van traction]]", "Traction DC bus", "test-van/vehicle.html#traction"),
    ("[[isolation point: test-van service-plug]]", "Traction service plug", "test-van/vehicle.html#service-plug"),
    ("[[connector: test-van X90]]", "X90 Test socket", "test-van/vehicle.html#X90"),
    (
        "[[part: test-van cabin-heater]]",
        "Heater *5* <kW>_[x]_ | A&B",
        "test-van/vehicle.html#cabin-heater",
    ),
    ("[[cable: test-van ground-strap]]", "Ground strap", "test-van/vehicle.html#ground-strap"),
    ("[[fastener: test-van heater-bracket]]", "heater bracket", "test-van/vehicle.html#heater-bracket"),
]


@pytest.mark.parametrize(
    ("place", "up"), [(PAGE, UP), ("procedures/index.md", ""), ("procedures/test-van/n.md", "../")]
)
def test_a_link_has_the_name_of_what_it_leads_to(tmp_path: Path, place: str, up: str) -> None:
    """At every depth, whatever signs are in the name, and the thing is really there."""
    shell = opened(tmp_path, "# N\n\n" + "".join(f"- a **{tag}** b\n" for tag, _, _ in LINKS), place)
    html = unescape(article(shell.page_html(place.removeprefix("procedures/").replace(".md", ".html"))))
    pages = {url.partition("#")[0]: shell.page_html(url.partition("#")[0]) for _, _, url in LINKS}

    assert shell.said == []
    for _, words, url in LINKS:
        relative = f"{up}{url}" if place != "procedures/test-van/n.md" else f"../{url}".replace("../test-van/", "")
        target, _, anchor = url.partition("#")
        assert f'a <strong><a href="{relative}">{words}</a></strong> b' in html
        assert not anchor or f'id="{anchor}"' in pages[target]


def test_a_link_may_stand_in_a_heading_and_a_table(tmp_path: Path) -> None:
    """The heading is found under its words."""
    text = "# N\n\n## About [[part: test-van cabin-heater]]\n\n| a |\n| - |\n| [[part: test-van cabin-heater]] |\n"
    html = opened(tmp_path, text).page_html(URL)

    assert re.search(r'<h2 id="about-heater-5-kw[^"&]*">About <a href=', html)
    assert re.search(r'<a href="#about-heater-5-kw[^"]*">', html)
    assert "<td><a href=" in html


DRAWINGS = {
    "[[energy: test-van traction]]": ("test-van/energy.html", r'<path class="bl-map-wire[^>]*>', "Traction DC bus"),
    "[[face: test-van X90]]": ("test-van/vehicle.html", r'<figure class="bl-face".*?</figure>', "X90 Test socket"),
    "[[discharge: test-van/isolate 6]]": ("test-van/isolate.html", r'<figure class="bl-drawing".*?</figure>', "step 6"),
    "[[flow: test-van/isolate]]": ("test-van/isolate.html", r"$^", "Isolate the traction system"),
}


@pytest.mark.parametrize("tag", DRAWINGS)
def test_a_drawing_is_the_one_of_the_other_page(tmp_path: Path, tag: str) -> None:
    """The same marks, with the way to that page above it."""
    url, piece, title = DRAWINGS[tag]
    shell = opened(tmp_path, f"# N\n\nBefore.\n\n{tag}\n\nBehind.\n")
    html, other = article(shell.page_html(URL)), shell.page_html(url)
    pieces = re.findall(piece, html, re.DOTALL)

    assert all(one in other for one in pieces)
    assert pieces or "flow" in tag
    assert re.search(rf'<p class="bl-embed-title"><a href="{UP}{url}[^"]*">[^<]*{re.escape(title)}', html)
    assert "<p>Before.</p>" in html and "<p>Behind.</p>" in html
    assert "bayleaftag" not in html and "[[" not in html


def test_the_whole_map_has_every_circuit(tmp_path: Path) -> None:
    """A vehicle alone stands for all its circuits."""
    html = opened(tmp_path, "# N\n\n[[energy: test-van]]\n").page_html(URL)

    assert 4 == html.count('<div class="bl-card bl-map">')


def test_the_flow_leads_to_the_steps_of_the_procedure(tmp_path: Path) -> None:
    """Not to anchors that the free page does not have."""
    shell = opened(tmp_path, "# N\n\n[[flow: test-van/isolate]]\n")
    flow = re.search(r'<div class="bl-flow-picture">(.*?)</div>', shell.page_html(URL), re.DOTALL)
    targets = re.findall(r'<a href="([^"]+)"', flow[1]) if flow else []
    other = shell.page_html("test-van/isolate.html")

    assert len(targets) == 9  # eight steps, and the conclusion
    assert all(one.startswith(f"{UP}test-van/isolate.html#") for one in targets)
    assert all(f'id="{one.partition("#")[2]}"' in other for one in targets)


def test_every_drawing_has_a_name_of_its_own(tmp_path: Path) -> None:
    """Also where the same stands on a page twice: no id is there twice, and a screen reader reads each."""
    tags = [*DRAWINGS, "[[energy: test-van]]", "[[discharge: test-van traction]]"] * 2
    html = article(opened(tmp_path, "# N\n\n" + "\n\n".join(tags)).page_html(URL))
    ids = re.findall(r'\sid="([^"]+)"', html)
    labelled = " ".join(re.findall(r'aria-labelledby="([^"]+)"', html)).split()

    assert len(ids) == len(set(ids))
    assert set(labelled) <= set(ids)
    assert not re.findall(r"<svg (?![^>]*(?:aria-label|aria-hidden))", html)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("!!! note\n\n    Above.\n\n    [[face: test-van X90]]\n\n    Below.\n", "Below."),
        ("- item\n\n    [[face: test-van X90]]\n\n- other\n", "other"),
        ("Above\n[[face: test-van X90]]\nBelow\n", "<p>Below</p>"),
        ("[[face: test-van X90]] <!-- seen from the plug -->\n\nBelow\n", "<p>Below</p>"),
    ],
)
def test_a_drawing_stands_wherever_a_line_may(tmp_path: Path, text: str, expected: str) -> None:
    """In a note, below an item, between two lines of a paragraph; never within a paragraph."""
    write_manual(tmp_path, {"mkdocs.yml": "site_name: T\ndocs_dir: procedures\ntheme: {name: material}\n"
                            "plugins: [bayleaf]\nmarkdown_extensions: [admonition]\n"})  # fmt: skip
    config = (tmp_path / "mkdocs.yml").read_text("utf-8")
    manual = load_manual(write_manual(tmp_path, {**MORE, PAGE: f"# N\n\n{text}", "mkdocs.yml": config}), TODAY)
    html = article(open_shell(tmp_path / "mkdocs.yml", all_pages(manual), tags=Tags(manual)).page_html(URL))

    assert '<figure class="bl-face"' in html and expected in html
    assert not re.search(r"<p>[^<]*<div", html)


def test_a_tag_in_code_is_shown_as_it_is_written(tmp_path: Path) -> None:
    """So a page can tell how a tag is written."""
    text = "# N\n\n`[[energy: nobody]]`\n\n```\n[[energy: nobody]]\n```\n\n    [[energy: nobody]]\n\n\\[[energy: nobody]]\n"

    assert 4 == article(opened(tmp_path, text).page_html(URL)).count("[[energy: nobody]]")


def test_the_search_has_the_words_of_links(tmp_path: Path) -> None:
    """And nothing that only stood in for a drawing."""
    shell = opened(tmp_path, "# N\n\nBegin with [[procedure: test-van/isolate]].\n\n[[discharge: test-van traction]]\n")
    index = "".join(shell.search_pieces().values())

    assert "Begin with Isolate the traction system." in index
    assert "bayleaftag" not in index


def test_a_tag_that_leads_nowhere_stays_as_it_is_written(tmp_path: Path) -> None:
    """Where a manual is rendered in spite of its errors, which every page tells."""
    folder = write_manual(tmp_path, {PAGE: "# N\n\n[[energy: nobody]] and [[connector: test-van X700]]\n"})
    manual = load_manual(folder, TODAY)
    html = open_shell(tmp_path / "mkdocs.yml", all_pages(manual), manual.findings, tags=Tags(manual)).page_html(URL)

    assert "[[energy: nobody]] and [[connector: test-van X700]]" in html
    assert "Do not work by this page." in html and f"{PAGE}:3:11" in html


def test_the_plugin_makes_the_same_bytes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every file of the site, whichever way it was made."""
    monkeypatch.setattr("mkdocs.structure.pages.get_build_date", lambda: "2026-11-01")
    text = "# N\n\n" + "\n\n".join(DRAWINGS) + "\n\n[[code: P0AA6]] [[part: test-van cabin-heater]] `[[code: x]]`\n"
    opened(tmp_path, text).write(tmp_path / "direct")
    config = load_config(str(tmp_path / "mkdocs.yml"))
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    names = folder.listing(tmp_path / "site")

    differing = [
        one for one in names if (tmp_path / "site" / one).read_bytes() != (tmp_path / "direct" / one).read_bytes()
    ]

    assert "bl-embed" in (tmp_path / "site" / URL).read_text("utf-8")
    assert names == folder.listing(tmp_path / "direct")
    assert [] == [one for one in differing if not one.startswith("sitemap")]


def test_an_error_in_a_page_ends_a_build(tmp_path: Path) -> None:
    """`mkdocs build` tells file, line and column, as `bayleaf check` does."""
    write_manual(tmp_path, {PAGE: "# N\n\n[[energy: test-vann]]\n"})
    config = load_config(str(tmp_path / "mkdocs.yml"))
    config.plugins.on_startup(command="build", dirty=False)

    with pytest.raises(BaseException) as caught:
        build(config)
    assert f"{PAGE}:3:11: error: there is no vehicle `test-vann` [tag-leads-nowhere]" in str(caught.getrepr(chain=True))
