"""Format 1 is stable: what was written in it once is read for good."""

from datetime import date
from pathlib import Path

import pytest
from bayleaf.manual import Manual, load_manual
from frozen_demo import ARCHIVE, FROZEN, members, packed, unpacked

#: Findings that the frozen files have because the photos are not frozen with them.
_OF_PHOTOS = {"photo-not-found", "photo-not-used"}


@pytest.fixture(scope="module")
def frozen(tmp_path_factory: pytest.TempPathFactory) -> Manual:
    """The frozen demo, checked by the program of today on the day on which it was frozen."""
    folder = tmp_path_factory.mktemp("format-1")
    for name, data in unpacked(ARCHIVE.read_bytes()).items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(data)
    return load_manual(folder, today=date(*FROZEN))


def test_every_frozen_file_is_read_without_an_error(frozen: Manual) -> None:
    """A rule that is new may warn; it may not refuse what was right in format 1."""
    errors = [
        (one.place.file, one.place.line, one.rule, one.message)
        for one in frozen.findings
        if one.severity == "error" and one.rule not in _OF_PHOTOS
    ]

    assert [] == errors


def test_it_is_the_whole_demo_that_was_frozen(frozen: Manual) -> None:
    """Three vehicles with their procedures, the workshop and the records of jobs."""
    assert len(frozen.vehicles) == 3
    assert len(frozen.procedures) >= 35
    assert len(frozen.records) >= 20
    assert frozen.workshop is not None


def test_the_archive_is_the_same_for_the_same_files(tmp_path: Path) -> None:
    """Writing it anew changes nothing where no file has changed, so that a change of it is seen for what it is."""
    files = members()

    assert unpacked(packed(files)) == files
    assert packed(files) == packed(dict(reversed(files.items())))
