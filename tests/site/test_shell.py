"""The plugin and the direct path make the same site of a manual."""

import logging
import re
from dataclasses import replace
from pathlib import Path

import pytest
from bayleaf.mkdocs_shell import ShellError, open_shell, source
from bayleaf.pages.body import Script
from bayleaf.site import folder
from fake_manual import PHOTO, facts, finding, given, mkdocs_build, page, pages, write_manual
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

MANUALS = {
    "plain": {},
    "with an address": {"site_url": "https://manual.example/bay/"},
    "with a navigation": {"nav": [{"Start": "index.md"}, {"Codes <all>": "codes.md"}, {"V": "larkway-m12/vehicle.md"}]},
    "with a foreign plugin": {"hooks": ["hook.py"]},
    "with edit links": {"repo_url": "https://forge.example/a/b", "edit_uri": "edit/main/procedures/"},
    "with templates of its own": {"theme": {"name": "material", "custom_dir": "templates"}},
    "with one colour scheme": {"theme": {"name": "material", "palette": {"scheme": "slate"}, "language": "de"}},
    "with two colour schemes": {
        "theme": {
            "name": "material",
            "palette": [
                {"scheme": name, "toggle": {"icon": "material/weather-night", "name": f"To {name}"}}
                for name in ("default", "slate")
            ],
        }
    },
    "with Markdown extensions": {"markdown_extensions": ["admonition", {"toc": {"permalink": True}}]},
}


def _both(monkeypatch, tmp_path: Path, listed, **settings) -> tuple[Path, Path]:
    config_file = write_manual(tmp_path, **settings)
    open_shell(config_file, listed, facts=facts()).write(tmp_path / "direct")
    mkdocs_build(monkeypatch, config_file, listed, facts=facts())
    return tmp_path / "direct", tmp_path / "site"


def _many() -> tuple:
    return (*pages(), *(page(f"larkway-m12/p{n}.html", f"<{n}> & more") for n in range(5)), page("a/b/c.html", "Deep"))


@pytest.mark.parametrize("settings", MANUALS.values(), ids=MANUALS.keys())
def test_both_paths_write_the_same_bytes(monkeypatch, tmp_path, settings):
    """Every file of the site, whichever way it was made, on whatever day."""
    monkeypatch.setattr(
        "mkdocs.structure.pages.get_build_date", iter(f"2026-11-{n:02d}" for n in range(1, 99)).__next__
    )
    direct, built = _both(monkeypatch, tmp_path, _many(), **settings)

    assert folder.listing(built) == folder.listing(direct)
    differing = [name for name in folder.listing(built) if (built / name).read_bytes() != (direct / name).read_bytes()]
    assert differing == []


@pytest.mark.parametrize("writes", ["directly", "by MkDocs"])
def test_a_script_that_is_made_has_the_same_line_ends_on_every_system(monkeypatch, tmp_path, writes):
    """MkDocs writes a text with those of the system, as Windows does here."""
    monkeypatch.setattr("mkdocs.structure.files.open", _as_on_windows, raising=False)
    made = replace(page("calculators.html", "Calculators"), scripts=(Script("assets/made.js", lambda: "1;\n2;\n"),))
    config_file = write_manual(tmp_path)
    if writes == "directly":
        open_shell(config_file, (made,)).write(tmp_path / "site")
    else:
        mkdocs_build(monkeypatch, config_file, (made,))

    assert b"1;\n2;\n" == (tmp_path / "site/assets/made.js").read_bytes()


def _as_on_windows(path, mode="r", **how):
    return open(path, mode, **how) if "b" in mode else open(path, mode, **{"newline": "\r\n", **how})


@pytest.mark.parametrize(
    ("named", "ours", "of_the_theme"),
    [("plain", 1, 0), ("with one colour scheme", 0, 0), ("with two colour schemes", 0, 1)],
)
def test_a_manual_that_sets_a_palette_has_the_button_of_the_theme(tmp_path, named: str, ours: int, of_the_theme: int):
    """Ours stands between our own two schemes only; with one scheme there is nothing to choose."""
    html = open_shell(write_manual(tmp_path, **MANUALS[named]), _many()).page_html("codes.html")

    assert (ours, of_the_theme) == (
        html.count('class="bar__button bar__colours"'),
        html.count('data-md-component="palette"'),
    )


@pytest.mark.parametrize(
    ("settings", "made"),
    [
        ({}, False),
        ({"theme": {"name": "material", "features": ["content.code.copy", "navigation.instant"]}}, False),
        ({"theme": {"name": "material", "features": ["header.autohide"]}}, True),
        ({"extra_javascript": ["own.js"]}, True),
        ({"extra": {"version": {"provider": "mike"}}}, True),
        (MANUALS["with templates of its own"], True),
        (MANUALS["with one colour scheme"], True),
    ],
    ids=["nothing set", "for free pages", "a feature", "a script", "versions", "templates", "a palette"],
)
def test_a_made_page_loads_the_script_of_the_theme_only_where_a_manual_rests_on_it(tmp_path, settings, made: bool):
    """It has nothing to do there, and takes half a second of a phone. Free pages have it: boxes, tables, code."""
    shell = open_shell(write_manual(tmp_path, **settings), _many())
    has_it = lambda url: "assets/javascripts/bundle." in shell.page_html(url)  # noqa: E731

    assert (made, True) == (has_it("codes.html"), has_it("book/voltage.html"))


def test_one_page_by_itself_is_the_page_of_the_whole_site(monkeypatch, tmp_path):
    """`page_html` gives what `write` writes, in whatever order pages are asked for."""
    config_file = write_manual(tmp_path)
    open_shell(config_file, _many()).write(tmp_path / "out")
    shell = open_shell(config_file, _many())

    for url in reversed(shell.urls):
        assert (tmp_path / "out" / url).read_text(encoding="utf-8") == shell.page_html(url), url


def test_the_site_holds_pages_and_assets_and_no_sources(monkeypatch, tmp_path):
    """YAML files, job records and photos as the camera wrote them are never published."""
    _, site = _both(monkeypatch, tmp_path, pages())
    own = [name for name in folder.listing(site) if not name.startswith(("assets/", "search/", "sitemap"))]

    expected = [
        ".bayleaf-site",
        "404.html",
        "book/voltage.html",
        "codes.html",
        "index.html",
        "larkway-m12/diagram.svg",
        "larkway-m12/isolate.html",
        "larkway-m12/vehicle.html",
        "manifest.json",
        "rules/torque-without-unit.html",
        "sw.js",
        "vehicles.html",
        "version.js",
    ]
    assert expected == own
    assert not [name for name in folder.listing(site) if name.lower().endswith((".yml", ".yaml", ".jpg"))]
    assert not [name for name in folder.listing(site) if (site / name).read_bytes() == PHOTO]


def test_a_title_is_escaped_wherever_it_stands(tmp_path):
    """`Beta & <two>` in the title of the window, the heading, and the bar."""
    html = open_shell(write_manual(tmp_path), pages()).page_html("larkway-m12/isolate.html")

    assert "<title>Beta &amp; &lt;two&gt; - Bay &amp; Co</title>" in html
    assert "<h1>Beta &amp; &lt;two&gt;</h1>" in html
    assert "<two>" not in html


def test_contents_crumbs_and_links_fit_the_depth_of_the_page(tmp_path):
    """Addresses are relative, so that the site works from any folder."""
    html = open_shell(write_manual(tmp_path), pages()).page_html("larkway-m12/isolate.html")

    assert (
        '<li><a href="../vehicles.html">Vehicles</a></li><li class="crumbs__here"><span>larkway-m12</span></li>' in html
    )
    assert ('<li><a href="#first">First &amp; only</a><ul><li><a href="#step-1">Step 1</a></li></ul></li>') in html
    assert '<script src="../assets/search.js" defer>' in html


def test_the_navigation_lists_index_pages_and_free_pages_but_no_procedure(tmp_path):
    """With a thousand procedures in it every page would carry the list of them all."""
    html = open_shell(write_manual(tmp_path), pages()).page_html("vehicles.html")
    listed = re.findall(r'<a href="([^"]+)"', html[html.index('class="site-nav"') : html.index('class="on-page"')])

    assert listed == ["index.html", "vehicles.html", "codes.html", "book/voltage.html"]


def test_free_pages_in_the_folder_of_a_vehicle_stand_under_its_name(tmp_path):
    """Not under the name of the folder, which is made for addresses."""
    config_file = write_manual(tmp_path)
    (tmp_path / "procedures/larkway-m12/notes.md").write_text("# Notes\n", encoding="utf-8")
    html = open_shell(config_file, pages()).page_html("larkway-m12/notes.html")

    assert "Larkway M12" in html[html.index('class="site-nav"') : html.index("<article")]
    assert "Larkway m12" not in html


@pytest.mark.parametrize(
    ("link", "href"),
    [
        ("../larkway-m12/isolate.yml#step-1", "../larkway-m12/isolate.html#step-1"),
        ("../larkway-m12/isolate.html", "../larkway-m12/isolate.html"),
        ("../codes.html#P0AA6", "../codes.html#P0AA6"),
        ("../index.md", "../index.html"),
        ("https://example.org/codes.html", "https://example.org/codes.html"),
    ],
)
def test_a_free_page_links_to_a_made_one_by_its_file_or_its_address(tmp_path, link, href):
    """The first works in the folder of the manual as well as on the site."""
    config_file = write_manual(tmp_path)
    (tmp_path / "procedures/book/voltage.md").write_text(f"# V\n\n[there]({link})\n", encoding="utf-8")
    shell = open_shell(config_file, pages())

    assert f'<a href="{href}">there</a>' in shell.page_html("book/voltage.html")
    assert shell.said == []


def test_a_link_in_code_is_shown_as_it_is_written(tmp_path):
    """So a page can tell how to link to a procedure."""
    config_file = write_manual(tmp_path)
    text = "# V\n\n`[there](../larkway-m12/isolate.yml)`\n\n```\n[there](../codes.html)\n```\n"
    (tmp_path / "procedures/book/voltage.md").write_text(text, encoding="utf-8")
    html = open_shell(config_file, pages()).page_html("book/voltage.html")

    assert "[there](../larkway-m12/isolate.yml)" in html and "[there](../codes.html)" in html


def test_nothing_is_fetched_from_another_host(tmp_path):
    """No page names another host in what a browser loads by itself, even if analytics are asked for."""
    config = write_manual(
        tmp_path,
        extra={"analytics": {"provider": "google", "property": "G-0"}},
        theme={"name": "material", "features": ["navigation.instant", "navigation.top", "content.code.copy"]},
    )
    shell = open_shell(config, pages())

    for url in shell.urls:
        html = shell.page_html(url)
        loaded = re.findall(r'<(?:script|img|iframe|source)[^>]+src="([^"]+)"|<link[^>]+href="([^"]+)"', html)
        assert not [each for each in loaded if "//" in "".join(each)]
        assert "navigation." not in html and "google" not in html


def test_a_diagram_in_a_free_page_stays_text(tmp_path):
    """The theme would fetch three megabytes from another host to draw it."""
    fences = [{"name": "mermaid", "class": "mermaid", "format": "!!python/name:pymdownx.superfences.fence_code_format"}]
    config_file = write_manual(tmp_path, markdown_extensions=[{"pymdownx.superfences": {"custom_fences": fences}}])
    text = config_file.read_text(encoding="utf-8")
    config_file.write_text(re.sub(r"'(!!python/name:[^']+)'", r"\1", text), encoding="utf-8")
    (tmp_path / "procedures/index.md").write_text("# D\n\n```mermaid\ngraph LR\n```\n", encoding="utf-8")

    html = open_shell(config_file, pages()).page_html("index.html")

    assert '<pre class="diagram-source"><code>graph LR' in html
    assert 'class="mermaid"' not in html


def test_only_the_shell_imports_mkdocs():
    """The layers below it are usable without."""
    package = Path(source.__file__).parents[1]
    importing = [
        path.relative_to(package).as_posix()
        for path in package.rglob("*.py")
        if re.search(r"^\s*(?:from|import) (?:mkdocs|material)\b", path.read_text(encoding="utf-8"), re.MULTILINE)
    ]

    assert {"mkdocs_shell"} == {name.split("/")[0] for name in importing}


def test_errors_end_a_build_with_a_report_and_leave_the_last_site(monkeypatch, tmp_path, caplog):
    """The report names file, line, message and what to write."""
    config_file = write_manual(tmp_path)
    mkdocs_build(monkeypatch, config_file, pages())
    before = folder.listing(tmp_path / "site")

    with pytest.raises(Abort), caplog.at_level(logging.ERROR, "mkdocs"):
        mkdocs_build(monkeypatch, config_file, pages(), [finding(), finding("warning", "no source")])

    assert "1 error in the manual" in caplog.text
    assert "procedures/larkway-m12/isolate.yml:12:5: error: proved dead at no step [work-before-proof]" in caplog.text
    assert "help: prove_dead: …" in caplog.text
    assert before == folder.listing(tmp_path / "site")
    assert not list(tmp_path.glob(".site*"))


def test_warnings_do_not_fail_a_strict_build(monkeypatch, tmp_path, caplog):
    """They are logged as information."""
    with caplog.at_level(logging.INFO, "mkdocs"):
        mkdocs_build(monkeypatch, write_manual(tmp_path), pages(), [finding("warning"), finding("advice")], strict=True)

    assert "1 warning, 1 advice in the manual" in caplog.text
    assert (tmp_path / "site/index.html").is_file()


def test_a_strict_build_that_fails_leaves_the_last_site(monkeypatch, tmp_path):
    """MkDocs fails after the last event; the new site must not be in place by then."""
    config_file = write_manual(tmp_path)
    mkdocs_build(monkeypatch, config_file, pages())
    (tmp_path / "procedures/book/broken.md").write_text("[nowhere](no.md)", encoding="utf-8")

    with pytest.raises(Abort):
        mkdocs_build(monkeypatch, config_file, pages(), strict=True)

    assert not (tmp_path / "site/book/broken.html").exists()
    assert (tmp_path / "site/index.html").is_file()
    assert not list(tmp_path.glob(".site*"))


def test_after_a_build_the_configuration_names_the_site(monkeypatch, tmp_path):
    """`mkdocs gh-deploy` reads it there."""
    config = mkdocs_build(monkeypatch, write_manual(tmp_path), pages())

    assert tmp_path / "site" == Path(config.site_dir)
    assert (tmp_path / "site" / folder.MARK).is_file()


def test_a_foreign_folder_is_refused_by_both_paths(monkeypatch, tmp_path, caplog):
    """Neither touches a folder that it did not make."""
    config_file = write_manual(tmp_path)
    (tmp_path / "site").mkdir()
    (tmp_path / "site/letter.txt").write_text("dear", encoding="utf-8")

    with pytest.raises(folder.SiteFolderError):
        open_shell(config_file, pages()).write(tmp_path / "site")
    with pytest.raises(Abort):
        mkdocs_build(monkeypatch, config_file, pages())

    assert "bayleaf did not write" in caplog.text
    assert folder.listing(tmp_path / "site") == ("letter.txt",)


@pytest.mark.parametrize("name", ["codes.md", "larkway-m12/vehicle.md", "Codes.md", "codes.html"])
def test_a_file_with_the_address_of_a_page_is_an_error_that_names_both(tmp_path, name):
    """Also where they differ in capitals only: some systems hold them for the same file."""
    config_file = write_manual(tmp_path)
    path = tmp_path / "procedures" / name
    path.write_text("# Mine\n", encoding="utf-8")

    with pytest.raises(ShellError) as caught:
        open_shell(config_file, pages())

    assert f"procedures/{name}" in str(caught.value)
    assert ("Larkway M12" if "vehicle" in name else "Trouble codes") in str(caught.value)


def test_a_home_page_of_the_manual_takes_the_place_of_a_made_one(tmp_path):
    """`index.md` is the one free page that may stand where a page is made."""
    config_file = write_manual(tmp_path)

    assert "The manual</h1>" in open_shell(config_file, [*pages(), page("index.html", "Made")]).page_html("index.html")

    (tmp_path / "procedures/index.md").unlink()
    assert "<h1>Made</h1>" in open_shell(config_file, [*pages(), page("index.html", "Made")]).page_html("index.html")


def test_serve_shows_errors_on_every_page_and_goes_on(monkeypatch, tmp_path):
    """Errors, a page that cannot be made, and a clash of addresses: nothing ends `mkdocs serve`."""

    def broken():
        raise ValueError("no <plan>")

    (tmp_path / "manual").mkdir()
    config_file = write_manual(tmp_path / "manual")
    (tmp_path / "manual/procedures/codes.md").write_text("# Mine\n", encoding="utf-8")
    listed = [*pages(), page("x.html", "Broken")]
    object.__setattr__(listed[-1], "make", broken)
    site = tmp_path / "mkdocs_served"
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    monkeypatch.setattr(source, "load", given(listed, [finding()]))

    build(load_config(str(config_file), site_dir=str(site)), serve_url="http://127.0.0.1:8000/")

    for url in ("index.html", "larkway-m12/isolate.html", "codes.html"):
        html = (site / url).read_text(encoding="utf-8")
        assert "Do not work by this page." in html and "The manual has 2 errors." in html
        assert "procedures/larkway-m12/isolate.yml:12:5" in html
    assert "ValueError: no &lt;plan&gt;" in (site / "x.html").read_text(encoding="utf-8")


def test_serve_shows_that_the_manual_could_not_be_read(monkeypatch, tmp_path):
    """A fault of our own while it is read is shown as well."""

    def broken(manual):
        raise RuntimeError("fault")

    (tmp_path / "manual").mkdir()
    config_file = write_manual(tmp_path / "manual")
    site = tmp_path / "mkdocs_served"
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    monkeypatch.setattr(source, "load", broken)

    config = load_config(str(config_file), site_dir=str(site))
    build(config, serve_url="http://127.0.0.1:8000/")

    assert "RuntimeError: fault" in (site / "index.html").read_text(encoding="utf-8")
    assert str(tmp_path / "manual/records") in config.watch


def test_a_page_that_cannot_be_made_is_named(tmp_path):
    """Nothing is written then."""
    listed = [page("x.html", "Broken")]
    object.__setattr__(listed[0], "make", lambda: 1 / 0)
    config_file = write_manual(tmp_path)

    with pytest.raises(ShellError, match=r"“Broken” \(x.html\) could not be made: ZeroDivisionError"):
        open_shell(config_file, listed).write(tmp_path / "out")

    assert not (tmp_path / "out").exists()
    assert not list(tmp_path.glob(".out*"))


@pytest.mark.parametrize(
    ("settings", "said"),
    [
        ({"plugins": []}, "plugins: [bayleaf]"),
        ({"theme": {"name": "mkdocs"}}, "theme: material"),
        ({"theme": {"name": "materiel"}}, "materiel"),
        ({"nonsense": 1, "docs_dir": "nowhere"}, "nowhere"),
    ],
)
def test_a_configuration_that_does_not_do_is_said_in_a_sentence(tmp_path, settings, said):
    """The direct path raises one kind of exception, with the words of MkDocs in it."""
    with pytest.raises(ShellError, match=re.escape(said)):
        open_shell(write_manual(tmp_path, **settings), pages())


def test_progress_is_told_for_each_page(tmp_path):
    """As (done, of how many)."""
    told = []
    number = open_shell(write_manual(tmp_path), pages()).write(
        tmp_path / "out", lambda done, total: told.append((done, total))
    )

    assert [(n, 7) for n in range(1, 8)] == told
    assert number == 7
