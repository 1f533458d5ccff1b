"""`bayleaf tidy`: the files of a manual in the order and spelling of the format."""

from collections.abc import Sequence
from difflib import unified_diff
from pathlib import Path

import click

from ..loading.schema import FileKind
from ..loading.tidying.tidy import LeftAlone, Tidied, tidied
from ..manual_files import bytes_of, find_files
from ..manual_writing import replace_file
from . import _completing
from ._help import WithExamples
from .common import WrongCall, from_here, manual_for, resolved, say


@click.command(
    "tidy",
    cls=WithExamples,
    examples=(
        ("bayleaf tidy", "all files of the manual around the current folder"),
        ("bayleaf tidy larkway-m12/isolate-traction", "one procedure"),
        ("bayleaf tidy --diff", "shows what it would change"),
        ("bayleaf tidy --check", "tells by the exit code; for a CI server"),
    ),
)
@click.argument("paths", nargs=-1, metavar="[PATH]...", shell_complete=_completing.places)
@click.option("--check", is_flag=True, help="Change nothing; list the files that are not tidy.")
@click.option("--diff", is_flag=True, help="Change nothing; show what would be changed.")
def command(paths: tuple[str, ...], check: bool, diff: bool) -> int:
    """Tidy the files of a manual.

    Each PATH is a file, a folder, a vehicle or the id of a procedure; without one, every file is tidied. Keys are put
    in the order of the format, lines are indented by two spaces a level, values get the spelling of the unit table,
    quotes without need go, and the file is saved as UTF-8. Remarks and values stay. A file with a slip that keeps it
    from being read for certain is left alone.

    The exit code is 1 where a file was left alone or, with --check, is not tidy.
    """
    chosen = [resolved(path) for path in paths]
    folder = manual_for(chosen)
    files = _chosen(folder, chosen)
    if not files:
        raise WrongCall(f"{' and '.join(paths) or folder} holds no file that is tidied: vehicles, procedures, records")
    untidy = alone = 0
    for file, kind in files:
        path = Path(from_here(folder)) / file
        found = _tidied(folder, file, kind)
        if isinstance(found, LeftAlone):
            alone += 1
            say(f"{path.as_posix()} is left alone: {found.reason}", err=True)
        elif not found.is_tidy:
            untidy += 1
            _deal_with(found, path, check, diff)
    _say_how_it_stands(len(files), untidy, alone, check or diff)
    return 1 if alone or check and untidy else 0


def _chosen(folder: Path, paths: Sequence[Path]) -> list[tuple[str, FileKind]]:
    files = [(file.path, file.kind) for file in find_files(folder).files if file.kind != "page"]
    wanted = [path.resolve() for path in paths]
    return [file for file in files if not wanted or any((folder / file[0]).is_relative_to(one) for one in wanted)]


def _tidied(folder: Path, file: str, kind: FileKind) -> Tidied | LeftAlone:
    data, unread = bytes_of(folder, file)
    return tidied(file, data, kind) if unread is None else LeftAlone(unread.message)


def _deal_with(found: Tidied, path: Path, check: bool, diff: bool) -> None:
    """Writes one file, or tells about it."""
    name = path.as_posix()
    if diff:
        before, after = found.before.splitlines(), found.after.splitlines()
        if before == after:
            say(f"{name}: only the encoding, the line breaks or the end of the file")
        for line in unified_diff(before, after, name, f"{name}, tidied", lineterm=""):
            say(line)
    elif check:
        say(f"{name} is not tidy")
    else:
        replace_file(path, found.after.encode())
        say(f"{name} tidied")


def _say_how_it_stands(files: int, untidy: int, alone: int, only_told: bool) -> None:
    tidy = files - untidy - alone
    parts = [f"{untidy} not tidy"] if untidy and only_told else [f"{untidy} tidied"] if untidy else []
    parts += [f"{tidy} tidy already" if untidy and not only_told else f"{tidy} tidy"] if tidy else []
    parts += [f"{alone} left alone"] if alone else []
    say(f"{files} file{'s' if files != 1 else ''}: {', '.join(parts)}")
