"""All files for editors, and putting them into a folder."""

import json
from collections.abc import Mapping
from pathlib import Path

from ..loading.schema import FileKind
from ..manual import Manual
from .for_editor import Node, for_editor
from .names import names_of, workshop_names
from .settings import schema_of

_ONCE: tuple[FileKind, ...] = ("workshop", "vehicle", "record", "procedure")


def editor_files(manual: Manual) -> dict[str, str]:
    """The schemas by the names of their files: one a kind of file, and one for the procedures of each vehicle.

    `procedure.schema.json` knows the workshop alone.
    """
    found: dict[str, Node] = {
        f"{kind}.schema.json": for_editor(kind, workshop_names(manual.workshop)) for kind in _ONCE
    }
    for folder, vehicle in sorted(manual.vehicles.items()):
        found[schema_of(folder)] = for_editor("procedure", names_of(vehicle, manual))
    return {name: json.dumps(schema, ensure_ascii=False, indent=1) + "\n" for name, schema in found.items()}


def stale(files: Mapping[str, str], folder: Path) -> list[str]:
    """The names of the files that are missing in a folder or say something else."""
    return [name for name, text in files.items() if _text(folder / name) != text]


def write(files: Mapping[str, str], folder: Path) -> list[str]:
    """Writes what is stale, and nothing else; gives the names of what was written."""
    names = stale(files, folder)
    for name in names:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(files[name], encoding="utf-8", newline="\n")
    return names


def _text(path: Path) -> str | None:
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return None
