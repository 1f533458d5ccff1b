"""What lies in the folders of the manual. Each folder is read once in a run, not once for each reference to it."""

import os
from collections.abc import Mapping
from typing import Any

from ..case import Case
from ._memo import of_last


def entries(folder: str, case: Case) -> Mapping[str, bool]:
    """The names in a folder of the manual, written with `/`, and whether each is a file. Empty if there is none.

    The name of the folder must be written letter by letter, also on a system that would not mind.
    """
    listed = _listings(case.facts)
    found = listed.get(folder)
    if found is None:
        above, _, name = folder.rpartition("/")
        exists = not above or entries(above, case).get(name) is False
        found = listed[folder] = _read(case.folder / folder) if exists else {}
    return found


@of_last
def _listings(run: Any) -> dict[str, Mapping[str, bool]]:
    """The folders read so far. All files of a run share the facts, so these tell one run from the next."""
    return {}


def _read(folder: os.PathLike[str]) -> Mapping[str, bool]:
    try:
        with os.scandir(folder) as found:
            return {entry.name: entry.is_file() for entry in found}
    except OSError:
        return {}
