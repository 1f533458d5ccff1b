"""What the commands share: finding the manual, progress, printing."""

import codecs
import io
import os
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import TextIO

import click

from .. import __version__
from ..diagnostics.finding import Finding
from ..diagnostics.report_github import report_github
from ..diagnostics.report_json import report_json
from ..diagnostics.report_paths import below
from ..diagnostics.report_sarif import report_sarif
from ..diagnostics.report_text import Layout, can_show, report_text, stand_in
from ..manual import Manual, load_manual, manual_above
from ..manual_files import File
from ..rules.rule import all_rules

FORMATS = ("text", "json", "github", "sarif")

#: A bar is worth its lines only where there is something to wait for.
_BAR_FROM = 200


#: How a stream prints what its console cannot show: by the signs that stand for it, never by failing.
_FORGIVING = "bayleaf-stand-in"


def _stand_ins(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return "".join(map(stand_in, error.object[error.start : error.end])), error.end


codecs.register_error(_FORGIVING, _stand_ins)


def make_streams_forgiving() -> None:
    """Lets every text be printed, on consoles too that lack its signs, as those of Windows do when piped."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper) and stream.errors != _FORGIVING:
            stream.reconfigure(errors=_FORGIVING)


def is_plain(stream: TextIO) -> bool:
    """Whether words alone may be written: no colour, no bar, nothing drawn.

    So it is in a file and a pipe, where the terminal can no more (`TERM=dumb`), and where somebody asks for it by
    `NO_COLOR` (https://no-color.org: set, and not empty).
    """
    return not stream.isatty() or bool(os.environ.get("NO_COLOR")) or os.environ.get("TERM") == "dumb"


def say(text: str, err: bool = False, nl: bool = True) -> None:
    """Prints on standard output or standard error.

    The stream is named, because click takes another one in the place of one that is ASCII, and fills it with UTF-8.
    """
    click.echo(text, file=sys.stderr if err else sys.stdout, nl=nl)


class WrongCall(Exception):
    """The call cannot be carried out: a wrong path, no manual, an unknown rule. One sentence."""


def the_day(text: str | None) -> date | None:
    """The day of `--today`, or None for the system's."""
    if text is None:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise WrongCall(f"--today takes year-month-day, such as 2026-09-30, not {text}") from None


def manual_for(paths: Sequence[Path]) -> Path:
    """The folder of the manual that these paths lie in, or that the current folder lies in."""
    for path in paths:
        if not path.exists():
            raise WrongCall(f"there is no {path}")
    start = paths[0] if paths else Path.cwd()
    folder = manual_above(start if start.is_dir() else start.parent)
    if folder is None:
        raise WrongCall(
            f"{start.resolve()} is in no manual. A manual is a folder with mkdocs.yml and procedures/; "
            "go into it, or name a path inside it."
        )
    for path in paths[1:]:
        if manual_above(path if path.is_dir() else path.parent) != folder:
            raise WrongCall(f"{path} is not in the same manual as {start}")
    return folder


def resolved(path_or_id: str) -> Path:
    """A path as given, or that of the procedure or the vehicle with this id in the manual around the current folder."""
    path = Path(path_or_id)
    if path.exists():
        return path
    folder = manual_above(Path.cwd())
    if folder is not None:
        by_id = folder / "procedures" / f"{path_or_id}.yml"
        if by_id.is_file():
            return by_id
        vehicle = folder / "procedures" / path_or_id
        if (vehicle / "vehicle.yml").is_file():
            return vehicle
    raise WrongCall(f"there is no {path_or_id}, neither as a path nor as the id of a procedure or a vehicle")


def within(folder: Path, path: Path) -> str:
    """A path as the manual names its files; the manual itself is empty.

    Windows and macOS find a file in whatever capitals it is typed: then it has those that it is saved with.
    """
    full = path.resolve() if path.is_dir() else _as_it_is_saved(path)
    inside = full.relative_to(folder).as_posix()
    return "" if inside == "." else inside


def _as_it_is_saved(path: Path) -> Path:
    above = path.parent.resolve()  # of a link to a file, the link is meant
    names = os.listdir(above)
    alike = (name for name in names if name.casefold() == path.name.casefold())
    return above / (path.name if path.name in names else next(alike, path.name))


@contextmanager
def progress(label: str, quiet: bool = False) -> Iterator[Callable[[int, int], None]]:
    """A bar on the terminal for long work, on standard error; nothing when that is a file."""
    shown = not quiet and not is_plain(sys.stderr)
    bar = None

    def step(done: int, total: int) -> None:
        nonlocal bar
        if not shown or total < _BAR_FROM:
            return
        if bar is None:
            bar = click.progressbar(length=total, label=label, file=sys.stderr)
            bar.__enter__()
        bar.update(done - bar.pos)

    try:
        yield step
    finally:
        if bar is not None:
            bar.__exit__(None, None, None)


def load(folder: Path, today: date | None, quiet: bool = False, drafts: Mapping[File, bytes] | None = None) -> Manual:
    """The manual, with a bar while it is read. `drafts` are judged as if they lay in it."""
    with progress("Checking", quiet) as step:
        return load_manual(folder, today, step, drafts)


def report(findings: Sequence[Finding], folder: Path, text: Callable[[str], str | None], form: str, files: int) -> None:
    """Prints findings on standard output in the format asked for; `text` gives what stands in a file of the folder."""
    path = below(from_here(folder))
    if form == "json":
        write_utf8(report_json(findings, path))
    elif form == "github":
        write_utf8(report_github(findings, path))
    elif form == "sarif":
        write_utf8(report_sarif(findings, __version__, path, {rule.name: rule.title for rule in all_rules()}))
    else:
        out = sys.stdout
        width = min(100, max(60, click_width())) if out.isatty() else 100
        plain = is_plain(out)
        layout = Layout(not plain, width, path, can_show(out.encoding), plain)
        say(report_text(findings, text, files, layout), nl=False)


def click_width() -> int:
    """The width of the terminal."""
    try:
        return os.get_terminal_size(sys.stdout.fileno()).columns
    except (OSError, ValueError):
        return 100


def from_here(folder: Path) -> str:
    """The folder as it is named from the current one."""
    try:
        return Path(os.path.relpath(folder, Path.cwd())).as_posix()
    except ValueError:  # another drive, on Windows
        return folder.as_posix()


def write_utf8(text: str) -> None:
    """Writes machine-readable text as UTF-8, whatever the console's own encoding is."""
    binary = getattr(sys.stdout, "buffer", None)
    if binary is None:
        sys.stdout.write(text)
    else:
        sys.stdout.flush()
        binary.write(text.encode("utf-8"))
        binary.flush()
