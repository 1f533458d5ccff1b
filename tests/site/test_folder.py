"""The folder of a site is replaced as a whole, and only if it is ours."""

import os
from pathlib import Path

import pytest
from bayleaf.site import folder


def _site(path: Path, text: str) -> Path:
    building = folder.begin(path)
    (building / "index.html").write_text(text, encoding="utf-8")
    folder.finish(building, path)
    return path


def test_a_new_site_takes_the_place_of_the_old_one(tmp_path):
    """Nothing of the old site is left, and nothing lies beside the new one."""
    site = _site(tmp_path / "site", "old")
    (site / "gone.html").write_text("", encoding="utf-8")

    _site(site, "new")

    assert folder.listing(site) == (".bayleaf-site", "index.html")
    assert (site / "index.html").read_text(encoding="utf-8") == "new"
    assert [site] == list(tmp_path.iterdir())


def test_until_it_is_finished_the_old_site_stays(tmp_path):
    """While the new site is built, and if it is abandoned, the last good one is there."""
    site = _site(tmp_path / "site", "old")
    building = folder.begin(site)
    (building / "index.html").write_text("half", encoding="utf-8")

    assert (site / "index.html").read_text(encoding="utf-8") == "old"

    folder.abandon(building)
    assert [site] == list(tmp_path.iterdir())


def test_what_a_broken_run_left_behind_is_cleared(tmp_path):
    """The next run begins with an empty folder."""
    left = folder.begin(tmp_path / "site")
    (left / "half.html").write_text("", encoding="utf-8")

    assert folder.listing(folder.begin(tmp_path / "site")) == (".bayleaf-site",)


@pytest.mark.parametrize("step", [folder.check, folder.begin])
def test_a_folder_of_somebody_else_is_refused(tmp_path, step):
    """A folder with files and without the mark is not touched."""
    own = tmp_path / "documents"
    own.mkdir()
    (own / "letter.txt").write_text("dear", encoding="utf-8")

    with pytest.raises(folder.SiteFolderError, match="did not write"):
        step(own)

    assert folder.listing(own) == ("letter.txt",)


@pytest.mark.parametrize("make", [lambda path: None, lambda path: path.mkdir()], ids=["none", "empty"])
def test_no_folder_and_an_empty_one_are_taken(tmp_path, make):
    """There is nothing in them to lose."""
    make(tmp_path / "site")

    assert folder.listing(_site(tmp_path / "site", "new")) == (".bayleaf-site", "index.html")


def test_a_file_is_refused(tmp_path):
    """The place of the site may not be a file."""
    (tmp_path / "site").write_text("", encoding="utf-8")

    with pytest.raises(folder.SiteFolderError, match="is a file"):
        folder.begin(tmp_path / "site")


def test_a_file_held_open_by_another_program_is_waited_for(tmp_path, monkeypatch):
    """Windows refuses a rename for as long as a scanner reads a file of the folder."""
    building = folder.begin(tmp_path / "site")
    refusals = iter([PermissionError(13, "in use"), PermissionError(13, "in use")])
    rename, waited = os.rename, []

    def stubborn(source, target):
        if (error := next(refusals, None)) is not None:
            raise error
        rename(source, target)

    monkeypatch.setattr(folder.os, "rename", stubborn)
    folder.finish(building, tmp_path / "site", waited.append)

    assert waited == [0.05, 0.1]
    assert (tmp_path / "site" / folder.MARK).is_file()


def test_if_the_new_site_cannot_be_put_there_the_old_one_comes_back(tmp_path, monkeypatch):
    """The second rename fails for good: the first is undone, and the sentence says where the new site is."""
    site = _site(tmp_path / "site", "old")
    building = folder.begin(site)
    rename = os.rename

    def stubborn(source, target):
        if Path(source) == building:
            raise PermissionError(13, "in use")
        rename(source, target)

    monkeypatch.setattr(folder.os, "rename", stubborn)
    with pytest.raises(folder.SiteFolderError, match="bayleaf-new"):
        folder.finish(building, site, lambda seconds: None)

    assert (site / "index.html").read_text(encoding="utf-8") == "old"
