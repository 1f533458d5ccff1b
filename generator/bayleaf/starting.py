"""A new manual of one's own: the files of the starter, copied into a folder in which none of them is yet.

The starter is a manual that lies in the package. Names that a system or a tool would take for its own begin with
`dot-` there, so that no list of ignored files takes effect within the sources.
"""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from . import folders
from .editors.settings import vscode_settings

#: The settings of an editor, which are filled up with the schemas that hold for the vehicles of the starter.
_SETTINGS = ".vscode/settings.json"
#: The day in the files of the starter that stands for the day of the start: dates of tests and calibrations age.
_STARTED = b"2026-01-01"


@dataclass(frozen=True, slots=True)
class Start:
    """What a start would write, by path relative to the folder; `in_the_way` are paths that are there already."""

    files: Mapping[str, bytes]
    in_the_way: tuple[str, ...]


def plan_start(folder: Path, today: date) -> Start:
    """Looks at everything and writes nothing. Nothing is overwritten, and no file is put where a folder stands."""
    files = dict(_starter_files(today))
    return Start(files, tuple(dict.fromkeys(filter(None, (_in_the_way(folder, name) for name in files)))))


def carry_out(start: Start, folder: Path) -> None:
    """Writes the files. One that has come into being since it was looked for is not overwritten: `FileExistsError`."""
    for name, data in start.files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("xb") as file:
            file.write(data)


def _starter_files(today: date) -> Iterator[tuple[str, bytes]]:
    root = folders.starter()
    for path in sorted(root.rglob("*")):
        if path.is_file():
            parts = path.relative_to(root).parts
            name = "/".join(f".{part.removeprefix('dot-')}" if part.startswith("dot-") else part for part in parts)
            # A checkout on Windows may have changed the line ends; a manual has the same bytes everywhere.
            data = path.read_bytes().replace(b"\r\n", b"\n").replace(_STARTED, today.isoformat().encode())
            yield name, _with_schemas(data, root) if name == _SETTINGS else data


def _with_schemas(settings: bytes, root: Path) -> bytes:
    vehicles = (path.parent.name for path in root.glob("procedures/*/vehicle.yml"))
    whole = {**json.loads(settings), **vscode_settings(vehicles)}
    return (json.dumps(whole, indent=2) + "\n").encode()


def _in_the_way(folder: Path, name: str) -> str | None:
    """The path that forbids to write a file: itself, or a file where one of its folders should be."""
    path = folder / name
    if path.exists() or path.is_symlink():
        return name
    for above in path.relative_to(folder).parents:
        if (folder / above).exists() and not (folder / above).is_dir():
            return "" if str(above) == "." else above.as_posix()
    return None
