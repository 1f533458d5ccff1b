"""`bayleaf start`: a new manual of one's own."""

from datetime import date
from pathlib import Path

import click

from ..manual import manual_above
from ..starting import carry_out, plan_start
from ._help import WithExamples
from .common import WrongCall, say, the_day

#: So many files in the way are named; more would bury the sentence.
_NAMED = 5


@click.command(
    "start",
    cls=WithExamples,
    examples=(("bayleaf start my-manual", "a manual in a new folder"),),
)
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--today", metavar="DATE", help="The day that the files are dated with (year-month-day).")
def command(folder: Path, today: str | None) -> int:
    """Start a new manual in FOLDER.

    It holds one small invented vehicle with three procedures, a workshop file, settings for an editor and for a CI
    server. The folder may exist; nothing in it is overwritten.
    """
    if folder.exists() and not folder.is_dir():
        raise WrongCall(f"{folder} is a file; name a folder")
    planned = plan_start(folder, the_day(today) or date.today())
    if planned.in_the_way:
        raise WrongCall(f"nothing was written, because {_list(planned.in_the_way)} in {folder}. {_way_out(folder)}")
    around = manual_above(_nearest(folder))
    if around is not None:
        raise WrongCall(
            f"nothing was written, because {folder} lies inside the manual {around}, and a manual holds no other. "
            "Name a folder beside it."
        )
    carry_out(planned, folder)
    say(f"A new manual is in {folder}: {len(planned.files)} files. What to do next:\n")
    for line, why in (
        (f"cd {_quoted(folder)}", "go into it"),
        ("bayleaf check", "see that nothing is wrong"),
        ("bayleaf preview", "look at it in the browser, while you change it"),
        ("bayleaf draft", "write the first procedure of your own, by answering questions"),
        ("bayleaf schema", "let your editor offer names and explain keys"),
    ):
        say(f"  {line:<24}  {why}")
    say("\nThe first page is procedures/index.md. The invented vehicle is there to be looked at and changed.")
    return 0


def _list(names: tuple[str, ...]) -> str:
    shown = ", ".join(names[:_NAMED])
    more = len(names) - _NAMED
    if more > 0:
        shown += f" and {more} more"
    return f"{shown} {'is' if len(names) == 1 else 'are'} there already"


def _way_out(folder: Path) -> str:
    if (folder / "mkdocs.yml").is_file() and (folder / "procedures").is_dir():
        return "It is a manual already: go into it and run `bayleaf check`."
    return "Take that away, or name another folder."


def _nearest(folder: Path) -> Path:
    """The folder itself or the nearest one above it that exists."""
    full = folder.resolve()
    return next((one for one in (full, *full.parents) if one.is_dir()), full)


def _quoted(folder: Path) -> str:
    """The folder as it is typed, on Windows too: in double quotes where a shell would part it."""
    name = str(folder)
    return name if all(sign.isalnum() or sign in "-_./\\:~" for sign in name) else f'"{name}"'
