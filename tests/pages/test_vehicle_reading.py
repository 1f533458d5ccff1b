"""The free pages in the folder of a vehicle are listed on its page, with the titles and addresses that they have."""

import re
from html import unescape
from pathlib import Path

import pytest
from bayleaf.manual import load_manual
from bayleaf.mkdocs_shell import open_shell
from bayleaf.mkdocs_shell.direct import Shell
from bayleaf.pages.all import all_pages
from bayleaf.pages.tags import Tags
from bayleaf.site.facts import facts_of
from kit import TODAY, write_manual
from mkdocs.commands.build import build
from mkdocs.config import load_config

#: Name of the file, its text, the title that stands on the page of the vehicle.
PAGES = (
    ("how-it-works.md", "# How it works\n\nText.\n\n# And more\n", "How it works"),
    ("stated.md", "---\ntitle: Said in the head\n---\n# Another\n", "Said in the head"),
    ("signs.md", "# The `X7` plug, **orange** & wet\n", "The X7 plug, orange & wet"),
    ("link.md", "# See [the plug](how-it-works.md)\n", "See the plug"),
    ("not-first.md", "Text before it.\n\n# The heading\n", "Not first"),
    ("closed.md", "# Closed by signs ##\n", "Closed by signs"),
    ("no-heading.md", "Text without one.\n", "No heading"),
    ("deep/inner-page.md", "# Deeper\n", "Deeper"),
    ("old/README.md", "# Old things\n", "Old things"),
)


@pytest.mark.parametrize(("name", "text", "title"), PAGES)
def test_a_free_page_is_listed_under_its_own_title(tmp_path: Path, name: str, text: str, title: str) -> None:
    """The link leads to a page of the site, and MkDocs gives that page the same title."""
    shell = _opened(tmp_path, {name: text})

    html = shell.page_html("test-van/vehicle.html")
    listed = html.partition('id="to-read"')[2].partition("<h2")[0]
    links = re.findall(r'<a href="([^"]*)"><span class="bl-link-title">([^<]*)', listed)

    assert [title] == [unescape(words).replace("\u00a0", " ") for _, words in links]
    assert f"test-van/{links[0][0]}" in shell.urls
    assert title == shell.title(f"test-van/{links[0][0]}")


def test_the_plugin_lists_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Byte for byte, all pages at once."""
    shell = _opened(tmp_path, {name: text for name, text, _ in PAGES})
    monkeypatch.setattr("mkdocs.structure.pages.get_build_date", lambda: "2026-11-01")
    config = load_config(str(tmp_path / "mkdocs.yml"))
    config.plugins.on_startup(command="build", dirty=False)
    build(config)

    built = (tmp_path / "site" / "test-van" / "vehicle.html").read_text(encoding="utf-8")
    assert len(PAGES) == built.partition('id="to-read"')[2].partition("<h2")[0].count("<li>")
    assert built == shell.page_html("test-van/vehicle.html")


def _opened(folder: Path, free_pages: dict[str, str]) -> Shell:
    """The small manual with free pages in the folder of its vehicle, and one that belongs to none."""
    van = {f"procedures/test-van/{name}": text for name, text in free_pages.items()}
    manual = load_manual(write_manual(folder, {**van, "procedures/book/elsewhere.md": "# Of no vehicle\n"}), TODAY)
    return open_shell(folder / "mkdocs.yml", all_pages(manual), manual.findings, facts_of(manual), Tags(manual))
