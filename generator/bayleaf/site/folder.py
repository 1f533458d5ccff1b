"""The folder of a site: built beside the old one, then put in its place as a whole.

A bay that reads the manual while it is rendered sees the old one or the new one, never a mixture; and
a rendering that fails leaves the last good manual where it was. The mark in the folder says that all
of it may be replaced: a folder without it is somebody's own, and is never touched.
"""

import os
import shutil
import time
from collections.abc import Callable
from pathlib import Path

from ..manual_writing import patiently

MARK = ".bayleaf-site"
_MARK_TEXT = "This folder is made by bayleaf and replaced as a whole: keep nothing of your own in it.\n"


class SiteFolderError(Exception):
    """The folder for the site cannot be written; the sentence says why and what to do."""


def check(site: Path) -> None:
    """Refuse a folder that holds something, but no mark."""
    if site.is_dir():
        if any(site.iterdir()) and not (site / MARK).is_file():
            raise SiteFolderError(
                f"{site} holds files that bayleaf did not write, and it would replace the whole folder. "
                "Name another folder, or empty this one yourself."
            )
    elif site.exists() or site.is_symlink():
        raise SiteFolderError(f"{site} is a file, not a folder. Name another place for the site.")


def begin(site: Path) -> Path:
    """An empty folder beside `site`, with the mark in it, to build the new site in."""
    check(site)
    building = _beside(site, "new")
    try:
        _remove(building)
        building.mkdir(parents=True)
        (building / MARK).write_text(_MARK_TEXT, encoding="utf-8", newline="\n")
    except OSError as error:
        raise SiteFolderError(f"{building} cannot be written: {error.strerror or error}.") from error
    return building


def finish(building: Path, site: Path, sleep: Callable[[float], None] = time.sleep) -> None:
    """Put the finished folder `building` in the place of `site`, by two renames.

    If the second rename fails, the first is undone: the last good site stays.
    """
    check(site)
    old = _beside(site, "old")
    _remove(old)
    had_one = site.exists()
    try:
        if had_one:
            _rename(site, old, sleep)
        try:
            _rename(building, site, sleep)
        except OSError:
            if had_one:
                _rename(old, site, sleep)
            raise
    except OSError as error:
        raise SiteFolderError(
            f"{site} could not be replaced ({error.strerror or error}). Close the programs that have files of "
            f"it open; the new site is whole in {building}."
        ) from error
    _remove(old)


def abandon(building: Path) -> None:
    """Throw away a folder that was begun and will not be finished."""
    _remove(building)


def listing(site: Path) -> tuple[str, ...]:
    """All files of a site, relative to it, with `/` on every system, sorted."""
    return tuple(sorted(path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()))


def write_pieces(site: Path, pieces: dict[str, str]) -> None:
    """Write texts into a site, each under its address."""
    made: set[Path] = set()
    for address, text in pieces.items():
        target = site / address
        if target.parent not in made:
            target.parent.mkdir(parents=True, exist_ok=True)
            made.add(target.parent)
        with open(target, "wb") as stream:
            stream.write(text.encode("utf-8"))


def _beside(site: Path, word: str) -> Path:
    return site.with_name(f".{site.name}.bayleaf-{word}")


def _remove(folder: Path) -> None:
    shutil.rmtree(folder, ignore_errors=True)


def _rename(source: Path, target: Path, sleep: Callable[[float], None]) -> None:
    patiently(lambda: os.rename(source, target), sleep)
