"""Scripts that some pages need: made with the site, loaded by these pages alone, the same on both paths."""

from dataclasses import replace
from pathlib import Path

import pytest
from bayleaf.mkdocs_shell import open_shell
from bayleaf.pages.body import Page, Script
from bayleaf.site import folder
from fake_manual import mkdocs_build, page, pages, write_manual

MADE = Script("assets/made.js", lambda: "globalThis.made = 'Ω';\n")
OF_THE_THEME = Script("assets/exact.js")


def listed() -> tuple[Page, ...]:
    """Several pages of one folder with scripts, two without, and one at the root."""
    with_scripts = [replace(page(f"calc/c{n}.html", f"C{n}"), scripts=(OF_THE_THEME, MADE)) for n in range(5)]
    return (*pages(), *with_scripts, page("calc/plain.html", "Plain"), page("calc/plain2.html", "Plain"),
            replace(page("root.html", "Root"), scripts=(MADE,)))  # fmt: skip


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """The site, by the direct path."""
    open_shell(write_manual(tmp_path), listed()).write(tmp_path / "direct")
    return tmp_path / "direct"


def test_a_made_script_is_a_file_of_the_site(site: Path) -> None:
    """Once, however many pages need it."""
    assert "globalThis.made = 'Ω';\n" == (site / "assets/made.js").read_text(encoding="utf-8")


def test_only_its_pages_load_it(site: Path) -> None:
    """In the given order, by addresses that fit the depth of the page."""
    wanted = '<script src="../assets/exact.js" defer></script>\n    <script src="../assets/made.js" defer></script>'
    for number in range(5):
        assert wanted in (site / f"calc/c{number}.html").read_text(encoding="utf-8")
    assert '<script src="assets/made.js" defer></script>' in (site / "root.html").read_text(encoding="utf-8")
    for name in ("calc/plain.html", "calc/plain2.html", "vehicles.html", "book/voltage.html", "404.html"):
        assert "made.js" not in (site / name).read_text(encoding="utf-8")


def test_both_paths_write_the_same_bytes(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, site: Path) -> None:
    """`mkdocs build` and the direct path."""
    mkdocs_build(monkeypatch, write_manual(tmp_path), listed())
    built = tmp_path / "site"

    assert folder.listing(built) == folder.listing(site)
    assert [] == [
        name
        for name in folder.listing(built)
        if not name.startswith("sitemap") and (built / name).read_bytes() != (site / name).read_bytes()
    ]


def test_the_preview_answers_for_it(tmp_path: Path) -> None:
    """It is an asset like any other."""
    shell = open_shell(write_manual(tmp_path), listed())

    assert "globalThis.made = 'Ω';\n".encode() == shell.asset("assets/made.js")
    assert "made.js" in shell.page_html("calc/c3.html")
