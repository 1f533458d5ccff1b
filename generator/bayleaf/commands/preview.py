"""`bayleaf preview`: shows the manual in the browser, and again whenever a file is saved."""

import gc
import threading
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from ..manual import ManualKeeper
from ..pages.all import all_pages
from ..pages.states import States
from ..pages.tags import Tags
from ..pages.unread_page import unread_pages
from ..site.facts import facts_of
from ..site.preview import Preview
from ..site.preview_server import serve
from ..site.saves import Saves
from ..site.shown import shown
from ._help import WithExamples
from .common import WrongCall, manual_for, say

if TYPE_CHECKING:
    from ..mkdocs_shell import Shell


@click.command(
    "preview",
    cls=WithExamples,
    examples=(
        ("bayleaf preview --open", "in the browser, and again after every save"),
        ("bayleaf preview --stay", "the page in the browser stays where it is"),
        ("bayleaf preview --port 0", "where the usual port is taken"),
    ),
)
@click.option("--manual", "start", type=click.Path(path_type=Path), help="The manual's folder. [default: around here]")
@click.option("--port", type=click.IntRange(0, 65535), default=8765, show_default=True, help="0 takes any free port.")
@click.option("--open", "open_browser", is_flag=True, help="Open the browser.")
@click.option("--stay", is_flag=True, help="Leave the browser on its page when the file of another one is saved.")
def command(start: Path | None, port: int, open_browser: bool, stay: bool) -> int:
    """Show the manual in the browser while it is written.

    It is served on this machine alone (127.0.0.1). After every save the browser shows the page of what was saved, with
    its errors at the place where they are.
    """
    folder = manual_for([start] if start else [])
    with closing(Saves(folder)) as saves:
        maker = _Maker(folder, stay)
        first = maker.make(())
        if isinstance(first, str):
            raise WrongCall(first)
        gc.freeze()  # what was read stays: looking through it for garbage would take longer than a save
        return serve(port, first, saves, maker.make, say, open_browser)


@dataclass
class _Maker:
    """Makes a state of the manual after the other, each from what it can keep of the last one."""

    folder: Path
    stay: bool
    keeper: ManualKeeper = field(init=False)
    shell: "Shell | None" = None
    states: States | None = None
    lock: Any = field(default_factory=threading.Lock)

    def __post_init__(self) -> None:
        self.keeper = ManualKeeper(self.folder)

    def make(self, changed: tuple[str, ...]) -> Preview | str:
        """The manual after these files were saved; a sentence where nothing can be shown."""
        from ..mkdocs_shell import ShellError, open_shell

        manual = self.keeper.manual()
        states = States(manual, self.states)
        pages = (*all_pages(manual, states), *unread_pages(manual))
        facts, tags = facts_of(manual, states), Tags(manual)
        free = {one.removeprefix("procedures/") for one in changed if not one.endswith((".yml", ".yaml"))}
        with self.lock:
            shell, self.shell = self.shell, None
            try:
                if shell is None or "mkdocs.yml" in changed or not shell.renew(pages, free, facts, tags):
                    shell = open_shell(self.folder / "mkdocs.yml", pages, facts=facts, tags=tags)
            except ShellError as error:
                return str(error)
            self.shell, self.states = shell, states
        saved = changed[-1] if changed else None
        place = shown(saved, manual) if saved is not None and not self.stay else None
        return Preview(shell, manual, saved, place, lock=self.lock)
