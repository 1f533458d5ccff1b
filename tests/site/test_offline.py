"""What is written for reading without a network: derived from the bytes of the site alone."""

import hashlib
import json
from datetime import date
from pathlib import Path

import pytest
from bayleaf.manual import load_manual
from bayleaf.mkdocs_shell import open_shell
from bayleaf.site import folder, offline
from bayleaf.site.preview import Preview
from fake_manual import facts, mkdocs_build, pages, write_manual

SITE = {"index.html": "<h1>Manual</h1>", "a b/é.html": "x", "assets/worker.js": "", "sitemap.xml": "<day/>"}


def _site(path: Path, files: dict[str, str]) -> Path:
    path.mkdir()
    folder.write_pieces(path, {folder.MARK: "", **files})
    offline.write(path, "Bay & Co", date(2026, 10, 2))
    return path


def _listed(site: Path) -> dict[str, str]:
    first = (site / "sw.js").read_text(encoding="utf-8").splitlines()[0]
    return json.loads(first.removeprefix("self.bayleafFiles = ").removesuffix(";"))


def _version(site: Path) -> dict[str, object]:
    text = (site / "version.js").read_text(encoding="utf-8")
    return json.loads(text.removeprefix("window.bayleafVersion = ").removesuffix(";\n"))


def test_the_worker_knows_every_file_that_a_reader_may_open_with_its_hash(tmp_path):
    """Not the mark of the folder, not what search engines read, not itself."""
    site = _site(tmp_path / "site", SITE)
    expected = ["a b/é.html", "assets/worker.js", "index.html", "manifest.json", "version.js"]

    assert expected == list(_listed(site))
    for name, found in _listed(site).items():
        assert hashlib.sha256((site / name).read_bytes()).hexdigest()[:16] == found


def test_the_version_says_the_newest_revision_and_a_hash_of_the_content(tmp_path):
    """No time of building is in it."""
    version = _version(_site(tmp_path / "site", SITE))

    assert ("2026-10-02", 3) == (version["newest"], version["files"])
    assert 8 == len(str(version["hash"]))


#: What is changed, and whether it is another version.
CHANGES = {
    "nothing": ({}, False),
    "the day in the sitemap": ({"sitemap.xml": "<other day/>"}, False),
    "a letter of a page": ({"index.html": "<h1>manual</h1>"}, True),
    "a script": ({"assets/worker.js": ";"}, True),
    "a page more": ({"new.html": ""}, True),
}


@pytest.mark.parametrize(("change", "differs"), CHANGES.values(), ids=CHANGES)
def test_another_content_is_another_version(tmp_path, change, differs):
    """And the same content the same one, to the byte of the worker."""
    first, second = _site(tmp_path / "one", SITE), _site(tmp_path / "two", {**SITE, **change})

    assert differs == (_version(first)["hash"] != _version(second)["hash"])
    assert differs == ((first / "sw.js").read_bytes() != (second / "sw.js").read_bytes())


def test_a_renamed_page_is_another_version():
    """The names count, not only the bytes."""
    assert offline.content_hash({"a.html": "1"}) != offline.content_hash({"b.html": "1"})


def test_the_manifest_names_icons_that_are_there(tmp_path):
    """Its addresses are relative, so that it fits any folder of a server."""
    open_shell(write_manual(tmp_path), pages(), facts=facts()).write(tmp_path / "out")
    manifest = json.loads((tmp_path / "out/manifest.json").read_text(encoding="utf-8"))

    assert "Bay & Co" == manifest["name"]
    assert [] == [icon["src"] for icon in manifest["icons"] if not (tmp_path / "out" / icon["src"]).is_file()]
    assert not any(manifest[key].startswith("/") for key in ("start_url", "scope"))


def test_preview_and_serve_take_a_worker_away_that_an_older_site_left(monkeypatch, tmp_path):
    """It would show the old pages at the same address for ever."""
    (tmp_path / "manual").mkdir()
    config_file = write_manual(tmp_path / "manual")
    preview = Preview(open_shell(config_file, pages()), load_manual(config_file.parent))
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    mkdocs_build(monkeypatch, config_file, pages(), site_dir=str(tmp_path / "mkdocs_served"))

    answered = preview.answer("sw.js")
    assert answered is not None and offline.RETIRED.encode() == answered[0]
    assert offline.RETIRED == (tmp_path / "mkdocs_served/sw.js").read_text(encoding="utf-8")
    assert not (tmp_path / "mkdocs_served/version.js").exists()
