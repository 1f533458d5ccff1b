"""A site as one zip file, to be carried on a stick: the same site gives the same bytes."""

import os
import zipfile
from pathlib import Path

from . import folder

#: The first day that a zip file can name: the day of making it is nobody's business.
_NO_DAY = (1980, 1, 1, 0, 0, 0)
_FILE_FOR_ALL = 0o100644


def write_zip(site: Path, target: Path) -> int:
    """Write all files of `site` into `target`; returns how many.

    It is written beside the old one and renamed, so that a broken run leaves the last good one.
    """
    target.parent.mkdir(parents=True, exist_ok=True)
    beside = target.with_name(f".{target.name}.new")
    names = folder.listing(site)
    with zipfile.ZipFile(beside, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as made:
        for name in names:
            entry = zipfile.ZipInfo(name, _NO_DAY)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.create_system = 3  # or the bytes depend on the system
            entry.external_attr = _FILE_FOR_ALL << 16
            made.writestr(entry, (site / name).read_bytes())
    os.replace(beside, target)
    return len(names)
