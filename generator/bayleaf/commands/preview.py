"""`bayleaf preview`: shows the manual in the browser, and again whenever a file is saved."""

from pathlib import Path

import click

from ..manual import ManualKeeper
from ..pages.all import all_pages
from ..pages.tags import Tags
from ..site.preview import Preview, serve, stamp
from ._help import WithExamples
from .common import WrongCall, manual_for, say


@click.command(
    "preview",
    cls=WithExamples,
    examples=(
        ("bayleaf preview --open", "in the browser, and again after every save"),
        ("bayleaf preview --port 0", "where the usual port is taken"),
    ),
)
@click.option("--manual", "start", type=click.Path(path_type=Path), help="The manual's folder. [default: around here]")
@click.option("--port", type=click.IntRange(0, 65535), default=8765, show_default=True, help="0 takes any free port.")
@click.option("--open", "open_browser", is_flag=True, help="Open the browser.")
def command(start: Path | None, port: int, open_browser: bool) -> int:
    """Show the manual in the browser while it is written.

    It is served on this machine alone (127.0.0.1), and made again after every save.
    """
    from ..mkdocs_shell import ShellError, open_shell

    folder = manual_for([start] if start else [])

    keeper = ManualKeeper(folder)

    def make() -> Preview | str:
        manual = keeper.manual()
        try:
            shell = open_shell(folder / "mkdocs.yml", all_pages(manual), manual.findings, tags=Tags(manual))
            return Preview(shell, manual.findings)
        except ShellError as error:
            return str(error)

    seen = stamp(folder)
    first = make()
    if isinstance(first, str):
        raise WrongCall(first)
    return serve(folder, port, first, seen, make, say, open_browser)
