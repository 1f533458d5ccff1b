"""`bayleaf schema`: writes what an editor needs to offer names and to explain keys."""

import json
from pathlib import Path

import click

from ..editors.files import editor_files, stale, write
from ..editors.settings import FOLDER, vscode_settings
from ._help import WithExamples
from .common import WrongCall, load, manual_for, say, write_utf8


@click.command(
    "schema",
    cls=WithExamples,
    examples=(
        ("bayleaf schema", "writes them into .bayleaf/"),
        ("bayleaf schema --check", "tells whether a profile has changed since"),
        ("bayleaf schema --settings", "what belongs into .vscode/settings.json, with a line for each vehicle"),
    ),
)
@click.option("--manual", "start", type=click.Path(path_type=Path), help="The manual's folder. [default: around here]")
@click.option("--output", type=click.Path(path_type=Path), help=f"Where they go. [default: {FOLDER}/ in the manual]")
@click.option("--check", is_flag=True, help="Write nothing; say what is not up to date, with exit code 1.")
@click.option("--settings", is_flag=True, help="Write nothing; print the settings that tell an editor of them.")
def command(start: Path | None, output: Path | None, check: bool, settings: bool) -> int:
    """Write schemas for editors.

    With them an editor explains every key and offers the names of each vehicle while a file is being typed. Files are
    only written where they change. The page "Editors" of the book tells how an editor finds them.
    """
    folder = manual_for([start] if start else [])
    manual = load(folder, None)
    target = output or folder / FOLDER
    if target.exists() and not target.is_dir():
        raise WrongCall(f"{target} is a file; name a folder")
    if settings:
        if check or not target.resolve().is_relative_to(folder):
            raise WrongCall("--settings goes with schemas that lie in the manual, and without --check")
        below = target.resolve().relative_to(folder).as_posix()
        write_utf8(json.dumps(vscode_settings(manual.vehicles, below), indent=2, ensure_ascii=False) + "\n")
        return 0
    files = editor_files(manual)
    if check:
        names = stale(files, target)
        for name in names:
            say(f"{target / name} is not up to date")
        say("Run `bayleaf schema` to write them anew." if names else f"All {len(files)} schemas are up to date.")
        return 1 if names else 0
    written = write(files, target)
    say(f"{len(written)} of {len(files)} schemas written in {target}; the others had not changed.")
    return 0
